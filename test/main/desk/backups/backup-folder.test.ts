import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { scratchFolder } from '../../../scratch-folder.ts';
import { workingDesk } from '../working-desk.ts';
import { rangeBytes } from './pack-rows.ts';
import { removeFolder } from '../../../../build/remove-folder.mjs';

const NAMING = { dataset: '0a1b2c3d', madeAt: '2026-05-12T14:00:00.000Z', reason: 'automatic', key: null, base: null } as const;
const BACKUP = 'Job Book 0a1b2c3d 2026-05-12 11-05-00-000.zip';

it('a chosen Backups folder whose disk is gone is not created again, and the default one is', async () => {
  const chosen = join(scratchFolder('backups'), 'disk');
  mkdirSync(chosen);
  const { dispatch, papers, opened } = workingDesk({ chooseFolder: () => Promise.resolve(chosen) });
  expect(await dispatch('backup.folder', { choose: 'other' })).toMatchObject({ ok: true, value: { folder: chosen, changed: true } });
  expect(await dispatch('backup.begin', NAMING)).toMatchObject({ ok: true });
  removeFolder(chosen);
  const photo = Buffer.from('a photo');
  const name = `photos/${createHash('sha256').update(photo).digest('hex')}.jpg`;
  const calls = [
    dispatch('backup.begin', NAMING),
    dispatch('backup.add-photos', { photos: [{ name, base64: photo.toString('base64') }], encrypted: false }),
    dispatch('folder.open', { which: 'backups' }),
    // These were listed before the disk was gone.
    dispatch('backup.open', { from: { name: BACKUP }, key: null, passphrase: null }),
    dispatch('backup.save-portable', { name: BACKUP, key: null }),
    dispatch('backup.delete', { name: BACKUP }),
  ];
  for (const answer of await Promise.all(calls))
    expect(answer).toMatchObject({
      ok: false,
      error: {
        code: 'not-found',
        message: `The Backups folder ${chosen} was not found. Reconnect its disk, or choose another folder.`,
      },
    });
  expect(existsSync(chosen)).toBe(false);
  expect(opened).toEqual([]);
  // What is on the missing disk is unknown, and the free space of another disk is not that of this one.
  expect(await dispatch('backup.list', { dataset: NAMING.dataset })).toMatchObject({
    ok: true,
    value: {
      folder: chosen,
      problem: `The Backups folder ${chosen} was not found. Reconnect its disk, or choose another folder.`,
      freeBytes: null,
      backups: [],
    },
  });
  await dispatch('backup.folder', { choose: 'default' });
  mkdirSync(papers, { recursive: true });
  expect(await dispatch('backup.list', { dataset: NAMING.dataset })).toMatchObject({
    ok: true,
    value: { problem: null, freeBytes: expect.any(Number), backups: [] },
  });
  expect(await dispatch('backup.begin', NAMING)).toMatchObject({ ok: true });
  expect(existsSync(join(papers, 'Backups'))).toBe(true);
});

// Windows reports a file in place of a folder as missing; from memory.
it.skipIf(process.platform === 'win32')(
  'a Backups folder that cannot be read can still be changed, and nothing in it is called unsaved',
  async () => {
    const chosen = join(scratchFolder('backups'), 'disk');
    mkdirSync(chosen);
    const { dispatch } = workingDesk({ chooseFolder: () => Promise.resolve(chosen) });
    await dispatch('backup.folder', { choose: 'other' });
    removeFolder(chosen);
    writeFileSync(chosen, 'a file in its place');
    expect(await dispatch('backup.list', { dataset: NAMING.dataset })).toMatchObject({
      ok: true,
      value: {
        folder: chosen,
        chosen: true,
        problem: expect.stringContaining('The Backups folder was not opened'),
        freeBytes: null,
        backups: [],
      },
    });
    for (const [answer, words] of [
      [await dispatch('backup.delete', { name: BACKUP }), `${BACKUP} was not deleted`],
      [await dispatch('backup.open', { from: { name: BACKUP }, key: null, passphrase: null }), `${BACKUP} was not opened`],
    ] as const)
      expect(answer).toMatchObject({ ok: false, error: { code: 'read-only', message: expect.stringContaining(words) } });
  },
);

it('a backup whose file alone was brought to another computer says that its photos are not there', async () => {
  const [home, away] = [workingDesk(), workingDesk()];
  const value = async <T>(answer: Promise<unknown>): Promise<T> => {
    const given = (await answer) as { readonly ok: boolean; readonly value: T };
    expect(given).toMatchObject({ ok: true });
    return given.value;
  };
  const key = await value<unknown>(home.dispatch('backup.make-key', { passphrase: 'four plain words here' }));
  const photo = Buffer.from('a photo of a worn floor');
  const sha256 = createHash('sha256').update(photo).digest('hex');
  const named = `photos/${sha256}.jpg`;
  const { id } = await value<{ id: string }>(home.dispatch('backup.begin', { ...NAMING, key }));
  const bytes = new Uint8Array(rangeBytes([{ id: 'photo-1', mediaType: 'image/jpeg', sha256 }]));
  await value(home.dispatch('backup.add-rows', { id, table: 'photos', bytes }));
  await value(home.dispatch('backup.add-photos', { photos: [{ name: named, base64: photo.toString('base64') }], encrypted: true }));
  const { name, folder } = await value<{ name: string; folder: string }>(home.dispatch('backup.finish', { id, withoutPhotos: [] }));
  const file = readFileSync(join(folder, name)).toString('base64');
  const openedAt = async ({ dispatch }: typeof home): Promise<unknown> => {
    const uploaded = await value<{ id: string }>(dispatch('backup.upload', { id: null, base64: file }));
    return value(dispatch('backup.open', { from: { uploaded: uploaded.id }, key: null, passphrase: 'four plain words here' }));
  };
  expect(await openedAt(home)).toMatchObject({ photos: [named], photosMissing: 0, isEncrypted: true });
  expect(await openedAt(away)).toMatchObject({ photos: [named], photosMissing: 1, isEncrypted: true });
});
