import { useEffect, useState } from 'react';
import { nowInstant } from '../../book/now-instant.ts';

/**
 * The current instant for a clock that shows seconds.
 * @param everyMs time between updates, ms
 */
export function useTick(everyMs: number): string {
  const [now, setNow] = useState(nowInstant);
  useEffect(() => {
    const timer = setInterval(() => setNow(nowInstant()), everyMs);
    return () => clearInterval(timer);
  }, [everyMs]);
  return now;
}
