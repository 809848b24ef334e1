/** A backup passed to the shell by the system opens read-only, and nothing is imported without being asked for. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { backupAmong } from '../../../main/desk/backups/passed-file.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { sampleAt } from '../../sample-at.ts';
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import { AT, emptyBook, packRows } from '../desk/backups/pack-rows.ts';
import { app, closeDouble, openShell } from './electron-double.ts';
import { scratchFolder } from '../../scratch-folder.ts';

vi.mock('electron', () => import('./electron-double.ts'));

const folder = scratchFolder('handed');
const argv = [...process.argv];
let page: Page;

/** A backup with this number of customers, in a file of its own. */
const backupOf = (name: string, count: number): string => {
  const { customers } = sampleAt(AT);
  const business = newBusiness(AT, 'America/New_York', 'en-US');
  // The sample's records as stored.
  const rows = { ...emptyBook(), business: [business as StoredRow], customers: customers.slice(0, count) as StoredRow[] };
  const path = join(folder, name);
  writeFileSync(path, packRows(rows));
  return path;
};

beforeAll(async () => {
  process.argv = ['/opt/straightedge', '--some-switch', backupOf('Portable backup.zip', 3)];
  page = await (await openShell(folder)).loaded;
}, 60_000);
afterAll(async () => {
  process.argv = argv;
  await closeDouble();
});

const writeBackup = async (): Promise<void> => {
  await page.getByRole('dialog').getByRole('button', { name: 'Cancel' }).click();
  await page.getByRole('dialog').waitFor({ state: 'hidden' });
};

it('named on the command line opens read-only, on the first screen', async () => {
  await page.getByRole('dialog').getByText('3 customers', { exact: false }).waitFor();
  await writeBackup();
});

it('passed by the system while the program runs opens on any screen', async () => {
  await page.evaluate(() => (location.hash = '#/jobs'));
  await page.getByRole('heading', { name: 'Jobs' }).first().waitFor();
  let prevented = false;
  app.emit('open-file', { preventDefault: () => (prevented = true) }, backupOf('Another book.zip', 2));
  expect(prevented).toBe(true);
  await page.getByRole('dialog').getByText('2 customers', { exact: false }).waitFor();
  await writeBackup();
});

it('named at a second start opens in the first window, also while a dialog is open', async () => {
  app.emit('second-instance', {}, ['/opt/straightedge', backupOf('A third.zip', 1)]);
  await page.getByRole('dialog').getByText('1 customer', { exact: false }).waitFor();
  await writeBackup();
});

it('that is no backup, or is missing, is refused in a sentence and not asked for again', async () => {
  const wrong = join(folder, 'Not one.zip');
  writeFileSync(wrong, 'no backup at all');
  app.emit('open-file', { preventDefault: () => undefined }, wrong);
  await page
    .getByText(/nothing in the book was changed|damaged/i)
    .first()
    .waitFor();
  app.emit('open-file', { preventDefault: () => undefined }, join(folder, 'gone.zip'));
  await page.getByText(/was moved or cannot be read/).waitFor();
  const second = await page.evaluate(() =>
    (globalThis as unknown as { straightedgeDesk: Record<string, (input: unknown) => Promise<unknown>> }).straightedgeDesk[
      'backup.handed'
    ]?.({}),
  );
  expect(second).toEqual({ ok: true, value: { name: null, uploaded: null } });
});

it('of any other kind is ignored', () => {
  expect(backupAmong(['straightedge', 'Quote.pdf'])).toBeNull();
  expect(backupAmong(['straightedge', '--open=book.zip'])).toBeNull();
  expect(backupAmong(['straightedge'])).toBeNull();
  expect(backupAmong(['book.zip'])).toBeNull();
  expect(backupAmong(['straightedge', 'a.zip', 'b.ENCRYPTED'])).toBe('b.ENCRYPTED');
});
