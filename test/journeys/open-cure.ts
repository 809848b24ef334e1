/** Adds to the sample data a workshop floor in another time zone, poured this morning with a topping that takes days until foot traffic. */
import type { Page } from '@playwright/test';
import type { Material } from '../../shared-core/book/material.ts';
import { samplePour } from '../../shared-core/sample/sample-pours.ts';
import { barePlan } from '../shared-core/pour/bare-plan.ts';
import { sampleAt } from '../sample-at.ts';
import { expect } from './open-book.ts';
import { changeRow, putRows } from './stored-rows.ts';

/** Two hours behind the sample company's time zone. */
const HOUSE_ZONE = 'America/Denver';

/** Invented: a topping with slow milestones. */
const HOURS: Readonly<Record<string, { readonly hoursLeast: number; readonly hoursMost: number }>> = {
  'walk-on': { hoursLeast: 96, hoursMost: 110 },
  'next-lift': { hoursLeast: 110, hoursMost: 120 },
  cart: { hoursLeast: 110, hoursMost: 120 },
  furniture: { hoursLeast: 120, hoursMost: 132 },
  full: { hoursLeast: 168, hoursMost: 190 },
};

const slowTopping = (now: string): Material => {
  const topping = sampleAt(now).materials.find(({ id }) => id === 'sample-topping');
  if (topping?.powder == null) throw new Error('The sample has a topping.');
  const milestones = topping.powder.milestones.map((milestone) => ({ ...milestone, ...(HOURS[milestone.kind] ?? {}) }));
  return { ...topping, powder: { ...topping.powder, milestones } };
};

/**
 * Makes the sample's workshop a curing floor.
 * @param startedAt start of its pour
 */
export async function pourWorkshop(page: Page, startedAt: string): Promise<void> {
  const { pour, events } = samplePour({
    jobId: 'sample-job-tremaine',
    roomId: 'sample-workshop',
    startedAt,
    bags: 30,
    bagsPerBatch: 2,
    materialId: 'sample-topping',
    asPoured: barePlan(['sample-workshop'], 1, 1, slowTopping(startedAt)),
  });
  await putRows(page, { pours: [pour], pourEvents: events });
  await changeRow(page, 'properties', 'sample-old-orchard', (row) => ({ ...row, timeZone: HOUSE_ZONE }));
  await changeRow<{ rooms: object[] }>(page, 'jobs', 'sample-job-tremaine', (row) => ({
    ...row,
    rooms: row.rooms.map((room) => ({ ...room, pourAt: startedAt })),
  }));
  // Rows written without the program are read when the page is loaded again.
  await page.reload();
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
}
