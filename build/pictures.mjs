/** `npm run pictures`: takes the README's pictures from the running program with sample data on a fixed day. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync } from 'node:fs';
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

const FOLDER = 'build/pictures';
/** A Tuesday morning in May, in the sample's time zone. */
const TIME = '2026-05-12T08:10:00-04:00';
const SCREENS = [
  { name: 'today', route: '/' },
  { name: 'readings', route: '/readings/sample-hall' },
  { name: 'assess', route: '/jobs/sample-job-rusk/assess/sample-basement' },
  { name: 'estimate', route: '/jobs/sample-job-odell/estimate/sample-hall' },
  { name: 'pour', route: '/jobs/sample-job-lindqvist/pour/sample-family', look: 'dark' },
  { name: 'cure', route: '/jobs/sample-job-abara/cure/sample-living' },
];

const scratch = mkdtempSync(join(tmpdir(), 'straightedge-pictures-'));
const host = await startHost({ folder: scratch });
const address = host.address();

const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumArgs() });
try {
  mkdirSync(FOLDER, { recursive: true });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, locale: 'en-US', timezoneId: 'America/New_York' });
  await page.clock.install({ time: new Date(TIME) });
  await page.goto(address);
  await page.getByRole('button', { name: 'Open sample data' }).click();
  await page.locator('.today-list li').first().waitFor();
  for (const { name, route, look = 'light' } of SCREENS) {
    await page.emulateMedia({ colorScheme: look });
    await page.goto(new URL(`/#${route}`, address).href);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.evaluate(() => globalThis.document.fonts.ready);
    await page.waitForTimeout(1500);
    await page.screenshot({ path: join(FOLDER, `${name}.png`) });
  }
  execFileSync(process.execPath, ['.out/main/sample.mjs', join(scratch, 'sample')], {
    env: { ...process.env, STRAIGHTEDGE_NOW: new Date(TIME).toISOString() },
    stdio: 'ignore',
  });
  const made = readdirSync(join(scratch, 'sample'));
  for (const [kind, start] of [
    ['quote', 'Quote'],
    ['handover', 'Handover 26-024'],
  ]) {
    const paper = made.find((file) => file.startsWith(start) && file.endsWith('.pdf'));
    if (paper === undefined) throw new Error(`The sample wrote no ${kind}: ${made.join(', ')}`);
    execFileSync('pdftoppm', ['-r', '80', '-f', '1', '-l', '1', '-singlefile', '-png', join(scratch, 'sample', paper), join(FOLDER, kind)]);
  }
} finally {
  await browser.close();
  await host.end();
  removeFolder(scratch);
}
