import { useEffect, useLayoutEffect, useRef, useState } from 'react';

/** Saves on Enter, after the value typed last has arrived. */
export function useEnter(save: () => void): () => void {
  const latest = useRef(save);
  useLayoutEffect(() => {
    latest.current = save;
  });
  const [entered, setEntered] = useState(0);
  useEffect(() => {
    if (entered > 0) latest.current();
  }, [entered]);
  return () => setEntered((count) => count + 1);
}
