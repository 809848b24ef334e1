/** What becomes of open leads when a property is added or their rooms get a job. */
import type { Lead } from '../../shared-core/book/lead.ts';
import { book } from './database.ts';
import type { Patch } from './write.ts';

async function patchesOf(customerId: string, concerns: (lead: Lead) => boolean, set: Partial<Lead>): Promise<Patch[]> {
  const isOpen = (lead: Lead): boolean => lead.deletedAt === null && lead.state === 'open' && lead.jobId === null && concerns(lead);
  const leads = await book().rowsOf('leads').where('customerId').equals(customerId).toArray();
  return leads.filter(isOpen).map(({ id }) => ({ table: 'leads', id, change: (lead) => (isOpen(lead) ? { ...lead, ...set } : lead) }));
}

/** The job becomes that of every open lead without one that is about any of these rooms. */
export const leadsOfRooms = (customerId: string, roomIds: readonly string[], jobId: string): Promise<Patch[]> =>
  patchesOf(customerId, (lead) => lead.roomIds.some((id) => roomIds.includes(id)), { jobId });

/** A property of the customer becomes that of every open lead without one. */
export const leadsWithoutProperty = (customerId: string, propertyId: string): Promise<Patch[]> =>
  patchesOf(customerId, (lead) => lead.propertyId === null, { propertyId });
