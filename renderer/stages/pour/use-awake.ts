import { useEffect } from 'react';
import { askDesk } from '../../parts/desk-client.ts';

/** Keeps machine and screen awake while a pour runs; asked again whenever the window comes back in sight. */
export function useAwake(on: boolean): void {
  useEffect(() => {
    if (!on) return undefined;
    let lock: WakeLockSentinel | null = null;
    let gone = false;
    const ask = () => {
      if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
      // A machine on its last battery refuses; the pour goes on all the same.
      navigator.wakeLock.request('screen').then(
        (got) => {
          if (gone) void got.release();
          else lock = got;
        },
        () => undefined,
      );
    };
    void askDesk('power.stay-awake', { on: true });
    ask();
    document.addEventListener('visibilitychange', ask);
    return () => {
      gone = true;
      document.removeEventListener('visibilitychange', ask);
      void lock?.release();
      void askDesk('power.stay-awake', { on: false });
    };
  }, [on]);
}
