import { useEffect } from 'react';
import { askDesk } from '../../desk/desk-client.ts';

/** Keeps the computer and screen awake during a pour. Requested again whenever the window becomes visible. */
export function useAwake(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let isUnmounted = false;
    const ask = () => {
      if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
      // A computer low on battery refuses; the pour continues.
      navigator.wakeLock.request('screen').then(
        (got) => {
          if (isUnmounted) void got.release();
          else lock = got;
        },
        () => undefined,
      );
    };
    void askDesk('power.stay-awake', { on: true });
    ask();
    document.addEventListener('visibilitychange', ask);
    return () => {
      isUnmounted = true;
      document.removeEventListener('visibilitychange', ask);
      void lock?.release();
      void askDesk('power.stay-awake', { on: false });
    };
  }, []);
}
