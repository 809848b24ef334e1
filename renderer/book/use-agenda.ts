/** All open jobs read and set in time: what Today, the ribbon and the calendar of the whole book are made from. */
import { useEffect, useMemo, useRef } from 'react';
import { type Agenda, agenda } from '../../shared-core/agenda/agenda.ts';
import { type JobReading, readJob } from '../../shared-core/agenda/read-job.ts';
import type { Business } from '../../shared-core/book/business.ts';
import { useNow } from './use-job-reading.ts';
import { useBusiness } from './use-records.ts';
import { useWholeJobs } from './use-whole-job.ts';

export type BookAgenda = {
  readonly business: Business;
  readonly agenda: Agenda;
  readonly readings: readonly JobReading[];
  readonly now: string;
};

/** The agenda over all jobs still open; undefined while reading. */
export function useAgenda(): BookAgenda | undefined {
  const business = useBusiness();
  const jobs = useWholeJobs();
  const now = useNow(jobs);
  const before = useRef<{ readings: ReadonlyMap<string, JobReading>; agenda: Agenda | null }>({ readings: new Map(), agenda: null });
  const made = useMemo(() => {
    if (business === undefined || jobs === undefined) return undefined;
    const open = jobs.filter(({ job }) => job.state === 'open');
    const readings = open.map((whole) => readJob(whole, now, before.current.readings.get(whole.job.id) ?? null));
    const bundles = readings.map((reading) => reading.bundle);
    return { business, agenda: agenda(bundles, business, before.current.agenda), readings, now };
  }, [business, jobs, now]);
  useEffect(() => {
    if (made !== undefined)
      before.current = { readings: new Map(made.readings.map((reading) => [reading.whole.job.id, reading])), agenda: made.agenda };
  }, [made]);
  return made;
}
