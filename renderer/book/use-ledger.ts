/** The ledger of the company, with the jobs and customers its entries name, and the quotes of the declined ones among these jobs. */
import { useLiveQuery } from 'dexie-react-hooks';
import type { Customer } from '../../shared-core/book/customer.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { LedgerEntry } from '../../shared-core/book/ledger.ts';
import type { Quote } from '../../shared-core/book/quote.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';

export type WholeLedger = {
  readonly entries: readonly LedgerEntry[];
  readonly jobs: ReadonlyMap<string, Job>;
  readonly customers: ReadonlyMap<string, Customer>;
  readonly quotes: readonly Quote[];
};

const present = <T>(rows: readonly (T | undefined)[]): T[] => rows.filter((row): row is T => row !== undefined);
const byId = <T extends { readonly id: string }>(rows: readonly T[]): Map<string, T> => new Map(rows.map((row) => [row.id, row]));

export async function readLedger(): Promise<WholeLedger> {
  const db = book();
  const entries = readable('ledger', await db.rowsOf('ledger').toArray()).filter((entry) => entry.deletedAt === null);
  const jobIds = [...new Set(entries.flatMap((entry) => (entry.jobId === null ? [] : [entry.jobId])))];
  const jobs = readable('jobs', present(await db.rowsOf('jobs').bulkGet(jobIds)));
  const customerIds = [...new Set(jobs.map((job) => job.customerId))];
  const customers = readable('customers', present(await db.rowsOf('customers').bulkGet(customerIds)));
  const declined = jobs.flatMap(({ id, state }) => (state === 'declined' ? [id] : []));
  const quotes = readable('quotes', await db.rowsOf('quotes').where('jobId').anyOf(declined).toArray());
  return { entries, jobs: byId(jobs), customers: byId(customers), quotes };
}

export function useLedger(): WholeLedger | undefined {
  return useLiveQuery(readLedger, []);
}
