/** From the first call to a price and to issued quotes, counting every press and field. Readings are entered without being counted. */
import type { Locator, Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { storedRows } from './stored-rows.ts';

const LINE = 'Dana Wicklow 555-0142, kitchen 12x14, tile over slab, about 3/8 out, referred, visit tomorrow 4pm';
const TWO_ROOMS = 'June Park 555-0177, kitchen 12x14, hall 4x20, tile over slab, about 3/8 out, website';

/** Counts presses (clicks and keys) and fields. A list to choose from is a field. */
const counting = (page: Page) => {
  const count = { presses: 0, fields: 0 };
  return {
    count,
    key: async (key: string): Promise<void> => {
      count.presses += 1;
      await page.keyboard.press(key);
    },
    press: async (target: Locator): Promise<void> => {
      count.presses += 1;
      await target.click();
    },
    fill: async (field: Locator, text: string): Promise<void> => {
      count.fields += 1;
      await field.fill(text);
    },
  };
};

/** Readings down from the laser, of a floor that slopes 1/4 in. across the room. */
const takeReadings = async (page: Page): Promise<void> => {
  const field = page.getByLabel('Reading down from laser');
  await expect(field).toBeVisible();
  const of = /of (\d+)/.exec(await page.getByText(/^Point \d+ of \d+/).innerText())?.[1];
  for (let i = 0; i < Number(of); i += 1) {
    await expect(page.getByText(new RegExp(`^${i} read`))).toBeVisible();
    await field.fill(String(36 + (i % 5) / 16));
    await page.keyboard.press('Enter');
  }
};

const button = (page: Page, name: string): Locator => page.getByRole('button', { name, exact: true });
const link = (page: Page, name: string): Locator => page.getByRole('link', { name, exact: true });

test('lead to ballpark PDF in 15 interactions, then a measured room to an issued quote in 40 presses and 30 fields', async ({
  book: _book,
  page,
}) => {
  const hands = counting(page);
  await hands.key('n');
  await hands.fill(page.getByLabel(/^Name, phone/), LINE);
  await hands.press(button(page, 'Save and price'));
  // Before any material is chosen the typical underlayment stands in.
  await expect(page.getByLabel('Material', { exact: true })).toContainText('Self-leveling underlayment, fine');
  await hands.fill(page.getByLabel('Company name'), 'Plumb Line Floors');
  await hands.press(button(page, 'Save ballpark PDF').last());
  await expect(page.getByText(/^Ballpark \d\d-001 number 1, Dana Wicklow\.pdf was saved to /)).toBeVisible();
  expect(hands.count.presses + hands.count.fields).toBeLessThanOrEqual(15);

  await hands.press(link(page, 'Take readings'));
  await takeReadings(page);
  await hands.press(link(page, 'Next: Estimate'));
  await hands.press(button(page, 'Next: Quote'));
  await hands.fill(page.getByLabel('Address of the work'), '12 Mill Lane');
  await hands.fill(page.getByLabel('Your name'), 'Ros Teague');
  await hands.fill(page.getByLabel('Company phone'), '555-0100');
  await hands.fill(page.getByLabel('License'), 'HIC 12-3456');
  await hands.fill(page.getByLabel('Sales tax', { exact: true }), '8');
  await hands.press(button(page, 'Done'));
  await hands.press(button(page, 'Issue quote'));
  await expect(page.getByText(/^Quote \d\d-001 revision 1, Dana Wicklow\.pdf was saved to /)).toBeVisible();
  expect(hands.count.presses).toBeLessThanOrEqual(40);
  expect(hands.count.fields).toBeLessThanOrEqual(30);

  // A decline needs a reason; a later acceptance wins the lead.
  await button(page, 'Record decision').first().click();
  const dialog = page.getByRole('dialog');
  await dialog.getByText('Declined', { exact: true }).click();
  await button(page, 'Save').click();
  await expect(dialog.getByText('Enter the reason. It is counted with lost leads.')).toBeVisible();
  await dialog.getByText('Accepted', { exact: true }).click();
  await button(page, 'Save').click();
  await expect(dialog).toBeHidden();
  await link(page, 'Customers').click();
  await expect(page.getByTestId('lead-counts')).toHaveText('0 open, 1 won, 0 lost.');
});

test('a call of the user’s own waits for a company of their own while the sample’s stands in', async ({ sample: _sample, page }) => {
  await page.keyboard.press('n');
  await page.getByLabel(/^Name, phone/).fill(LINE);
  await button(page, 'Save and price').click();
  const save = page.getByRole('button', { name: /^Save ballpark PDF/ }).last();
  await expect(save).toHaveAttribute('title', /^Your company information is from the sample data\./);
  await button(page, 'Enter your company').click();
  await page.getByLabel('Company name').fill('Plumb Line Floors');
  await page.getByLabel('Company address').fill('7 Weir Street');
  await save.click();
  await expect(page.getByText(/^Ballpark \d\d-034 number 1, Dana Wicklow\.pdf was saved to /)).toBeVisible();
});

test('two rooms to an issued quote in 60 presses and 45 fields, each with the primer for its floor', async ({ book: _book, page }) => {
  const hands = counting(page);
  await hands.key('n');
  await hands.fill(page.getByLabel(/^Name, phone/), TWO_ROOMS);
  await hands.press(button(page, 'Save and price'));
  await hands.press(link(page, 'Take readings'));
  await takeReadings(page);
  await hands.press(link(page, 'Next: Estimate'));
  // Each room starts with the primer for its floor, so that nothing is missing.
  await expect(page.getByLabel('Primer', { exact: true }).locator('option:checked')).toHaveText('Primer, non-porous substrate');
  await hands.press(
    page
      .getByRole('button', { name: /^Hall/ })
      .or(page.getByRole('link', { name: /^Hall/ }))
      .first(),
  );
  // What the call says of both floors is recorded for each.
  await expect(button(page, 'Same as kitchen')).toHaveCount(0);
  await hands.press(link(page, 'Take readings'));
  await takeReadings(page);
  await hands.press(link(page, 'Next: Estimate'));
  await hands.press(button(page, 'Next: Quote'));
  await hands.fill(page.getByLabel('Address of the work'), '4 Fell Road');
  await hands.fill(page.getByLabel('Company name'), 'Plumb Line Floors');
  await hands.press(button(page, 'Done'));
  await hands.press(button(page, 'Issue quote'));
  await expect(page.getByText(/^Quote \d\d-001 revision 1, June Park\.pdf was saved to /)).toBeVisible();
  expect(hands.count.presses).toBeLessThanOrEqual(60);
  expect(hands.count.fields).toBeLessThanOrEqual(45);
});

test('a floor is measured with a level carried around and back; a loop that does not close gives no price', async ({
  book: _book,
  page,
}) => {
  await page.keyboard.press('n');
  await page.getByLabel(/^Name, phone/).fill('Ines Brook 555-0101, den 12x12, plywood over joists');
  await button(page, 'Save and price').click();
  // The length of the level may be entered before the gap.
  const level = page.getByLabel('Level length', { exact: true });
  await level.fill('4');
  await level.press('Enter');
  await expect(level).toHaveValue('4′ 0″');
  const gap = page.getByRole('textbox', { name: 'Max gap', exact: true });
  await gap.fill('1/4');
  await gap.press('Enter');
  // International foot of 0.3048 m: NIST SP 811, appendix B.8.
  await expect
    .poll(() => storedRows(page, 'rooms'))
    .toMatchObject([{ ballpark: { gapM: expect.closeTo(0.00635, 9), levelLengthM: expect.closeTo(1.2192, 9) } }]);
  await link(page, 'Take readings').click();
  await page.getByText('No laser', { exact: true }).click();
  const run = async (number: number, direction: string, values: string): Promise<void> => {
    await button(page, 'Add run').click();
    await page.getByLabel(`Run ${number}, direction`).selectOption({ label: direction });
    await page.getByLabel(`Run ${number}, readings`).fill(values);
    await page.getByLabel(`Run ${number}, level length`).press('Enter');
  };
  await run(1, 'right', '1/8\n1/16');
  await expect(page.getByText('No loop is closed yet. A mistake in one reading cannot be seen.')).toBeVisible();
  await run(2, 'down', '1/8\n0');
  await run(3, 'left', '-1/8\n-1/16');
  await run(4, 'up', '-1/8\n1');
  // 1 in. over 8 setups, by hand: the sum of all readings.
  await expect(page.getByTestId('closing')).toHaveText(/^Closing error \+?1″ over 8 setups\./);
  await expect(page.getByText(/^The loop does not close\./)).toBeVisible();
  await page.getByLabel('Run 4, readings').fill('-1/8\n1/16');
  await page.getByLabel('Run 4, level length').press('Enter');
  await expect(page.getByTestId('closing')).toHaveText(/^Closing error \+?1⁄16″|^Closing error \+?¹⁄₁₆″/);
  await expect(page.getByText('8 read,')).toBeVisible();
  await link(page, 'Next: Estimate').click();
  await expect(page.getByText(/^8 readings\. High to low/)).toBeVisible();
});
