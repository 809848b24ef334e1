/** Customers, their properties and rooms. */
import type { Address } from '../../shared-core/book/business.ts';
import { type ContactRow, hasAddress } from '../../shared-core/book/contact-rows.ts';
import { newCustomer, newJob, newProperty, newRoom } from '../../shared-core/book/new-records.ts';
import { book } from './database.ts';
import { newId, nowInstant, attempt, done, type Outcome, refused } from './command.ts';
import { visitAhead } from '../../shared-core/agenda/lead-entries.ts';
import { leadsOfRooms, leadsWithoutProperty } from './lead-patches.ts';
import { startingRooms } from './starting-rooms.ts';
import { Refusal } from './record-rules.ts';
import { add, write, change, type Patch, type Put, type Update } from './write.ts';
import type { Customer } from '../../shared-core/book/customer.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Lead, LeadNext } from '../../shared-core/book/lead.ts';
import type { Property } from '../../shared-core/book/property.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { type LeadRecords, withReach, withRoomTold, withYearBuilt } from '../../shared-core/lead/lead-records.ts';
import { titleOfRooms } from '../../shared-core/standing/names.ts';

const withId = async (id: string, writing: Promise<Outcome>): Promise<Outcome<string>> => {
  const outcome = await writing;
  return outcome.ok ? done(id) : outcome;
};

export function addCustomer(name: string): Promise<Outcome<string>> {
  const [id, now] = [newId(), nowInstant()];
  return withId(id, add('customers', newCustomer({ id, now }, name.trim()), `new customer ${name.trim()}`, now));
}

/** Adds customers from a file in one edit, from rows that were checked: their country is a two-letter code. */
export function addCustomers(rows: readonly ContactRow[]): Promise<Outcome> {
  const now = nowInstant();
  const puts = rows.map((row) => {
    const { name, contact, phone, email, line, city, region, zip, country, notes } = row;
    const more = [...row.more];
    const address = hasAddress(row) ? { line, city, region, zip, country } : null;
    const contacts = contact === '' ? [] : [{ name: contact, role: '', phone: '', email: '' }];
    const customer = { ...newCustomer({ id: newId(), now }, name), phone, email, more, notes, address, contacts };
    return { table: 'customers' as const, row: customer };
  });
  return write(rows.length === 1 ? 'import 1 customer' : `import ${rows.length} customers`, now, { puts });
}

/** Adds a property of a customer, which becomes that of the customer's open leads without one. */
export async function addProperty(customerId: string, address: Address, timeZone: string): Promise<Outcome<string>> {
  const [id, now] = [newId(), nowInstant()];
  const leads = await attempt(async () => done(await leadsWithoutProperty(customerId, id)));
  if (!leads.ok) return leads;
  const row = newProperty({ id, now }, customerId, address, timeZone);
  return withId(id, write(`new property ${address.line}`, now, { puts: [{ table: 'properties', row }], patches: leads.value }));
}

export function addRoom(propertyId: string, name: string): Promise<Outcome<string>> {
  const [id, now] = [newId(), nowInstant()];
  return withId(id, add('rooms', newRoom({ id, now }, propertyId, name.trim()), `new room ${name.trim()}`, now));
}

type JobFields = Omit<Parameters<typeof newJob>[1], 'number' | 'depositShare'>;
/** A new job that takes its number when it is written, and the leads that it becomes the job of. */
type PreparedJob = {
  readonly numbered: { readonly id: string; readonly job: (number: string) => Job };
  readonly leads: readonly Patch[];
};

const preparedJob = (now: string, fields: JobFields, told: readonly Room[] = []): Promise<Outcome<PreparedJob>> =>
  attempt(async () => {
    const business = await book().rowsOf('business').get('business');
    if (business === undefined) return refused('The company settings could not be read. Restart Straightedge and try again.');
    if (fields.roomIds.length === 0) return refused('Choose at least one room for the job.');
    const rooms = await startingRooms(business, fields.roomIds, told);
    const [id, { depositShare }] = [newId(), business.pricing];
    const job = (number: string) => ({ ...newJob({ id, now }, { ...fields, number, depositShare }), rooms });
    return done({ numbered: { id, job }, leads: await leadsOfRooms(fields.customerId, fields.roomIds, id) });
  });

/** Starts a job over rooms of a property with the next job number: the job of the open leads about them, too. Returns the job's id. */
export async function startJob(propertyId: string, roomIds: readonly string[], title: string): Promise<Outcome<string>> {
  const now = nowInstant();
  const property = await attempt(async () => done(await book().rowsOf('properties').get(propertyId)));
  if (!property.ok) return property;
  if (property.value === undefined) return refused('Property not found. It may have been deleted.');
  const prepared = await preparedJob(now, { title, customerId: property.value.customerId, propertyId, roomIds });
  if (!prepared.ok) return prepared;
  const { numbered, leads } = prepared.value;
  return withId(numbered.id, write(`new job ${title}`, now, { numbered, patches: leads }));
}

/** Leads: a new one, its next step, its job, and its outcome. */
export function changeLead(leadId: string, label: string, edit: Update<Lead>): Promise<Outcome> {
  return change('leads', leadId, label, nowInstant(), edit);
}

