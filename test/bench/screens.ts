/**
 * Waits in the built program with the sample data: start, a screen, a changed figure, a key of pour mode, and memory after opening every
 * screen. Each is measured beside the minimum in the same browser: opening the database and reading the rows, drawing one frame, writing
 * one row with strict durability.
 */
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Page } from '@playwright/test';
import { chromiumArgs } from '../../build/chromium.mjs';
import { chromiumPath } from '../chromium.ts';
import { openPour } from '../journeys/open-pour.ts';
import { SAMPLE_SCREENS } from '../sample-screens.ts';
import { startHost } from '../start-host.ts';
import { type BenchResult, type BenchRow, goalRow, median, plainRow, quantile } from './rows.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

const STARTS = 7;
const POUR_KEYS = 500;
const FIGURES = 20;
const ROOM_READINGS = 200;
const IDLE_MS = 60_000;

/** Opens the database and reads every row of the open jobs' tables without a library. Runs in the page. */
async function bareReads(): Promise<number> {
  const start = performance.now();
  const opening = indexedDB.open('straightedge');
  const db = await new Promise<IDBDatabase>((resolve) => (opening.onsuccess = () => resolve(opening.result)));
  const names = ['business', 'materials', 'customers', 'properties', 'rooms', 'jobs', 'quotes', 'pours', 'cureLogs', 'visits', 'promises'];
  const reading = db.transaction(names);
  await Promise.all(
    names.map((name) => {
      const request = reading.objectStore(name).getAll();
      return new Promise((resolve) => (request.onsuccess = resolve));
    }),
  );
  db.close();
  return performance.now() - start;
}

/** Writes one row with strict durability to a database of its own. Runs in the page. */
async function bareWrites(times: number): Promise<number[]> {
  const opening = indexedDB.open('bench');
  opening.onupgradeneeded = () => opening.result.createObjectStore('rows', { keyPath: 'id' });
  const db = await new Promise<IDBDatabase>((resolve) => (opening.onsuccess = () => resolve(opening.result)));
  const durations: number[] = [];
  for (let id = 0; id < times; id++) {
    const start = performance.now();
    const writing = db.transaction('rows', 'readwrite', { durability: 'strict' });
    writing.objectStore('rows').put({ id, text: 'x'.repeat(400) });
    await new Promise((resolve) => (writing.oncomplete = resolve));
    durations.push(performance.now() - start);
  }
  db.close();
  return durations;
}

/** Two frames of an empty page: the minimum after a key. */
const bareFrame = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    const start = performance.now();
    await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
    return performance.now() - start;
  });

/** Records when a key goes down and when the text of the elements changes. Runs in the page. */
const watchText = (page: Page, selector: string): Promise<void> =>
  page.evaluate((wanted) => {
    const state = globalThis as unknown as { keyAt: number; took: number[] };
    state.took = [];
    const textNow = (): string => [...document.querySelectorAll(wanted)].map((element) => element.textContent).join('|');
    let text = textNow();
    if (text === '') throw new Error(`Nothing on the screen is ${wanted}.`);
    addEventListener('keydown', () => (state.keyAt = performance.now()), { capture: true });
    new MutationObserver(() => {
      const next = textNow();
      if (next === text) return;
      text = next;
      if (state.keyAt > 0) state.took.push(performance.now() - state.keyAt);
      state.keyAt = 0;
    }).observe(document.body, { childList: true, subtree: true, characterData: true });
  }, selector);
const readDurations = (page: Page): Promise<number[]> => page.evaluate(() => (globalThis as unknown as { took: number[] }).took);

/** Time from a changed address to its heading with loading finished. */
async function visit(page: Page, route: string): Promise<number> {
  return page.evaluate(async (to) => {
    const isThere = () =>
      location.hash === `#${to}` &&
      document.querySelector('h1') !== null &&
      document.querySelector('.app-opening, .today-reading, .is-loading, [aria-busy=true]') === null;
    // An empty screen between two screens of the same name forces drawing.
    location.hash = '/licenses';
    while (document.querySelector('.settings-licenses') === null) await new Promise(requestAnimationFrame);
    await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve, 60)));
    const start = performance.now();
    location.hash = to;
    for (;;) {
      await new Promise((resolve) => requestAnimationFrame(resolve));
      if (isThere() && document.querySelector('.settings-licenses') === null) return performance.now() - start;
      if (performance.now() - start > 20_000) throw new Error(`${to} was not there after 20 s.`);
    }
  }, route);
}

