/** Reads all open jobs and places their dates on the agenda, for Today, the ribbon and the calendar. */
import { useEffect, useMemo } from 'react';
import { type Agenda, agenda } from '../../shared-core/agenda/agenda.ts';
import type { LeadRows } from '../../shared-core/agenda/lead-entries.ts';
import type { JobGlance } from '../../shared-core/standing/read-job.ts';
import type { Business } from '../../shared-core/book/business.ts';
import { forgetFiguresBut } from './stored-figures.ts';
import { storeEntries } from './stored-entries.ts';
import { useGlances } from './use-glances.ts';
import { useOpenLeads } from './use-leads.ts';
import { useBusiness } from './use-records.ts';
import { useJobsAhead } from './use-whole-job.ts';

export type BookAgenda = {
  readonly business: Business;
  readonly agenda: Agenda;
  readonly readings: readonly JobGlance[];
  readonly leads: LeadRows;
  readonly now: string;
};

/** As shown last: the entries of a job are kept while its records are unchanged. */
let lastAgenda: Agenda | null = null;

export function useAgenda(): BookAgenda | undefined {
  const business = useBusiness();
  const jobs = useJobsAhead();
  const leads = useOpenLeads();
  const glanced = useGlances(jobs);
  useEffect(() => {
    if (jobs !== undefined) void forgetFiguresBut(jobs);
  }, [jobs]);
  const gathered = useMemo(() => {
    if (business === undefined || glanced === undefined || leads === undefined) return undefined;
    const bundles = glanced.glances.map((glance) => glance.bundle);
    return { business, agenda: agenda(bundles, business, lastAgenda, leads), readings: glanced.glances, leads, now: glanced.now };
  }, [business, glanced, leads]);
  useEffect(() => {
    if (gathered === undefined || glanced === undefined) return;
    lastAgenda = gathered.agenda;
    void storeEntries(gathered, glanced.wholes);
  }, [gathered, glanced]);
  return gathered;
}
