/** The book outlives the browser's profile it stood in. */
import { expect, test } from './open-book.ts';

test('a book backed up comes back whole into an empty profile, and the same job is there', async ({ program, page, browser }) => {
  await page.goto(program.address);
  await page.getByRole('button', { name: 'Look around in the sample book' }).click();
  await expect(page.locator('.today-list li').first()).toBeVisible({ timeout: 30_000 });
  await page.goto(new URL('/#/jobs', program.address).href);
  await page.locator('.jobs-list > li').first().waitFor();
  const jobs = await page.locator('.jobs-who').allInnerTexts();
  await page.goto(new URL('/#/keeping', program.address).href);
  await page.getByRole('button', { name: 'Copy the book now' }).click();
  await expect(page.getByText('was written and checked.')).toBeVisible();
  await page.close();

  const empty = await browser.newContext();
  try {
    const fresh = await empty.newPage();
    await fresh.goto(program.address);
    await expect(fresh.getByRole('button', { name: 'Look around in the sample book' })).toBeVisible();
    await fresh.goto(new URL('/#/keeping', program.address).href);
    await fresh
      .getByRole('button', { name: /^Look into the copy of/ })
      .first()
      .click();
    await fresh.getByRole('button', { name: 'Restore it' }).click();
    await expect(fresh.getByText('is back.')).toBeVisible();
    await fresh.goto(new URL('/#/jobs', program.address).href);
    await fresh.locator('.jobs-list > li').first().waitFor();
    expect(await fresh.locator('.jobs-who').allInnerTexts()).toEqual(jobs);
    await fresh.goto(new URL('/#/', program.address).href);
    await expect(fresh.getByText(/^Book copied/)).toBeVisible();
  } finally {
    await empty.close();
  }
});
