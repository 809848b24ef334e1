/** From which day to which the warranty of a job runs. */
import type { WholeJob } from '../book/whole-job.ts';
import { countWords } from '../measure/count-words.ts';
import { addMonthsToDay, formatDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { JobReading } from '../standing/read-job.ts';
import type { HandoverRoom } from './handover-rooms.ts';

/** Days `YYYY-MM-DD`; null while not known. */
export type WarrantyPeriod = { readonly starts: string | null; readonly ends: string | null };

/** From the day the last of the floors was handed over, for the months the business gives; the end set for the job comes first. */
export function warrantyPeriod({ whole }: Pick<JobReading, 'whole'>, rooms: readonly HandoverRoom[]): WarrantyPeriod {
  const { business, job, property } = whole;
  const handed = rooms.map(({ jobRoom }) => jobRoom.handedOverAt);
  const last = handed.includes(null) ? undefined : handed.toSorted().at(-1);
  const starts = last == null ? null : dayOfInstant(last, property.timeZone);
  const months = business.contract.warrantyMonths;
  return { starts, ends: job.defectsUntil ?? (starts === null || months === null ? null : addMonthsToDay(starts, months)) };
}

/** How long within a sentence: the end set for the job, else the months of the business; empty where neither is given. */
export function warrantyTerm({ business, job }: Pick<WholeJob, 'business' | 'job'>): string {
  if (job.defectsUntil !== null) return `through ${formatDay(job.defectsUntil, 'dated', business.locale)}`;
  const months = business.contract.warrantyMonths;
  return months === null ? '' : `for ${countWords(months, 'month', business.locale)} from the day of handover`;
}

/** Why no warranty can be certified; null where it has a length or an end. */
export function missingForWarranty({ whole }: Pick<JobReading, 'whole'>): string | null {
  return whole.business.contract.warrantyMonths === null && whole.job.defectsUntil === null
    ? 'No warranty is given yet. Enter the warranty period in Settings.'
    : null;
}
