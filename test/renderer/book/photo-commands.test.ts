/** Photos of a room: bytes stored once, under their checksum. */
import { pictureName } from '../../../shared-core/book/backup.ts';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Book } from '../../../renderer/book/database.ts';
import { captionPhoto, storePhoto, deletePhoto } from '../../../renderer/book/photo-commands.ts';
import { readPicture } from '../../../renderer/book/pictures.ts';
import { openSampleData, removeSample } from '../../../renderer/book/sample-commands.ts';
import { undo } from '../../../renderer/book/write.ts';
import { freshBook, NOW } from './fresh-book.ts';

let book: Book;
beforeEach(async () => {
  book = await freshBook();
});
const of = { jobId: 'job-0001', roomId: 'room-0001', caption: '', takenAt: NOW, mediaType: 'image/jpeg', widthPx: 4, heightPx: 3 } as const;
// FIPS 180-4: the SHA-256 of the three bytes `abc`.
const ABC = new Uint8Array([97, 98, 99]);
const NAME = 'photos/ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad.jpg';

describe('photos', () => {
  it('are stored under their checksum, the same one once', async () => {
    expect((await storePhoto({ ...of, bytes: ABC })).ok).toBe(true);
    expect((await storePhoto({ ...of, caption: 'again', bytes: ABC })).ok).toBe(true);
    expect(await book.rowsOf('photos').count()).toBe(2);
    expect(await book.pictures.count()).toBe(1);
    expect([...((await readPicture(NAME)) ?? [])]).toEqual([97, 98, 99]);
  });

  it('are named and deleted, and undo restores them', async () => {
    const stored = await storePhoto({ ...of, bytes: ABC });
    if (!stored.ok) throw new Error(stored.message);
    await captionPhoto(stored.value, 'Crack at the threshold');
    await deletePhoto(stored.value);
    expect((await book.rowsOf('photos').get(stored.value))?.deletedAt).not.toBeNull();
    await undo();
    expect(await book.rowsOf('photos').get(stored.value)).toMatchObject({ caption: 'Crack at the threshold', deletedAt: null });
  });

  it('of the sample come with it and go with it, and the user’s own stay', async () => {
    await storePhoto({ ...of, bytes: ABC });
    expect(await openSampleData(NOW)).toMatchObject({ ok: true });
    const names = (await book.rowsOf('photos').toArray()).map((row) => pictureName(row) ?? '');
    expect(names.length).toBeGreaterThan(3);
    for (const name of names) expect(await readPicture(name), name).not.toBeNull();
    await removeSample();
    expect(await book.rowsOf('photos').count()).toBe(1);
    expect(await book.pictures.toCollection().primaryKeys()).toEqual([NAME]);
  });
});
