/** Customers, their properties and rooms. */
import type { Address } from '../../shared-core/book/business.ts';
import type { ContactRow } from '../../shared-core/book/contact-rows.ts';
import { jobNumber, newCustomer, newJob, newProperty, newRoom } from '../../shared-core/book/new-records.ts';
import { book } from './database.ts';
import { newId, nowInstant } from './now-instant.ts';
import { attempt, done, type Outcome, refused } from './outcome.ts';
import { startingRooms } from './starting-rooms.ts';
import { add, write } from './write.ts';

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
