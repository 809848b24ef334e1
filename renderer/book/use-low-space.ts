/** Warns before the browser's storage is full. */
import { useEffect, useState } from 'react';

/** Space for several thousand photos, or years of records. */
const LITTLE_BYTES = 300_000_000;
const AGAIN_MS = 10 * 60_000;

/** Free bytes when they are few; null otherwise, or where the browser does not report them. */
export function useLowSpace(): number | null {
  const [freeBytes, setFreeBytes] = useState<number | null>(null);
  useEffect(() => {
    if (!('storage' in navigator)) return undefined;
    const look = (): void =>
      void navigator.storage.estimate().then(({ usage, quota }) => {
        const room = usage === undefined || quota === undefined ? null : Math.max(0, quota - usage);
        setFreeBytes(room !== null && room < LITTLE_BYTES ? room : null);
      });
    look();
    const timer = setInterval(look, AGAIN_MS);
    return () => clearInterval(timer);
  }, []);
  return freeBytes;
}
