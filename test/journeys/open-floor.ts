/** A job with one drawn room, written directly to the database. */
import type { Page } from '@playwright/test';
import type { FloorTest } from '../../shared-core/book/layer.ts';
import { newCustomer, newJob, newProperty, newRoom } from '../../shared-core/book/new-records.ts';
import { CALM } from '../shared-core/substrate/a-floor.ts';
import { expect } from './open-book.ts';
import { putRows } from './stored-rows.ts';
import { toSheet as openAddress } from './open-sample.ts';

/** A test measured just now. */
export const madeNow = (id: string) => ({ id, takenAt: new Date().toISOString(), by: 'OB', point: null, note: '' });

/** Opens Assess for a 12 by 10 ft kitchen. */
export async function openFloor(
  page: Page,
  of: { readonly yearBuilt: number | null; readonly tests?: readonly FloorTest[] },
): Promise<void> {
  const now = new Date().toISOString();
  const [widthM, depthM] = [3.6576, 3.048];
  const customer = newCustomer({ id: 'customer-1', now }, 'Ottilie Brandt');
  const address = { line: '12 Mill Lane', city: 'Fenwick Bend', region: '', zip: '', country: 'US' };
  const property = { ...newProperty({ id: 'property-1', now }, customer.id, address, 'America/New_York'), yearBuilt: of.yearBuilt };
  const bare = newRoom({ id: 'room-0001', now }, property.id, 'Kitchen');
  const outline = [
    { xM: 0, yM: 0 },
    { xM: widthM, yM: 0 },
    { xM: widthM, yM: depthM },
    { xM: 0, yM: depthM },
  ];
  const room = { ...bare, plan: { ...bare.plan, outline }, circumstances: CALM, tests: [...(of.tests ?? [])] };
  const job = newJob(
    { id: 'job-0001', now },
    { number: '26-001', title: 'Kitchen', customerId: customer.id, propertyId: property.id, roomIds: [room.id], depositShare: 0.3 },
  );
  await putRows(page, { customers: [customer], properties: [property], rooms: [room], jobs: [job] });
  await toSheet(page, 'assess');
  await expect(page.getByRole('heading', { level: 1, name: 'Kitchen: floor assembly and tests' })).toBeVisible();
}

/** Opens a screen of the kitchen's job. */
export const toSheet = (page: Page, stage: 'assess' | 'prep'): Promise<void> => openAddress(page, `/jobs/job-0001/${stage}/room-0001`);
