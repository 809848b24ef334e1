/** A customer, a property and its rooms by keyboard only; stored, reopened, and undone. */
import type { Page } from '@playwright/test';
import { faults } from './faults.ts';
import { expect, test } from './open-book.ts';
import { storedRows } from './stored-rows.ts';

const typeInto = async (page: Page, label: string, text: string): Promise<void> => {
  await page.getByLabel(label, { exact: true }).focus();
  await page.keyboard.type(text);
};

/** Adds Ottilie Brandt with a property on Mill Lane and two rooms; ends on the property's screen. */
const addPeople = async (page: Page): Promise<void> => {
  await page.getByRole('link', { name: 'Customers', exact: true }).press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Customers' })).toBeVisible();
  await typeInto(page, 'Name', 'Ottilie Brandt');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Ottilie Brandt' })).toBeVisible();
  await typeInto(page, 'Street address of a new property', '12 Mill Lane');
  await page.keyboard.press('Tab');
  await page.keyboard.type('Fenwick Bend');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: '12 Mill Lane' })).toBeVisible();
  for (const room of ['Hall', 'Laundry']) {
    await typeInto(page, 'New room', room);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('link', { name: room, exact: true })).toBeVisible();
    await expect(page.getByLabel('New room', { exact: true })).toHaveValue('');
  }
};

test('a customer, a property and two rooms entered by keyboard are there after the page is closed', async ({ book, page, context }) => {
  await addPeople(page);
  await page.close();

  const secondPage = await context.newPage();
  await secondPage.goto(book.address);
  await secondPage.getByRole('link', { name: 'Customers', exact: true }).press('Enter');
  const customers = secondPage.getByRole('list', { name: 'Customers' });
  await expect(customers.getByRole('listitem')).toHaveCount(1);
  // Any word of the property narrows the list, which says when it is empty.
  await typeInto(secondPage, 'Search customers', 'nobody');
  await expect(secondPage.getByText('No customer matches “nobody”')).toBeVisible();
  await secondPage.keyboard.press('Escape');
  await secondPage.keyboard.type('mill');
  await customers.getByRole('link', { name: 'Ottilie Brandt' }).press('Enter');
  await secondPage.getByRole('link', { name: '12 Mill Lane', exact: true }).press('Enter');
  await expect(secondPage.getByText('Fenwick Bend').first()).toBeVisible();
  await expect(secondPage.getByRole('link', { name: 'Hall', exact: true })).toBeVisible();
  await expect(secondPage.getByRole('link', { name: 'Laundry', exact: true })).toBeVisible();
});

test('undo unarchives a room, and an added room is undone and redone', async ({ book: _book, page }) => {
  await addPeople(page);
  const laundry = page.getByRole('link', { name: 'Laundry', exact: true });
  await page.getByRole('button', { name: 'Archive Laundry' }).press('Enter');
  await expect(laundry).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(laundry).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(laundry).toHaveCount(0);
  await page.keyboard.press('Control+Shift+z');
  await expect(laundry).toBeVisible();
  // An archived record can be unarchived without undo.
  await page.getByRole('button', { name: 'Archive Laundry' }).press('Enter');
  await page.getByRole('button', { name: 'Unarchive Laundry' }).press('Enter');
  await expect(laundry).toBeVisible();
  // A blank name is refused where it is entered.
  const name = page.getByLabel('Name of Laundry', { exact: true });
  await page.getByRole('button', { name: 'Rename Laundry' }).press('Enter');
  await name.fill('');
  await name.press('Enter');
  await expect(page.getByRole('alert').filter({ hasText: 'Enter a room name.' })).toBeVisible();
  await name.fill('Utility');
  await name.press('Enter');
  await expect(page.getByRole('link', { name: 'Utility', exact: true })).toBeVisible();
});

