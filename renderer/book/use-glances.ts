/** Jobs for lists: the stage of each room and its holds, without estimating every job. */
import { useEffect, useMemo, useRef, useState } from 'react';
import type { JobFigures } from '../../shared-core/standing/job-figures.ts';
import { glanceJob, type JobGlance } from '../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { readFigures } from './stored-figures.ts';
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
  const gathered = useMemo(() => {
    if (read === undefined) return undefined;
    const glances = read.wholes.map((whole) =>
      glanceJob(whole, read.figures.get(whole.job.id) ?? [], now, lastGlances.get(whole.job.id) ?? null),
    );
    return { glances, now, wholes: read.wholes };
  }, [read, now]);
  useEffect(() => {
    if (gathered !== undefined) lastGlances = new Map(gathered.glances.map((glance) => [glance.whole.job.id, glance]));
  }, [gathered]);
  return gathered;
}
