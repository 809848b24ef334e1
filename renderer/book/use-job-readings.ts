/** Jobs with everything calculated from them, live. Records update at once, figures of a large floor when the worker is done. */
import { useEffect, useMemo, useRef, useState } from 'react';
import { type Estimated, estimateDayOf, estimateKeyOf, type JobReading, readEstimated } from '../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { estimateAtHand, estimateOf } from '../workers/job-estimates.ts';

/** The figures to show for a job: the newest that match its records, else the last ones. */
function figuresFor(whole: WholeJob, now: string, known: readonly (Estimated | null)[]): Estimated | null {
  const key = estimateKeyOf(whole, estimateDayOf(whole, now));
  return known.find((one) => one?.estimateKey === key) ?? estimateAtHand(whole, now) ?? known.find((one) => one !== null) ?? null;
}

/** While a large floor is calculated again, its last figures are shown with the new records. Undefined before the first figures. */
export function useJobReadings(wholes: readonly WholeJob[] | undefined, now: string): readonly JobReading[] | undefined {
  const before = useRef<ReadonlyMap<string, JobReading>>(new Map());
  const [answered, setAnswered] = useState<ReadonlyMap<string, Estimated>>(new Map());
  const readings = useMemo(() => {
    const all = wholes?.map((whole): JobReading | null => {
      const { id } = whole.job;
      const last = before.current.get(id) ?? null;
      const figures = figuresFor(whole, now, [answered.get(id) ?? null, last]);
      return figures === null ? null : readEstimated(whole, now, figures, last);
    });
    return all?.includes(null) === false ? all.filter((reading) => reading !== null) : undefined;
  }, [wholes, now, answered]);
  useEffect(() => {
    if (readings !== undefined) before.current = new Map(readings.map((reading) => [reading.whole.job.id, reading]));
  }, [readings]);
  useEffect(() => {
    let isGone = false;
    for (const whole of wholes ?? []) {
      const key = estimateKeyOf(whole, estimateDayOf(whole, now));
      if (before.current.get(whole.job.id)?.estimateKey === key) continue;
      void estimateOf(whole, now).then((estimated) => {
        if (!isGone) setAnswered((earlier) => new Map(earlier).set(whole.job.id, estimated));
      });
    }
    return () => {
      isGone = true;
    };
  }, [wholes, now]);
  return readings;
}
