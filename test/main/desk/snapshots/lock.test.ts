/** scrypt: the vectors of RFC 7914, section 12. */
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { DeskFailure } from '../../../../main/desk/failure.ts';
import { openBytes, openSnapshot } from '../../../../main/desk/snapshots/folder.ts';
import { deriveKey, type Lock, lockPicture, makeLock, unlockPicture } from '../../../../main/desk/snapshots/lock.ts';
import { keepPicture, readPicture, wantedPictures } from '../../../../main/desk/snapshots/pictures.ts';
import { sha256Of } from '../../../../main/desk/snapshots/whole-file.ts';
import { beginSnapshot } from '../../../../main/desk/snapshots/writing.ts';

const folder = mkdtempSync(join(tmpdir(), 'straightedge-lock-'));
const PASSPHRASE = 'four plain words here';
let lock: Lock;
let name = '';
let bytes: Buffer;
beforeAll(async () => {
  lock = await makeLock(PASSPHRASE);
  const copy = await beginSnapshot(folder, '2026-05-12T11:05:00.000Z', 'asked', lock);
  await copy.add('customers', [{ id: 'customer-1', name: 'Odell' }]);
  ({ name } = await copy.finish([]));
  bytes = readFileSync(join(folder, name));
});
const refusal = async (file: Buffer, passphrase: string | null, by: Lock | null = null): Promise<string> => {
  try {
    await openBytes(file, { lock: by, passphrase });
    return 'opened';
  } catch (error) {
    if (error instanceof DeskFailure) return error.code;
    throw error;
  }
};

describe('the key', () => {
  it('is what RFC 7914 says', async () => {
    expect((await deriveKey('password', Buffer.from('NaCl'), 10, 8, 16)).toString('hex')).toBe(
      'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b3731622eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640',
    );
  });
});

describe('a locked snapshot', () => {
  it('shows nothing of what is in it and opens with its passphrase, or with the lock this machine keeps', async () => {
    expect(name).toBe('Book 2026-05-12 11-05-00-000.locked');
    for (const word of ['Odell', 'manifest', 'customers']) expect(bytes.includes(word)).toBe(false);
    for (const by of [
      { lock, passphrase: null },
      { lock: null, passphrase: PASSPHRASE },
    ])
      expect((await openSnapshot(folder, name, by)).rows('customers', 0, 1e6)).toEqual([{ id: 'customer-1', name: 'Odell' }]);
  });

  it('asks for the passphrase, says when it is wrong, and tells that from damage', async () => {
    expect(await refusal(bytes, null)).toBe('locked');
    expect(await refusal(bytes, 'four other words here')).toBe('wrong-passphrase');
    for (const at of [9, 20, 45, 60, 64, bytes.length >> 1, bytes.length - 1]) {
      const damaged = Buffer.from(bytes);
      damaged[at] = (damaged[at] ?? 0) ^ 1;
      expect(await refusal(damaged, null, lock), `byte ${at}`).toBe('bad-input');
    }
    for (const length of [0, 8, 63, 79, bytes.length - 1]) expect(await refusal(bytes.subarray(0, length), null, lock)).toBe('bad-input');
  });
});

describe('a locked photo', () => {
  const photo = Buffer.from('a photo of the floor');
  const sha256 = sha256Of(photo);
  it('is stored once, unreadable, and found again; a damaged one is not taken for itself', async () => {
    const named = `photos/${sha256}.jpg`;
    await keepPicture(folder, named, photo, true);
    expect(await wantedPictures(folder, [named], true)).toEqual([]);
    expect(await wantedPictures(folder, [named], false)).toEqual([named]);
    expect(await readPicture(folder, named)).toEqual(photo);
    const locked = lockPicture(photo, sha256);
    expect(locked).toEqual(lockPicture(photo, sha256));
    expect(locked.includes('floor')).toBe(false);
    locked[3] = (locked[3] ?? 0) ^ 1;
    expect(unlockPicture(locked, sha256)).toBeNull();
  });
});
