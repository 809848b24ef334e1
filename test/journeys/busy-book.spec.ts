/** With a slow database, later input counts, and only stored readings count as read. */
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { toSheet } from './open-sample.ts';
import { openFloor } from './open-floor.ts';

/** Locks the whole database, like a slow disk, until it is released. */
async function hold(page: Page): Promise<() => Promise<void>> {
  await page.evaluate(async () => {
    const open = indexedDB.open('straightedge');
    const database = await new Promise<IDBDatabase>((resolve) => {
      open.onsuccess = () => resolve(open.result);
    });
    const write = database.transaction([...database.objectStoreNames], 'readwrite');
    const holdOn = (): void => {
      if (document.body.dataset['letGo'] === 'true') return;
      write.objectStore('rooms').count().onsuccess = holdOn;
    };
    delete document.body.dataset['letGo'];
    write.oncomplete = () => database.close();
    holdOn();
  });
  return () =>
    page.evaluate(() => {
      document.body.dataset['letGo'] = 'true';
    });
}

test('sides and readings entered during a slow write all count', async ({ book: _book, page }) => {
  await openFloor(page, { yearBuilt: 1995 });
  const toPlan = () => toSheet(page, '/plan/room-0001');
  await toPlan();
  const side = (n: number) => page.getByLabel(`Side ${n}`, { exact: true });
  await expect(side(1)).toHaveValue('12′ 0″');
  let letGo = await hold(page);
  for (const [n, length] of [`13'`, `11'`, `13'`, `11'`].entries()) {
    await side(n + 1).fill(length);
    await side(n + 1).press('Enter');
  }
  for (const [n, shown] of ['13′ 0″', '11′ 0″', '13′ 0″', '11′ 0″'].entries()) await expect(side(n + 1)).toHaveValue(shown);
  await expect(page.getByText('48′ 0″ wall length')).toBeVisible();
  await letGo();

  await page.getByRole('link', { name: 'Take readings' }).click();
  const entry = page.getByLabel('Reading down from laser');
  await expect(entry).toBeFocused();
  letGo = await hold(page);
  for (const read of ['40', '40 1/8', '40 1/4']) {
    await entry.fill(read);
    await entry.press('Enter');
  }
  await expect(page.getByText(/^0 read, 3 saving, /)).toBeVisible();
  await letGo();
  await expect(page.getByText(/^3 read, /)).toBeVisible();
  await page.reload();
  await expect(page.getByText(/^3 read, /)).toBeVisible();
  await toPlan();
  for (const [n, shown] of ['13′ 0″', '11′ 0″', '13′ 0″', '11′ 0″'].entries()) await expect(side(n + 1)).toHaveValue(shown);
});
