/** Leads: a new one, its next step, its job, and its outcome. */
import type { Lead, LeadNext } from '../../shared-core/book/lead.ts';
import { jobNumber, newJob } from '../../shared-core/book/new-records.ts';
import type { LeadRecords } from '../../shared-core/lead/lead-records.ts';
import { book } from './database.ts';
import { newId, nowInstant } from './now-instant.ts';
import { startJob } from './customer-commands.ts';
import { attempt, done, type Outcome, refused } from './outcome.ts';
import { startingRooms } from './starting-rooms.ts';
import { change, type Put, write, type Update } from './write.ts';

export function changeLead(leadId: string, label: string, edit: Update<Lead>): Promise<Outcome> {
  return change('leads', leadId, label, nowInstant(), edit);
}

export function setLeadNext(leadId: string, next: LeadNext | null): Promise<Outcome> {
  return changeLead(leadId, 'next step of the lead', { next });
}

/** Closes a lead as won or lost, with the reason, and clears its next step. */
export function closeLead(leadId: string, state: 'won' | 'lost', reason: string): Promise<Outcome> {
  const now = nowInstant();
  return changeLead(leadId, `lead ${state}`, { state, reason, closedAt: now, next: null });
}

export function reopenLead(leadId: string): Promise<Outcome> {
  return changeLead(leadId, 'reopen lead', { state: 'open', reason: '', closedAt: null });
}

export type SavedLead = { readonly customerId: string; readonly jobId: string | null; readonly roomId: string | null };

/**
 * Saves a new lead with its customer, property and rooms in one edit.
 * @param hasJob also starts a job over those rooms, so that it can be priced
 */
export async function saveLead(records: LeadRecords, hasJob: boolean): Promise<Outcome<SavedLead>> {
  const { customer, property, rooms, lead } = records;
  const now = nowInstant();
  const roomIds = rooms.map((room) => room.id);
  const read = await attempt(async () => {
    const business = await book().rowsOf('business').get('business');
    return done({ business, jobRooms: await startingRooms(business, roomIds) });
  });
  if (!read.ok) return read;
  const { business, jobRooms } = read.value;
  if (business === undefined) return refused('The company settings could not be read. Restart Straightedge and try again.');
  const number = jobNumber(Number(now.slice(0, 4)), business.nextJobSerial);
  const job =
    hasJob && lead.propertyId !== null && roomIds.length > 0
      ? newJob(
          { id: newId(), now },
          {
            number,
            title: rooms.map((room) => room.name.toLowerCase()).join(', '),
            customerId: lead.customerId,
            propertyId: lead.propertyId,
            roomIds,
            depositShare: business.pricing.depositShare,
          },
        )
      : null;
  const puts: Put[] = [
    ...(customer === null ? [] : [{ table: 'customers' as const, row: customer }]),
    ...(property === null ? [] : [{ table: 'properties' as const, row: property }]),
    ...rooms.map((row) => ({ table: 'rooms' as const, row })),
    ...(job === null ? [] : [{ table: 'jobs' as const, row: { ...job, rooms: jobRooms } }]),
    { table: 'leads', row: { ...lead, jobId: job?.id ?? null } },
  ];
  const written = await write('new lead', now, {
    puts,
    patches: job === null ? [] : [{ table: 'business', id: 'business', change: (b) => ({ ...b, nextJobSerial: b.nextJobSerial + 1 }) }],
  });
  return written.ok ? done({ customerId: lead.customerId, jobId: job?.id ?? null, roomId: roomIds[0] ?? null }) : written;
}

/** Starts a lead's job over the rooms of its property. Returns the job's id and its first room. */
export async function startLeadJob(lead: Lead): Promise<Outcome<{ readonly jobId: string; readonly roomId: string }>> {
  if (lead.propertyId === null) return refused('Add the property and its rooms first.');
  const { propertyId } = lead;
  const rooms = await attempt(async () => done(await book().rowsOf('rooms').where('propertyId').equals(propertyId).toArray()));
  if (!rooms.ok) return rooms;
  const live = rooms.value.filter((room) => room.deletedAt === null);
  const [first] = live;
  if (first === undefined) return refused('Add a room to the property first.');
  const started = await startJob(
    lead.propertyId,
    live.map((room) => room.id),
    live.map((room) => room.name.toLowerCase()).join(', '),
  );
  if (!started.ok) return started;
  const linked = await changeLead(lead.id, 'job of the lead', { jobId: started.value });
  return linked.ok ? done({ jobId: started.value, roomId: first.id }) : linked;
}
