/** Reads and writes the program's database without the program. */
import type { Page } from '@playwright/test';

/** Every row of a table. */
export const storedRows = (page: Page, table: string): Promise<unknown[]> =>
  page.evaluate(async (name) => {
    const opening = indexedDB.open('straightedge');
    const database = await new Promise<IDBDatabase>((resolve) => (opening.onsuccess = () => resolve(opening.result)));
    const reading = database.transaction(name).objectStore(name).getAll();
    const rows = await new Promise<unknown[]>((resolve) => (reading.onsuccess = () => resolve(reading.result)));
    database.close();
    return rows;
  }, table);

/** Stores rows by table. The page shows them once it is loaded again or opens another screen. */
export const putRows = (page: Page, rows: Readonly<Record<string, readonly object[]>>): Promise<void> =>
  page.evaluate(async (tables) => {
    const opening = indexedDB.open('straightedge');
    const database = await new Promise<IDBDatabase>((resolve) => (opening.onsuccess = () => resolve(opening.result)));
    const writing = database.transaction(Object.keys(tables), 'readwrite');
    for (const [table, of] of Object.entries(tables)) for (const row of of) writing.objectStore(table).put(row);
    await new Promise<void>((resolve, reject) => {
      writing.oncomplete = () => resolve();
      writing.onabort = () => reject(writing.error ?? new Error('The rows were not stored.'));
    });
    database.close();
  }, rows);

/** Changes one row of a table. */
export async function changeRow<T extends object>(page: Page, table: string, id: string, update: (row: T) => object): Promise<void> {
  const row = (await storedRows(page, table)).find((one) => (one as { readonly id: string }).id === id) as T;
  await putRows(page, { [table]: [update(row)] });
}
