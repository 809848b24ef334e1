/** Writing a snapshot row by row: tables are deflated as they come, so that the whole book never lies in memory here. */
import { createHash, type Hash } from 'node:crypto';
import { constants, crc32, deflateRawSync } from 'node:zlib';
import { Zip, type ZipInputFile } from 'fflate';
import type { StoredRow } from '../../../shared-core/book/migrations/list.ts';
import {
  MANIFEST_NAME,
  SNAPSHOT_FORMAT,
  SNAPSHOT_FORMAT_VERSION,
  type SnapshotManifest,
  type SnapshotReason,
  tableEntryName,
} from '../../../shared-core/book/snapshot.ts';
import { SCHEMA_VERSION, TABLE_NAMES, type TableName } from '../../../shared-core/book/tables.ts';
import { DeskFailure } from '../failure.ts';

/** Tables are small next to what deflating them hardest would cost. */
const LEVEL = 6;
const STORED = 0;
const DEFLATED = 8;

const deflated = (bytes: Uint8Array, last: boolean): Buffer =>
  deflateRawSync(bytes, { level: LEVEL, finishFlush: last ? constants.Z_FINISH : constants.Z_SYNC_FLUSH });

type OpenEntry = { readonly name: string; readonly file: ZipInputFile; crc: number; bytes: number; readonly hash: Hash };

/** Packs a book into the bytes of a zip, handed out as they are made. */
export class BookWriter {
  private readonly madeAt: string;
  private readonly reason: SnapshotReason;
  private readonly zip: Zip;
  private made: Uint8Array[] = [];
  private readonly entries: SnapshotManifest['entries'] = [];
  private readonly counts = new Map<TableName, number>();
  private table: { readonly name: TableName; readonly entry: OpenEntry; last: string } | null = null;

  constructor(madeAt: string, reason: SnapshotReason) {
    this.madeAt = madeAt;
    this.reason = reason;
    this.zip = new Zip((error, chunk) => {
      if (error !== null) throw error;
      this.made.push(chunk);
    });
  }

  /** What was made since the last time this was asked. */
  take(): Buffer {
    const bytes = Buffer.concat(this.made);
    this.made = [];
    return bytes;
  }

  private begin(name: string, compression: number): OpenEntry {
    const file: ZipInputFile = { filename: name, compression, size: 0, crc: 0, mtime: this.madeAt };
    this.zip.add(file);
    return { name, file, crc: 0, bytes: 0, hash: createHash('sha256') };
  }

  private feed(entry: OpenEntry, bytes: Uint8Array, last: boolean): void {
    entry.crc = crc32(bytes, entry.crc);
    entry.bytes += bytes.length;
    entry.hash.update(bytes);
    entry.file.crc = entry.crc;
    entry.file.size = entry.bytes;
    // A copy: the zip's type wants bytes of its own.
    entry.file.ondata?.(null, new Uint8Array(entry.file.compression === DEFLATED ? deflated(bytes, last) : bytes), last);
  }

  private end(entry: OpenEntry): void {
    this.entries.push({ name: entry.name, bytes: entry.bytes, sha256: entry.hash.digest('hex') });
  }

  private closeTable(): void {
    if (this.table === null) return;
    const { entry } = this.table;
    this.feed(entry, Buffer.from('\n]\n'), true);
    this.end(entry);
    this.table = null;
  }

  private openTable(name: TableName): void {
    this.closeTable();
    this.counts.set(name, 0);
    const entry = this.begin(tableEntryName(name), DEFLATED);
    this.feed(entry, Buffer.from('['), false);
    this.table = { name, entry, last: '' };
  }

  /** Adds rows of a table, ids ascending; tables come in the order of the list, one that has none may be left out. */
  add(table: TableName, rows: readonly StoredRow[]): void {
    while (this.table?.name !== table) {
      const next = TABLE_NAMES[this.counts.size];
      if (next === undefined) throw new DeskFailure('bad-input', 'The tables of the book came out of order.');
      this.openTable(next);
    }
    let text = '';
    for (const row of rows) {
      const id = String(row['id']);
      if (!(id > this.table.last)) throw new DeskFailure('bad-input', 'The records of the book came out of order.');
      text += `${this.table.last === '' ? '' : ','}\n${JSON.stringify(row)}`;
      this.table.last = id;
    }
    this.counts.set(table, (this.counts.get(table) ?? 0) + rows.length);
    if (text !== '') this.feed(this.table.entry, Buffer.from(text, 'utf8'), false);
  }

  /** Adds a photo to the file itself. */
  addPicture(name: string, bytes: Uint8Array): void {
    this.finishTables();
    const entry = this.begin(name, STORED);
    this.feed(entry, bytes, true);
    this.end(entry);
  }

  private finishTables(): void {
    while (this.counts.size < TABLE_NAMES.length) {
      const next = TABLE_NAMES[this.counts.size];
      if (next !== undefined) this.openTable(next);
    }
    this.closeTable();
  }

  /** Closes the zip. @param beside the photos that lie beside it */
  finish(beside: readonly string[]): void {
    this.finishTables();
    const manifest: SnapshotManifest = {
      format: SNAPSHOT_FORMAT,
      formatVersion: SNAPSHOT_FORMAT_VERSION,
      schemaVersion: SCHEMA_VERSION,
      madeAt: this.madeAt,
      reason: this.reason,
      counts: Object.fromEntries(this.counts),
      entries: this.entries,
      beside: [...beside],
    };
    this.feed(this.begin(MANIFEST_NAME, DEFLATED), Buffer.from(`${JSON.stringify(manifest, null, 1)}\n`, 'utf8'), true);
    this.zip.end();
  }
}
