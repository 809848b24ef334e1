/** A job with everything calculated from it, live. Figures are calculated again only when a record they depend on changes. */
import { useEffect, useMemo, useState } from 'react';
import type { JobReading } from '../../shared-core/standing/read-job.ts';
import { nowInstant } from './command.ts';
import { useJobReadings } from './use-job-readings.ts';
import { useWholeJob } from './use-whole-job.ts';

const MINUTE_MS = 60_000;

/**
 * The current instant, updated every minute. A screen that shows seconds uses `useTick`.
 * @param about records read at that instant. When they change, the instant is read again, so that a new entry is not in the future.
 */
export function useNow(about: object | null | undefined = null): string {
  const [moment, setMoment] = useState(() => ({ now: nowInstant(), about }));
  if (moment.about !== about) setMoment({ now: nowInstant(), about });
  useEffect(() => {
    const timer = setInterval(() => setMoment((last) => ({ ...last, now: nowInstant() })), MINUTE_MS);
    return () => clearInterval(timer);
  }, []);
  return moment.now;
}

/** Null when the job does not exist, undefined while loading. */
export function useJobReading(jobId: string): JobReading | null | undefined {
  const whole = useWholeJob(jobId);
  const now = useNow(whole);
  const wholes = useMemo(() => (whole === null || whole === undefined ? undefined : [whole]), [whole]);
  const readings = useJobReadings(wholes, now);
  return whole === null ? null : readings?.[0];
}
