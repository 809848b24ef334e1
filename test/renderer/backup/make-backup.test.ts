import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { storePictures } from '../../../renderer/book/pictures.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { openBackup, closeBackup } from '../../../renderer/book/open-read-only.ts';
import { lookIntoBackup, openBackupFrom } from '../../../renderer/backup/open-backup.ts';
import { makeBackup } from '../../../renderer/backup/make-backup.ts';
import type { Photo } from '../../../shared-core/book/papers.ts';
import { PHOTOS_PER_CALL } from '../../../shared-core/desk/backup-calls.ts';
import type { WorkingDesk } from '../../main/desk/working-desk.ts';
import { pageDesk } from '../page-desk.ts';
import { freshBook, NOW } from '../book/fresh-book.ts';

let book: Book;
let desk: WorkingDesk;
/** Waits before the desk sees a call. */
let before: (name: string) => Promise<unknown>;
beforeEach(async () => {
  book = await freshBook();
  before = () => Promise.resolve();
  desk = pageDesk(async (name) => void (await before(name)));
});
afterEach(async () => {
  await closeBackup();
  vi.unstubAllGlobals();
});

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

const openedBackup = async (saved: Awaited<ReturnType<typeof makeBackup>>) => {
  if (!saved.ok) throw new Error(saved.message);
  const opened = await openBackupFrom({ name: saved.value.split(' was saved')[0] ?? '' }, null);
  if (!opened.ok) throw new Error(opened.error.message);
  return opened.value;
};
/** Holds the first call of this name; `go` lets it pass. */
const holdCall = (held: string) => {
  let go = (): void => undefined;
  let reached = (): void => undefined;
  const isReached = new Promise<void>((resolve) => (reached = resolve));
  const gone = new Promise<void>((resolve) => (go = resolve));
  before = async (name) => {
    if (name !== held) return;
    reached();
    await gone;
  };
  return { isReached, go: () => go() };
};

it('of the user’s own data is never made from a backup opened meanwhile', async () => {
  const old = await openedBackup(await makeBackup('manual'));
  await book.rowsOf('photos').put(shoot(1).row);
  const begin = holdCall('backup.begin');
  const underWay = makeBackup('automatic');
  await begin.isReached;
  // The backup of another window or of this one is under way: opening one waits, and so does the next automatic backup.
  const [opening, next] = [lookIntoBackup(old), makeBackup('automatic')];
  begin.go();
  const made = await underWay;
  expect(await opening).toMatchObject({ ok: true });
  expect(openBackup()).not.toBeNull();
  expect(await next).toMatchObject({ ok: false, message: 'A backup is open read-only. Close it first.' });
  // The desk reads one backup at a time, so this one is opened last.
  expect((await openedBackup(made)).counts.photos).toBe(1);
});

it('closed while its photos load leaves the user’s own photos unchanged', async () => {
  const [shot] = await fill(1);
  const old = await openedBackup(await makeBackup('manual'));
  await book.pictures.clear();
  const photos = holdCall('backup.photos');
  expect(await lookIntoBackup(old)).toMatchObject({ ok: true });
  await photos.isReached;
  await closeBackup();
  photos.go();
  for (let i = 0; i < 50; i += 1) await new Promise((resolve) => setImmediate(resolve));
  expect(old.photos).toEqual([shot?.name]);
  expect(await book.pictures.count()).toBe(0);
});
