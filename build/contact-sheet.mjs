/**
 * `npm run contact-sheet [part of an address]`: pictures of every screen of the sample data, in four sizes and both looks, in
 * .cache/contact-sheet with a page that shows them side by side.
 */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromiumArgs } from './chromium.mjs';
import { loadSource } from './load-source.mjs';
import { buildWhenChanged, installPackages } from './ready.mjs';
import { removeFolder } from './remove-folder.mjs';

installPackages();
await buildWhenChanged();
const { chromium } = await import('@playwright/test');
const { startHost } = await loadSource('test/start-host.ts');
const { chromiumPath } = await loadSource('test/chromium.ts');
const { SAMPLE_SCREENS } = await loadSource('test/sample-screens.ts');

const FOLDER = '.cache/contact-sheet';
const TIME = '2026-05-12T08:10:00-04:00';
const SIZES = [
  [1440, 900],
  [1024, 768],
  [390, 844],
  [844, 390],
];
const wanted = process.argv[2] ?? '';
const routes = Object.values(SAMPLE_SCREENS)
  .flat()
  .filter((route) => route.includes(wanted));

const scratch = mkdtempSync(join(tmpdir(), 'straightedge-contact-sheet-'));
const host = await startHost({ folder: scratch });
const address = host.address();
const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumArgs() });
const rows = [];
try {
  removeFolder(FOLDER);
  mkdirSync(FOLDER, { recursive: true });
  const page = await browser.newPage({ locale: 'en-US', timezoneId: 'America/New_York' });
  await page.clock.install({ time: new Date(TIME) });
  await page.goto(address);
  await page.getByRole('button', { name: 'Open sample data' }).click();
  await page.locator('.today-list li').first().waitFor();
  for (const route of routes) {
    const name = route === '/' ? 'today' : route.slice(1).replaceAll('/', '.').replaceAll('sample-', '');
    await page.goto(new URL(`/#${route}`, address).href);
    const cells = [];
    for (const [width, height] of SIZES)
      for (const look of ['light', 'dark']) {
        await page.setViewportSize({ width, height });
        await page.emulateMedia({ colorScheme: look });
        await page.getByRole('heading', { level: 1 }).waitFor();
        await page.locator('.app-opening, .today-reading').waitFor({ state: 'hidden' });
        await page.evaluate(() => globalThis.document.fonts.ready);
        await page.waitForTimeout(700);
        const file = `${name}-${width}-${look}.png`;
        await page.screenshot({ path: join(FOLDER, file) });
        cells.push(`<img src="${file}" alt="${route} at ${width} by ${height}, ${look}" style="height: 420px">`);
      }
    rows.push(`<h2>${route}</h2><p>${cells.join(' ')}</p>`);
  }
  writeFileSync(join(FOLDER, 'index.html'), `<!doctype html><html lang="en"><title>Every screen</title>${rows.join('\n')}</html>`);
} finally {
  await browser.close();
  await host.end();
  removeFolder(scratch);
}
console.log(`${rows.length} screens: ${join(FOLDER, 'index.html')}`);
