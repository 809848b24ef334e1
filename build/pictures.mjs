/** `npm run pictures`: takes the pictures of the README from the running program, with the sample book on a day of its own. */
import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromiumArgs, chromiumPath } from './chromium.mjs';
import { buildWhenChanged, installPackages } from './ready.mjs';

process.chdir(join(dirname(fileURLToPath(import.meta.url)), '..'));
installPackages();
await buildWhenChanged();
const { chromium } = await import('@playwright/test');

const FOLDER = 'build/pictures';
/** A Tuesday morning in May, where the sample's houses stand. */
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
const papers = join(scratch, 'papers');
const program = spawn(process.execPath, ['.out/main/loopback.mjs', '--no-window'], {
  env: { ...process.env, STRAIGHTEDGE_PORT: '0', STRAIGHTEDGE_DATA: join(scratch, 'data'), STRAIGHTEDGE_DOCUMENTS: papers },
  stdio: ['ignore', 'pipe', 'inherit'],
});
const address = await new Promise((resolve, reject) => {
  let said = '';
  program.stdout.on('data', (part) => {
    said += part;
    const found = /http:\/\/127\.0\.0\.1:\d+\/#key=[\w-]+/.exec(said);
    if (found !== null) resolve(found[0]);
  });
  program.on('exit', (code) => reject(new Error(`The program ended with ${code}: ${said}`)));
});

const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumArgs() });
try {
  mkdirSync(FOLDER, { recursive: true });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, locale: 'en-US', timezoneId: 'America/New_York' });
  await page.clock.install({ time: new Date(TIME) });
  await page.goto(address);
  await page.getByRole('button', { name: 'Look around in the sample book' }).click();
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
    ['handover', 'Handover'],
  ]) {
    const paper = made.find((file) => file.startsWith(start) && file.endsWith('.pdf'));
    if (paper === undefined) throw new Error(`The sample wrote no ${kind}: ${made.join(', ')}`);
    execFileSync('pdftoppm', ['-r', '80', '-f', '1', '-l', '1', '-singlefile', '-png', join(scratch, 'sample', paper), join(FOLDER, kind)]);
  }
} finally {
  await browser.close();
  program.removeAllListeners('exit');
  program.kill();
  rmSync(scratch, { recursive: true, force: true });
}
