/**
 * Problems around a pour: zero mixers, a computer that slept, a clock set back, a lot number that is too long, a file that is not a photo.
 */
import { faults } from './faults.ts';
import { expect, test } from './open-book.ts';
import { endPour, pressMore, toPour, undoOf } from './open-pour.ts';
import { laneDone, placed, runPour } from './running-pour.ts';

/** A red square of eight pixels, as a PNG. */
const SQUARE = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAgAAAAICAIAAABLbSncAAAAEUlEQVR4nGM44KCAFTEMLQkASmxIAVhuqSoAAAAASUVORK5CYII=',
  'base64',
);

test('problems are reported in words and lose nothing, and photos of bag and floor are stored with the record', async ({
  sample: _book,
  page,
}) => {
  await page.clock.install();
  await toPour(page);
  // Zero mixers: the field reports the error, and the plan still has the two before.
  await page.getByLabel('Mixing', { exact: true }).fill('0');
  await page.getByLabel('Mixing', { exact: true }).press('Tab');
  await expect(page.getByText('Enter 1 or more.')).toBeVisible();
  await expect(page.locator('.sheet-foot .answer').first()).toContainText(': 19 batches');
  await page.getByLabel('Mixing', { exact: true }).fill('2');
  await page.getByLabel('Mixing', { exact: true }).press('Tab');

  await runPour(page, 40);
  const next = page.locator('.pour-button-next');
  const undo = undoOf(page);
  await page.clock.fastForward(20_000);
  await page.keyboard.press('Space');
  await expect(undo).toContainText('Batch 1 placed');

  // After ten minutes of sleep the clocks include them, with a message.
  await page.clock.fastForward(600_000);
  await expect(page.getByRole('alert').filter({ hasText: 'asleep for 10 minutes' })).toBeVisible();
  await expect(page.getByRole('timer')).toHaveText(/^1[01]:/);

  // With the clock set back an hour, ages never run backward and the next entry follows the last.
  const before = await page.evaluate(() => Date.now());
  await page.clock.setSystemTime(before - 3_600_000);
  await page.clock.runFor(2000);
  await page.keyboard.press('Space');
  await expect(undo).toContainText('Batch 2 placed');
  await expect(next).toContainText('Batch 3 placed');
  await expect(page.getByRole('alert').filter({ hasText: /clock/ })).toBeVisible();

  // A low screen shows one notice whole, and the next behind its button.
  await page.setViewportSize({ width: 1024, height: 600 });
  const notices = page.locator('.pour-mode-messages');
  await expect(notices.getByRole('listitem')).toHaveText(/went back 60 minutes/);
  expect(await notices.getByRole('alert').evaluate((e) => e.scrollHeight - e.clientHeight)).toBeLessThanOrEqual(0);
  await notices.getByRole('button', { name: 'and 1 more' }).click();
  await expect(notices.getByRole('listitem')).toHaveText(/went back (?:49|50) minutes/);
  await page.setViewportSize({ width: 1440, height: 900 });

  // A lot number of a thousand characters is refused in a sentence, and stays to be shortened.
  await pressMore(page, 'l');
  const lot = page.getByLabel('Lot number on the bag');
  await lot.fill('L'.repeat(1000));
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByRole('dialog').getByRole('alert').first()).toContainText(/60 characters|200 characters/);
  expect((await lot.inputValue()).length).toBe(1000);
  await lot.fill('');
  await page
    .getByRole('dialog')
    .locator('input[type="file"]')
    .setInputFiles({ name: 'notes.png', mimeType: 'image/png', buffer: Buffer.from('no picture') });
  await expect(page.getByRole('dialog').getByText(/notes\.png could not be read as a photo/)).toBeVisible();
  await page.getByRole('dialog').locator('input[type="file"]').setInputFiles({ name: 'bag.png', mimeType: 'image/png', buffer: SQUARE });
  await expect(page.getByText('1 photo ready to save')).toBeVisible();
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(undo).toContainText('Lot on the photo');

  await pressMore(page, 'p');
  await page.getByRole('dialog').locator('input[type="file"]').setInputFiles({ name: 'floor.png', mimeType: 'image/png', buffer: SQUARE });
  await expect(page.getByText('1 photo ready to save')).toBeVisible();
  await page.getByLabel('Caption').fill('The corner by the hearth');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(undo).toContainText('Photo added');

  // The log has the end, and the disk is full when the record of the pour follows.
  await page.evaluate(() => {
    let isFull = true;
    Object.assign(globalThis, { makeSpace: () => (isFull = false) });
    const at = Object.getOwnPropertyDescriptor(IDBObjectStore.prototype, 'put');
    const put = at?.value as IDBObjectStore['put'];
    Object.defineProperty(IDBObjectStore.prototype, 'put', {
      ...at,
      value(this: IDBObjectStore, ...row: Parameters<typeof put>) {
        if (this.name !== 'pours' || !isFull) return put.apply(this, row);
        throw new DOMException('', 'QuotaExceededError');
      },
    });
  });
  await endPour(page, /^Partly poured/);
  await expect(notices.getByText(/^Not saved yet: The disk is full/)).toBeVisible();
  await page.evaluate('makeSpace()');
  await page.clock.fastForward(3000);
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: partly poured' })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Enlarge photo: The corner by the hearth' }).locator('img')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Enlarge photo: Lot number on the bag' }).locator('img')).toBeVisible();
  // Both batches are on record in order, the second not before the first.
  const rows = page.getByRole('table', { name: 'Batches, planned and used' }).getByRole('row');
  await expect(rows.nth(1)).not.toContainText('not logged');
  await expect(rows.nth(2)).not.toContainText('not logged');
});

