/**
 * Waits in the built program with ten years of jobs: 1,000 jobs with 4,400 rooms, 23,000 batches and 2,000 photos, and five times as many,
 * to show what grows. Each is measured beside reading the same rows with Dexie alone, and a backup beside a plain `zip` of the same bytes.
 */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from '@playwright/test';
import { build } from 'esbuild';
import { chromiumArgs } from '../../build/chromium.mjs';
import { chromiumPath } from '../chromium.ts';
import { startHost } from '../start-host.ts';
import { FILL_JOBS, largeData } from './large-data.ts';
import { type BenchResult, type BenchRow, goalRow, median, plainRow, since } from './rows.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

const TURNS = 5;
const SIZES = [10, 50];

const JOB_ROUTE = '/jobs/sample-job-odell/estimate/sample-hall';
const JOB_READS = `const j = await db.table('jobs').get('sample-job-odell'); await Promise.all([db.table('customers').get(j.customerId), db.table('properties').get(j.propertyId), db.table('rooms').bulkGet(j.rooms.map((r) => r.roomId)), db.table('materials').toArray(), ...['quotes','pours','cureLogs','promises','clearanceTests','visits','documents','calendarEntries'].map((t) => db.table(t).where('jobId').equals(j.id).toArray())])`;
const OPEN_READS = `for (const j of await db.table('jobs').where('state').equals('open').toArray()) { await Promise.all([db.table('customers').get(j.customerId), db.table('properties').get(j.propertyId), db.table('rooms').bulkGet(j.rooms.map((r) => r.roomId)), ...['quotes','pours','cureLogs','promises','clearanceTests','visits'].map((t) => db.table(t).where('jobId').equals(j.id).toArray())]); }`;
const LIST_READS = `await Promise.all(['customers', 'properties', 'rooms', 'jobs', 'quotes', 'pours', 'pourEvents'].map((t) => db.table(t).toArray()))`;
const ALL_READS = `const all = []; for (const t of db.tables) all.push(await t.toArray())`;

