/** What only the real runtime can show: the scheme serves the page, the preload reaches it, the guards hold, and links go to the system. */
import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type ElectronApplication, expect, type Page, test } from '@playwright/test';
import { CALL_NAMES } from '../../shared-core/desk/call-names.ts';
import { startElectron } from './start-electron.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

const folder = mkdtempSync(join(tmpdir(), 'straightedge real & shell '));
let program: ElectronApplication;
let page: Page;

test.beforeAll(async () => {
  program = await startElectron(folder);
  page = await program.firstWindow();
  await page.getByRole('heading', { level: 1 }).waitFor();
});
test.afterAll(async () => {
  await program.close();
  removeFolder(folder);
});

test('the page comes from its own scheme, with the desk and without Node', async () => {
  expect(page.url()).toMatch(/^app:\/\/book\//);
  const seen = await page.evaluate(() => ({
    calls: Object.keys((globalThis as unknown as { straightedgeDesk: object }).straightedgeDesk).sort(),
    node: ['require', 'process', 'Buffer', 'module'].filter((name) => name in globalThis),
    isSecure: globalThis.isSecureContext,
  }));
  expect(seen).toEqual({ calls: [...CALL_NAMES].sort(), node: [], isSecure: true });
});

test('data is where STRAIGHTEDGE_DATA says', async () => {
  expect(await program.evaluate(({ app }) => app.getPath('userData'))).toBe(join(folder, 'data', 'desktop'));
  expect(existsSync(join(folder, 'data', 'desktop'))).toBe(true);
});

test('an email link goes to the system; no link leaves the page or opens a window', async () => {
  await program.evaluate(({ shell }) => {
    const seen: string[] = [];
    Object.assign(globalThis, { openedOutside: seen });
    shell.openExternal = (address: string) => Promise.resolve(void seen.push(address));
  });
  await page.evaluate(() => {
    for (const [href, target] of [
      ['mailto:ida@example.invalid', ''],
      ['tel:+15550100', ''],
      ['https://straightedge.example/', ''],
      ['https://straightedge.example/', '_blank'],
    ] as const)
      Object.assign(document.createElement('a'), { href, target }).click();
  });
  const opened = () => program.evaluate(() => (globalThis as unknown as { openedOutside: string[] }).openedOutside);
  await expect.poll(opened).toEqual(['mailto:ida@example.invalid', 'tel:+15550100']);
  expect(page.url()).toMatch(/^app:\/\/book\//);
  expect(program.windows()).toHaveLength(1);
});

test('stored data is there after a restart', async () => {
  await page.evaluate(() => localStorage.setItem('kept', 'a value'));
  await program.close();
  program = await startElectron(folder);
  page = await program.firstWindow();
  await page.getByRole('heading', { level: 1 }).waitFor();
  expect(await page.evaluate(() => localStorage.getItem('kept'))).toBe('a value');
});
