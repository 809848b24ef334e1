import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { storePictures } from '../../../renderer/book/pictures.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { makeBackup } from '../../../renderer/backup/make-backup.ts';
import type { Photo } from '../../../shared-core/book/papers.ts';
import { PHOTOS_PER_CALL } from '../../../shared-core/desk/backup-calls.ts';
import type { WorkingDesk } from '../../main/desk/working-desk.ts';
import { pageDesk } from '../page-desk.ts';
import { freshBook, NOW } from '../book/fresh-book.ts';

let book: Book;
let desk: WorkingDesk;
beforeEach(async () => {
  book = await freshBook();
  desk = pageDesk();
});
afterEach(() => vi.unstubAllGlobals());

const shoot = (n: number): { readonly row: Photo; readonly name: string; readonly data: Uint8Array<ArrayBuffer> } => {
  const data = new TextEncoder().encode(`photo ${n}`);
  const sha256 = createHash('sha256').update(data).digest('hex');
  const row: Photo = {
    ...{ id: `photo-${String(n).padStart(4, '0')}`, createdAt: NOW, changedAt: NOW, deletedAt: null },
    ...{ jobId: 'job-1', roomId: null, takenAt: null, caption: '', mediaType: 'image/jpeg', widthPx: 8, heightPx: 6, sha256 },
  };
  return { row, name: `photos/${sha256}.jpg`, data };
};
const fill = async (many: number): Promise<ReturnType<typeof shoot>[]> => {
  const shots = Array.from({ length: many }, (_, n) => shoot(n));
  await book.rowsOf('photos').bulkPut(shots.map(({ row }) => row));
  expect(await storePictures(shots.map(({ name, data }) => ({ name, data })))).toMatchObject({ ok: true });
  return shots;
};
const storedPhotos = (): string[] => readdirSync(join(desk.papers, 'Backups', 'Photos')).sort();

it('sends more photos than fit one call, each once', async () => {
  const shots = await fill(2 * PHOTOS_PER_CALL + 30);
  expect(await makeBackup('manual')).toMatchObject({
    ok: true,
    value: expect.stringMatching(/^Job Book .*\.zip was saved and checked\.$/),
  });
  expect(storedPhotos()).toEqual(shots.map(({ name }) => name.slice('photos/'.length)).sort());
});

it('backs up without a photo that is missing or damaged, and reports it', async () => {
  const [lost, damaged, sound] = await fill(3);
  if (lost === undefined || damaged === undefined || sound === undefined) throw new Error('no photos');
  await book.pictures.delete(lost.name);
  await book.pictures.put({ name: damaged.name, data: new TextEncoder().encode('other bytes') });
  expect(await makeBackup('manual')).toMatchObject({
    ok: true,
    value: expect.stringContaining('2 photos are missing or damaged and were left out. A backup in another folder may still have them.'),
  });
  expect(storedPhotos()).toEqual([sound.name.slice('photos/'.length)]);
});