/** Memory of a process that it shares with no other, MB; shared pages count in parts. */
const ownMegabytes = (pid: number | undefined): number =>
  Math.round(Number(/^Pss:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid ?? 0}/smaps_rollup`, 'utf8'))?.[1] ?? NaN) / 1000);

/** The process that draws the page. */
const pageProcess = async (browser: CDPSession): Promise<number | undefined> => {
  const { processInfo } = await browser.send('SystemInfo.getProcessInfo');
  return processInfo.filter(({ type }) => type === 'renderer').toSorted((a, b) => ownMegabytes(b.id) - ownMegabytes(a.id))[0]?.id;
};

/** Memory of the page and the host after everything above and a minute without a key. */
async function idleMemory(page: Page, hostPid: number | undefined): Promise<string> {
  await page.evaluate(() => (location.hash = '/'));
  await page.evaluate((ms) => new Promise((resolve) => setTimeout(resolve, ms)), IDLE_MS);
  const browser = await page.context().browser()?.newBrowserCDPSession();
  const held = ownMegabytes(browser === undefined ? undefined : await pageProcess(browser));
  const cdp = await page.context().newCDPSession(page);
  const { usedSize } = await cdp.send('Runtime.getHeapUsage');
  await page.goto('about:blank');
  return `After an idle minute the page took ${held} MB (goal: 150), of it ${Math.round(usedSize / 1e6)} MB of objects, and the host ${ownMegabytes(hostPid)} MB (goal: 200).`;
}

async function starts(page: Page, address: () => string): Promise<{ readonly rows: BenchRow[]; readonly note: string }> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Network.enable');
  const moved = { bytes: 0, requests: 0 };
  cdp.on('Network.loadingFinished', ({ encodedDataLength }) => {
    moved.bytes += encodedDataLength;
    moved.requests += 1;
  });
  const [today, plain, bare]: [number[], number[], number[]] = [[], [], []];
  let [cold, warm] = ['', ''];
  for (let turn = 0; turn < STARTS; turn++) {
    if (turn === 0) await cdp.send('Network.clearBrowserCache');
    await page.goto('about:blank');
    Object.assign(moved, { bytes: 0, requests: 0 });
    const start = performance.now();
    await page.goto(address());
    await page.locator('.today-list li').first().waitFor();
    const ms = performance.now() - start;
    const requests = `${moved.requests} requests, ${Math.round(moved.bytes / 1000)} kB`;
    if (turn === 0) cold = requests;
    else {
      warm = requests;
      today.push(ms);
    }
    bare.push(await page.evaluate(bareReads));
    await cdp.send('Network.setCacheDisabled', { cacheDisabled: true });
    await page.goto('about:blank');
    const again = performance.now();
    await page.goto(address());
    await page.locator('.today-list li').first().waitFor();
    plain.push(performance.now() - again);
    await cdp.send('Network.setCacheDisabled', { cacheDisabled: false });
  }
  const [ms, uncached, reads] = [quantile(today, 0.5), quantile(plain, 0.5), quantile(bare, 0.5)];
  await cdp.detach();
  return {
    rows: [
      plainRow('opening the database and reading the open jobs, no program', reads),
      plainRow('start to Today with nothing cached', uncached),
      // Its goal is a share of an older program's time, and that program is not here to run beside this one.
      plainRow('start to Today, warm browser', ms),
    ],
    note: `A first start moved ${cold} until Today stood; a warm one ${warm}.`,
  };
}

/** A room of the sample with 200 readings, laid out as a grid over its own: the arithmetic has never seen them. Runs in the page. */
async function addReadings(many: number): Promise<void> {
  const opening = indexedDB.open('straightedge');
  const db = await new Promise<IDBDatabase>((resolve) => (opening.onsuccess = () => resolve(opening.result)));
  const rooms = db.transaction('rooms', 'readwrite').objectStore('rooms');
  type Reading = { id: string; xM: number; yM: number; valueM: number };
  const reading = rooms.get('sample-hall');
  const room = await new Promise<{ changedAt: string; survey: { readings: Reading[] } }>(
    (resolve) => (reading.onsuccess = () => resolve(reading.result as { changedAt: string; survey: { readings: Reading[] } })),
  );
  const [first] = room.survey.readings;
  if (first === undefined) throw new Error('The hall has no readings.');
  const [xs, ys] = [room.survey.readings.map(({ xM }) => xM), room.survey.readings.map(({ yM }) => yM)];
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const across = Math.ceil(Math.sqrt(many));
  room.survey.readings = Array.from({ length: many }, (_, i) => ({
    ...first,
    id: `bench-${i}`,
    xM: x0 + ((x1 - x0) * (i % across)) / (across - 1),
    yM: y0 + ((y1 - y0) * Math.floor(i / across)) / (across - 1),
    valueM: first.valueM + 0.004 * Math.sin(i),
  }));
  room.changedAt = new Date().toISOString();
  const writing = rooms.put(room);
  await new Promise((resolve) => (writing.onsuccess = resolve));
  db.close();
}

/** From the key that opens the estimate to its heading, and to its number of bags. */
async function firstEstimate(page: Page, address: string): Promise<BenchRow[]> {
  await page.evaluate(addReadings, ROOM_READINGS);
  await page.goto('about:blank');
  await page.goto(address);
  await page.locator('.today-list li').first().waitFor();
  await page.waitForResponse((response) => response.url().includes('HandoverScreen'), { timeout: 20_000 }).catch(() => undefined);
  const frame = await bareFrame(page);
  const [drawn, counted] = await page.evaluate(async () => {
    const start = performance.now();
    location.hash = '/jobs/sample-job-odell/estimate/sample-hall';
    let heading = 0;
    for (;;) {
      await new Promise((resolve) => requestAnimationFrame(resolve));
      const now = performance.now() - start;
      if (heading === 0 && document.querySelector('h1') !== null && document.querySelector('.today-list') === null) heading = now;
      if (document.querySelector('.answer-figure') !== null || now > 20_000) return [heading, now];
    }
  });
  return [
    goalRow(`the first estimate of ${ROOM_READINGS} readings, to the screen, beside two frames`, drawn, frame, { times: 1 }),
    goalRow('the same, to the number of bags', counted, frame, { ms: 50 }),
  ];
}

/** Changes the minimum thickness; the foot's answer is the result. The change is stored with strict durability before it shows. */
async function figures(page: Page): Promise<BenchRow[]> {
  const plain = await page.evaluate(bareWrites, 100);
  await page.evaluate(() => (location.hash = '/jobs/sample-job-odell/estimate/sample-hall'));
  const field = page.getByLabel('Minimum thickness').first();
  await field.waitFor();
  await page.locator('.answer-figure').first().waitFor();
  await watchText(page, '.answer');
  for (let i = 0; i < FIGURES; i++) {
    const before = (await readDurations(page)).length;
    await field.fill(i % 2 === 0 ? '1/2' : '1/4');
    await field.press('Enter');
    await page.waitForFunction((n) => (globalThis as unknown as { took: number[] }).took.length > n, before, { timeout: 20_000 });
  }
  const changed = median(await readDurations(page));
  return [
    plainRow('one row written with strict durability, no program', median(plain)),
    goalRow('a figure changed on the estimate, to its result', changed, median(plain), { ms: 50 }),
  ];
}

/** Logs a mixed batch and undoes it repeatedly; each is stored before the screen shows it. */
async function pourKeys(page: Page): Promise<BenchRow[]> {
  const plain = await page.evaluate(bareWrites, 100);
  await page.evaluate(() => (location.hash = '/jobs/sample-job-lindqvist/pour/sample-family'));
  await page.getByRole('heading', { level: 1, name: 'Family room: pour plan' }).waitFor();
  await openPour(page, 60);
  await watchText(page, '.pour-mode [role=status]');
  for (let i = 0; i < POUR_KEYS; i++) {
    const before = (await readDurations(page)).length;
    await page.keyboard.press(i % 2 === 0 ? 'm' : 'u');
    await page.waitForFunction((n) => (globalThis as unknown as { took: number[] }).took.length > n, before);
  }
  const keys = await readDurations(page);
  return [
    plainRow('one row written with strict durability, no program, 99th percentile', quantile(plain, 0.99)),
    goalRow('a key of pour mode to "Logged", median', median(keys), median(plain), { ms: 30 }),
    goalRow(`the same, 99th percentile of ${POUR_KEYS}`, quantile(keys, 0.99), quantile(plain, 0.99), { ms: 30 }),
  ];
}

/** Needs the built program: `npm run build` first. */
export async function run(): Promise<BenchResult> {
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-screens-'));
  const host = await startHost({ folder });
  const context = await chromium.launchPersistentContext(join(folder, 'profile'), {
    executablePath: chromiumPath(),
    args: chromiumArgs(),
    viewport: { width: 1440, height: 900 },
  });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    await page.goto(host.address());
    await page.getByRole('button', { name: 'Open sample data' }).click();
    await page.locator('.today-list li').first().waitFor();
    const start = await starts(page, host.address);
    const routes = Object.values(SAMPLE_SCREENS)
      .flat()
      .filter((route) => route !== '/licenses');
    // The other screens load after a pause, which is not part of Today's time.
    await page.waitForResponse((response) => response.url().includes('HandoverScreen'), { timeout: 60_000 }).catch(() => undefined);
    const read = await page.evaluate(bareReads);
    const first: number[] = [];
    for (const route of routes) first.push(await visit(page, route));
    const later: number[] = [];
    for (const route of routes) later.push(await visit(page, route));
    const rows = [
      ...start.rows,
      goalRow('the first visit to a screen, median', median(first), read, { ms: 150 }),
      goalRow('the slowest first visit', quantile(first, 1), read, { ms: 150 }),
      goalRow('a later visit, median', median(later), read, { ms: 60 }),
      goalRow('the slowest later visit', quantile(later, 1), read, { ms: 60 }),
      ...(await figures(page)),
      ...(await pourKeys(page)),
      ...(await firstEstimate(page, host.address())),
    ];
    const slowest = routes.map((route, i) => `${route} ${Math.round(first[i] ?? 0)}/${Math.round(later[i] ?? 0)}`);
    return {
      title: 'What a person waits for, sample data',
      rows,
      notes: [start.note, await idleMemory(page, host.pid), `First and later visits in ms: ${slowest.join(', ')}.`],
    };
  } finally {
    await context.close();
    await host.end();
    removeFolder(folder);
  }
}
