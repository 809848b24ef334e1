/**
 * Three floors: old flooring on hold until a lab result, a humid slab on hold for wood but not as a bare floor, and boards with their own
 * prep tasks.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from '@playwright/test';
import type { FloorTest } from '../../shared-core/book/layer.ts';
import { expect, test } from './open-book.ts';
import { madeNow, openFloor, toSheet } from './open-floor.ts';
import { xy } from '../outlines.ts';

const field = (page: Page | Locator, label: string): Locator => page.getByLabel(label, { exact: true });
const button = (page: Page | Locator, name: string): Locator => page.getByRole('button', { name, exact: true });
const findingHeading = (page: Page, name: string): Locator => page.getByRole('heading', { level: 3, name, exact: true });

async function write(one: Locator, text: string): Promise<void> {
  await one.fill(text);
  await one.press('Enter');
}

/** Layers from the top down; the first `out` of them are removed. */
async function layers(page: Page, names: readonly string[], out: number): Promise<void> {
  for (const [i, name] of names.entries()) {
    await field(page, i === 0 ? 'Top layer' : 'Add layer below').selectOption({ label: name });
    await expect(field(page, 'Condition')).toHaveCount(i + 1);
    await field(page, 'Condition').nth(i).selectOption({ label: 'sound' });
    if (i < out) await field(page, 'Keep or remove').nth(i).selectOption({ label: 'remove' });
  }
}

async function answer(page: Page, layer: string, sample: string): Promise<void> {
  await page
    .getByRole('radiogroup', { name: `Lab result for ${layer}` })
    .getByText('Not detected')
    .click();
  const dialog = page.getByRole('dialog');
  // A result without lab, sample number and date clears no hold.
  await button(dialog, 'Save').click();
  await expect(dialog).toContainText('Enter the lab, the sample number and the date from the report.');
  await enterResult(page, sample);
}

async function enterResult(page: Page, sample: string): Promise<void> {
  const dialog = page.getByRole('dialog');
  await write(field(dialog, 'Lab'), 'Ferry Street Analytical');
  await write(field(dialog, 'Sample number'), sample);
  await write(field(dialog, 'Report date'), '2025-05-06');
  await button(dialog, 'Save').click();
  await expect(dialog).toBeHidden();
}

// 29 CFR 1926.1101(k)(1): flooring and adhesive installed no later than 1980 are presumed to contain asbestos; unknown dates count as old.
test('a kitchen of 1962 with sheet flooring over unknown adhesive is on hold until it has both lab results', async ({
  book: _book,
  page,
}) => {
  await openFloor(page, { yearBuilt: null });
  await layers(page, ['sheet flooring', 'unknown adhesive', 'slab on grade'], 2);
  await write(field(page, 'Year built'), '1962');
  await write(field(page, 'Installed').first(), '1962');
  await expect(findingHeading(page, 'Hold: sheet flooring')).toBeVisible();
  await expect(findingHeading(page, 'Hold: unknown adhesive')).toBeVisible();
  await expect(page.getByText('Hold. Do not scrape, sand, grind, drill or remove anything.')).toBeVisible();
  await expect(page.getByText('29 CFR 1926.1101(k)(1)').first()).toBeVisible();

  // The checklist shows the tasks that would disturb it, and they cannot be signed.
  await toSheet(page, 'prep');
  await page.getByLabel('Your initials').fill('OB');
  await page.getByLabel('Your initials').press('Enter');
  await button(page, 'Scrape off the unknown adhesive, after a lab sample shows no asbestos').click();
  await expect(page.getByRole('alert').filter({ hasText: 'Hold: sheet flooring.' })).toBeVisible();
  await expect(button(page, 'More about Scrape off the unknown adhesive, after a lab sample shows no asbestos')).toBeVisible();

  await toSheet(page, 'assess');
  await answer(page, 'sheet flooring', 'K-1');
  await expect(findingHeading(page, 'Go: sheet flooring')).toBeVisible();
  await expect(findingHeading(page, 'Hold: unknown adhesive')).toBeVisible();
  await answer(page, 'unknown adhesive', 'K-2');
  await expect(findingHeading(page, 'Go: unknown adhesive')).toBeVisible();
  await expect(page.getByText('Hold. Do not scrape, sand, grind, drill or remove anything.')).toBeHidden();

  // A result entered from the menu is of another sample: it replaces none, though none has a layer.
  for (const sample of ['C-1', 'C-2']) {
    await field(page, 'Add test').selectOption({ label: 'Lab result' });
    await page.getByRole('dialog').getByText('Detected', { exact: true }).click();
    await expect(field(page.getByRole('dialog'), 'Sample number')).toHaveValue('');
    await enterResult(page, sample);
  }
  await button(page, '4 tests').click();
  for (const result of ['not detected', 'detected'])
    await expect(page.getByRole('listitem').filter({ hasText: `Lab result: asbestos: ${result}` })).toHaveCount(2);

  await toSheet(page, 'prep');
  await button(page, 'Scrape off the unknown adhesive').click();
  const row = page.getByRole('row', { name: /Scrape off the unknown adhesive/ });
  await expect(row).toContainText('OB');
});

