/** From a tape to a quote: an L entered by keyboard, its readings, its level raised, and the bags that follow. */
import { keyboard } from './input-devices.ts';
import { expect, test } from './open-book.ts';
import { customer, jobFor, property, roomNamed } from './mill-lane.ts';
import { points } from '../outlines.ts';
import { putRows } from './stored-rows.ts';
import { toSheet } from './open-sample.ts';

const room = roomNamed('Hall');
const job = jobFor(room, 'Hall to level');

test('an L is drawn from tape lengths by keyboard, thirty readings are taken, and the quote’s bags follow the level', async ({
  book: _book,
  page,
}) => {
  await putRows(page, { customers: [customer], properties: [property], rooms: [room], jobs: [job] });
  await toSheet(page, `/plan/${room.id}`);
  await expect(page.getByRole('heading', { level: 1, name: 'Hall: plan' })).toBeVisible();

  // The shape by arrow keys, each side with Enter; the fifth is misread by an inch.
  await page.getByRole('radio', { name: 'Rectangle' }).focus();
  await page.keyboard.press('ArrowRight');
  await expect(page.getByLabel('Side 6', { exact: true })).toBeVisible();
  await page.getByLabel('Side 1', { exact: true }).focus();
  const sides = [`20' 6"`, `8'`, `10'`, `5' 8"`, `10' 5"`, `13' 8"`];
  for (const [i, side] of sides.entries()) {
    await expect(page.getByLabel(`Side ${i + 1}`, { exact: true })).toBeFocused();
    await page.keyboard.type(side);
    await page.keyboard.press('Enter');
  }
  await expect(page.getByRole('complementary').getByRole('alert')).toContainText('ends 1″');
  await page.getByRole('button', { name: 'Side 5 is 10′ 6″' }).press('Enter');
  // 20.5 × 8 and 10.5 × 5 2/3 square feet.
  await expect(page.getByText('68′ 4″ wall length')).toBeVisible();
  await expect(page.getByRole('button', { name: '224' })).toBeVisible();

  await page.getByRole('link', { name: 'Take readings' }).press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Hall: existing floor' })).toBeVisible();
  const entry = page.getByLabel('Reading down from laser');
  await expect(entry).toBeFocused();
  // A level floor with one low place: the pour is the minimum thickness everywhere, plus that place.
  await page.keyboard.type('40');
  await page.keyboard.press('Enter');
  for (let i = 1; i < 30; i += 1) await page.keyboard.press('=');
  await expect(page.getByText(/^30 read, /)).toBeVisible();
  // An eighth over 223.5 square feet is 2.33 cubic feet.
  await expect(page.getByRole('button', { name: '2.3' })).toBeVisible();

  await page.getByRole('radio', { name: 'List' }).focus();
  await page.keyboard.press('Space');
  const twelfth = page.getByLabel('Reading 12, value');
  await twelfth.fill('41');
  await twelfth.press('Enter');
  await expect(page.getByRole('button', { name: '2.3' })).toHaveCount(0);
  await expect(page.getByText(/high to low$/)).toContainText('1″');

  // All of it is stored, not only on the screen.
  await page.reload();
  await expect(page.getByText(/^30 read, /)).toBeVisible();

  // The level is raised by keys, and with it the bags of the quote.
  const hands = keyboard(page);
  await hands.press(page.getByRole('link', { name: 'Next: Estimate' }));
  await expect(page.getByRole('heading', { level: 1, name: 'Hall: pour depth' })).toBeVisible();
  await hands.choose(page.getByLabel('Material', { exact: true }), 'Self-leveling underlayment, fine');
  const bags = page.locator('.answer-figure').first();
  await expect(bags).toHaveText(/^\d+$/);
  const before = Number(await bags.innerText());
  const level = page.getByRole('slider', { name: /^Finish elevation/ });
  await expect(level).toHaveAttribute('aria-valuetext', /^1⅛″ above the low point/);
  await level.focus();
  for (let i = 0; i < 4; i += 1) await page.keyboard.press('ArrowUp');
  await expect(level).toHaveAttribute('aria-valuetext', /^1⅜″ above the low point/);
  await page.keyboard.press('Enter');
  // A quarter of an inch more over 223.5 square feet is 4.66 cubic feet: about ten bags of 0.45 (common practice, no source).
  await expect.poll(async () => Number(await bags.innerText()) - before).toBeGreaterThanOrEqual(9);
  const after = Number(await bags.innerText());
  expect(after - before).toBeLessThanOrEqual(14);
  await hands.press(page.getByRole('button', { name: 'Next: Quote' }));
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Price');
  await expect(page.getByRole('row').filter({ hasText: 'Self-leveling underlayment' }).first()).toContainText(String(after));
});

