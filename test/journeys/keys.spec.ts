/** Keyboard use of a figure's reason and of a field, on the sample's estimate; the first job of an empty book. */
import { faults } from './faults.ts';
import { expect, test } from './open-book.ts';

test('a reason opens by Enter and closes with Escape; an invalid entry stays in its field, and Escape restores the last valid value', async ({
  sample: program,
  page,
}) => {
  await page.goto(new URL('/#/jobs/sample-job-odell/estimate/sample-hall', program.address).href);
  const figure = page.locator('button.reason').first();
  await figure.focus();
  await page.keyboard.press('Enter');
  const panel = page.getByRole('dialog');
  await expect(panel).toBeVisible();
  expect(await faults(page, '[role="dialog"]')).toEqual([]);
  await page.keyboard.press('Escape');
  await expect(panel).toBeHidden();
  await expect(figure).toBeFocused();

  const field = page.getByLabel('Max sanding depth');
  const valid = await field.inputValue();
  await field.fill('three/or so');
  await field.press('Enter');
  await expect(field).toHaveValue('three/or so');
  await expect(field).toHaveAttribute('aria-invalid', 'true');
  // The key that opens the search is a letter here.
  await field.press('/');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await field.press('Escape');
  await expect(field).toHaveValue(valid);
});

test('an empty list of jobs has no WCAG fault', async ({ book, page }) => {
  await page.goto(new URL('/#/jobs', book.address).href);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  expect(await faults(page)).toEqual([]);
});

test('a screen gone to by key has the focus on its heading and the title of the window; a form begins in its first field', async ({
  sample: program,
  page,
}) => {
  await page.goto(new URL('/#/stock', program.address).href);
  await expect(page).toHaveTitle(/^Stock - .*Straightedge$/);
  await page.getByRole('link', { name: 'Jobs', exact: true }).focus();
  await page.keyboard.press('Enter');
  await expect(page).toHaveTitle(/^Jobs - .*Straightedge$/);
  await expect(page.getByRole('heading', { level: 1, name: 'Jobs' })).toBeFocused();

  await page.goto(new URL('/#/stock', program.address).href);
  await page.getByRole('button', { name: 'Record stock' }).first().click();
  await expect(page.getByRole('dialog').locator('input, select, textarea').first()).toBeFocused();
  await page.keyboard.press('Escape');

  // A void says beforehand that it stays, and undo says what it cannot undo.
  await page.getByRole('button', { name: /^Void/ }).first().click();
  const dialog = page.getByRole('alertdialog');
  await expect(dialog.getByText('This cannot be undone.')).toBeVisible();
  await page.keyboard.type('Entered twice');
  await dialog.getByRole('button', { name: 'Void' }).click();
  await expect(dialog).toBeHidden();
  await page.keyboard.press('Control+z');
  await expect(page.getByText('“void purchase” cannot be undone. Record or issue it again if it still counts.')).toBeVisible();
  await expect(page.getByRole('button', { name: /^Redo/ })).toHaveCount(0);
});

test('keys of one letter stay with their entries, and can be turned off with their hints', async ({ sample: program, page }) => {
  await page.goto(new URL('/#/', program.address).href);
  const key = page.locator('.letter-row', { has: page.getByRole('button', { name: /^Next workday: / }) }).first();
  const letter = (await key.locator('.letter-key').textContent()) ?? '';
  for (let times = 0; times < 2; times++) {
    await page.keyboard.press(`Shift+${letter}`);
    await expect(page.getByText(/^Moved to .+: /)).toBeVisible();
    await page.getByRole('button', { name: 'Close' }).last().click();
  }
  const undo = page.getByRole('button', { name: /^Undo/ });
  const second = await undo.getAttribute('title');
  await undo.click();
  await expect(undo).not.toHaveAttribute('title', second ?? '');
  const of = (title: string | null): string => /“(.+)”/.exec(title ?? '')?.[1] ?? '';
  expect(of(await undo.getAttribute('title'))).toBe(of(second));

  await page.goto(new URL('/#/business', program.address).href);
  await page.getByText('One-letter keys').click();
  await expect(page.getByRole('button', { name: 'New lead' }).locator('.key-hint')).toHaveCount(0);
  await page.locator('h1').click();
  await page.keyboard.press('n');
  await page.keyboard.press('/');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await page.keyboard.press('Control+k');
  await expect(page.getByRole('dialog')).toBeVisible();
});
