/**
 * Waits in the built program with years of jobs: 1,000 jobs with 4,400 rooms, 23,000 batches and 2,000 photos; run by name, also five times
 * as many, to show what grows. Each is measured beside reading the same rows with Dexie alone, and a backup beside a plain `zip` of the
 * same bytes.
 */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Page } from '@playwright/test';
import { build } from 'esbuild';
import { chromiumArgs } from '../../build/chromium.mjs';
import { chromiumPath } from '../chromium.ts';
import { startHost } from '../start-host.ts';
import { FILL_JOBS, largeData } from './large-data.ts';

type BenchRow = { readonly what: string; readonly ms: number; readonly ratio: number | null };
type BenchResult = { readonly title: string; readonly rows: readonly BenchRow[]; readonly notes: readonly string[] };

const TURNS = 3;
const [SMALL_FILLS, LARGE_FILLS] = [10, 50];

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
const repeated = async (turn: () => Promise<number>): Promise<number> => {
  const all: number[] = [];
  for (let i = 0; i < TURNS; i++) all.push(await turn());
  return median(all);
};
const since = async (work: () => Promise<unknown>): Promise<number> => {
  const start = performance.now();
  await work();
  return performance.now() - start;
};

/** Peak memory of a process, where the system reports it. */
const mostMegabytes = (pid: number | undefined): number | null => {
  try {
    const found = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid ?? 0}/status`, 'utf8'))?.[1];
    return found === undefined ? null : Math.round(Number(found) / 1000);
  } catch {
    return null;
  }
};

type Ran = { readonly papers: string; readonly folder: string; readonly desk: number | undefined; readonly fills: number };

async function measure(page: Page, addressOf: (route: string) => string, { papers, folder, desk, fills }: Ran): Promise<BenchResult> {
  const dexie = await build({
    stdin: { contents: "import Dexie from 'dexie'; globalThis.BareDexie = Dexie;", resolveDir: process.cwd() },
    ...{ bundle: true, write: false, format: 'iife', logLevel: 'error' },
  });
  const bareCode = dexie.outputFiles[0]?.text ?? '';
  /** Reads with Dexie in a page of this origin that does not run the program. */
  const bare = async (reads: string): Promise<number> => {
    await page.goto(new URL('/licenses.json', addressOf('/')).href);
    await page.evaluate(bareCode);
    return page.evaluate<number>(
      `(async () => { const db = new BareDexie('straightedge'); await db.open(); const start = performance.now(); ${reads}; const ms = performance.now() - start; db.close(); return ms; })()`,
    );
  };
  const screen = (route: string, label: string): Promise<number> =>
    repeated(async () => {
      await page.goto('about:blank');
      return since(async () => {
        await page.goto(addressOf(route));
        await page.locator(label).first().waitFor({ timeout: 120_000 });
      });
    });
  const JOB = `const j = await db.table('jobs').get('sample-job-odell'); await Promise.all([db.table('customers').get(j.customerId), db.table('properties').get(j.propertyId), db.table('rooms').bulkGet(j.rooms.map((r) => r.roomId)), db.table('materials').toArray(), ...['quotes','pours','cureLogs','promises','clearanceTests','visits','documents','calendarEntries'].map((t) => db.table(t).where('jobId').equals(j.id).toArray())])`;
  const OPEN = `for (const j of await db.table('jobs').where('state').equals('open').toArray()) { await Promise.all([db.table('customers').get(j.customerId), db.table('properties').get(j.propertyId), db.table('rooms').bulkGet(j.rooms.map((r) => r.roomId)), ...['quotes','pours','cureLogs','promises','clearanceTests','visits'].map((t) => db.table(t).where('jobId').equals(j.id).toArray())]); }`;
  const rows: BenchRow[] = [];
  const beside = (label: string, ms: number, plain: string, plainMs: number): void => {
    rows.push({ what: plain, ms: plainMs, ratio: null }, { what: label, ms, ratio: ms / plainMs });
    console.log(`${label}: ${Math.round(ms)} ms; ${plain}: ${Math.round(plainMs)} ms`);
  };
  const shell = await screen('/licenses', '.settings-licenses li');
  beside('opening on a screen that reads nothing', shell, 'reading one record', await bare(`await db.table('business').get('business')`));
  // Once before, so that the figures of open jobs are cached as on any other day.
  await screen('/', '.today-list li');
  const today = await screen('/', '.today-list li');
  rows.push({ what: 'opening on Today, 25 jobs open, beside a screen that reads nothing', ms: today, ratio: today / shell });
  beside('what Today adds to that', Math.max(0, today - shell), 'reading the open jobs and their records', await bare(OPEN));
  const job = await screen('/jobs/sample-job-odell/estimate/sample-hall', 'text=pour depth');
  rows.push({ what: 'opening on a job, beside a screen that reads nothing', ms: job, ratio: job / shell });
  beside('what the job adds to that, estimated', Math.max(0, job - shell), 'reading the same job', await bare(JOB));
  await page.goto(addressOf('/'));
  await page.locator('.today-list li').first().waitFor({ timeout: 120_000 });
  await page.keyboard.press('/');
  await page.keyboard.type('o');
  // Search words of data filled without the program are made once.
  await page.locator('[role=option]').first().waitFor({ timeout: 600_000 });
  const key = await repeated(async () => {
    await page.getByRole('combobox').fill('');
    await page.locator('[role=option]').first().waitFor({ state: 'detached' });
    return since(async () => {
      await page.getByRole('combobox').fill('lindq');
      await page.locator('[role=option]').first().waitFor();
    });
  });
  const memory = await page.evaluate(() => (performance as unknown as { memory: { usedJSHeapSize: number } }).memory.usedJSHeapSize);
  await page.keyboard.press('Escape');
  beside('a search keystroke', key, 'reading thirty customers', await bare(`await db.table('customers').limit(30).toArray()`));
  const OUT = `await Promise.all(['customers', 'properties', 'rooms', 'jobs', 'quotes', 'pours', 'pourEvents'].map((t) => db.table(t).toArray()))`;
  const pressed = async (button: string): Promise<number> => {
    await page.goto(addressOf('/'));
    await page.goto(addressOf('/backup'));
    await page.getByRole('button', { name: button }).waitFor();
    return since(async () => {
      await page.getByRole('button', { name: button }).click();
      await page.getByText(/files were saved to /).waitFor({ timeout: 900_000 });
    });
  };
  beside('all lists exported', await pressed('Export lists'), 'reading their rows', await bare(OUT));
  const deskBefore = mostMegabytes(desk);
  await page.goto(addressOf('/backup'));
  await page.getByRole('button', { name: 'Back up now' }).waitFor();
  const copied = async (): Promise<number> => {
    const ms = await since(async () => {
      await page.getByRole('button', { name: 'Back up now' }).click();
      await page.getByText('was saved and checked.').waitFor({ timeout: 900_000 });
    });
    await page.reload();
    await page.getByRole('button', { name: 'Back up now' }).waitFor();
    return ms;
  };
  const first = await copied();
  rows.push({ what: 'the first backup, with every photo', ms: first, ratio: null });
  await page.goto(addressOf('/customers/sample-odell'));
  const phone = page.getByLabel('Phone', { exact: true }).first();
  await phone.fill('802-555-0142');
  await phone.blur();
  await page.goto(addressOf('/backup'));
  const copy = await copied();
  const all = `const all = []; for (const t of db.tables) all.push(await t.toArray())`;
  beside('a backup after one edit, proven', copy, 'reading every row', await bare(all));
  const name = readdirSync(join(papers, 'Backups')).find((file) => file.endsWith('.zip')) ?? '';
  const open = async (): Promise<void> => {
    await page.goto(addressOf('/'));
    await page.goto(addressOf('/backup'));
    await page
      .getByRole('button', { name: /^Open the backup of/ })
      .first()
      .click();
    await page.getByRole('button', { name: 'Import from backup…' }).waitFor({ timeout: 900_000 });
  };
  await open();
  const brought = await since(async () => {
    await page.getByRole('button', { name: 'Import from backup…' }).click();
    await page.getByLabel('Search by name or number').waitFor({ timeout: 900_000 });
  });
  beside('every customer and job of the backup listed beside the data', brought, 'reading every row', await bare(all));
  const restored = await since(async () => {
    await open();
    await page.getByRole('button', { name: 'Restore this backup…' }).click();
    await page.getByRole('button', { name: 'Restore' }).click();
    await page.getByText('was restored.').waitFor({ timeout: 900_000 });
  });
  beside('restoring it: proven, the present data backed up first, every row written', restored, 'reading every row', await bare(all));
  execFileSync('unzip', ['-qq', '-o', join(papers, 'Backups', name), '-d', join(folder, 'unzipped')]);
  const zip = await since(() => Promise.resolve(execFileSync('zip', ['-q', '-r', join(folder, 'plain.zip'), 'unzipped'], { cwd: folder })));
  rows.push(
    { what: '`zip` of the same bytes', ms: zip, ratio: null },
    { what: 'the backup after one edit beside it', ms: copy, ratio: copy / zip },
  );
  return {
    title: `Data of ${fills * FILL_JOBS} jobs, ${fills * FILL_JOBS * 2} photos`,
    rows,
    notes: [
      `The host took at most ${deskBefore ?? '?'} MB before a backup and ${mostMegabytes(desk) ?? '?'} MB with backups, opening and restoring.`,
      `The page held ${Math.round(memory / 1e6)} MB with Today shown and Search open; the backup is ${Math.round(statSync(join(papers, 'Backups', name)).size / 1e6)} MB.`,
    ],
  };
}

async function runWith(fills: number): Promise<BenchResult> {
  const { folder, port } = await largeData(fills);
  const host = await startHost({ folder, port });
  const context = await chromium.launchPersistentContext(join(folder, 'profile'), { executablePath: chromiumPath(), args: chromiumArgs() });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    const address = host.address();
    await page.goto(address);
    await page.locator('.today-list li').first().waitFor({ timeout: 120_000 });
    return await measure(page, (route) => new URL(`/#${route}`, address).href, {
      papers: join(folder, 'papers'),
      folder,
      desk: host.pid,
      fills,
    });
  } finally {
    await context.close();
    await host.end();
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
}

/**
 * Needs the built program: `npm run build` first.
 * @param isNamed this bench alone was requested, so the larger data is measured too
 */
export async function run(isNamed: boolean): Promise<BenchResult[]> {
  const results: BenchResult[] = [];
  for (const fills of isNamed ? [SMALL_FILLS, LARGE_FILLS] : [SMALL_FILLS]) results.push(await runWith(fills));
  return results;
}
