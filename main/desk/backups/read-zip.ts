/**
 * Reads a zip strictly: refuses everything a backup does not need before unpacking a byte, then unpacks part by part. Layout from the
 * published .ZIP application note (APPNOTE 6.3): end record, central directory, local headers.
 */
import { crc32, inflateRawSync } from 'node:zlib';
import { type Parsed, refused } from '../../../shared-core/measure/parsed.ts';

export type ZipLimits = {
  /** Maximum size of the file, bytes. */
  readonly fileBytes: number;
  readonly entries: number;
  /** Maximum size of one entry, unpacked. */
  readonly entryBytes: number;
  /** Maximum size of all entries, unpacked. */
  readonly totalBytes: number;
  /** Maximum ratio of unpacked to packed size above `freeBytes`, against zip bombs. */
  readonly ratio: number;
  readonly freeBytes: number;
};

const MIB = 1024 * 1024;
export const ZIP_LIMITS: ZipLimits = {
  fileBytes: 1024 * MIB,
  entries: 60_000,
  entryBytes: 1536 * MIB,
  totalBytes: 2048 * MIB,
  ratio: 300,
  freeBytes: 64 * MIB,
};

const END_SIGNATURE = 0x06054b50;
const END_BYTES = 22;
const COMMENT_LIMIT = 65_535;
const CENTRAL_SIGNATURE = 0x02014b50;
const CENTRAL_BYTES = 46;
const LOCAL_SIGNATURE = 0x04034b50;
const LOCAL_BYTES = 30;
/** Encrypted, patched or masked entries: general purpose bits 0, 5, 6 and 13. */
const REFUSED_FLAGS = 0x2061;
const UNIX_KIND_MASK = 0o170000;
const UNIX_FILE = 0o100000;

const damaged = (problem: string): { readonly ok: false; readonly message: string } =>
  refused(
    `${problem} The backup is damaged or was not made by Straightedge. Choose another file from the Backups folder. Your data was not changed.`,
  );
const tooLarge = (problem: string): { readonly ok: false; readonly message: string } =>
  refused(`${problem} Straightedge does not open it. Your data was not changed.`);

type Entry = {
  readonly name: string;
  readonly method: number;
  readonly flags: number;
  readonly crc: number;
  readonly packed: number;
  readonly unpacked: number;
  readonly offset: number;
};

const findEnd = (bytes: Buffer): number => {
  for (let offset = bytes.length - END_BYTES; offset >= 0 && offset >= bytes.length - END_BYTES - COMMENT_LIMIT; offset -= 1)
    if (bytes.readUInt32LE(offset) === END_SIGNATURE && offset + END_BYTES + bytes.readUInt16LE(offset + 20) === bytes.length)
      return offset;
  return -1;
};

const isPlainName = (name: string): boolean =>
  /^[A-Za-z0-9_.-]+(\/[A-Za-z0-9_.-]+)*$/.test(name) && !name.split('/').some((part) => part === '.' || part === '..');

const readDirectory = (bytes: Buffer, limits: ZipLimits): Parsed<Entry[]> => {
  const end = findEnd(bytes);
  if (end < 0) return damaged('The file is not a zip file, or its end is missing.');
  const count = bytes.readUInt16LE(end + 10);
  const start = bytes.readUInt32LE(end + 16);
  if (bytes.readUInt16LE(end + 4) !== 0 || bytes.readUInt16LE(end + 6) !== 0 || bytes.readUInt16LE(end + 8) !== count)
    return damaged('The file is one part of a split archive.');
  if (count > limits.entries) return tooLarge('The file has more parts than any backup.');
  if (start + bytes.readUInt32LE(end + 12) !== end) return damaged('The table of contents is not where it should be.');
  const entries: Entry[] = [];
  const names = new Set<string>();
  let total = 0;
  let offset = start;
  for (let i = 0; i < count; i += 1) {
    if (offset + CENTRAL_BYTES > end || bytes.readUInt32LE(offset) !== CENTRAL_SIGNATURE)
      return damaged('The table of contents is cut short.');
    const nameLength = bytes.readUInt16LE(offset + 28);
    const next = offset + CENTRAL_BYTES + nameLength + bytes.readUInt16LE(offset + 30) + bytes.readUInt16LE(offset + 32);
    if (next > end) return damaged('The table of contents is cut short.');
    const entry: Entry = {
      name: bytes.toString('latin1', offset + CENTRAL_BYTES, offset + CENTRAL_BYTES + nameLength),
      flags: bytes.readUInt16LE(offset + 8),
      method: bytes.readUInt16LE(offset + 10),
      crc: bytes.readUInt32LE(offset + 16),
      packed: bytes.readUInt32LE(offset + 20),
      unpacked: bytes.readUInt32LE(offset + 24),
      offset: bytes.readUInt32LE(offset + 42),
    };
    if (!isPlainName(entry.name)) return damaged('The file has a part with a name that no backup uses.');
    if (names.has(entry.name)) return damaged('The file has two parts of the same name.');
    const kind = (bytes.readUInt32LE(offset + 38) >>> 16) & UNIX_KIND_MASK;
    if (kind !== 0 && kind !== UNIX_FILE) return damaged('The file has a link or a folder where a plain part should be.');
    if ((entry.flags & REFUSED_FLAGS) !== 0) return damaged('The file has a part that is encrypted in another way.');
    if (entry.method !== 0 && entry.method !== 8) return damaged('The file has a part with unsupported compression.');
    total += entry.unpacked;
    if (entry.unpacked > limits.entryBytes || total > Math.min(limits.totalBytes, Math.max(limits.freeBytes, limits.ratio * bytes.length)))
      return tooLarge('Unpacked, this file would be larger than any backup.');
    names.add(entry.name);
    entries.push(entry);
    offset = next;
  }
  if (offset !== end) return damaged('The table of contents lists more parts than it counts.');
  return { ok: true, value: entries };
};

