import { useCallback, useEffect, useRef } from 'react';
import { useLocation } from 'wouter';
import { SearchPanel, type SearchResult } from '../parts/SearchPanel.tsx';

/** Loaded with the first search. The field is there at once, and what is typed meanwhile is kept. */
const openSearches = async () => {
  const [{ openRecordSearch }, { openPlaceSearch }] = await Promise.all([import('../book/search.ts'), import('./search-places.ts')]);
  return { records: await openRecordSearch(), places: openPlaceSearch() };
};

interface SearchProps {
  readonly onClose: () => void;
  /** Commands without an address, by the name after `command:`. */
  readonly commands: Readonly<Record<string, () => void>>;
}

export function Search({ onClose, commands }: SearchProps) {
  const [path, go] = useLocation();
  const opened = useRef<ReturnType<typeof openSearches> | null>(null);
  useEffect(() => {
    opened.current ??= openSearches();
  }, []);
  const find = useCallback(
    async (query: string): Promise<readonly SearchResult[]> => {
      opened.current ??= openSearches();
      const { records, places } = await opened.current.catch((error: unknown) => {
        // The next letter loads it again.
        opened.current = null;
        throw error;
      });
      return [...places(query, path), ...(await records(query))];
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
