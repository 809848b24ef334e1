/** Leads with a next step, and open ones without a job, with their customers and properties, live. */
import { useLiveQuery } from 'dexie-react-hooks';
import { isListed, type LeadRows } from '../../shared-core/agenda/lead-entries.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';

/** Read in the background too. */
export async function readOpenLeads(): Promise<LeadRows> {
  const db = book();
  const all = readable('leads', await db.rowsOf('leads').toArray());
  const leads = all.filter(isListed);
  const known = <R>(rows: readonly (R | undefined)[]): R[] => rows.filter((row) => row !== undefined);
  const customers = known(await db.rowsOf('customers').bulkGet(leads.map((lead) => lead.customerId)));
  const properties = known(await db.rowsOf('properties').bulkGet(leads.flatMap((lead) => lead.propertyId ?? [])));
  return { leads, customers: readable('customers', customers), properties: readable('properties', properties) };
}

export function useOpenLeads(): LeadRows | undefined {
  return useLiveQuery(readOpenLeads, []);
}
