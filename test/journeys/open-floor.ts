/** A job with one drawn room, written directly to the database. */
import type { Page } from '@playwright/test';
import type { FloorTest } from '../../shared-core/book/layer.ts';
import { CALM } from '../shared-core/substrate/a-floor.ts';
import { customer, jobFor, property as house, roomNamed } from './mill-lane.ts';
import { expect } from './open-book.ts';
import { points } from '../outlines.ts';
import { putRows } from './stored-rows.ts';
import { toSheet as openAddress } from './open-sample.ts';

/** A test measured just now. */
export const madeNow = (id: string) => ({ id, takenAt: new Date().toISOString(), by: 'OB', point: null, note: '' });

/** Opens Assess for a 12 by 10 ft kitchen. */
export async function openFloor(
  page: Page,
  of: { readonly yearBuilt: number | null; readonly tests?: readonly FloorTest[] },
): Promise<void> {
  const property = { ...house, yearBuilt: of.yearBuilt };
  const bare = roomNamed('Kitchen');
  const outline = points('0,0 3.6576,0 3.6576,3.048 0,3.048');
  const room = { ...bare, plan: { ...bare.plan, outline }, circumstances: CALM, tests: [...(of.tests ?? [])] };
  await putRows(page, { customers: [customer], properties: [property], rooms: [room], jobs: [jobFor(room, 'Kitchen')] });
  await toSheet(page, 'assess');
  await expect(page.getByRole('heading', { level: 1, name: 'Kitchen: floor assembly and tests' })).toBeVisible();
}

/** Opens a screen of the kitchen's job. */
export const toSheet = (page: Page, stage: 'assess' | 'prep'): Promise<void> => openAddress(page, `/jobs/job-0001/${stage}/room-0001`);
