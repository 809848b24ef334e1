/** Customers, their properties and rooms. */
import type { Address } from '../../shared-core/book/business.ts';
import type { ContactRow } from '../../shared-core/book/contact-rows.ts';
import { jobNumber, newCustomer, newJob, newProperty, newRoom } from '../../shared-core/book/new-records.ts';
import { book } from './database.ts';
import { newId, nowInstant, attempt, done, type Outcome, refused } from './command.ts';
import { startingRooms } from './starting-rooms.ts';
import { add, write, change, type Put, type Update } from './write.ts';
import type { Lead, LeadNext } from '../../shared-core/book/lead.ts';
import type { LeadRecords } from '../../shared-core/lead/lead-records.ts';

const withId = async (id: string, writing: Promise<Outcome>): Promise<Outcome<string>> => {
  const outcome = await writing;
  return outcome.ok ? done(id) : outcome;
};

export function addCustomer(name: string): Promise<Outcome<string>> {
  const [id, now] = [newId(), nowInstant()];
  return withId(id, add('customers', newCustomer({ id, now }, name.trim()), `new customer ${name.trim()}`, now));
}

/**
 * Adds customers from a file in one edit.
 * @param country for addresses without a two-letter country
 */
export function addCustomers(rows: readonly ContactRow[], country: string): Promise<Outcome> {
  const now = nowInstant();
  const puts = rows.map((row) => {
    const { name, phone, email, line, city, region, zip, notes } = row;
    const more = [...row.more];
    const hasAddress = [line, city, region, zip].some((part) => part !== '');
    const code = row.country.trim().toUpperCase();
    const address = { line, city, region, zip, country: /^[A-Z]{2}$/.test(code) ? code : country };
    const customer = { ...newCustomer({ id: newId(), now }, name), phone, email, more, notes, address: hasAddress ? address : null };
    return { table: 'customers' as const, row: customer };
  });
  return write(rows.length === 1 ? 'import 1 customer' : `import ${rows.length} customers`, now, { puts });
}

export function addProperty(customerId: string, address: Address, timeZone: string): Promise<Outcome<string>> {
  const [id, now] = [newId(), nowInstant()];
  return withId(id, add('properties', newProperty({ id, now }, customerId, address, timeZone), `new property ${address.line}`, now));
}

export function addRoom(propertyId: string, name: string): Promise<Outcome<string>> {
  const [id, now] = [newId(), nowInstant()];
  return withId(id, add('rooms', newRoom({ id, now }, propertyId, name.trim()), `new room ${name.trim()}`, now));
}

/** Starts a job over rooms of a property with the next job number. Returns the job's id. */
export async function startJob(propertyId: string, roomIds: readonly string[], title: string): Promise<Outcome<string>> {
  const [id, now] = [newId(), nowInstant()];
  const read = await attempt(async () => {
    const business = await book().rowsOf('business').get('business');
    return done({ property: await book().rowsOf('properties').get(propertyId), business, rooms: await startingRooms(business, roomIds) });
  });
  if (!read.ok) return read;
  const { property, business, rooms } = read.value;
  if (property === undefined || business === undefined) return refused('Property not found. It may have been deleted.');
  if (roomIds.length === 0) return refused('Choose at least one room for the job.');
  const number = jobNumber(Number(now.slice(0, 4)), business.nextJobSerial);
  const job = newJob(
    { id, now },
    { number, title, customerId: property.customerId, propertyId, roomIds, depositShare: business.pricing.depositShare },
  );
  return withId(
    id,
    write(`new job ${number}`, now, {
      puts: [{ table: 'jobs', row: { ...job, rooms } }],
      patches: [{ table: 'business', id: 'business', change: (b) => ({ ...b, nextJobSerial: b.nextJobSerial + 1 }) }],
    }),
  );
}

/** Leads: a new one, its next step, its job, and its outcome. */
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

type SavedLead = { readonly customerId: string; readonly jobId: string | null; readonly roomId: string | null };

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
