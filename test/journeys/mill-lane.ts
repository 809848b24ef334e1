/** A customer with a house, for journeys that start with one room in it. */
import { newCustomer, newJob, newProperty, newRoom } from '../../shared-core/book/new-records.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';

const now = '2026-05-06T12:00:00.000Z';
export const customer = newCustomer({ id: 'customer-1', now }, 'Ottilie Brandt');
const address = { line: '12 Mill Lane', city: 'Fenwick Bend', region: '', zip: '', country: 'US' };
export const property = newProperty({ id: 'property-1', now }, customer.id, address, 'America/New_York');
export const roomNamed = (name: string): Room => newRoom({ id: 'room-0001', now }, property.id, name);
export const jobFor = (room: Room, title: string): Job =>
  newJob(
    { id: 'job-0001', now },
    { number: '26-001', title, customerId: customer.id, propertyId: property.id, roomIds: [room.id], depositShare: 0.3 },
  );
