/** Three floors judged: old flooring held until a laboratory answers, a damp slab held for wood and not for a bare floor, boards with tasks of their own. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from '@playwright/test';
import type { FloorTest } from '../../shared-core/book/layer.ts';
import { expect, test } from './open-book.ts';
import { madeNow, openFloor, toSheet } from './open-floor.ts';

const field = (page: Page | Locator, label: string): Locator => page.getByLabel(label, { exact: true });
const button = (page: Page | Locator, name: string): Locator => page.getByRole('button', { name, exact: true });
const finding = (page: Page, name: string): Locator => page.getByRole('heading', { level: 3, name, exact: true });

async function write(one: Locator, text: string): Promise<void> {
  await one.fill(text);
  await one.press('Enter');
}

/** Layers from the top down, each of the first few to come out. */
async function layers(page: Page, names: readonly string[], out: number): Promise<void> {
  for (const [i, name] of names.entries()) {
    await field(page, i === 0 ? 'The top of the floor is' : 'Under it lies').selectOption({ label: name });
    await expect(field(page, 'Condition')).toHaveCount(i + 1);
    await field(page, 'Condition').nth(i).selectOption({ label: 'sound' });
    if (i < out) await field(page, 'Stays or not').nth(i).selectOption({ label: 'comes out' });
  }
}

async function answer(page: Page, layer: string, sample: string): Promise<void> {
  await page
    .getByRole('radiogroup', { name: `The laboratory about ${layer}` })
    .getByText('None found')
    .click();
  const dialog = page.getByRole('dialog');
  // An answer without its papers lifts nothing.
  await button(dialog, 'Keep the answer').click();
  await expect(dialog).toContainText('An answer counts with its laboratory, its sample and its date');
  await write(field(dialog, 'Laboratory'), 'Ferry Street Analytical');
  await write(field(dialog, 'Sample'), sample);
  await write(field(dialog, 'Dated'), '2025-05-06');
  await button(dialog, 'Keep the answer').click();
  await expect(dialog).toBeHidden();
}

// 29 CFR 1926.1101(k)(1): flooring and adhesive laid no later than 1980 are presumed to hold asbestos; what nobody can date counts as old.
test('a kitchen of 1962 with sheet flooring over unknown adhesive is held until a laboratory has answered for both', async ({
  book,
  page,
}) => {
  expect(book.address).toContain('127.0.0.1');
  await openFloor(page, { yearBuilt: null });
  await layers(page, ['sheet flooring', 'adhesive of unknown kind', 'concrete on ground'], 2);
  await write(field(page, 'House built in'), '1962');
  await write(field(page, 'Laid in').first(), '1962');
  await expect(finding(page, 'Hold: sheet flooring')).toBeVisible();
  await expect(finding(page, 'Hold: adhesive of unknown kind')).toBeVisible();
  await expect(page.getByText('Hold. Scrape, sand, grind and drill nothing.')).toBeVisible();
  await expect(page.getByText('29 CFR 1926.1101(k)(1)').first()).toBeVisible();

  // The checklist holds the lines that would disturb it, and no press signs them.
  await toSheet(page, 'prep');
  await page.getByLabel('Signing as').fill('OB');
  await page.getByLabel('Signing as').press('Enter');
  await button(page, 'Scrape off the adhesive of unknown kind').click();
  await expect(page.getByText(/Scrape off the adhesive of unknown kind is held/)).toBeVisible();
  await expect(button(page, 'More about Scrape off the adhesive of unknown kind')).toBeVisible();

  await toSheet(page, 'assess');
  await answer(page, 'sheet flooring', 'K-1');
  await expect(finding(page, 'Go: sheet flooring')).toBeVisible();
  await expect(finding(page, 'Hold: adhesive of unknown kind')).toBeVisible();
  await answer(page, 'adhesive of unknown kind', 'K-2');
  await expect(finding(page, 'Go: adhesive of unknown kind')).toBeVisible();
  await expect(page.getByText('Hold. Scrape, sand, grind and drill nothing.')).toBeHidden();

  await toSheet(page, 'prep');
  await button(page, 'Scrape off the adhesive of unknown kind').click();
  const row = page.getByRole('row', { name: /Scrape off the adhesive of unknown kind/ });
  await expect(row).toContainText('OB');
});

const DRY_BUT_FOR_THE_SLAB: readonly FloorTest[] = [
  ...[1, 2, 3].map((i): FloorTest => ({ ...madeNow(`drop-000${i}`), kind: 'drop-absorption', seconds: 30, watchedSeconds: 60 })),
  ...[1, 2, 3].map((i): FloorTest => ({ ...madeNow(`scratch-${i}`), kind: 'scratch', result: 'firm' })),
  { ...madeNow('alkaline'), kind: 'surface-ph', ph: 9 },
  { ...madeNow('looked-1'), kind: 'surface-look', is: ['sound-clean'] },
  { ...madeNow('air-0001'), kind: 'air', airTempC: 20, relativeHumidity: 0.48, surfaceTempC: 19, airSpeedMPerS: 0 },
];