export function setLeadNext(leadId: string, update: (was: LeadNext | null) => LeadNext | null): Promise<Outcome> {
  return changeLead(leadId, 'next step of the lead', (lead) => ({ ...lead, next: update(lead.next) }));
}

/**
 * Closes a lead as won or lost, with the reason. Of its next step only a visit that is still ahead stays.
 * @param zone IANA time zone that the day of the visit is in
 */
export function closeLead(leadId: string, state: 'won' | 'lost', reason: string, zone: string): Promise<Outcome> {
  const now = nowInstant();
  return changeLead(leadId, `lead ${state}`, (lead) => ({ ...lead, state, reason, closedAt: now, next: visitAhead(lead.next, now, zone) }));
}

export function reopenLead(leadId: string): Promise<Outcome> {
  return changeLead(leadId, 'reopen lead', { state: 'open', reason: '', closedAt: null });
}

type SavedLead = { readonly customerId: string; readonly jobId: string | null; readonly roomId: string | null };

/**
 * Saves a new lead with its customer, property and rooms in one edit. Those on record get what they lacked.
 * @param hasJob also starts a job over those rooms, so that it can be priced
 */
export async function saveLead(records: LeadRecords, hasJob: boolean): Promise<Outcome<SavedLead>> {
  const { customer, property, rooms, lead, told } = records;
  const now = nowInstant();
  const { customerId, propertyId, roomIds } = lead;
  let job: PreparedJob | undefined;
  if (hasJob && propertyId !== null && roomIds.length > 0) {
    const all = [...told.rooms, ...rooms];
    const prepared = await preparedJob(now, { title: titleOfRooms(all), customerId, propertyId, roomIds }, all);
    if (!prepared.ok) return prepared;
    job = prepared.value;
  }
  const jobId = job?.numbered.id ?? null;
  const puts: Put[] = [
    ...(customer === null ? [] : [{ table: 'customers' as const, row: customer }]),
    ...(property === null ? [] : [{ table: 'properties' as const, row: property }]),
    ...rooms.map((row) => ({ table: 'rooms' as const, row })),
    { table: 'leads', row: { ...lead, jobId } },
  ];
  const patches: Patch[] = [
    ...(customer === null ? [{ table: 'customers' as const, id: customerId, change: (c: Customer) => withReach(c, told) }] : []),
    ...(property === null && propertyId !== null
      ? [{ table: 'properties' as const, id: propertyId, change: (p: Property) => withYearBuilt(p, told.yearBuilt) }]
      : []),
    ...told.rooms.map((room) => ({ table: 'rooms' as const, id: room.id, change: (r: Room) => withRoomTold(r, room) })),
    ...(job?.leads ?? []),
  ];
  const written = await write('new lead', now, { puts, patches, ...(job === undefined ? {} : { numbered: job.numbered }) });
  return written.ok ? done({ customerId, jobId, roomId: roomIds[0] ?? null }) : written;
}

/**
 * The rooms that a lead is about: those saved with it, or, when it came without, the rooms of its property that no job has yet, or else
 * those that no open job has.
 */
async function roomsOfLead({ roomIds, propertyId }: Lead): Promise<Outcome<Room[]>> {
  const ofProperty = <T extends 'rooms' | 'jobs'>(table: T) =>
    book()
      .rowsOf(table)
      .where('propertyId')
      .equals(propertyId ?? '')
      .toArray();
  const live = (await ofProperty('rooms')).filter((r) => r.deletedAt === null);
  if (live.length === 0) return refused('Add a room to the property first.');
  const own = live.filter((room) => roomIds.includes(room.id));
  if (own.length > 0) return done(own);
  const jobs = await ofProperty('jobs');
  const outside = (some: readonly Job[]): Room[] => live.filter(({ id }) => !some.some((job) => job.rooms.some((r) => r.roomId === id)));
  const found = [jobs, jobs.filter((job) => job.state === 'open' && job.deletedAt === null)].map(outside).find(({ length }) => length > 0);
  return found === undefined
    ? refused('Every room of this property is in an open job. Add a room, or finish that job first.')
    : done(found);
}

/** Starts a lead's job over the lead's rooms. Returns the job's id and its first room. */
export async function startLeadJob(lead: Lead): Promise<Outcome<{ readonly jobId: string; readonly roomId: string }>> {
  const { customerId, propertyId } = lead;
  if (propertyId === null) return refused('Add the property and its rooms first.');
  const now = nowInstant();
  const read = await attempt(() => roomsOfLead(lead));
  if (!read.ok) return read;
  const rooms = read.value;
  const [first] = rooms;
  if (first === undefined) return refused('Add a room to the property first.');
  const title = titleOfRooms(rooms);
  const prepared = await preparedJob(now, { title, customerId, propertyId, roomIds: rooms.map((room) => room.id) });
  if (!prepared.ok) return prepared;
  const { numbered, leads } = prepared.value;
  const jobId = numbered.id;
  const change = (stored: Lead): Lead => {
    if (stored.jobId !== null) throw new Refusal('This lead already has a job. Open it from the customer’s jobs.');
    return { ...stored, jobId };
  };
  const patches: Patch[] = [{ table: 'leads', id: lead.id, change }, ...leads.filter(({ id }) => id !== lead.id)];
  const written = await write(`new job ${title}`, now, { numbered, patches });
  return written.ok ? done({ jobId, roomId: first.id }) : written;
}
