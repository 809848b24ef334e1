/** A job with all that is worked out about it, live: the records followed, the figures made anew only when they hang on a change. */
import { useEffect, useMemo, useRef, useState } from 'react';
import { type JobReading, readJob } from '../../shared-core/agenda/read-job.ts';
import { nowInstant } from './moment.ts';
import { useWholeJob } from './use-whole-job.ts';

const MINUTE_MS = 60_000;

/** The moment, kept to the minute while a sheet stands open. */
export function useNow(everyMs: number = MINUTE_MS): string {
  const [now, setNow] = useState(nowInstant);
  useEffect(() => {
    const timer = setInterval(() => setNow(nowInstant()), everyMs);
    return () => clearInterval(timer);
  }, [everyMs]);
  return now;
}

/** The job read; null when it is not there, undefined while reading. */
export function useJobReading(jobId: string): JobReading | null | undefined {
  const whole = useWholeJob(jobId);
  const now = useNow();
  const before = useRef<JobReading | null>(null);
  const reading = useMemo(() => (whole === null || whole === undefined ? whole : readJob(whole, now, before.current)), [whole, now]);
  useEffect(() => {
    if (reading !== null && reading !== undefined) before.current = reading;
  }, [reading]);
  return reading;
}
