/** From which day to which the warranty of a job runs. */
import type { Business } from '../book/business.ts';
import type { Job } from '../book/job.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { countWords } from '../measure/count-words.ts';
import { addMonthsToDay, formatDay } from '../measure/day.ts';
import { releasedOn } from './job-money.ts';
import type { JobReading } from './read-job.ts';

/** Days `YYYY-MM-DD`; null while not known. */
export type WarrantyPeriod = { readonly starts: string | null; readonly ends: string | null };

/**
 * From the day the last room of a job was handed over, for the months the business gives; the end set for the job comes first.
 * @param zone of the property
 */
export function warrantyPeriod(
  job: Pick<Job, 'rooms' | 'defectsUntil'>,
  { warrantyMonths }: Pick<Business['contract'], 'warrantyMonths'>,
  zone: string,
): WarrantyPeriod {
  const starts = releasedOn({ job }, zone);
  return { starts, ends: job.defectsUntil ?? (starts === null || warrantyMonths === null ? null : addMonthsToDay(starts, warrantyMonths)) };
}

/** The warranty of a job from its records. */
export function warrantyOf({ business, job, property }: Pick<WholeJob, 'business' | 'job' | 'property'>): WarrantyPeriod {
  return warrantyPeriod(job, business.contract, property.timeZone);
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
