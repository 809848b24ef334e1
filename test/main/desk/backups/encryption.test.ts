/** scrypt: the vectors of RFC 7914, section 12. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { DeskFailure } from '../../../../main/desk/failure.ts';
import { openBytes, openBackupFile } from '../../../../main/desk/backups/backups-folder.ts';
import { deriveKey, type BackupKey, decryptPicture, encryptPicture, makeBackupKey } from '../../../../main/desk/backups/encryption.ts';
import { storePicture, readPicture, wantedPictures } from '../../../../main/desk/backups/photos.ts';
import { sha256Of } from '../../../../main/desk/backups/whole-file.ts';
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
