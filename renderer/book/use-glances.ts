/** Jobs for lists: the stage of each room and its holds, without estimating every job. */
import { useEffect, useRef, useState } from 'react';
import type { JobFigures } from '../../shared-core/standing/job-figures.ts';
import { glanceJob, type JobGlance } from '../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { paced, readFigures } from './stored-figures.ts';
import { useNow } from './use-job-reading.ts';

/** Glances of the same instant. */
export type Glanced = { readonly glances: readonly JobGlance[]; readonly now: string; readonly wholes: readonly WholeJob[] };

type Read = { readonly wholes: readonly WholeJob[]; readonly figures: ReadonlyMap<string, JobFigures> };

/** As shown last on any screen: a job whose records are unchanged keeps what was calculated from them. */
let lastGlances: ReadonlyMap<string, JobGlance> = new Map();

/** Undefined while first loading, then the last result until the next is ready. */
export function useGlances(wholes: readonly WholeJob[] | undefined): Glanced | undefined {
  const [read, setRead] = useState<Read | undefined>();
  const now = useNow(read);
  const moment = useRef(now);
  useEffect(() => {
    moment.current = now;
  }, [now]);
  useEffect(() => {
    if (wholes === undefined) return undefined;
    let current = true;
    void readFigures(wholes, moment.current, () => current).then((figures) => {
      if (figures !== null && current) setRead({ wholes, figures });
    });
    return () => {
      current = false;
    };
  }, [wholes]);
  const [gathered, setGathered] = useState<Glanced | undefined>();
  useEffect(() => {
    if (read === undefined) return undefined;
    let current = true;
    // Two dozen jobs take longer than a key may wait, each minute again.
    const glance = async (): Promise<void> => {
      const pace = paced();
      const glances: JobGlance[] = [];
      for (const whole of read.wholes) {
        await pace();
        if (!current) return;
        glances.push(glanceJob(whole, read.figures.get(whole.job.id) ?? [], now, lastGlances.get(whole.job.id) ?? null));
      }
      lastGlances = new Map(glances.map((one) => [one.whole.job.id, one]));
      setGathered({ glances, now, wholes: read.wholes });
    };
    void glance();
    return () => {
      current = false;
    };
  }, [read, now]);
  return gathered;
}
