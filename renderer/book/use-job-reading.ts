/** A job with everything calculated from it, live. Figures are calculated again only when a record they depend on changes. */
import { useEffect, useMemo, useRef, useState } from 'react';
import { type Estimated, estimateDayOf, estimateKeyOf, type JobReading, readEstimated } from '../../shared-core/standing/read-job.ts';
import { estimateAtHand, estimateOf } from '../workers/job-estimates.ts';
import { nowInstant } from './command.ts';
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

/**
 * Null when the job does not exist, undefined while loading. Records update at once. Figures of a large floor follow when the worker is
 * done; until then the last ones are shown with the new records.
 */
export function useJobReading(jobId: string): JobReading | null | undefined {
  const whole = useWholeJob(jobId);
  const now = useNow(whole);
  const before = useRef<JobReading | null>(null);
  const [answered, setAnswered] = useState<Estimated | null>(null);
  const reading = useMemo(() => {
    if (whole === null || whole === undefined) return whole;
    const last = before.current?.whole.job.id === whole.job.id ? before.current : null;
    const key = estimateKeyOf(whole, estimateDayOf(whole, now));
    const figures = [answered, last].find((one) => one?.estimateKey === key) ?? estimateAtHand(whole, now) ?? last;
    return figures === null ? undefined : readEstimated(whole, now, figures, last);
  }, [whole, now, answered]);
  useEffect(() => {
    before.current = reading ?? null;
  }, [reading]);
  useEffect(() => {
    if (whole === null || whole === undefined) return undefined;
    let isGone = false;
    if (before.current?.estimateKey !== estimateKeyOf(whole, estimateDayOf(whole, now)))
      void estimateOf(whole, now).then((estimated) => {
        if (!isGone) setAnswered(estimated);
      });
    return () => {
      isGone = true;
    };
  }, [whole, now]);
  return reading;
}