/** The peak memory of a process, where the system reports it. */
const mostMegabytes = (pid: number | undefined): number | null => {
  try {
    const found = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid ?? 0}/status`, 'utf8'))?.[1];
    return found === undefined ? null : Math.round(Number(found) / 1000);
  } catch {
    return null;
  }
};

/** From a changed address to what its screen shows. Runs in the page. */
const goTo = (page: Page, route: string, selector: string): Promise<number> =>
  page.evaluate(
    async ([to, wanted]) => {
      const start = performance.now();
      location.hash = to ?? '';
      while (document.querySelector(wanted ?? '') === null) {
        await new Promise((resolve) => requestAnimationFrame(resolve));
        if (performance.now() - start > 60_000) throw new Error(`${to} was not there after a minute.`);
      }
      return performance.now() - start;
    },
    [route, selector],
  );

/** From each letter typed to the last change of the results. */
async function searchKeys(page: Page, words: readonly string[]): Promise<{ readonly first: number[]; readonly later: number[] }> {
  await page.evaluate(() => {
    const state = globalThis as unknown as { keyAt: number; shownAt: number };
    addEventListener('keydown', () => Object.assign(state, { keyAt: performance.now(), shownAt: 0 }), { capture: true });
    const list = document.querySelector('[role=listbox]');
    if (list !== null)
      new MutationObserver(() => (state.shownAt = performance.now())).observe(list, {
        childList: true,
        subtree: true,
        characterData: true,
      });
  });
  const [first, later]: [number[], number[]] = [[], []];
  for (const word of words) {
    await page.getByRole('combobox').fill('');
    for (const [i, letter] of [...word].entries()) {
      await page.keyboard.press(letter);
      const ms = await page.evaluate(async () => {
        const state = globalThis as unknown as { keyAt: number; shownAt: number };
        // Quiet for as long as eight frames.
        const at = performance.now();
        while (performance.now() - Math.max(at, state.shownAt) < 130) await new Promise((resolve) => requestAnimationFrame(resolve));
        return state.shownAt === 0 ? null : state.shownAt - state.keyAt;
      });
      if (ms !== null) (i === 0 ? first : later).push(ms);
    }
  }
  return { first, later };
}

/** Restores a backup of the list on the open backup screen, from the click that opens it. */
async function restore(page: Page, which: 'newest' | 'oldest'): Promise<number> {
  const listed = page.getByRole('button', { name: /^Open the backup of/ });
  await listed.first().waitFor();
  return since(async () => {
    await (which === 'newest' ? listed.first() : listed.last()).click();
    await page.getByRole('button', { name: 'Restore this backup…' }).click({ timeout: 900_000 });
    await page.getByRole('button', { name: 'Restore' }).click();
    await page.getByText('was restored.').waitFor({ timeout: 900_000 });
  });
}

/** Restores the newest backup in a program without data, which writes every row and photo. */
async function restoreToEmpty(papers: string): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-empty-'));
  cpSync(join(papers, 'Backups'), join(folder, 'papers', 'Backups'), { recursive: true });
  const host = await startHost({ folder });
  const context = await chromium.launchPersistentContext(join(folder, 'profile'), { executablePath: chromiumPath(), args: chromiumArgs() });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    await page.goto(host.address());
    await page.getByRole('button', { name: 'Open sample data' }).waitFor();
    await page.goto(new URL('/#/backup', host.origin).href);
    return await restore(page, 'newest');
  } finally {
    await context.close();
    await host.end();
    removeFolder(folder);
  }
}

type Ran = { readonly page: Page; readonly address: (route: string) => string; readonly bare: (reads: string) => Promise<number> };
const repeated = async (work: () => Promise<number>): Promise<number> => {
  const all: number[] = [];
  for (let i = 0; i < TURNS; i++) all.push(await work());
  return median(all);
};

async function screens({ page, address, bare }: Ran): Promise<BenchRow[]> {
  const opening = (route: string, label: string): Promise<number> =>
    repeated(async () => {
      await page.goto('about:blank');
      return since(async () => {
        await page.goto(address(route));
        await page.locator(label).first().waitFor({ timeout: 120_000 });
      });
    });
  const empty = await opening('/licenses', '.settings-licenses li');
  const today = await opening('/', '.today-list li');
  const open = await repeated(() => bare(OPEN_READS));
  await page.goto(address('/'));
  await page.locator('.today-list li').first().waitFor({ timeout: 120_000 });
  const [jobs, empties]: [number[], number[]] = [[], []];
  for (let i = 0; i <= TURNS; i++) {
    jobs.push(await goTo(page, JOB_ROUTE, '.answer-figure'));
    empties.push(await goTo(page, '/jobs/none/estimate/none', '.empty-sheet'));
  }
  const job = median(jobs.slice(1)) - median(empties.slice(1));
  await page.keyboard.press('/');
  await page.keyboard.type('o');
  await page.locator('[role=option]').first().waitFor({ timeout: 600_000 });
  const keys = await searchKeys(page, ['lindq', 'odell', '26-1', 'hall']);
  const customers = await repeated(() => bare(`await db.table('customers').limit(30).toArray()`));
  const read = await repeated(() => bare(JOB_READS));
  return [
    plainRow('opening on a screen that reads nothing', empty),
    plainRow('reading the open jobs and their records', open),
    goalRow('Today, beyond the screen that reads nothing', Math.max(0, today - empty), open, { times: 1.3 }),
    plainRow('reading one job', read),
    goalRow('a job opened, beyond a job that does not exist', Math.max(0, job), read, { times: 3 }),
    plainRow('reading thirty customers', customers),
    goalRow('a key in Search', median(keys.later), customers, { ms: 50 }),
    goalRow('the first letter in Search', median(keys.first), customers, { ms: 50 }),
  ];
}

async function files({ page, address, bare }: Ran, papers: string): Promise<BenchRow[]> {
  const press = async (button: string, done: RegExp | string): Promise<number> => {
    await page.goto(address('/'));
    await page.goto(address('/backup'));
    await page.getByRole('button', { name: button }).waitFor();
    return since(async () => {
      await page.getByRole('button', { name: button }).click();
      await page.getByText(done).waitFor({ timeout: 900_000 });
    });
  };
  const lists = await press('Export lists', /files were saved to /);
  await page.goto(address('/customers/sample-odell'));
  const phone = page.getByLabel('Phone', { exact: true }).first();
  await phone.fill('802-555-0142');
  await phone.blur();
  const backup = await press('Back up now', 'was saved and checked.');
  await page.goto(address('/'));
  await page.goto(address('/backup'));
  const restored = await restore(page, 'oldest');
  const [listRows, all] = [await bare(LIST_READS), await bare(ALL_READS)];
  const folder = join(papers, 'Backups');
  const name = readdirSync(folder).find((file) => file.endsWith('.zip')) ?? '';
  execFileSync('unzip', ['-qq', '-o', join(folder, name), '-d', join(papers, 'unzipped')]);
  const zipped = (of: string): Promise<number> =>
    since(() => Promise.resolve(execFileSync('zip', ['-q', '-r', `${of}.zip`, of], { cwd: papers })));
  const [zip, zippedLists] = [await zipped('unzipped'), await zipped(readdirSync(papers).find((file) => file.startsWith('Lists ')) ?? '.')];
  return [
    plainRow('reading the rows of the lists', listRows),
    plainRow('`zip` of the exported lists', zippedLists),
    goalRow('all lists exported', lists, listRows, { ms: 10_000 }),
    plainRow('`zip` of the bytes of a backup', zip),
    goalRow('a backup after one edit, checked', backup, zip, { ms: 3000 }),
    plainRow('reading every row', all),
    goalRow('restoring the backup before that edit: checked, the present data backed up first, what differs written', restored, all, {
      times: 4,
    }),
    goalRow('restoring to an empty computer: checked, every row and photo written', await restoreToEmpty(papers), all, { times: 4 }),
  ];
}

async function runWith(fills: number): Promise<BenchResult> {
  const { folder, port } = await largeData(fills);
  const host = await startHost({ folder, port });
  const context = await chromium.launchPersistentContext(join(folder, 'profile'), { executablePath: chromiumPath(), args: chromiumArgs() });
  const dexie = await build({
    stdin: { contents: "import Dexie from 'dexie'; globalThis.BareDexie = Dexie;", resolveDir: process.cwd() },
    ...{ bundle: true, write: false, format: 'iife', logLevel: 'error' },
  });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    await page.goto(host.address());
    await page.locator('.today-list li').first().waitFor({ timeout: 120_000 });
    const address = (route: string): string => `${host.origin}/#${route}`;
    /** Reads with Dexie in a page of this origin that does not run the program. */
    const bare = async (reads: string): Promise<number> => {
      await page.goto(`${host.origin}/licenses.json`);
      await page.evaluate(dexie.outputFiles[0]?.text ?? '');
      return page.evaluate<number>(
        `(async () => { const db = new BareDexie('straightedge'); await db.open(); const start = performance.now(); ${reads}; const ms = performance.now() - start; db.close(); return ms; })()`,
      );
    };
    const ran = { page, address, bare };
    const rows = [...(await screens(ran)), ...(await files(ran, join(folder, 'papers')))];
    const backups = join(folder, 'papers', 'Backups');
    const name = readdirSync(backups).find((file) => file.endsWith('.zip')) ?? '';
    return {
      title: `Ten years of data: ${fills * FILL_JOBS} jobs, ${fills * FILL_JOBS * 2} photos`,
      rows,
      notes: [
        `The host took at most ${mostMegabytes(host.pid) ?? '?'} MB; the backup is ${Math.round(statSync(join(backups, name)).size / 1e6)} MB.`,
      ],
    };
  } finally {
    await context.close();
    await host.end();
    removeFolder(folder);
  }
}

/** Needs the built program: `npm run build` first. Yields the result of each size. */
export async function* run(): AsyncGenerator<BenchResult> {
  for (const fills of SIZES) yield await runWith(fills);
}