test('a reading with a shifted decimal point is listed at its place and corrected with one click', async ({ book: _book, page }) => {
  const f = 0.3048;
  const outline = [
    { xM: 0, yM: 0 },
    { xM: 12 * f, yM: 0 },
    { xM: 12 * f, yM: 10 * f },
    { xM: 0, yM: 10 * f },
  ];
  const readings = Array.from({ length: 25 }, (_, i) => ({
    id: `reading-${i}`,
    xM: 0.1 + (i % 5) * 0.86,
    yM: 0.1 + Math.floor(i / 5) * 0.7,
    valueM: i === 12 ? 0.102 : 1.02 + (i % 3) * 0.001,
    note: null,
    confirmed: false,
  }));
  await putRows(page, { rooms: [{ ...room, plan: { ...room.plan, outline }, survey: { ...room.survey, readings } }] });
  await toSheet(page, `/readings/${room.id}`);
  await expect(page.getByRole('listitem').filter({ hasText: 'the decimal point slipped one place' })).toBeVisible();
  await page.getByRole('button', { name: /^Change to 40/ }).click();
  await expect(page.getByText('Check 1 reading')).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(page.getByText('Check 1 reading')).toBeVisible();
  // A table that reads two of the points again says how many readings it replaces. Another setting withdraws that.
  await page.getByRole('radio', { name: 'List', exact: true }).focus();
  await page.keyboard.press('Space');
  await page.getByLabel('Column of readings').fill('x (m),y (m),down from laser (m)\n0.1,0.1,1.03\n0.96,0.1,1.03\n3,2.9,1.03');
  await page.getByRole('button', { name: 'Preview table' }).click();
  const dialog = page.getByRole('dialog', { name: /^Import readings/ });
  const replaces = dialog.getByText('Replaces 2 readings of this survey.');
  await dialog.getByRole('button', { name: 'Correct it' }).click();
  await expect(replaces).toBeVisible();
  await dialog.getByLabel('Decimal sign').selectOption('comma');
  await expect(replaces).toBeHidden();
  await dialog.getByLabel('Decimal sign').selectOption('point');
  await dialog.getByRole('button', { name: 'Correct it' }).click();
  await dialog.getByRole('button', { name: 'Import 3 readings' }).click();
  await expect(dialog).toBeHidden();
  await expect(page.getByRole('button', { name: /^Delete reading/ })).toHaveCount(26);
});

test('a second press of Enter on a corner’s Delete deletes no second corner', async ({ book: _book, page }) => {
  await putRows(page, { rooms: [{ ...room, plan: { ...room.plan, outline: points('0,0 4,0 4,3 2,3 2,4 0,4') } }] });
  await toSheet(page, `/plan/${room.id}`);
  await page.getByRole('radio', { name: 'Corners', exact: true }).focus();
  await page.keyboard.press('Space');
  const deletes = page.getByRole('button', { name: /^Delete corner/ });
  await expect(deletes).toHaveCount(6);
  await deletes.nth(1).focus();
  await page.keyboard.press('Enter');
  await expect(deletes).toHaveCount(5);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Control+z');
  await expect(deletes).toHaveCount(6);
});
