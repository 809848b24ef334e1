import { useEffect, useMemo, useState } from 'react';
import { type JobTry, readTried, type TriedJob } from '../../shared-core/standing/what-if.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { surveyWorker } from './use-survey.ts';

/** A job as tried, and how to have it when what is tried last is not read yet. */
export interface TriedHad {
  /** The last that was read; null while nothing is tried and before the first is there. */
  readonly tried: TriedJob | null;
  /** What is tried now, read to its end. */
  readonly whenRead: () => Promise<TriedJob>;
}

/**
 * A job read as tried, in the worker: levels settled again, and a pour that was simulated simulated again. The last answer
 * stays in sight while a newer one is on its way.
 */
export function useTried(whole: WholeJob, tries: JobTry, now: string, isOn: boolean): TriedHad {
  const [answer, setAnswer] = useState<TriedJob | null>(null);
  const isTried = isOn && tries.length > 0;
  const ask = useMemo(() => {
    let asked: Promise<TriedJob> | null = null;
    return (): Promise<TriedJob> => {
      asked ??= surveyWorker()
        .readTried(whole, tries, now)
        // Where no worker can be started the screen does the work itself, late rather than never.
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
