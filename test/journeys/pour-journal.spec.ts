/** A browser profile that lost the end of a running pour, or all of it: the recovery log restores it. */
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { hasLog, logOf, openPour, toPour, undoOf } from './open-pour.ts';
import { openPrepared } from './prepared-book.ts';

/** Deletes the log's entries after `seq` from the profile, as a disk restored to an earlier state would. */
const rollBack = (page: Page, seq: number): Promise<void> =>
  page.evaluate(
    (after) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('straightedge');
        opening.onerror = () => reject(new Error('The book did not open.'));
        opening.onsuccess = () => {
          const transaction = opening.result.transaction('pourEvents', 'readwrite');
          const walk = transaction.objectStore('pourEvents').openCursor();
          walk.onsuccess = () => {
            const { result } = walk;
            if (result === null) return;
            const { pourId, seq: number } = result.value as { pourId: string; seq: number };
            if (!pourId.startsWith('sample-') && number > after) result.delete();
            result.continue();
          };
          transaction.oncomplete = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
    seq,
  );

test('entries that a running pour lost with its profile come back from the recovery log, in order and once', async ({
  program,
  sample: _book,
  page,
  fresh,
}) => {
  test.setTimeout(180_000);
  await page.clock.install();
  await toPour(page);
  await openPour(page, 90);
  const journaled: string[] = [];
  page.on('response', (response) => {
    if (response.url().endsWith('/call/journal.add') && response.ok()) journaled.push(response.url());
  });
  const undo = undoOf(page);
  for (const [key, words] of [
    ['m', 'Batch 1 mixed'],
    [' ', 'Batch 1 placed'],
    ['m', 'Batch 2 mixed'],
    ['s', 'Lane 1 finished'],
  ] as const) {
    // The same key within a second is questioned.
    await page.clock.fastForward(1100);
    await page.keyboard.press(key);
    await expect(undo).toContainText(words);
  }
  await expect.poll(() => journaled.length).toBeGreaterThanOrEqual(4);
  await expect.poll(async () => (await logOf(page)).length).toBe(5);
  const whole = await logOf(page);

  // Reduced to its first two entries: recovered as pour mode opens, and reported.
  const address = page.url();
  await page.goto(program.address);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await rollBack(page, 2);
  // Reloaded, because navigating within the page would recover them first.
  await page.goto('about:blank');
  await page.goto(address);
  await expect(page.getByRole('alert').filter({ hasText: /3 pour log entries were recovered for .*Family room/ })).toBeVisible();
  await hasLog(page, whole);
  await page.reload();
  await expect(undo).toContainText('Lane 1 finished');
  await hasLog(page, whole);

  // A new profile with the job restored: the pour is offered, and after recovery it continues.
  await openPrepared(fresh, program.address);
  const offer = fresh.getByRole('alert').filter({ hasText: 'The recovery log holds 5 pour log entries that were not saved.' });
  await expect(offer).toBeVisible();
  await offer.getByRole('button', { name: 'Recover entries' }).click();
  await expect(offer).toBeHidden();
  await fresh.goto(address);
  await expect(fresh.getByRole('heading', { level: 1, name: 'Pour: Family room' })).toBeAttached();
  await hasLog(fresh, whole);
  await fresh.keyboard.press('Space');
  await expect(fresh.getByRole('button', { name: /^Undo/ })).toContainText('Batch 2 placed');
});
