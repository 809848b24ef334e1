import { useState } from 'react';

/** Whether work that was started here is running, and a way to start it; while it runs, a second press starts nothing. */
export function useBusy(): readonly [boolean, (work: () => Promise<unknown>) => void] {
  const [busy, setBusy] = useState(false);
  const run = (work: () => Promise<unknown>): void => {
    if (busy) return;
    setBusy(true);
    void work().finally(() => setBusy(false));
  };
  return [busy, run];
}
