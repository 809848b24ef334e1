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
