/** Hostile text in every text field, on every screen: it is shown as text, and nothing of it becomes an element or runs. */
import { hostileBook } from '../hostile-book.ts';
import { emptyBook, packRows } from '../main/desk/backups/pack-rows.ts';
import { addressOf, expect, test } from './open-book.ts';

const ROUTES = [
  '/',
  '/jobs',
  '/customers',
  '/customers/sample-odell',
  '/materials',
  '/business',
  '/backup',
  ...['assess', 'prep', 'estimate', 'quote', 'pour', 'cure'].map((stage) => `/jobs/sample-job-odell/${stage}/sample-hall`),
  // Only a poured floor can be handed over.
  '/jobs/sample-job-abara/handover/sample-living',
  '/plan/sample-hall',
  '/readings/sample-hall',
];

test('hostile text in every text field is text on every screen', async ({ program, page }) => {
  const dialogs: string[] = [];
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  const { book } = hostileBook(new Date().toISOString());
  await page.goto(program.address);
  await page.getByRole('button', { name: 'Open sample data' }).waitFor();
  await page.goto(addressOf(program.address, '/backup'));
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByText('Choose file…').click()]);
  // The sample's rows with hostile text replace the stored ones.
  const bytes = packRows({ ...emptyBook(), ...(book as object) });
  await chooser.setFiles({ name: 'Book.zip', mimeType: 'application/zip', buffer: bytes });
  await page.getByRole('button', { name: 'Restore this backup…' }).click();
  await page.getByRole('button', { name: 'Restore', exact: true }).click();
  await expect(page.getByText('was restored.')).toBeVisible();
  const property = book.jobs.find((job) => job.id === 'sample-job-odell')?.propertyId ?? '';
  for (const route of [...ROUTES, `/properties/${property}`]) {
    // A screen without any of it between, so that the last screen's text is not taken for this one's.
    await page.goto(addressOf(program.address, '/licenses'));
    await expect(page.getByRole('main')).not.toContainText('data-hostile');
    await page.goto(addressOf(program.address, route));
    // The preview is drawn when its image has a name.
    if (route.includes('/handover/'))
      await expect(page.getByRole('main').getByRole('img', { name: '<img src=x data-hostile' }).first(), route).toBeVisible();
    else if (route !== '/backup') await expect(page.locator('main, [role=main]').first(), route).toContainText('<img src=x data-hostile');
    expect(await page.locator('[data-hostile]').count(), route).toBe(0);
    expect(await page.getByText('This screen could not be displayed').count(), route).toBe(0);
  }
  expect(dialogs).toEqual([]);
});
