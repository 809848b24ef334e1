/** Open leads without a job or with a next step, with their customers and properties, live. */
import { useLiveQuery } from 'dexie-react-hooks';
import type { Customer } from '../../shared-core/book/customer.ts';
import type { Lead } from '../../shared-core/book/lead.ts';
import type { Property } from '../../shared-core/book/property.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';

export type OpenLeads = {
  readonly leads: readonly Lead[];
  readonly customers: readonly Customer[];
  readonly properties: readonly Property[];
};

async function readOpenLeads(): Promise<OpenLeads> {
  const db = book();
  const all = readable('leads', await db.rowsOf('leads').toArray());
  const leads = all.filter((lead) => lead.state === 'open' && (lead.jobId === null || lead.next !== null) && lead.deletedAt === null);
  const known = <R>(rows: readonly (R | undefined)[]): R[] => rows.filter((row) => row !== undefined);
  const customers = known(await db.rowsOf('customers').bulkGet(leads.map((lead) => lead.customerId)));
  const properties = known(await db.rowsOf('properties').bulkGet(leads.flatMap((lead) => lead.propertyId ?? [])));
  return { leads, customers: readable('customers', customers), properties: readable('properties', properties) };
}

/** Undefined while loading. */
export function useOpenLeads(): OpenLeads | undefined {
  return useLiveQuery(readOpenLeads, []);
}
