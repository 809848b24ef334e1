/** The agenda of one job. It does not depend on the current time, so it is valid until the job changes. */
import type { AgendaEntry } from './agenda-entry.ts';
import { cureEntries } from './cure-entries.ts';
import { entryMaker } from './entry-maker.ts';
import type { AgendaBusiness, JobBundle } from '../standing/job-bundle.ts';
import { invoiceEntries, lienEntries, paymentEntries, refundEntries } from './money-entries.ts';
import { quoteEntries } from './quote-entries.ts';
import { ribbonRows, type RibbonRow } from './day-ribbon.ts';
import { roomCure, type RoomCure } from '../standing/room-cure.ts';
import { plannedEnds, siteEntries } from './site-entries.ts';
import { visitEntries } from './visit-entries.ts';

export type JobAgenda = {
  readonly bundle: JobBundle;
  /** By due moment, earliest first. */
  readonly entries: readonly AgendaEntry[];
  readonly rows: readonly RibbonRow[];
  /** By room id. */
  readonly cures: ReadonlyMap<string, RoomCure>;
};

/** Order of entries: by moment, then by key, so that ties are stable. */
export function byMoment(a: AgendaEntry, b: AgendaEntry): number {
  return a.instant < b.instant ? -1 : a.instant > b.instant ? 1 : a.key < b.key ? -1 : a.key > b.key ? 1 : 0;
}

/** Computes one job. A finished job has its return visits and its money; one that was declined or archived, only what is owed for it. */
export function jobAgenda(bundle: JobBundle, business: AgendaBusiness): JobAgenda {
  const { job } = bundle;
  const make = entryMaker(bundle, business);
  if (job.deletedAt !== null) return { bundle, entries: [], rows: [], cures: new Map() };
  const owed = [...paymentEntries(make), ...refundEntries(make), ...lienEntries(make)];
  if (job.state === 'declined' || job.state === 'set-aside') return { bundle, entries: owed.sort(byMoment), rows: [], cures: new Map() };
  const cures = new Map<string, RoomCure>();
  for (const facts of make.rooms) {
    const cure = roomCure(bundle, facts, business);
    if (cure !== null) cures.set(facts.room.id, cure);
  }
  if (job.state === 'finished')
    return {
      bundle,
      entries: [...visitEntries(make), ...invoiceEntries(make), ...owed].sort(byMoment),
      rows: [],
      cures,
    };
  const site = siteEntries(make);
  const planEnds = plannedEnds(site);
  const entries = [
    ...quoteEntries(make),
    ...site,
    ...cureEntries(make, cures, planEnds),
    ...visitEntries(make),
    ...invoiceEntries(make),
    ...owed,
  ];
  return { bundle, entries: entries.sort(byMoment), rows: ribbonRows(make, cures, planEnds), cures };
}
