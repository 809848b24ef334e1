/** Compares the last finished pours with the figures in use, one job at a time to keep the screen responsive. */
import { useEffect, useState } from 'react';
import { readEstimated } from '../../shared-core/standing/read-job.ts';
import { taskTimesOf } from '../../shared-core/book/task-times.ts';
import { pastPours, type PastPour } from '../../shared-core/learn/past-pours.ts';
import { TYPICAL_CREW } from '../../shared-core/pour/typical-crew.ts';
import { estimateOf } from '../workers/job-estimates.ts';
import { useSame } from '../workers/use-same.ts';
import { nowInstant } from './command.ts';
import { paced } from './stored-figures.ts';
import { useBusiness, useLastPours } from './use-records.ts';
import { readWholeJob } from './use-whole-job.ts';

/** Older pours are ignored, because crews and their pace change. */
const LAST_POURS = 20;

/** Newest first; null while loading. */
export function usePastPours(): readonly PastPour[] | null {
  const finished = useSame(useLastPours(LAST_POURS));
  const business = useSame(useBusiness());
  const [found, setFound] = useState<readonly PastPour[] | null>(null);
  useEffect(() => {
    if (finished === undefined || business === undefined) return undefined;
    let isUnmounted = false;
    const wanted = new Set(finished.map((p) => p.id));
    const times = business.ownTimes ?? taskTimesOf(TYPICAL_CREW);
    const read = async (): Promise<void> => {
      const all: PastPour[] = [];
      const pace = paced();
      for (const jobId of new Set(finished.map((p) => p.jobId))) {
        const whole = await readWholeJob(jobId);
        if (whole !== null) {
          const now = nowInstant();
          const read = readEstimated(whole, now, await estimateOf(whole, now));
          all.push(...pastPours(read, times).filter((p) => wanted.has(p.pourId)));
        }
        await pace();
        if (isUnmounted) return;
      }
      setFound(all.sort((a, b) => b.finishedAt.localeCompare(a.finishedAt)));
    };
    void read();
    return () => {
      isUnmounted = true;
    };
  }, [finished, business]);
  return found;
}
