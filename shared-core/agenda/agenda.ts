/** The agenda of all jobs and leads. The entries of a job are reused while its bundle is the same object, so that a change recomputes one job. */
import type { AgendaEntry } from './agenda-entry.ts';
import { byMoment, type JobAgenda, jobAgenda } from './job-agenda.ts';
import { leadEntries, type LeadRows } from './lead-entries.ts';
import type { AgendaBusiness, JobBundle } from '../standing/job-bundle.ts';

export type Agenda = {
  readonly business: AgendaBusiness;
  /** In the order the bundles were given. */
  readonly jobs: readonly JobAgenda[];
  /** The leads it was computed with; missing for none. */
  readonly leads?: { readonly rows: LeadRows; readonly entries: readonly AgendaEntry[] };
  /** Of all jobs and leads, by moment. */
  readonly entries: readonly AgendaEntry[];
};

/** Merges two ordered lists. */
function merged(a: readonly AgendaEntry[], b: readonly AgendaEntry[]): AgendaEntry[] {
  const entries: AgendaEntry[] = [];
  let j = 0;
  for (const entry of a) {
    for (let other = b[j]; other !== undefined && byMoment(other, entry) < 0; other = b[j]) {
      entries.push(other);
      j++;
    }
    entries.push(entry);
  }
  return [...entries, ...b.slice(j)];
}

const NO_LEADS: LeadRows = { leads: [], customers: [], properties: [] };

/**
 * Computes the agenda.
 * @param before the previous agenda: jobs whose bundle is the same object are reused; null computes all
 * @param rows the leads; those of the previous agenda where left out
 */
export function agenda(
  bundles: readonly JobBundle[],
  business: AgendaBusiness,
  before: Agenda | null,
  rows: LeadRows = before?.leads?.rows ?? NO_LEADS,
): Agenda {
  const base = before !== null && before.business === business ? before : null;
  const known = new Map(base?.jobs.map((j) => [j.bundle, j]));
  const jobs = bundles.map((b) => known.get(b) ?? jobAgenda(b, business));
  const areLeadsKept = base?.leads?.rows === rows;
  const leads = areLeadsKept ? base.leads : { rows, entries: leadEntries(rows, business) };
  if (base === null) return { business, jobs, leads, entries: [leads, ...jobs].flatMap((one) => one.entries).sort(byMoment) };
  const fresh = jobs.filter((j) => known.get(j.bundle) === undefined);
  const staying = new Set(jobs);
  const removedJobs = base.jobs.filter((j) => !staying.has(j));
  if (fresh.length === 0 && removedJobs.length === 0 && areLeadsKept) return { business, jobs, leads, entries: base.entries };
  const [gone, added] = areLeadsKept ? [[], []] : [base.leads?.entries ?? [], leads.entries];
  const goneEntries = new Set([...gone, ...removedJobs.flatMap((j) => j.entries)]);
  const remaining = goneEntries.size === 0 ? base.entries : base.entries.filter((e) => !goneEntries.has(e));
  return { business, jobs, leads, entries: merged(remaining, [...added, ...fresh.flatMap((j) => j.entries)].sort(byMoment)) };
}

/** Whether an entry no longer asks for anything. */
export const isSettled = ({ settledAt }: AgendaEntry, now: string): boolean => settledAt !== null && settledAt <= now;

/** Whether an entry still to be done has passed its moment. Work that is running is being done. */
export function isLate(entry: AgendaEntry, now: string): boolean {
  const isDue = entry.dueAt !== null && Date.parse(entry.dueAt) < Date.parse(now);
  return isDue && entry.toDo && !entry.isUnderWay && !isSettled(entry, now);
}
