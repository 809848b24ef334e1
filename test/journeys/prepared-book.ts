/** The sample data as one press of its button left it, made once in each process and put into every other profile that asks for it. */
import { expect, type Page } from '@playwright/test';

type Store = {
  readonly name: string;
  readonly keyPath: string | string[] | null;
  readonly autoIncrement: boolean;
  readonly indexes: readonly { readonly name: string; readonly keyPath: string | string[]; readonly options: IDBIndexParameters }[];
  readonly rows: readonly unknown[];
};
type Prepared = { readonly version: number; readonly stores: readonly Store[] };

/** Presses the button and waits until the program has every row. */
export async function openSampleData(page: Page): Promise<void> {
  const button = page.getByRole('button', { name: 'Open sample data' });
  await button.click();
  await button.waitFor({ state: 'hidden' });
  await page.locator('.today-list li').first().waitFor();
}

/** Reads every store of the page's database. None of the sample's rows holds bytes. */
const readStores = (page: Page): Promise<Prepared> =>
  page.evaluate(async () => {
    const done = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error ?? new Error('The database was not read.'));
      });
    const database = await done(indexedDB.open('straightedge'));
    const names = [...database.objectStoreNames];
    const read = database.transaction(names);
    const stores = await Promise.all(
      names.map(async (name) => {
        const store = read.objectStore(name);
        const indexes = [...store.indexNames].map((one) => {
          const { keyPath, unique, multiEntry } = store.index(one);
          return { name: one, keyPath, options: { unique, multiEntry } };
        });
        return { name, keyPath: store.keyPath, autoIncrement: store.autoIncrement, indexes, rows: await done(store.getAll()) };
      }),
    );
    database.close();
    return { version: database.version, stores };
  });

/** What this process prepared, as JSON. */
let prepared: string | null = null;

/** Writes the prepared stores into a profile that has never opened the program. The page brings them: as an argument they took a second. */
async function writeStores(page: Page, address: string, stored: string): Promise<void> {
  const blank = new URL('/prepared', address).href;
  const body = `<script type="application/json">${stored.replaceAll('<', String.raw`\u003c`)}</script>`;
  await page.route(blank, (route) => route.fulfill({ contentType: 'text/html; charset=utf-8', body }));
  await page.goto(blank);
  await page.evaluate(async () => {
    const { version, stores } = JSON.parse(document.querySelector('script')?.textContent ?? '') as Prepared;
    await new Promise<void>((resolve, reject) => {
      const request = indexedDB.open('straightedge', version);
      request.onupgradeneeded = () => {
        for (const { name, keyPath, autoIncrement, indexes, rows } of stores) {
          const store = request.result.createObjectStore(name, { keyPath, autoIncrement });
          for (const index of indexes) store.createIndex(index.name, index.keyPath, index.options);
          for (const row of rows) store.put(row);
        }
      };
      request.onsuccess = () => {
        request.result.close();
        resolve();
      };
      request.onerror = () => reject(request.error ?? new Error('The sample data was not written.'));
    });
  });
  await page.unroute(blank);
}

/** Opens the program on Today with the sample data: by its button the first time in this process, from its rows after that. */
export async function openPrepared(page: Page, address: string): Promise<void> {
  if (prepared !== null) await writeStores(page, address, prepared);
  await page.goto(address);
  if (prepared === null) {
    await openSampleData(page);
    // What Today works out of the jobs is stored beside them a moment later.
    await expect(async () => {
      const stores = await readStores(page);
      expect(stores.stores.find((store) => store.name === 'figures')?.rows.length).toBeGreaterThan(0);
      prepared = JSON.stringify(stores);
    }).toPass();
  }
  await page.locator('.today-list li').first().waitFor();
}
