/**
 * A profile with ten years of jobs and its first backup, made once a day and kept in `.cache/bench` by what it is made from: the sample,
 * the records' version and this file. Each run gets a copy.
 */
import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { build } from 'esbuild';
import { chromiumArgs } from '../../build/chromium.mjs';
import { chromiumPath } from '../chromium.ts';
import { startHost } from '../start-host.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

/** Jobs added per call. */
export const FILL_JOBS = 100;
const CACHE = join('.cache', 'bench');

/** Fills the database from the sample's rows, without the program's code. Runs in the page. */
async function fill(fills: number): Promise<void> {
  const opening = indexedDB.open('straightedge');
  const db = await new Promise<IDBDatabase>((resolve) => (opening.onsuccess = () => resolve(opening.result)));
  const names = [
    'customers',
    'properties',
    'rooms',
    'jobs',
    'quotes',
    'pours',
    'pourEvents',
    'visits',
    'promises',
    'cureLogs',
    'clearanceTests',
  ];
  const source = new Map<string, { id: string }[]>();
  for (const name of names)
    source.set(
      name,
      await new Promise((resolve) => {
        const request = db.transaction(name).objectStore(name).getAll();
        request.onsuccess = () => resolve(request.result as { id: string }[]);
      }),
    );
  const hex = (bytes: ArrayBuffer): string => [...new Uint8Array(bytes)].map((b) => b.toString(16).padStart(2, '0')).join('');
  const jobs = source.get('jobs')?.length ?? 1;
  const copies = Math.ceil(100 / jobs);
  let open = 25;
  for (let batch = 0; batch < fills; batch++) {
    const yearsBack = Math.floor((batch * 10) / fills);
    // Small and all different, because only their number matters.
    const shots: { readonly data: Uint8Array; readonly sha256: string }[] = [];
    for (let n = 0; n < copies * jobs * 2; n++) {
      const data = crypto.getRandomValues(new Uint8Array(4000));
      shots.push({ data, sha256: hex(await crypto.subtle.digest('SHA-256', data)) });
    }
    const writing = db.transaction([...names, 'photos', 'pictures'], 'readwrite');
    for (let k = 0; k < copies; k++) {
      const tag = `x${batch * copies + k}-`;
      for (const name of names)
        for (const [i, row] of (source.get(name) ?? []).entries()) {
          const text = JSON.stringify(row)
            .replace(/"(sample-[^"]+)"/g, (whole, id: string) => (id.startsWith('sample-material') ? whole : `"${tag}${id}"`))
            .replace(
              /"(20\d\d)-(\d\d-\d\d)/g,
              (_, year: string, day: string) => `"${Number(year) - yearsBack}-${day === '02-29' ? '02-28' : day}`,
            );
          const copy = JSON.parse(text) as Record<string, unknown>;
          if (name === 'jobs') {
            copy['state'] = open > 0 ? 'open' : 'finished';
            open -= 1;
            copy['number'] = `${10 + (batch % 16)}-${1000 + k * jobs + i + batch * 200}`;
          }
          // Visits of a finished job are done.
          if (name === 'visits' && open <= 0) copy['doneAt'] = copy['instant'];
          if (name === 'customers') copy['name'] = `${String(copy['name'])} ${tag}`;
          writing.objectStore(name).put(copy);
          // A second floor and three more lifts, for more rooms and batches per job.
          if (name === 'rooms') writing.objectStore(name).put({ ...copy, id: `${String(copy['id'])}-b` });
          for (const more of ['-b', '-c', '-d']) {
            if (name === 'pours') writing.objectStore(name).put({ ...copy, id: `${String(copy['id'])}${more}` });
            if (name === 'pourEvents')
              writing.objectStore(name).put({ ...copy, id: `${String(copy['id'])}${more}`, pourId: `${String(copy['pourId'])}${more}` });
          }
          if (name === 'jobs')
            for (const n of [1, 2]) {
              const shot = shots.pop();
              if (shot === undefined) throw new Error('Fewer photos than jobs ask for.');
              writing.objectStore('pictures').put({ name: `photos/${shot.sha256}.jpg`, data: shot.data });
              writing.objectStore('photos').put({
                ...{ id: `photo-${String(copy['id'])}-${n}`, createdAt: copy['createdAt'], changedAt: copy['changedAt'], deletedAt: null },
                ...{ jobId: copy['id'], roomId: null, caption: '', takenAt: null, mediaType: 'image/jpeg', widthPx: 800, heightPx: 600 },
                sha256: shot.sha256,
              });
            }
        }
    }
    await new Promise((resolve) => (writing.oncomplete = resolve));
  }
  // Written without the program, so its search words have to be rebuilt.
  const last = db.transaction('meta', 'readwrite');
  last.objectStore('meta').delete('words/made');
  await new Promise((resolve) => (last.oncomplete = resolve));
  db.close();
}

/** The day too, because the sample's dates are counted from it. */
async function keyOf(fills: number): Promise<string> {
  const sample = await build({
    ...{ entryPoints: ['shared-core/sample/sample-book.ts', 'shared-core/book/tables.ts', 'renderer/book/words.ts'], outdir: '.out' },
    ...{ bundle: true, write: false, format: 'esm', packages: 'external', logLevel: 'error' },
  });
  const made = createHash('sha256').update(String(fill));
  for (const { contents } of sample.outputFiles) made.update(contents);
  return `${fills * FILL_JOBS} jobs ${new Date().toISOString().slice(0, 10)} ${made.digest('hex').slice(0, 12)}`;
}

/** Fills a profile through the program's own start, and opens it until Search has its words. */
async function make(folder: string, fills: number): Promise<void> {
  const host = await startHost({ folder });
  const context = await chromium.launchPersistentContext(join(folder, 'profile'), { executablePath: chromiumPath(), args: chromiumArgs() });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    await page.goto(host.address());
    await page.getByRole('button', { name: 'Open sample data' }).click();
    await page.locator('.today-list li').first().waitFor({ timeout: 120_000 });
    await page.evaluate(fill, fills);
    await page.goto(host.address());
    await page.locator('.today-list li').first().waitFor({ timeout: 120_000 });
    await page.keyboard.press('/');
    await page.keyboard.type('o');
    await page.locator('[role=option]').first().waitFor({ timeout: 600_000 });
    await page.keyboard.press('Escape');
    await page.goto(new URL('/#/backup', host.origin).href);
    await page.getByRole('button', { name: 'Back up now' }).click();
    await page.getByText('was saved and checked.').waitFor({ timeout: 600_000 });
    // The browser keeps the database by its origin.
    writeFileSync(join(folder, 'port'), String(host.port));
  } finally {
    await context.close();
    await host.end();
  }
}

/** @returns a folder for one run, removed by the caller, and the port its database belongs to */
export async function largeData(fills: number): Promise<{ readonly folder: string; readonly port: number }> {
  const kept = join(CACHE, await keyOf(fills));
  if (!existsSync(kept)) {
    mkdirSync(CACHE, { recursive: true });
    for (const old of readdirSync(CACHE)) if (old.startsWith(`${fills * FILL_JOBS} `)) removeFolder(join(CACHE, old));
    const making = mkdtempSync(join(CACHE, 'making-'));
    await make(making, fills);
    renameSync(making, kept);
  }
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-large-'));
  cpSync(kept, folder, { recursive: true });
  return { folder, port: Number(readFileSync(join(folder, 'port'), 'utf8')) };
}
