/** Logger files with errors: each is named before anything is imported, and nothing is imported in part. */
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { openSample, toSheet } from './open-sample.ts';

const HOUR_MS = 3_600_000;
// The back hall was poured eight days before, at noon.
const NOW = '2026-05-20T14:00:00-04:00';
const NOON_MS = Date.parse('2026-05-20T12:00:00-04:00');

/** The format of a logger in New York: `2026-05-19 22:00:00`. */
const wall = (ms: number): string => new Date(ms - 4 * HOUR_MS).toISOString().slice(0, 19).replace('T', ' ');
const table = (head: string, count: number, stepMs: number, lastMs: number, rest: (i: number) => string): string =>
  [head, ...Array.from({ length: count }, (_, i) => `${wall(lastMs - (count - 1 - i) * stepMs)},${rest(i)}`)].join('\n');

const dialogOf = (page: Page) => page.getByRole('dialog', { name: 'Import logger file' });
const logs = (page: Page) => page.locator('.cure-logs > li');
const give = async (page: Page, name: string, text: string): Promise<void> => {
  if (!(await dialogOf(page).isVisible())) await page.getByRole('button', { name: 'Import logger file' }).click();
  await dialogOf(page)
    .locator('input[type="file"]')
    .setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
};
/** The room has a log of these hours already, so the program asks whether this is a second logger; both are kept. */
const takeSecondLogger = async (page: Page): Promise<void> => {
  await dialogOf(page)
    .getByText(/^Readings of the same hours are already imported/)
    .click();
  await dialogOf(page).getByRole('button', { name: 'Import', exact: true }).click();
};
const expectWords = (page: Page, words: string | RegExp) =>
  expect(dialogOf(page).getByText(words).first()).toBeVisible({ timeout: 90_000 });

test('a file that is empty, not a table, has wrong degrees or clock, repeats or gaps is questioned before anything is imported', async ({
  program,
  page,
}) => {
  await openSample(page, program, NOW);
  await toSheet(page, '/jobs/sample-job-abara/cure/sample-back-hall');
  await expect(logs(page).first()).toBeVisible();
  const before = await logs(page).count();
  const importButton = dialogOf(page).getByRole('button', { name: 'Import', exact: true });

  await give(page, 'empty.csv', '');
  await expectWords(page, 'empty.csv is empty: export it again from the logger, or paste its rows.');
  await expect(importButton).toBeDisabled();
  await give(page, 'letter.csv', 'Dear customer\nno readings today');
  await expectWords(page, /No column of times and temperatures was found/);
  await give(
    page,
    'clock.csv',
    table('Time,Temp F', 10, HOUR_MS, NOON_MS + 3 * HOUR_MS, () => '66'),
  );
  await expectWords(page, /(60|5\d) minutes in the future. The logger’s clock seems 1 hour fast/);
  await give(
    page,
    'gap.csv',
    table('Time,Temp F', 12, HOUR_MS, NOON_MS, () => '66')
      .split('\n')
      .filter((_, i) => i < 4 || i > 8)
      .join('\n'),
  );
  await expectWords(page, /^1 gap: May 20, 3 am to May 20, 9 am/);
  await give(
    page,
    'twice.csv',
    `${table('Time,Temp F', 5, HOUR_MS, NOON_MS, () => '66')}\n${table('', 5, HOUR_MS, NOON_MS, () => '66').trim()}`,
  );
  await expectWords(page, /^5 readings from .*5 duplicates are skipped/);
  await give(
    page,
    'column.csv',
    table('Time,Battery,Temp F', 10, HOUR_MS, NOON_MS, (i) => `3.1,${60 + i}`),
  );
  await expectWords(page, /60 °F to 69 °F/);
  await dialogOf(page).getByLabel('Temperature column').selectOption({ label: '2: Battery' });
  await expectWords(page, /Every temperature is below 45 °F/);

  await give(
    page,
    'degrees.csv',
    table('Time,Temp C', 10, HOUR_MS, NOON_MS, (i) => String(60 + i)),
  );
  await expectWords(page, 'Every temperature is above 45 °C. Are these degrees Fahrenheit? Choose °F.');
  await importButton.click();
  await expect(dialogOf(page).getByRole('alert')).toContainText('degrees Fahrenheit');
  expect(await logs(page).count()).toBe(before);
  await dialogOf(page).getByRole('button', { name: 'Correct it' }).first().click();
  await expectWords(page, /^10 readings from May 20, 3 am to May 20, noon, one every hour, 60 °F to 69 °F/);
  await takeSecondLogger(page);
  await expect(dialogOf(page)).toBeHidden();
  await expect(logs(page)).toHaveCount(before + 1);
});

test('a long file is read in the background, can be canceled and is stored as averages', async ({ program, page }) => {
  await openSample(page, program, NOW);
  await toSheet(page, '/jobs/sample-job-abara/cure/sample-back-hall');
  await expect(logs(page).first()).toBeVisible();
  const before = await logs(page).count();
  const seconds = (rows: number): string => table('Time,Temp F', rows, 1000, NOON_MS, (i) => String(64 + (i % 3)));
  // Delays the reader, so that the file is still being read.
  await page.route('**/log.worker*', () => undefined);
  await give(page, 'seconds.csv', seconds(50));
  await expect(dialogOf(page).getByRole('progressbar', { name: 'Rows read' })).toBeVisible();
  await expect(dialogOf(page).getByRole('button', { name: 'Import', exact: true })).toBeDisabled();
  await dialogOf(page).getByRole('button', { name: 'Stop', exact: true }).click();
  await expectWords(page, 'Stopped. Nothing was imported.');
  expect(await logs(page).count()).toBe(before);
  await page.unroute('**/log.worker*');
  await give(page, 'seconds.csv', seconds(60_000));
  await expectWords(page, /^60,000 readings from .* They are saved as 1,00\d averages over 1 min/);
  await takeSecondLogger(page);
  await expect(logs(page).filter({ hasText: /^seconds\.csv: 1,00\d readings/ })).toHaveCount(1);
  const byHand = page.locator('.cure-part').filter({ has: page.getByRole('heading', { name: /air readings$/ }) });
  await byHand.getByLabel('Air temperature').fill('61');
  await byHand.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(logs(page).filter({ hasText: /^61 °F/ })).toHaveCount(1);
});