test('a job adds another room and removes it, and keeps the last one', async ({ book: _book, page }) => {
  await addPeople(page);
  await page.getByRole('checkbox', { name: 'Laundry' }).press('Space');
  await page.getByRole('button', { name: 'Start job' }).press('Enter');
  await expect(page).toHaveURL(/#\/jobs\/[^/]+\/assess\//);
  await page.goBack();
  await expect(page.getByRole('heading', { name: 'Rooms without a job' })).toBeVisible();
  expect(await faults(page)).toEqual([]);
  await page.getByRole('checkbox', { name: 'Laundry' }).press('Space');
  await page.getByRole('button', { name: /^Add to job / }).press('Enter');
  const letLaundryGo = page.getByRole('button', { name: /^Remove Laundry from job/ });
  await expect(letLaundryGo).toBeVisible();
  // A second press does not reach the command that takes its place, and the focus stays among the rooms.
  await letLaundryGo.press('Enter');
  await expect(letLaundryGo).toHaveCount(0);
  await expect(page.locator('.block-part:has(.property-rooms) :focus')).toHaveCount(1);
  await expect(page.getByRole('button', { name: 'Archive Laundry' })).not.toBeFocused();
  await expect(page.getByRole('status').filter({ hasText: /^Done: remove Laundry from \d\d-\d+\.$/ })).toBeAttached();
  await page.getByRole('button', { name: /^Remove Hall from job/ }).press('Enter');
  await expect(page.getByRole('alert').filter({ hasText: 'Hall is the only room' })).toBeVisible();
});

test('a contact and an access note entered with a pause are stored once and whole, and the cursor stays', async ({ book: _book, page }) => {
  await page.clock.install();
  await addPeople(page);
  /** Longer than the pause after which other fields are stored. */
  const pause = () => page.clock.runFor(2000);
  const note = page.getByRole('textbox', { name: 'Key', exact: true });
  await page.getByRole('button', { name: 'Add access note: key' }).press('Enter');
  await note.pressSequentially('with the');
  await pause();
  await expect(note).toBeFocused();
  await note.pressSequentially(' neighbor');
  await note.press('Enter');
  await expect.poll(() => storedRows(page, 'properties')).toMatchObject([{ access: [{ letter: 'K', text: 'with the neighbor' }] }]);
  await expect(note).toBeFocused();

  await page.goBack();
  const contact = page.getByLabel('Name of the contact', { exact: true });
  const phone = page.locator('.folded').getByLabel('Phone', { exact: true });
  await page.getByRole('button', { name: 'Add contact' }).press('Enter');
  await contact.pressSequentially('Ann');
  await pause();
  await contact.pressSequentially(' Teague');
  await contact.press('Enter');
  await expect(phone).toBeFocused();
  await phone.pressSequentially('555-0117');
  await pause();
  await expect(page.getByText('555-0117', { exact: true })).toBeVisible();
  await expect(phone).toBeFocused();
  // A field that is left with text in it stores it too.
  await page.getByRole('button', { name: 'Add contact' }).press('Enter');
  // Enter in the blank field adds nothing.
  await contact.press('Enter');
  await contact.pressSequentially('Bo Quill');
  await contact.press('Tab');
  await expect(page.getByText('Bo Quill', { exact: true })).toBeVisible();
  await expect(page.locator('.folded').nth(1).getByLabel('Phone', { exact: true })).not.toBeFocused();
  await expect
    .poll(() => storedRows(page, 'customers'))
    .toMatchObject([
      {
        contacts: [
          { name: 'Ann Teague', phone: '555-0117' },
          { name: 'Bo Quill', phone: '' },
        ],
      },
    ]);
});

test('an invalid entry stays in its field with a sentence, and the record keeps its last valid value', async ({ book: _book, page }) => {
  await page.getByRole('navigation').getByRole('link', { name: 'Settings', exact: true }).press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Settings' })).toBeVisible();
  const wrong = async (label: string, text: string, message: RegExp): Promise<void> => {
    const field = page.getByLabel(label, { exact: true });
    await field.fill(text);
    await field.press('Tab');
    await expect(page.getByRole('alert').filter({ hasText: message })).toBeVisible();
    await expect(field).toHaveValue(text);
  };
  for (const part of ['Taxes', 'Units', 'Costs', 'Working hours']) await page.getByRole('button', { name: `Edit ${part}` }).press('Enter');
  await wrong('Rate', '825', /over 60% looks like a typo/);
  await wrong('Time zone', 'Mars/Base', /not a known time zone/);
  await wrong('Travel', 'a lot', /not an amount/);
  await wrong('Day ends', '6 am', /after the start of the day, 7:30 am/);
  await wrong('Email', 'ros@', /Enter an email address/);

  const enter = async (label: string, text: string, reads: string): Promise<void> => {
    const field = page.getByLabel(label, { exact: true });
    await field.fill(text);
    await field.press('Tab');
    await expect(field).toHaveValue(reads);
  };
  await enter('Rate', '8.25', '8.25%');
  await enter('Travel', '0.7', '$0.70');
  await enter('Company name', 'Fenwick Floors', 'Fenwick Floors');
  // A price per mile is no whole number of cents per kilometer, and still reads back as entered.
  await page.reload();
  for (const part of ['Taxes', 'Costs', 'Working hours']) await page.getByRole('button', { name: `Edit ${part}` }).press('Enter');
  await expect(page.getByLabel('Travel', { exact: true })).toHaveValue('$0.70');
  await expect(page.getByLabel('Rate', { exact: true })).toHaveValue('8.25%');
  await expect(page.getByLabel('Company name', { exact: true })).toHaveValue('Fenwick Floors');
  // What was refused was not stored.
  await expect(page.getByLabel('Email', { exact: true })).toHaveValue('');
  await expect(page.getByLabel('Day ends', { exact: true })).toHaveValue('5 pm');
});

test('sample data is added and removed, and the user’s own data stays', async ({ book: _book, page }) => {
  await addPeople(page);
  await page.getByRole('navigation').getByRole('link', { name: 'Settings', exact: true }).press('Enter');
  await page.getByRole('button', { name: 'Open sample data' }).press('Enter');
  await page.getByRole('button', { name: 'Remove sample data' }).press('Enter');
  await page.getByRole('alertdialog').getByRole('button', { name: 'Remove' }).press('Enter');
  await expect(page.getByRole('status').filter({ hasText: 'Your own data was not changed' })).toBeVisible();
  await page.getByRole('link', { name: 'Customers', exact: true }).press('Enter');
  await expect(page.getByRole('list', { name: 'Customers' }).getByRole('listitem')).toHaveText(/Ottilie Brandt/);
});