const DRY_BUT_FOR_THE_SLAB: readonly FloorTest[] = [
  ...[1, 2, 3].map((i): FloorTest => ({ ...madeNow(`drop-000${i}`), kind: 'drop-absorption', seconds: 30, watchedSeconds: 60 })),
  ...[1, 2, 3].map((i): FloorTest => ({ ...madeNow(`scratch-${i}`), kind: 'scratch', result: 'firm' })),
  { ...madeNow('alkaline'), kind: 'surface-ph', ph: 9 },
  { ...madeNow('looked-1'), kind: 'surface-look', is: ['sound-clean'] },
  { ...madeNow('air-0001'), kind: 'air', airTempC: 20, relativeHumidity: 0.48, surfaceTempC: 19, airSpeedMPerS: 0 },
];

// ASTM F710 default and BS 8201: at most 75% RH under wood; a bare floor has no such limit. ASTM F2170: three holes in the first 1,000 sq
// ft.
test('a slab at 84% RH is on hold for glued wood and Go when left bare', async ({ book: _book, page }) => {
  await openFloor(page, { yearBuilt: 1995, tests: DRY_BUT_FOR_THE_SLAB });
  await layers(page, ['slab on grade'], 0);
  await write(field(page, 'Thickness'), '4"');
  await field(page, 'Flooring').selectOption({ label: 'glued wood' });
  // A missing reading is a missing test, never a pass.
  await expect(findingHeading(page, 'Hold: slab moisture')).toBeVisible();
  await page.getByRole('button', { name: /^slab moisture: not tested/ }).click();
  const dialog = page.getByRole('dialog');
  await field(dialog, 'RH').fill('184');
  await field(dialog, 'RH').press('Enter');
  await expect(field(dialog, 'RH')).toHaveValue('184');
  await expect(dialog.getByRole('alert')).toContainText('100');
  await write(field(dialog, 'RH'), '84');
  await write(field(dialog, 'Slab thickness'), '4"');
  await write(field(dialog, 'Probe depth'), '1.6"');
  await button(dialog, 'Save and add next').click();
  await write(field(dialog, 'RH'), '83');
  await button(dialog, 'Save and add next').click();
  await write(field(dialog, 'RH'), '81');
  await button(dialog, 'Save').click();
  await expect(dialog).toBeHidden();
  await expect(findingHeading(page, 'Hold: slab RH')).toBeVisible();
  await expect(page.getByText('Hold: slab RH.')).toBeVisible();

  await field(page, 'Flooring').selectOption({ label: 'a sealed floor' });
  await expect(findingHeading(page, 'Hold: slab RH')).toBeHidden();
  await expect(page.getByText(/^Ready to pour/)).toBeVisible();

  // The flooring manufacturer allows more than the published limit, and the finding names the source.
  await field(page, 'Flooring').selectOption({ label: 'glued wood' });
  await button(page, 'Enter the flooring manufacturer’s limits').click();
  await write(field(page, 'Max slab RH'), '85');
  await write(field(page, 'Source'), 'leaflet of March 2026');
  await expect(findingHeading(page, 'Hold: slab RH')).toBeHidden();
  await expect(page.getByText(/leaflet of March 2026/).first()).toBeVisible();

  // A slab has signs of structural trouble too, and what was recorded can be changed.
  const structure = page.locator('#lift-circumstance-structureSigns');
  await structure.locator('summary').click();
  await structure.getByText('Slab heave or a void under the slab', { exact: true }).click();
  await expect(findingHeading(page, 'Hold: slab heave or a void under the slab')).toBeVisible();
  await structure.getByText('Slab heave or a void under the slab', { exact: true }).click();
  await expect(findingHeading(page, 'Hold: slab heave or a void under the slab')).toBeHidden();

  // Its use is asked for behind a fold, which says what is recorded.
  const wet = page.locator('details').filter({ has: field(page, 'Outdoors or often wet') });
  await expect(wet.locator('summary')).toContainText('dry, indoors');
  await wet.locator('summary').click();
  await field(page, 'Outdoors or often wet').selectOption({ label: 'yes' });
  await expect(findingHeading(page, 'Hold: outdoors or often wet')).toBeVisible();
  await expect(wet.locator('summary')).toContainText('outdoors or often wet');
});

