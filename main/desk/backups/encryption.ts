/**
 * Encrypts a backup with a passphrase: scrypt (RFC 7914) derives the key, AES-256-GCM (NIST SP 800-38D) encrypts and authenticates. Both
 * are in Node.
 */
import { createCipheriv, createDecipheriv, createHash, createHmac, randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import { type Parsed, refused } from '../../../shared-core/measure/parsed.ts';

/** `SEBACKUP`, layout version, three scrypt parameters, salt, nonce, proof of the key, checksum of these. */
const MAGIC = Buffer.from('SEBACKUP', 'latin1');
const LAYOUT = 1;
const HEAD_BYTES = 64;
const SUMMED_BYTES = 56;
const TAG_BYTES = 16;
const KEY_BYTES = 32;
export const SALT_BYTES = 16;
/** 128 MiB and about half a second per try, as OWASP recommends for scrypt. */
const COST_LOG2 = 17;
const BLOCK = 8;
const LANES = 1;
/** A hostile file may ask for at most twice the memory of this program's own. */
const MOST_COST_LOG2 = 18;

/** A derived key, for files with the same salt. */
export type BackupKey = { readonly salt: Buffer; readonly key: Buffer };

/** Derives 64 bytes: the first half is the key, the second proves the passphrase. */
export function deriveKey(passphrase: string, salt: Buffer, costLog2 = COST_LOG2, block = BLOCK, lanes = LANES): Promise<Buffer> {
  const cost = 2 ** costLog2;
  return new Promise((resolve, reject) => {
    scrypt(
      passphrase.normalize('NFC'),
      salt,
      2 * KEY_BYTES,
      { cost, blockSize: block, parallelization: lanes, maxmem: 2 * 128 * cost * block },
      (error, key) => (error === null ? resolve(key) : reject(error)),
    );
  });
}

export async function makeBackupKey(passphrase: string, salt = randomBytes(SALT_BYTES)): Promise<BackupKey> {
  return { salt, key: await deriveKey(passphrase, salt) };
}

const proofOf = (key: Buffer): Buffer => createHmac('sha256', key.subarray(KEY_BYTES)).update('straightedge book').digest().subarray(0, 16);
const sumOf = (head: Buffer): Buffer => createHash('sha256').update(head.subarray(0, SUMMED_BYTES)).digest().subarray(0, 8);

export type Encrypting = { readonly head: Buffer; readonly update: (bytes: Uint8Array) => Buffer; readonly end: () => Buffer };

/** Starts encrypting: write the head, then each result of `update`, then that of `end`. */
export function beginEncrypting({ salt, key }: BackupKey): Encrypting {
  const nonce = randomBytes(12);
  const head = Buffer.concat([MAGIC, Buffer.from([LAYOUT, COST_LOG2, BLOCK, LANES]), salt, nonce, proofOf(key)], HEAD_BYTES);
  sumOf(head).copy(head, SUMMED_BYTES);
  const cipher = createCipheriv('aes-256-gcm', key.subarray(0, KEY_BYTES), nonce);
  cipher.setAAD(head);
  return { head, update: (bytes) => cipher.update(bytes), end: () => Buffer.concat([cipher.final(), cipher.getAuthTag()]) };
}

export function isEncrypted(bytes: Uint8Array): boolean {
  return bytes.length >= MAGIC.length && MAGIC.equals(bytes.subarray(0, MAGIC.length));
}

const DAMAGED = 'This backup is damaged. Choose an older one. Your data was not changed.';

/** Why an encrypted file does not open: it needs a passphrase, the passphrase is wrong, or it is damaged. */
export type Decrypted =
  | { readonly ok: true; readonly value: Buffer }
  | { readonly ok: false; readonly why: 'encrypted' | 'wrong' | 'damaged'; readonly message: string };

const readHead = (
  bytes: Buffer,
): Parsed<{ salt: Buffer; nonce: Buffer; proof: Buffer; costLog2: number; block: number; lanes: number }> => {
  if (bytes.length < HEAD_BYTES + TAG_BYTES) return refused(DAMAGED);
  const head = bytes.subarray(0, HEAD_BYTES);
  if (!sumOf(head).equals(head.subarray(SUMMED_BYTES))) return refused(DAMAGED);
  const [layout = 0, costLog2 = 0, block = 0, lanes = 0] = head.subarray(MAGIC.length);
  if (layout > LAYOUT) return refused('This backup was made by a newer version of Straightedge. Update the program, then open it again.');
  if (layout !== LAYOUT || costLog2 < 10 || costLog2 > MOST_COST_LOG2 || block !== BLOCK || lanes !== LANES) return refused(DAMAGED);
  return {
    ok: true,
    value: { salt: head.subarray(12, 28), nonce: head.subarray(28, 40), proof: head.subarray(40, 56), costLog2, block, lanes },
  };
};

/**
 * Decrypts a file.
 * @param by this computer's stored key, tried first, and the entered passphrase
 */
export async function decrypt(
  bytes: Buffer,
  by: { readonly key: BackupKey | null; readonly passphrase: string | null },
): Promise<Decrypted> {
  const head = readHead(bytes);
  if (!head.ok) return { ok: false, why: 'damaged', message: head.message };
  const { salt, nonce, proof, costLog2, block, lanes } = head.value;
  let key = by.key !== null && by.key.salt.equals(salt) && timingSafeEqual(proofOf(by.key.key), proof) ? by.key.key : null;
  if (key === null) {
    if (by.passphrase === null) return { ok: false, why: 'encrypted', message: 'This backup is encrypted. Enter its passphrase.' };
    key = await deriveKey(by.passphrase, salt, costLog2, block, lanes);
    if (!timingSafeEqual(proofOf(key), proof))
      return { ok: false, why: 'wrong', message: 'The passphrase is wrong. Your data was not changed.' };
  }
  const opened = unsealed(bytes.subarray(HEAD_BYTES), { key: key.subarray(0, KEY_BYTES), nonce, head: bytes.subarray(0, HEAD_BYTES) });
  return opened === null ? { ok: false, why: 'damaged', message: DAMAGED } : { ok: true, value: opened };
}

/** Decrypts bytes with their tag at the end; null when they or the head were changed. */
function unsealed(sealed: Buffer, { key, nonce, head }: { key: Buffer; nonce: Buffer; head?: Buffer }): Buffer | null {
  if (sealed.length < TAG_BYTES) return null;
  const decipher = createDecipheriv('aes-256-gcm', key, nonce);
  if (head !== undefined) decipher.setAAD(head);
  decipher.setAuthTag(sealed.subarray(sealed.length - TAG_BYTES));
  try {
    const opened = decipher.update(sealed.subarray(0, sealed.length - TAG_BYTES));
    decipher.final();
    return opened;
  } catch {
    return null;
  }
}

const ofContent = (purpose: string, sha256: string): Buffer =>
  createHash('sha256').update(`straightedge photo ${purpose}\n${sha256}`).digest();
/** A fixed nonce is safe, because every photo has its own key. */
const PICTURE_NONCE = Buffer.alloc(12);

/** The file name of an encrypted photo. Name and key are derived from the photo's checksum, which only encrypted backups contain. */
export function encryptedPictureName(sha256: string): string {
  return `${ofContent('name', sha256).toString('hex')}.encrypted`;
}

/** Encrypts a photo. The same photo gives the same bytes, so that it is stored once. */
export function encryptPicture(bytes: Uint8Array, sha256: string): Buffer {
  const cipher = createCipheriv('aes-256-gcm', ofContent('key', sha256), PICTURE_NONCE);
  return Buffer.concat([cipher.update(bytes), cipher.final(), cipher.getAuthTag()]);
}

/** Decrypts a photo; null when it is damaged. */
export function decryptPicture(bytes: Buffer, sha256: string): Buffer | null {
  return unsealed(bytes, { key: ofContent('key', sha256), nonce: PICTURE_NONCE });
}
