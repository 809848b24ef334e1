import { useCallback, useRef } from 'react';
import { useLocation } from 'wouter';
import { openFinder } from '../book/find.ts';
import { FindPanel, type FindResult } from '../parts/FindPanel.tsx';

/** Find over whatever sheet is shown: people, houses, rooms, jobs, materials. */
export function Find({ onClose }: { readonly onClose: () => void }) {
  const [, go] = useLocation();
  const finder = useRef<ReturnType<typeof openFinder> | null>(null);
  const find = useCallback(async (query: string): Promise<readonly FindResult[]> => {
    finder.current ??= openFinder();
    return (await finder.current)(query);
  }, []);
  return (
    <FindPanel
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
