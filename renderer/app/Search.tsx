import { useCallback, useRef } from 'react';
import { useLocation } from 'wouter';
import { openRecordSearch } from '../book/search.ts';
import { SearchPanel, type SearchResult } from '../parts/SearchPanel.tsx';
import { openPlaceSearch } from './search-places.ts';

interface SearchProps {
  readonly onClose: () => void;
  /** Commands without an address, by the name after `command:`. */
  readonly commands: Readonly<Record<string, () => void>>;
}

export function Search({ onClose, commands }: SearchProps) {
  const [path, go] = useLocation();
  const records = useRef<ReturnType<typeof openRecordSearch> | null>(null);
  const places = useRef<ReturnType<typeof openPlaceSearch> | null>(null);
  const find = useCallback(
    async (query: string): Promise<readonly SearchResult[]> => {
      records.current ??= openRecordSearch();
      places.current ??= openPlaceSearch();
      return [...places.current(query, path), ...(await (await records.current)(query))];
    },
    [path],
  );
  return (
    <SearchPanel
      open
      onClose={onClose}
      find={find}
      onPick={({ href }) => {
        onClose();
        if (href.startsWith('command:')) commands[href.slice('command:'.length)]?.();
        else go(href);
      }}
    />
  );
}