// ASTM F710 default and BS 8201: a slab at most 75 % humid under wood; a floor left bare has no such limit. ASTM F2170: three holes in the first 1000 sq ft.
test('a slab at 84 % is held for glued wood and may be poured when it is left bare', async ({ book, page }) => {
  expect(book.address).toContain('127.0.0.1');
  await openFloor(page, { yearBuilt: 1995, tests: DRY_BUT_FOR_THE_SLAB });
  await layers(page, ['concrete on ground'], 0);
  await write(field(page, 'Thickness'), '4"');
  await field(page, 'What will go on it').selectOption({ label: 'glued wood' });
  // A missing reading is a missing test, never a pass.
  await expect(finding(page, 'Hold: moisture of the slab')).toBeVisible();
  await page.getByRole('button', { name: /^Moisture of the slab: not tested yet/i }).click();
  const dialog = page.getByRole('dialog');
  await field(dialog, 'Humidity read').fill('184');
  await field(dialog, 'Humidity read').press('Enter');
  await expect(field(dialog, 'Humidity read')).toHaveValue('184');
  await expect(dialog.getByRole('alert')).toContainText('100');
  await write(field(dialog, 'Humidity read'), '84');
  await write(field(dialog, 'Slab thickness'), '4"');
  await write(field(dialog, 'Probe depth'), '1.6"');
  await button(dialog, 'Keep it, and read the next place').click();
  await write(field(dialog, 'Humidity read'), '83');
  await button(dialog, 'Keep it, and read the next place').click();
  await write(field(dialog, 'Humidity read'), '81');
  await button(dialog, 'Keep the test').click();
  await expect(dialog).toBeHidden();
  await expect(finding(page, 'Hold: humid slab')).toBeVisible();
  await expect(page.getByText('Hold: humid slab.')).toBeVisible();

  await field(page, 'What will go on it').selectOption({ label: 'left bare and sealed' });
  await expect(finding(page, 'Hold: humid slab')).toBeHidden();
  await expect(page.getByText('This floor may be poured.')).toBeVisible();

  // The covering's own maker allows more than the published figure, and the finding says whose it is.
  await field(page, 'What will go on it').selectOption({ label: 'glued wood' });
  await button(page, 'The covering’s maker says otherwise').click();
  await write(field(page, 'Slab humidity, at most'), '85');
  await write(field(page, 'Stated in'), 'leaflet of March 2026');
  await expect(finding(page, 'Hold: humid slab')).toBeHidden();
  await expect(page.getByText(/leaflet of March 2026/).first()).toBeVisible();
});

test('a floor over boards gets the tasks of timber, a line may be left only in writing, and the helper gets the sheet', async ({
  book,
  page,
}) => {
  await openFloor(page, { yearBuilt: 1995 });
  await layers(page, ['carpet', 'boards', 'joists'], 1);
  // The carpet lies on a part of the room only: drawn by its corners, and its area is what comes out.
  await button(page, 'Where carpet lies: whole room').click();
  const part = page.getByRole('dialog');
  await field(part, 'Where it lies').selectOption({ label: 'on a part drawn on the plan' });
  const sheet = part.getByRole('group', { name: /^The plan: press the corners/ });
  const box = await sheet.boundingBox();
  if (box === null) throw new Error('No plan to press on.');
  for (const [across, down] of [
    [0.4, 0.4],
    [0.5, 0.4],
    [0.5, 0.6],
  ] as const)
    await page.mouse.click(box.x + across * box.width, box.y + down * box.height);
  for (const [i, across, down] of [
    [1, `0`, `0`],
    [2, `5'`, `0`],
    [3, `5'`, `4'`],
  ] as const) {
    await write(field(part, `Corner ${i} of the part, across`), across);
    await write(field(part, `Corner ${i} of the part, down`), down);
  }
  await expect(part.getByRole('status')).toHaveText('10 sq ft of the floor.');
  await button(part, 'Keep it there').click();
  await expect(button(page, 'Where carpet lies: 10 sq ft')).toBeVisible();
  for (const need of ['moisture of the boards', 'moisture of the joists', 'span and size of the joists'])
    await expect(page.getByRole('button', { name: new RegExp(`^${need}: not tested yet`, 'i') })).toBeVisible();
  await toSheet(page, 'prep');
  const wood = [
    'Refasten every board that rocks',
    'Fill gaps, knots and pipe holes in the timber',
    'Lay the reinforcement over the timber, as the sheet says',
  ];
  for (const line of wood) await expect(button(page, line)).toBeVisible();
  await expect(page.getByRole('row').filter({ hasText: 'Lift out the carpet' })).toContainText('10 sq ft');
  await page.getByLabel('Signing as').fill('OB');
  await page.getByLabel('Signing as').press('Enter');

  await button(page, `More about ${wood[0] ?? ''}`).click();
  const dialog = page.getByRole('dialog').or(page.getByRole('alertdialog'));
  await button(dialog, 'Pour without it').click();
  await button(dialog, 'Go on all the same').click();
  await expect(dialog).toContainText('Enter a reason');
  await field(dialog, 'Reason').fill('Short');
  await button(dialog, 'Go on all the same').click();
  // What was typed is still there, with what is wanted.
  await expect(dialog).toContainText('Enter a full sentence');
  await expect(field(dialog, 'Reason')).toHaveValue('Short');
  await field(dialog, 'Reason').fill('Every board was screwed down last week by the owner.');
  await button(dialog, 'Go on all the same').click();
  await expect(dialog).toBeHidden();
  await expect(page.getByText('Gone past: Every board was screwed down last week by the owner.')).toBeVisible();

  await button(page, 'Prep sheet for a helper').click();
  const papers = (): string[] => (existsSync(book.papers) ? readdirSync(book.papers).filter((name) => name.endsWith('.pdf')) : []);
  await expect.poll(() => papers().length).toBe(1);
  const file = join(book.papers, papers()[0] ?? '');
  const paper = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' }).replaceAll(/\s+/g, ' ');
  expect(paper).toContain('Kitchen: made ready to pour on');
  expect(paper).toContain('Refasten every board that rocks');
  expect(paper).toContain('Every board was screwed down last week by the owner.');
});