test('a floor over boards gets the tasks of a wood floor, a line needs a written reason to be skipped, and the helper gets the sheet', async ({
  book,
  page,
}) => {
  await openFloor(page, { yearBuilt: 1995 });
  await layers(page, ['carpet', 'plank subfloor', 'joists'], 1);
  // The carpet covers part of the room: its area is drawn by corners and removed.
  await button(page, 'Extent of carpet: whole room').click();
  const part = page.getByRole('dialog');
  await field(part, 'Extent').selectOption({ label: 'area drawn on the plan' });
  const sheet = part.getByRole('group', { name: /^Plan: click or tap the corners/ });
  const box = await sheet.boundingBox();
  if (box === null) throw new Error('No plan to press on.');
  for (const [across, down] of xy('0.4,0.4 0.5,0.4 0.5,0.6')) await page.mouse.click(box.x + across * box.width, box.y + down * box.height);
  for (const [i, across, down] of [
    [1, `0`, `0`],
    [2, `5'`, `0`],
    [3, `5'`, `4'`],
  ] as const) {
    await write(field(part, `Corner ${i} of the area, across`), across);
    await write(field(part, `Corner ${i} of the area, down`), down);
  }
  await expect(part.getByRole('status')).toHaveText('10 sq ft of the floor.');
  await button(part, 'Save').click();
  await expect(button(page, 'Extent of carpet: 10 sq ft')).toBeVisible();
  for (const need of ['subfloor moisture', 'joist moisture', 'joist deflection'])
    await expect(page.getByRole('button', { name: new RegExp(`^${need}: not tested`) })).toBeVisible();
  // The result follows each key, so that it moves nothing when the button is pressed.
  await field(page, 'Add test').selectOption({ label: 'Ambient conditions' });
  const ambient = page.getByRole('dialog', { name: 'Ambient conditions' });
  await field(ambient, 'Air temperature').fill('68');
  await field(ambient, 'Relative humidity').fill('50');
  await expect(ambient.getByRole('status')).toContainText('The floor temperature was not measured.');
  await field(ambient, 'Floor temperature').fill('67');
  expect(await ambient.getByRole('status').textContent()).not.toContain('was not measured');
  await button(ambient, 'Save').click();
  await expect(ambient).toBeHidden();
  await toSheet(page, 'prep');
  const wood = [
    'Screw down the subfloor, about every 6 in. at edges and 8 in. in the field, glue what moves',
    'Seal gaps, panel joints, knots and pipe holes in the subfloor',
    'Fasten galvanized lath over the primed subfloor: about every 6 in., laps 2 in., or the mesh on the data sheet',
  ];
  for (const line of wood) await expect(button(page, line)).toBeVisible();
  await expect(page.getByRole('row').filter({ hasText: 'Pull up the carpet' })).toContainText('10 sq ft');
  await button(page, `More about ${wood[0] ?? ''}`).click();
  const dialog = page.getByRole('dialog').or(page.getByRole('alertdialog'));
  await button(dialog, 'Override hold…').click();
  await button(dialog, 'Override hold').click();
  await expect(dialog).toContainText('Enter a reason');
  await field(dialog, 'Reason').fill('Short');
  await button(dialog, 'Override hold').click();
  // The entered text stays, with what is required.
  await expect(dialog).toContainText('Enter a reason in a full sentence.');
  await expect(field(dialog, 'Reason')).toHaveValue('Short');
  await field(dialog, 'Reason').fill('Every board was screwed down last week by the owner.');
  await button(dialog, 'Override hold').click();
  // Neither the owner's name nor initials were entered before. They are kept for the next.
  await expect(dialog).toContainText('Enter your initials.');
  await field(dialog, 'Your initials').fill('OB');
  await button(dialog, 'Override hold').click();
  await expect(dialog).toBeHidden();
  await expect(page.getByLabel('Your initials')).toHaveValue('OB');
  await expect(page.getByText('Overridden by OB: Every board was screwed down last week by the owner.')).toBeVisible();

  await button(page, 'Save prep sheet').click();
  const papers = (): string[] => (existsSync(book.papers) ? readdirSync(book.papers).filter((name) => name.endsWith('.pdf')) : []);
  await expect.poll(() => papers().length).toBe(1);
  const file = join(book.papers, papers()[0] ?? '');
  const paper = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' }).replaceAll(/\s+/g, ' ');
  expect(paper).toContain('Kitchen: prep');
  expect(paper).toContain('Screw down the subfloor');
  expect(paper).toContain('Every board was screwed down last week by the owner.');
});
