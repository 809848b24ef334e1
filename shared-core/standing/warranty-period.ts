/** From which day to which the warranty of a job runs. */
import type { Business } from '../book/business.ts';
import type { Job } from '../book/job.ts';
import type { Property } from '../book/property.ts';
import type { Quote } from '../book/quote.ts';
import { termsOfJob } from '../ledger/job-contract.ts';
import { countWords } from '../measure/count-words.ts';
import { addMonthsToDay, formatDay } from '../measure/day.ts';
import { acceptedQuote } from '../price/change-order.ts';
import { releasedOn } from './job-money.ts';
import type { JobReading } from './read-job.ts';

/** Days `YYYY-MM-DD`; null while not known. */
export type WarrantyPeriod = { readonly starts: string | null; readonly ends: string | null };

/** What the warranty of a job follows from. */
type WarrantyRecords = {
  readonly business: Pick<Business, 'contract' | 'locale'>;
  readonly job: Pick<Job, 'rooms' | 'defectsUntil'>;
  readonly quotes: readonly Quote[];
};

/**
 * The warranty of a job: from the day its last room was handed over, for the months it was sold with; the end set for the job comes
 * first.
 */
export function warrantyOf(records: WarrantyRecords & { readonly property: Pick<Property, 'timeZone'> }): WarrantyPeriod {
  const { job, property } = records;
  const { warrantyMonths } = termsOfJob(records);
  const starts = releasedOn({ job }, property.timeZone);
  return { starts, ends: job.defectsUntil ?? (starts === null || warrantyMonths === null ? null : addMonthsToDay(starts, warrantyMonths)) };
}

/** How long within a sentence: the end set for the job, else the months it was sold with; empty where neither is given. */
export function warrantyTerm(records: WarrantyRecords): string {
  const { business, job } = records;
  if (job.defectsUntil !== null) return `through ${formatDay(job.defectsUntil, 'dated', business.locale)}`;
  const months = termsOfJob(records).warrantyMonths;
  return months === null ? '' : `for ${countWords(months, 'month', business.locale)} from the day of handover`;
}

/** Why no warranty can be certified; null where it has a length or an end. */
export function missingForWarranty({ whole }: Pick<JobReading, 'whole'>): string | null {
  if (termsOfJob(whole).warrantyMonths !== null || whole.job.defectsUntil !== null) return null;
  return acceptedQuote(whole.quotes) === null
    ? 'No warranty is given yet. Enter the warranty period in Settings.'
    : 'This job was sold without a warranty period. Enter the end of its warranty period in Cure.';
}
