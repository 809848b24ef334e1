/** scrypt: the vectors of RFC 7914, section 12. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { DeskFailure } from '../../../../main/desk/failure.ts';
import { listBackups, openBytes, openBackupFile, sweepFolder, thin } from '../../../../main/desk/backups/backups-folder.ts';
import { deriveKey, type BackupKey, decryptPicture, encryptPicture, makeBackupKey } from '../../../../main/desk/backups/encryption.ts';
import { storePicture, readPicture, wantedPictures } from '../../../../main/desk/backups/photos.ts';
import { sha256Of } from '../../../../main/desk/files.ts';
import { beginBackup } from '../../../../main/desk/backups/writing.ts';
import { DATASET, NAMING, rangeBytes, tableOf } from './pack-rows.ts';
import { scratchFolder } from '../../../scratch-folder.ts';

const folder = scratchFolder('key');
const PASSPHRASE = 'four plain words here';
let key: BackupKey;
let name = '';
let bytes: Buffer;
beforeAll(async () => {
  key = await makeBackupKey(PASSPHRASE);
  const backup = await beginBackup(folder, NAMING, key);
  await backup.add('customers', rangeBytes([{ id: 'customer-1', name: 'Odell' }]));
  ({ name } = await backup.finish());
  bytes = readFileSync(join(folder, name));
});
const refusal = async (file: Buffer, passphrase: string | null, by: BackupKey | null = null): Promise<string> => {
  try {
    await openBytes(file, { key: by, passphrase });
    return 'opened';
  } catch (error) {
    if (error instanceof DeskFailure) return error.code;
    throw error;
  }
};

describe('the key', () => {
  it('matches RFC 7914', async () => {
    expect((await deriveKey('password', Buffer.from('NaCl'), 10, 8, 16)).toString('hex')).toBe(
      'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b3731622eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640',
    );
  });
});

describe('an encrypted backup', () => {
  it('reveals nothing of its content, and opens with its passphrase or with the key this computer stores', async () => {
    expect(name).toBe(`Job Book ${DATASET} 2026-05-12 11-05-00-000 manual.encrypted`);
    for (const word of ['Odell', 'manifest', 'customers']) expect(bytes.includes(word)).toBe(false);
    for (const by of [
      { key, passphrase: null },
      { key: null, passphrase: PASSPHRASE },
    ])
      expect(tableOf(await openBackupFile(folder, name, by), 'customers')).toEqual([{ id: 'customer-1', name: 'Odell' }]);
  });

  it('asks for the passphrase, and distinguishes a wrong one from damage', async () => {
    expect(await refusal(bytes, null)).toBe('encrypted');
    expect(await refusal(bytes, 'four other words here')).toBe('wrong-passphrase');
    for (const offset of [9, 20, 45, 60, 64, bytes.length >> 1, bytes.length - 1]) {
      const damaged = Buffer.from(bytes);
      damaged[offset] = (damaged[offset] ?? 0) ^ 1;
      expect(await refusal(damaged, null, key), `byte ${offset}`).toBe('bad-input');
    }
    for (const length of [0, 8, 63, 79, bytes.length - 1]) expect(await refusal(bytes.subarray(0, length), null, key)).toBe('bad-input');
  });
});

describe('an encrypted photo', () => {
  const photo = Buffer.from('a photo of the floor');
  const sha256 = sha256Of(photo);
  it('is stored once, unreadable, and found again; a damaged one is refused', async () => {
    const named = `photos/${sha256}.jpg`;
    await storePicture(folder, named, photo, true);
    expect(await wantedPictures(folder, [named], true)).toEqual([]);
    expect(await wantedPictures(folder, [named], false)).toEqual([named]);
    expect(await readPicture(folder, named)).toEqual(photo);
    const encrypted = encryptPicture(photo, sha256);
    expect(encrypted).toEqual(encryptPicture(photo, sha256));
    expect(encrypted.includes('floor')).toBe(false);
    encrypted[3] = (encrypted[3] ?? 0) ^ 1;
    expect(decryptPicture(encrypted, sha256)).toBeNull();
  });
});

describe('the photos beside the backups', () => {
  const photo = Buffer.from('a photo of a worn floor');
  const sha256 = sha256Of(photo);
  const kindsOf = (of: string) => readdirSync(join(of, 'Photos')).map((file) => file.split('.').at(-1));
  const backUp = async (of: string, by: BackupKey | null, madeAt: string): Promise<string> => {
    await storePicture(of, `photos/${sha256}.jpg`, photo, by !== null);
    const backup = await beginBackup(of, { ...NAMING, reason: 'automatic', madeAt }, by);
    await backup.add('photos', rangeBytes([{ id: 'photo-1', sha256, mediaType: 'image/jpeg' }]));
    return (await backup.finish()).name;
  };

  it('are readable only while a backup without a passphrase is left', async () => {
    const both = scratchFolder('both');
    const plain = await backUp(both, null, '2026-05-12T11:05:00.000Z');
    await backUp(both, key, '2026-05-13T11:05:00.000Z');
    const days = (many: number) => Date.now() + many * 86_400_000;
    await sweepFolder(both, key, days(3));
    expect(kindsOf(both).sort()).toEqual(['encrypted', 'jpg']);
    rmSync(join(both, plain));
    await sweepFolder(both, key, days(6));
    expect(kindsOf(both)).toEqual(['encrypted']);
  });

  it('do not count against the storage limit of the automatic backups', async () => {
    const many = scratchFolder('many');
    const days = ['2026-05-10', '2026-05-11', '2026-05-12'];
    for (const day of days) await backUp(many, null, `${day}T11:05:00.000Z`);
    const listed = await listBackups(many);
    writeFileSync(join(many, 'Photos', `${'a'.repeat(64)}.jpg`), Buffer.alloc(500_000));
    const limitBytes = listed.reduce((sum, { bytes: size }) => sum + size, 0);
    expect(await thin(many, { dataset: DATASET, now: '2026-05-12T12:00:00.000Z', limitBytes })).toEqual([]);
    expect(await thin(many, { dataset: DATASET, now: '2026-05-12T12:00:00.000Z', limitBytes: limitBytes - 1 })).toHaveLength(1);
  });
});
