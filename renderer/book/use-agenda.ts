/** All open jobs read and set in time: what Today, the ribbon and the calendar of the whole book are made from. */
import { useEffect, useMemo, useRef } from 'react';
import { type Agenda, agenda } from '../../shared-core/agenda/agenda.ts';
import type { JobReading } from '../../shared-core/agenda/read-job.ts';
import type { Business } from '../../shared-core/book/business.ts';
import { useNow } from './use-job-reading.ts';
import { useJobReadings } from './use-job-readings.ts';
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
  const open = useMemo(() => jobs?.filter(({ job }) => job.state === 'open'), [jobs]);
  const readings = useJobReadings(open, now);
  const before = useRef<Agenda | null>(null);
  const made = useMemo(() => {
    if (business === undefined || readings === undefined) return undefined;
    const bundles = readings.map((reading) => reading.bundle);
    return { business, agenda: agenda(bundles, business, before.current), readings, now };
  }, [business, readings, now]);
  useEffect(() => {
    if (made !== undefined) before.current = made.agenda;
  }, [made]);
  return made;
}
