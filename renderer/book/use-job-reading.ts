/** A job with everything calculated from it, live. Figures are calculated again only when a record they depend on changes. */
import { useEffect, useMemo, useReducer, useState } from 'react';
import { type Estimated, estimateDayOf, estimateKeyOf, type JobReading, readEstimated } from '../../shared-core/standing/read-job.ts';
import { estimateAhead, estimateAtHand, estimateOf } from '../workers/job-estimates.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { nowInstant } from './command.ts';
import { book } from './database.ts';
import { keepLast } from '../workers/keep-last.ts';
import { readJobsToOpen, useWholeJob } from './use-whole-job.ts';

const MINUTE_MS = 60_000;

/** An instant read for the same records so shortly before serves again, with what was calculated for it. */
const INSTANT_MS = 30_000;
const instants = new WeakMap<object, string>();

function instantFor(about: object | null | undefined): string {
  const now = nowInstant();
  if (about === null || about === undefined) return now;
  const age = Date.parse(now) - Date.parse(instants.get(about) ?? '');
  if (!(age >= 0 && age < INSTANT_MS)) instants.set(about, now);
  return instants.get(about) ?? now;
}

/**
 * The current instant, updated every minute. A screen that shows seconds uses `useTick`.
 * @param about records read at that instant. When they change, the instant is read again, so that a new entry is not in the future.
 */
export function useNow(about: object | null | undefined = null): string {
  const [minute, nextMinute] = useReducer((count: number) => count + 1, 0);
  useEffect(() => {
    const timer = setInterval(nextMinute, MINUTE_MS);
    return () => clearInterval(timer);
  }, []);
  // A state set while rendering would render the whole screen twice for each change of a record.
  return useMemo(() => ({ minute, now: instantFor(about) }), [about, minute]).now;
}

const MOST_READINGS = 6;
/** The jobs shown last, on any screen: what was calculated from records that are unchanged is used again. */
const lastReadings = new Map<string, { readonly reading: JobReading; readonly now: string }>();

/** A backup that is open read-only may have the same job. */
const nameOf = ({ job }: WholeJob): string => `${book().name} ${job.id}`;

function keepReading(reading: JobReading, now: string): void {
  keepLast(lastReadings, nameOf(reading.whole), { reading, now }, MOST_READINGS);
}

export async function readAhead(): Promise<void> {
  const wholes = await readJobsToOpen(MOST_READINGS);
  await estimateAhead(wholes, nowInstant());
  for (const whole of wholes) {
    await new Promise<void>((resolve) => requestIdleCallback(() => resolve()));
    const now = instantFor(whole);
    const figures = estimateAtHand(whole, now);
    if (figures !== null && !lastReadings.has(nameOf(whole))) keepReading(readEstimated(whole, now, figures, null), now);
  }
}

/**
 * Null when the job does not exist, undefined while loading. Records update at once. Figures of a large floor follow when the worker is
 * done; until then the last ones are shown with the new records.
 * @param running a pour whose log is not read, so that an entry does not read the job again
 */
export function useJobReading(jobId: string, running: string | null = null): JobReading | null | undefined {
  const whole = useWholeJob(jobId, running);
  const now = useNow(whole);
  const [answered, setAnswered] = useState<Estimated | null>(null);
  const reading = useMemo(() => {
    if (whole === null || whole === undefined) return whole;
    const kept = lastReadings.get(nameOf(whole));
    const last = kept?.reading ?? null;
    const key = estimateKeyOf(whole, estimateDayOf(whole, now));
    if (last?.whole === whole && kept?.now === now && last.estimateKey === key) return last;
    const figures = [answered, last].find((one) => one?.estimateKey === key) ?? estimateAtHand(whole, now) ?? last;
    return figures === null ? undefined : readEstimated(whole, now, figures, last);
  }, [whole, now, answered]);
  useEffect(() => {
    if (reading !== null && reading !== undefined) keepReading(reading, now);
  }, [reading, now]);
  useEffect(() => {
    if (whole === null || whole === undefined) return undefined;
    let isGone = false;
    if (lastReadings.get(nameOf(whole))?.reading.estimateKey !== estimateKeyOf(whole, estimateDayOf(whole, now)))
      void estimateOf(whole, now).then((estimated) => {
        if (!isGone) setAnswered(estimated);
      });
    return () => {
      isGone = true;
    };
  }, [whole, now]);
  return reading;
}
