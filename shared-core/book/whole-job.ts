/** One job with all related records, as used by screens, documents and the agenda. */
import type { Business } from './business.ts';
import type { Customer } from './customer.ts';
import type { ClearanceTest, CureLog, Promised, Visit } from './cure-record.ts';
import type { Job } from './job.ts';
import type { LedgerEntry } from './ledger.ts';
import type { Material } from './material.ts';
import type { CalendarEntry, MadeDocument } from './papers.ts';
import type { Pour, PourEvent } from './pour-record.ts';
import type { Property } from './property.ts';
import type { Quote } from './quote.ts';
import type { Room } from './room.ts';

export type WholeJob = {
  readonly business: Business;
  readonly customer: Customer;
  readonly property: Property;
  readonly job: Job;
  /** The job's rooms, in the job's order. */
  readonly rooms: readonly Room[];
  /** Every room of the house, for the key plan. */
  readonly houseRooms: readonly Room[];
  readonly materials: readonly Material[];
  readonly quotes: readonly Quote[];
  readonly pours: readonly Pour[];
  readonly pourEvents: readonly PourEvent[];
  readonly cureLogs: readonly CureLog[];
  readonly promises: readonly Promised[];
  readonly clearanceTests: readonly ClearanceTest[];
  readonly visits: readonly Visit[];
  /** Invoices, payments and costs of this job. */
  readonly ledger: readonly LedgerEntry[];
  readonly documents: readonly MadeDocument[];
  /** Numbers of documents and quotes whose records cannot be read: they were given out, and are not given again. */
  readonly unreadNumbers?: readonly { readonly kind: string; readonly revision: number }[];
  readonly calendarEntries: readonly CalendarEntry[];
};
