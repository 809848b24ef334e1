import type { Visit } from '../../shared-core/book/cure-record.ts';
import type { Patch } from './write.ts';

/** Changes of visits, each counted for the calendar. */
export const visitPatches = (visits: readonly Visit[], update: (visit: Visit) => Partial<Visit>): Patch[] =>
  visits.map((visit) => ({
    table: 'visits',
    id: visit.id,
    change: (stored: Visit): Visit => ({ ...stored, ...update(visit), sequence: stored.sequence + 1 }),
  }));
