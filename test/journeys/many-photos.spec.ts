/** With ten years of photos, a screen that shows none of them reads none of their bytes. */
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';

const PHOTOS = 10_000;

/** Counts what a page reads from the table of photo bytes; installed before the page's code. */
function countReads(): void {
  const counted = globalThis as unknown as { pictureReads: number };
  counted.pictureReads = 0;
  const watch = (of: object, name: string): void => {
    const plain = Reflect.get(of, name) as (this: IDBObjectStore | IDBIndex, ...given: unknown[]) => unknown;
    Reflect.set(of, name, function (this: IDBObjectStore | IDBIndex, ...parameters: unknown[]) {
      const store = this instanceof IDBIndex ? this.objectStore : this;
      if (store.name === 'pictures') counted.pictureReads += 1;
      return plain.apply(this, parameters);
    });
  };
  for (const of of [IDBObjectStore.prototype, IDBIndex.prototype]) for (const name of ['get', 'getAll', 'openCursor']) watch(of, name);
}

const reads = (page: Page): Promise<number> => page.evaluate(() => (globalThis as unknown as { pictureReads: number }).pictureReads);

/** Photos of an old finished job, each with its bytes. */
async function fill(count: number): Promise<void> {
  const opening = indexedDB.open('straightedge');
  const db = await new Promise<IDBDatabase>((resolve) => (opening.onsuccess = () => resolve(opening.result)));
  const writing = db.transaction(['photos', 'pictures'], 'readwrite');
  const instant = '2019-04-03T09:00:00.000Z';
  for (let n = 0; n < count; n += 1) {
    const sha256 = n.toString(16).padStart(64, '0');
    const dates = { createdAt: instant, changedAt: instant, deletedAt: null };
    const of = { jobId: 'job-long-finished', roomId: null, caption: `Photo ${n}`, takenAt: instant };
    writing.objectStore('photos').put({ id: `photo-${n}`, ...dates, ...of, sha256, mediaType: 'image/jpeg', widthPx: 800, heightPx: 600 });
    writing.objectStore('pictures').put({ name: `${sha256}.jpg`, data: new Uint8Array(512).fill(n % 251) });
  }
  await new Promise((resolve) => (writing.oncomplete = resolve));
  db.close();
}

test('with 10,000 photos, Today, a job and a room read no photo’s bytes', async ({ program, page }) => {
  await page.addInitScript(countReads);
  // A backup reads every photo, and a slow computer would begin one here.
  await page.addInitScript(() => void navigator.locks.request('straightedge-backup', () => new Promise(() => undefined)));
  await page.goto(program.address);
  await page.getByRole('button', { name: 'Open sample data' }).click();
  await expect(page.locator('.today-list li').first()).toBeVisible({ timeout: 30_000 });
  await page.evaluate(fill, PHOTOS);

  await page.reload();
  await expect(page.locator('.today-list li').first()).toBeVisible({ timeout: 30_000 });
  for (const route of ['/jobs', '/jobs/sample-job-odell/estimate/sample-hall', '/plan/sample-hall', '/readings/sample-hall']) {
    await page.goto(new URL(`/#${route}`, program.address).href);
    await expect(
      page
        .getByRole('heading', { level: 1 })
        .or(page.getByRole('heading', { level: 2 }))
        .first(),
    ).toBeVisible();
    await expect(page.locator('.app-opening')).toHaveCount(0);
  }
  expect(await reads(page)).toBe(0);

  // The counter works: one read counts as one.
  await page.evaluate(async () => {
    const opening = indexedDB.open('straightedge');
    const db = await new Promise<IDBDatabase>((resolve) => (opening.onsuccess = () => resolve(opening.result)));
    const request = db.transaction('pictures').objectStore('pictures').count();
    await new Promise((resolve) => (request.onsuccess = resolve));
    const one = db.transaction('pictures').objectStore('pictures').getAll(null, 1);
    await new Promise((resolve) => (one.onsuccess = resolve));
    db.close();
  });
  expect(await reads(page)).toBe(1);
});
