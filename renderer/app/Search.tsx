import { useCallback, useRef } from 'react';
import { useLocation } from 'wouter';
import { openRecordSearch } from '../book/search.ts';
import { SearchPanel, type SearchResult } from '../parts/SearchPanel.tsx';

/** Search over records, screens and commands. */
export function Search({ onClose }: { readonly onClose: () => void }) {
  const [, go] = useLocation();
  const finder = useRef<ReturnType<typeof openRecordSearch> | null>(null);
  const find = useCallback(async (query: string): Promise<readonly SearchResult[]> => {
    finder.current ??= openRecordSearch();
    return (await finder.current)(query);
  }, []);
  return (
    <SearchPanel
      open
      onClose={onClose}
      find={find}
      onPick={(result) => {
        onClose();
        go(result.href);
      }}
    />
  );
}
