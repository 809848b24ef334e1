/** Photos of a floor: chosen or pasted, resized without location, and refused in a sentence when they are not photos or too large. */
import { truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { openFloor, toSheet } from './open-floor.ts';
import { toSheet as toAddress } from './open-sample.ts';

/** A picture made in the browser, with an EXIF GPS block added as a camera does. */
async function cameraPhoto(page: Page, widthPx: number, heightPx: number): Promise<Buffer> {
  const jpeg = Buffer.from(
    await page.evaluate(
      async ([width, height]) => {
        const canvas = document.createElement('canvas');
        [canvas.width, canvas.height] = [width, height];
        canvas.getContext('2d')?.fillRect(0, 0, width / 2, height);
        const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', 0.9));
        return blob === null ? [] : [...new Uint8Array(await blob.arrayBuffer())];
      },
      [widthPx, heightPx] as const,
    ),
  );
  // Exif 2.3: APP1, `Exif`, a TIFF header, one tag 0x8825 that points to a GPS block with a latitude reference.
  const directory = ['0100', '25880400010000001a000000', '00000000'];
  const places = ['0100', '01000200020000004e000000', '00000000'];
  const tiff = Buffer.from(['49492a0008000000', ...directory, ...places].join(''), 'hex');
  const body = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff, Buffer.from('GPSLatitudePlace', 'latin1')]);
  const head = Buffer.from([0xff, 0xe1, (body.length + 2) >> 8, (body.length + 2) & 0xff]);
  return Buffer.concat([jpeg.subarray(0, 2), head, body, jpeg.subarray(2)]);
}

/** The bytes of every stored picture. */
const pictures = (page: Page): Promise<number[][]> =>
  page.evaluate(async () => {
    const open = indexedDB.open('straightedge');
    const database = await new Promise<IDBDatabase>((resolve) => {
      open.onsuccess = () => resolve(open.result);
    });
    const read = database.transaction('pictures').objectStore('pictures').getAll();
    const rows = await new Promise<{ readonly data: Uint8Array }[]>((resolve) => {
      read.onsuccess = () => resolve(read.result as { readonly data: Uint8Array }[]);
    });
    database.close();
    return rows.map((row) => [...row.data]);
  });

test('a photo is resized without its location, and a file that is no photo or too large is refused in a sentence', async ({
  book,
  page,
}, info) => {
  await openFloor(page, { yearBuilt: 1995 });
  const folder = info.outputPath();
  const photo = join(folder, 'threshold.jpg');
  const bytes = await cameraPhoto(page, 3000, 1500);
  expect(bytes.includes('GPSLatitudePlace')).toBe(true);
  writeFileSync(photo, bytes);
  const words = join(folder, 'notes.txt');
  writeFileSync(words, 'Not a picture.');
  const liar = join(folder, 'liar.jpg');
  writeFileSync(liar, 'Not a picture either.');
  const huge = join(folder, 'huge.jpg');
  writeFileSync(huge, '');
  truncateSync(huge, 60_000_000);

  const part = page.getByRole('region', { name: 'Photos of the floor' });
  const choose = part.locator('input[type=file]');
  await choose.setInputFiles(words);
  await expect(part.getByRole('alert')).toContainText('notes.txt is not a photo. Choose a JPEG, PNG, or WebP file.');
  await choose.setInputFiles(huge);
  await expect(part.getByRole('alert')).toContainText('huge.jpg is 60 MB. The limit is 50 MB.');
  // An unreadable one does not affect the others.
  await choose.setInputFiles([liar, photo]);
  await expect(part.getByRole('alert')).toContainText('liar.jpg could not be read as a photo.');
  await expect(part.getByRole('img')).toHaveCount(1);

  const stored = (await pictures(page)).map((one) => Buffer.from(one));
  expect(stored).toHaveLength(1);
  expect(stored[0]?.includes('GPSLatitudePlace')).toBe(false);
  expect(stored[0]?.includes('Exif')).toBe(false);
  await expect(part.getByRole('img')).toHaveAttribute('width', '2000');
  await expect(part.getByRole('img')).toHaveAttribute('height', '1000');

  // Pasted, as a screenshot is.
  await page.evaluate(async () => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [40, 30];
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
    const data = new DataTransfer();
    if (blob !== null) data.items.add(new File([blob], 'pasted.png', { type: 'image/png' }));
    document.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
  });
  await expect(part.getByRole('img')).toHaveCount(2);

  // Dropped, as from the file manager.
  const zone = part.locator('.drop-zone');
  await zone.scrollIntoViewIfNeeded();
  const box = await zone.boundingBox();
  if (box === null) throw new Error('There is a place to drop on.');
  const wire = await page.context().newCDPSession(page);
  for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
    await wire.send('Input.dispatchDragEvent', {
      type,
      x: box.x + box.width / 2,
      y: box.y + box.height / 2,
      data: { items: [], files: [photo], dragOperationsMask: 1 },
    });
  await expect(part.getByRole('img')).toHaveCount(3);

  await part
    .getByRole('button')
    .filter({ has: page.getByRole('img') })
    .first()
    .click();
  await page.getByLabel('Caption').fill('Crack at the threshold');
  await page.getByLabel('Caption').blur();
  await expect(page.getByRole('heading', { name: 'Crack at the threshold' })).toBeVisible();
  await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
  await expect(part.getByText('Crack at the threshold')).toBeVisible();

  // After a restart the photos are there, on Prep too.
  await page.goto(await book.restart());
  await page.reload();
  await toSheet(page, 'prep');
  await expect(page.getByRole('region', { name: 'Photos of the prep' }).getByRole('img')).toHaveCount(3);
});

test('a callback stores findings, cause and work done, with its visit', async ({ sample: _book, page }, info) => {
  await toAddress(page, '/jobs/sample-job-abara/cure/sample-living');
  await page.getByRole('button', { name: 'Add visit or callback' }).click();
  await page.getByLabel('Kind', { exact: true }).selectOption({ label: 'Callback' });
  const visit = page.locator('.cure-visit-open');
  await visit.getByLabel('Reason').fill('hair crack by the door');
  await visit.getByLabel('Date and time').fill('tomorrow 9 am');
  await visit.getByLabel('Date and time').press('Tab');
  await visit.getByRole('button', { name: 'Save' }).click();
  await page.getByRole('button', { name: 'Edit hair crack by the door' }).click();
  await visit.getByLabel('Cause').fill('A joint that moves, not honored.');
  await visit.getByLabel('Fix').fill('Cut open and filled with a soft filler.');
  await visit.getByLabel('Fix').press('Tab');
  const photo = join(info.outputPath(), 'crack.jpg');
  writeFileSync(photo, await cameraPhoto(page, 800, 600));
  await visit.locator('input[type="file"]').setInputFiles(photo);
  const seen = visit.getByRole('button', { name: /hair crack by the door/ });
  await expect(seen).toHaveCount(1);

  await page.reload();
  await page.getByRole('button', { name: 'Edit hair crack by the door' }).click();
  await expect(seen).toHaveCount(1);
  await expect(visit.getByLabel('Cause')).toHaveValue('A joint that moves, not honored.');
  await expect(visit.getByLabel('Fix')).toHaveValue('Cut open and filled with a soft filler.');
});
