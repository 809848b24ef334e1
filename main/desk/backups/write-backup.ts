/** Writes a backup range by range, so that the data is never all in memory. */
import { crc32, deflateRawSync } from 'node:zlib';
import { Zip, type ZipInputFile } from 'fflate';
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import type { BackupNaming } from '../../../shared-core/book/backup-names.ts';
import {
  BACKUP_FORMAT,
  BACKUP_FORMAT_VERSION,
  type BackupManifest,
  type BackupRange,
  MANIFEST_NAME,
  rangeEntryName,
} from '../../../shared-core/book/backup.ts';
import { SCHEMA_VERSION, TABLE_NAMES, type TableName } from '../../../shared-core/book/tables.ts';
import { DeskFailure } from '../failure.ts';
import { sha256Of } from '../files.ts';
import { readRange } from './range-lines.ts';
import type { PackedBytes } from './read-zip.ts';

/** Light compression, because stronger would take longer than reading the tables. */
const LEVEL = 6;
const STORED = 0;
const DEFLATED = 8;

/** Packs data into the bytes of a zip as they are made. */
export class BackupWriter {
  private readonly naming: BackupNaming;
  /** The record version, which copied ranges keep. */
  private readonly schemaVersion: number;
  private readonly zip: Zip;
  private chunks: Uint8Array[] = [];
  private readonly ranges: BackupRange[] = [];
  private readonly photos: BackupManifest['photos'] = [];
  private table = 0;
  private last = '';
  private index = 0;

  constructor(naming: BackupNaming, schemaVersion = SCHEMA_VERSION) {
    this.naming = naming;
    this.schemaVersion = schemaVersion;
    this.zip = new Zip((error, chunk) => {
      if (error !== null) throw error;
      this.chunks.push(chunk);
    });
  }

  /** The bytes made since the last call. */
  take(): Buffer {
    const bytes = Buffer.concat(this.chunks);
    this.chunks = [];
    return bytes;
  }

  private write(name: string, { bytes, method, crc, size }: PackedBytes): void {
    const file: ZipInputFile = { filename: name, compression: method, size, crc, mtime: this.naming.madeAt };
    this.zip.add(file);
    file.ondata?.(null, new Uint8Array(bytes), true);
  }

  private pack(bytes: Buffer, method: number): PackedBytes {
    return {
      bytes: method === DEFLATED ? deflateRawSync(bytes, { level: LEVEL }) : bytes,
      ...{ method, crc: crc32(bytes), size: bytes.length },
    };
  }

  /** The name of the next range. Tables come in the order of the table list, ids ascending. */
  private next(table: TableName, first: string, last: string): string {
    const index = TABLE_NAMES.indexOf(table);
    if (index < this.table) throw new DeskFailure('bad-input', 'The tables came out of order.');
    if (index > this.table) [this.table, this.last, this.index] = [index, '', 0];
    if (!(first > this.last) || first > last) throw new DeskFailure('bad-input', 'The records came out of order.');
    this.last = last;
    this.index += 1;
    return rangeEntryName(table, this.index - 1);
  }

  /**
   * Adds a range.
   * @param bytes its rows, one per line
   * @returns the rows
   */
  add(table: TableName, bytes: Buffer): readonly StoredRow[] {
    const read = readRange(table, bytes);
    const [first, last] = read.ok ? [read.value[0]?.id, read.value.at(-1)?.id] : [];
    if (!read.ok || first === undefined || last === undefined) throw new DeskFailure('bad-input', 'The records came out of order.');
    const packed = this.pack(bytes, DEFLATED);
    const name = this.next(table, first, last);
    this.write(name, packed);
    this.ranges.push({
      ...{ table, name, rows: read.value.length, first, last, bytes: bytes.length },
      ...{ sha256: sha256Of(bytes), packedSha256: sha256Of(packed.bytes) },
    });
    return read.value;
  }

  /** Copies a packed range of an earlier backup. */
  copy(range: BackupRange, packed: PackedBytes): void {
    const table = TABLE_NAMES.find((name) => name === range.table);
    if (table === undefined) throw new DeskFailure('bad-input', 'That table is not known.');
    const name = this.next(table, range.first, range.last);
    this.write(name, packed);
    this.ranges.push({ ...range, name });
  }

  /** Adds a photo inside the file. */
  addPicture(name: string, bytes: Buffer): void {
    this.write(name, this.pack(bytes, STORED));
    this.photos.push({ name, bytes: bytes.length, sha256: sha256Of(bytes) });
  }

  /**
   * Closes the zip.
   * @param beside the photos beside it
   */
  finish(beside: readonly string[]): void {
    const manifest: BackupManifest = {
      format: BACKUP_FORMAT,
      formatVersion: BACKUP_FORMAT_VERSION,
      schemaVersion: this.schemaVersion,
      ...this.naming,
      ranges: this.ranges,
      photos: this.photos,
      beside: [...beside],
    };
    this.write(MANIFEST_NAME, this.pack(Buffer.from(`${JSON.stringify(manifest, null, 1)}\n`, 'utf8'), DEFLATED));
    this.zip.end();
  }
}