/** The bytes of a part as stored in a zip. `size` and `crc` are of the unpacked bytes. */
export type PackedBytes = { readonly bytes: Uint8Array; readonly method: number; readonly crc: number; readonly size: number };

/** A part of a zip, packed until it is read. */
export type ZipPart = {
  readonly packed: PackedBytes;
  /** Unpacks it and verifies its size and checksum. Not cached. */
  readonly unpack: () => Parsed<Buffer>;
};

/** Start of the packed bytes of an entry. */
const locate = (bytes: Buffer, entry: Entry, directoryAt: number): Parsed<{ readonly from: number; readonly end: number }> => {
  const offset = entry.offset;
  if (offset + LOCAL_BYTES > directoryAt || bytes.readUInt32LE(offset) !== LOCAL_SIGNATURE)
    return damaged('A part is not where it should be.');
  const nameLength = bytes.readUInt16LE(offset + 26);
  const from = offset + LOCAL_BYTES + nameLength + bytes.readUInt16LE(offset + 28);
  const end = from + entry.packed;
  if (end > directoryAt) return damaged('A part is cut short.');
  if (
    bytes.toString('latin1', offset + LOCAL_BYTES, offset + LOCAL_BYTES + nameLength) !== entry.name ||
    bytes.readUInt16LE(offset + 8) !== entry.method
  )
    return damaged('A part differs from the table of contents.');
  return { ok: true, value: { from, end } };
};

const unpack = (packed: Buffer, entry: Entry): Parsed<Buffer> => {
  let data: Buffer;
  if (entry.method === 0) data = packed;
  else {
    try {
      // Stops at the declared size, so that a longer part cannot fill the memory.
      data = inflateRawSync(packed, { maxOutputLength: Math.max(1, entry.unpacked) });
    } catch {
      return damaged('A part cannot be unpacked.');
    }
  }
  if (data.length !== entry.unpacked) return damaged('A part has another size than it declares.');
  if (crc32(data) !== entry.crc) return damaged('A part does not match its checksum.');
  return { ok: true, value: data };
};

/**
 * Reads the directory of a zip in memory; its parts stay packed.
 * @returns each part by name, or a sentence; never throws on hostile bytes, and no part unpacks past its declared and permitted size
 */
export function readZip(source: Uint8Array, limits: ZipLimits = ZIP_LIMITS): Parsed<ReadonlyMap<string, ZipPart>> {
  const bytes = Buffer.from(source.buffer, source.byteOffset, source.byteLength);
  if (bytes.length > limits.fileBytes) return tooLarge('This file is larger than any backup.');
  if (bytes.length < END_BYTES) return damaged('The file is too short.');
  const directory = readDirectory(bytes, limits);
  if (!directory.ok) return directory;
  const directoryAt = bytes.readUInt32LE(findEnd(bytes) + 16);
  const found = new Map<string, ZipPart>();
  let covered = 0;
  for (const entry of [...directory.value].sort((a, b) => a.offset - b.offset)) {
    // Overlapping parts are how a small file unpacks into a huge one.
    if (entry.offset < covered) return damaged('Two parts overlap.');
    const place = locate(bytes, entry, directoryAt);
    if (!place.ok) return place;
    const { from, end } = place.value;
    covered = end;
    const { method, crc, unpacked: size } = entry;
    const packed = bytes.subarray(from, end);
    found.set(entry.name, { packed: { bytes: packed, method, crc, size }, unpack: () => unpack(packed, entry) });
  }
  return { ok: true, value: found };
}
