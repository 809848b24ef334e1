/** A call in one line, to the price of its room; and a call from a customer on record. */
import type { Page } from '@playwright/test';
import { faults } from './faults.ts';
import { addressOf, expect, test } from './open-book.ts';
import { storedRows } from './stored-rows.ts';

const LINE = 'Dana Wicklow 555-0142, kitchen 12x14, tile over slab, about 3/8 out, referred, visit tomorrow 4pm';

/** Each key, press or filled field is one interaction. */
const counted = (page: Page) => {
  let count = 0;
  return {
    key: async (key: string): Promise<void> => {
      count += 1;
      await page.keyboard.press(key);
    },
    fill: async (label: RegExp, text: string): Promise<void> => {
      count += 1;
      await page.getByLabel(label).fill(text);
    },
    press: async (name: string): Promise<void> => {
      count += 1;
      await page.getByRole('button', { name, exact: true }).click();
    },
    count: () => count,
  };
};

test('a call becomes a job with its room drawn on the estimate in three interactions', async ({ book: _book, page }) => {
  const hands = counted(page);
  await hands.key('n');
  await hands.fill(/^Name, phone/, LINE);
  // The understood facts are shown as ordinary fields.
  for (const [label, value] of [
    ['Name', 'Dana Wicklow'],
    ['Phone', '555-0142'],
    ['Source', 'Referral'],
    ['Room', 'Kitchen'],
    ['Width', '12′ 0″'],
    ['Length', '14′ 0″'],
    ['Floor, top to bottom', 'tile over slab'],
    ['Max gap under a 6 ft level', '⅜″'],
    ['Time', '4 pm'],
  ] as const)
    await expect(page.getByLabel(label, { exact: true })).toHaveValue(value);
  await expect(page.getByLabel('Next step', { exact: true })).toHaveValue('visit');
  expect(await faults(page)).toEqual([]);
  await hands.press('Save and price');
  await expect(page).toHaveURL(/#\/jobs\/[^/]+\/estimate\//);
  expect(hands.count()).toBeLessThanOrEqual(3);
  await expect(page.getByText('Dana Wicklow').first()).toBeVisible();

  // One edit: undo removes all of it, redo restores it.
  await page.keyboard.press('Control+z');
  await page.goto(`${new URL(page.url()).origin}/#/customers`);
  await expect(page.getByText('No customers yet.')).toBeVisible();
});

test('a call that was not saved is there again, even in a new window, until it is discarded', async ({ book, page }) => {
  const line = page.getByLabel(/^Name, phone/);
  await page.keyboard.press('n');
  await line.fill('Dana Wicklow 555-0142, kitchen 148x12');
  await page.getByLabel('Source', { exact: true }).fill('Website');
  await expect(page.getByRole('alert').filter({ hasText: 'For inches enter 148 in.' })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(line).toBeHidden();
  await page.goto(addressOf(book.address, '/customers'));
  await page.reload();
  await page.getByRole('button', { name: 'New lead' }).first().click();
  await expect(line).toHaveValue('Dana Wicklow 555-0142, kitchen 148x12');
  await expect(page.getByLabel('Source', { exact: true })).toHaveValue('Website');
  await expect(page.getByText('This call was not saved.')).toBeVisible();
  await page.getByRole('button', { name: 'Cancel' }).click();
  await page.keyboard.press('n');
  await expect(line).toHaveValue('');
});

test('a company that measures in metric reads a call in meters', async ({ book, page }) => {
  await page.goto(addressOf(book.address, '/business/units'));
  await page.getByText('Meters and kilograms', { exact: true }).click();
  await page.getByRole('button', { name: /^New lead/ }).click();
  await page.getByLabel(/^Name, phone/).fill('Dana Wicklow 555-0142, kitchen 3.6 x 4.2, about 10 mm out, visit tomorrow 4pm');
  await expect(page.getByLabel('Width', { exact: true })).toHaveValue('3.60 m');
  await expect(page.getByLabel('Max gap under a 6 ft level', { exact: true })).toHaveValue('10 mm');
});

test('a name alone is enough; a lead is closed with a reason and reopened', async ({ book: _book, page }) => {
  await page.keyboard.press('n');
  await page.getByLabel(/^Name, phone/).fill('555-0142');
  await page.getByRole('button', { name: 'Save lead' }).click();
  await expect(page.getByRole('alert').filter({ hasText: 'Enter the customer’s name' })).toBeVisible();
  await page.getByLabel(/^Name, phone/).fill('June Park 555-0142');
  // A next step without a date is for tomorrow. A date from the calendar replaces one that could not be read.
  const date = page.getByLabel('Date', { exact: true });
  await page.getByLabel('Next step', { exact: true }).selectOption({ label: 'Visit' });
  await expect(date).not.toHaveValue('');
  await date.fill('whenever');
  await date.press('Tab');
  await expect(date).toHaveAttribute('aria-invalid', 'true');
  await page.locator('input[type=date]').fill('2031-05-14', { force: true });
  await expect(date).toHaveValue('May 14, 2031');
  await expect(date).not.toHaveAttribute('aria-invalid');
  await page.getByRole('button', { name: 'Save lead' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'June Park' })).toBeVisible();
  expect(await storedRows(page, 'leads')).toMatchObject([{ next: { step: 'visit', day: '2031-05-14', clock: null } }]);
  // Today does not say that nothing is due above a lead that is.
  await date.fill('tomorrow');
  await date.press('Enter');
  await page.getByRole('link', { name: 'Today', exact: true }).click();
  await expect(page.getByText('1 lead is due this week.')).toBeVisible();
  await expect(page.getByText(/Nothing is due/)).toHaveCount(0);
  await page.goBack();
  await page.getByRole('button', { name: 'Mark as lost…' }).click();
  await page.getByLabel('Reason', { exact: true }).fill('Price');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(page.getByText(/^Lost .+ Price$/)).toBeVisible();
  await page.getByRole('button', { name: 'Reopen lead' }).click();
  await expect(page.getByRole('button', { name: 'Mark as won…' })).toBeVisible();

  // The same phone number again: the lead is added to the customer on record.
  await page.getByRole('heading', { level: 1 }).click();
  await page.keyboard.press('n');
  await page.getByLabel(/^Name, phone/).fill('J. Park 555-0142, hall 4x20');
  await expect(page.getByRole('checkbox', { name: /^Add to existing customer: June Park/ })).toBeChecked();
  // A double click saves one lead, and starts one job.
  await page.getByRole('button', { name: 'Save lead' }).dblclick();
  await expect(page.getByRole('heading', { level: 1, name: 'June Park' })).toBeVisible();
  await expect(page.getByText('Address not recorded').first()).toBeVisible();
  await expect(page.getByRole('link', { name: 'Go to property', exact: true })).toBeVisible();
  await expect(page.getByRole('heading', { name: /^Lead of/ })).toHaveCount(2);
  await page.getByRole('button', { name: 'Start job and price it' }).dblclick();
  await expect(page).toHaveURL(/#\/jobs\/[^/]+\/estimate\//);
  expect(await storedRows(page, 'jobs')).toHaveLength(1);

  // A call about a room that the property has: it is not made again.
  await page.getByRole('heading', { level: 1 }).click();
  await page.keyboard.press('n');
  await page.getByLabel(/^Name, phone/).fill('J. Park 555-0142, Hall 4x20');
  await expect(page.getByLabel('Property', { exact: true })).toHaveValue(/\S/);
  await page.getByRole('button', { name: 'Save lead' }).click();
  await expect(page.getByRole('heading', { name: /^Lead of/ })).toHaveCount(3);
  expect(await storedRows(page, 'rooms')).toHaveLength(1);
});
