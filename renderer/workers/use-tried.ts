import { useEffect, useMemo, useState } from 'react';
import { type JobTry, readTried, type TriedJob } from '../../shared-core/standing/what-if.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { surveyWorker } from './use-survey.ts';

/** A what-if job, and how to get it when it is not calculated yet. */
export interface TriedHad {
  /** The last result; null while nothing is tried and before the first result. */
  readonly tried: TriedJob | null;
  /** Calculates the present what-if job. */
  readonly whenRead: () => Promise<TriedJob>;
}

/**
 * Calculates a what-if job in the worker, with its levels, and its simulation if the job has one. The last result is shown while a newer
 * one is calculated.
 */
export function useTried(whole: WholeJob, tries: JobTry, now: string, isOn: boolean): TriedHad {
  const [answer, setAnswer] = useState<TriedJob | null>(null);
  const isTried = isOn && tries.length > 0;
  const ask = useMemo(() => {
    let asked: Promise<TriedJob> | null = null;
    return (): Promise<TriedJob> => {
      asked ??= surveyWorker()
        .readTried(whole, tries, now)
        // Where no worker can start, the page calculates it.
        .catch(() => readTried(whole, tries, now));
      return asked;
    };
  }, [whole, tries, now]);
  useEffect(() => {
    if (!isTried) return undefined;
    let isGone = false;
    void ask().then((tried) => {
      if (!isGone) setAnswer(tried);
    });
    return () => {
      isGone = true;
    };
  }, [ask, isTried]);
  return { tried: isTried && answer?.reading.whole.job.id === whole.job.id ? answer : null, whenRead: ask };
}