test('words about a leak are never cut, and dialogs on a phone keep their buttons in sight', async ({ sample: _book, page }) => {
  await page.clock.install();
  const quiet = [100, 75, 50, 25].map((ago) => [ago, { kind: 'bags-added', bags: 1 }] as const);
  const log = [...placed(1, 3, 12), laneDone(1, 11), ...placed(4, 9, 1)];
  await runPour(page, 60, [...quiet, ...log, [0.9, { kind: 'mixed', batch: 10, bags: 2, waterL: null }]]);
  const notices = page.locator('.pour-mode-messages').getByRole('alert');
  await expect(notices).toContainText('look for a leak. Check gaps at walls, pipe holes, cracks, and dams.');
  const isWhole = async (): Promise<void> => {
    for (const [width, height] of [
      [390, 844],
      [375, 667],
      [320, 568],
      [720, 450],
      [844, 390],
      [1024, 600],
      [1024, 768],
      [1440, 900],
    ] as const) {
      await page.setViewportSize({ width, height });
      expect(await notices.evaluate((e) => e.scrollHeight - e.clientHeight), `hidden at ${width} by ${height}`).toBeLessThanOrEqual(0);
    }
  };
  await isWhole();
  // Three minutes later the edge is past healing: where to stop comes before the leak, also where one notice shows at a time.
  await page.clock.fastForward(180_000);
  await expect(notices.getByRole('listitem').first()).toHaveText(/past healing: cold joint\. Stop /);
  await expect(notices.getByRole('listitem')).toHaveCount(3);
  await isWhole();
  expect(await faults(page)).toEqual([]);
  await page.setViewportSize({ width: 1024, height: 768 });
  await expect(notices.getByText(/past healing/)).toBeVisible();
  await expect(notices.getByText(/leak/)).toBeHidden();
  await expect(page.locator('.pour-mode-work')).toBeInViewport({ ratio: 1 });
  // No room for the plan: the lane is named.
  await page.setViewportSize({ width: 720, height: 450 });
  await expect(page.getByText('Lane 3, batch 10', { exact: true })).toBeVisible();
  await page.setViewportSize({ width: 390, height: 844 });
  await page.keyboard.press('e');
  for (const name of ['Close', 'Leave pour running'])
    await expect(page.getByRole('dialog').getByRole('button', { name })).toBeInViewport({ ratio: 1 });
  await page.keyboard.press('Escape');
  await page.setViewportSize({ width: 844, height: 390 });
  for (const [key, name] of [
    ['l', 'Save'],
    ['r', 'Save'],
    ['k', 'Save correction'],
    ['f', 'All of it placed'],
  ] as const) {
    await pressMore(page, key);
    const button = page.getByRole('dialog').getByRole('button', { name });
    for (const each of [button, page.getByRole('dialog').getByRole('button', { name: 'Back' })])
      await expect(each, `${key}, ${name}`).toBeInViewport({ ratio: 1 });
    await page.keyboard.press('Escape');
  }
});

test('what past pours suggest is in Settings, and applied only when accepted', async ({ sample: _book, page }) => {
  await page.getByRole('link', { name: 'Settings' }).first().click();
  await page.getByRole('button', { name: 'Edit Past pours' }).click();
  const table = page.getByRole('table', { name: 'Past pours, estimated and actual' });
  await expect(table.getByRole('row')).toHaveCount(8);
  await expect(table).toContainText('Living room');
  await expect(page.getByText(/^New plans start from typical task times/)).toBeVisible();
  await page.getByRole('button', { name: 'Use these task times' }).click();
  await expect(page.getByText(/^New plans start from your own task times/)).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(page.getByText(/^New plans start from typical task times/)).toBeVisible();
});
