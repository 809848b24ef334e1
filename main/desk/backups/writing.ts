/** A backup being written in the pieces that the screens send. Only one at a time: a new one discards an unfinished one. */
import { randomBytes } from 'node:crypto';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import { type BackupNaming, backupName } from '../../../shared-core/book/backup-names.ts';
import { type BackupRange, pictureName } from '../../../shared-core/book/backup.ts';
import { SCHEMA_VERSION, TABLE_NAMES, type TableName } from '../../../shared-core/book/tables.ts';
import { DeskFailure } from '../failure.ts';
import { openBackupFile, readyFolder, sweepFolder, thin } from './backups-folder.ts';
import { type BackupKey, beginEncrypting, type Encrypting } from './encryption.ts';
import { wantedPictures } from './photos.ts';
import type { OpenedBackup } from './read-backup.ts';
import { ZIP_LIMITS } from './read-zip.ts';
import { WholeFile } from './whole-file.ts';
import { BackupWriter } from './write-backup.ts';

/** Default storage limit of all automatic backups. */
export const BACKUPS_LIMIT_BYTES = 2 * 1000 ** 3;

const DATA_TOO_LARGE =
  'Your data is larger than one backup can be, so this backup was not written. Earlier backups are safe. Export your lists to keep a copy.';
const PHOTOS_TOO_LARGE =
  'With its photos this backup is larger than one file can be. Copy the backups folder instead: its Photos folder has the photos.';

export type SavedBackup = { readonly name: string; readonly bytes: number; readonly sha256: string; readonly removed: string[] };

export class BackupWriting {
  readonly id = randomBytes(12).toString('hex');
  private readonly folder: string;
  private readonly naming: BackupNaming;
  private readonly key: BackupKey | null;
  private readonly name: string;
  private readonly writer: BackupWriter;
  private readonly file: WholeFile;
  private readonly encrypting: Encrypting | null;
  /** The earlier backup whose unchanged ranges are copied; null when all rows are written. */
  private readonly base: OpenedBackup | null;
  private readonly pictures = new Set<string>();
  private hasHead = false;

  constructor(
    folder: string,
    naming: BackupNaming,
    key: BackupKey | null,
    of: { readonly base?: OpenedBackup | null; readonly name?: string } = {},
  ) {
    this.folder = folder;
    this.naming = naming;
    this.key = key;
    this.name = of.name ?? backupName(naming, key !== null);
    this.base = of.base ?? null;
    this.writer = new BackupWriter(naming, this.base?.manifest.schemaVersion);
    this.file = new WholeFile(folder, this.name);
    this.encrypting = key === null ? null : beginEncrypting(key);
  }

  /** The ranges of the earlier backup, for the screens to compare; null when all rows have to be sent. */
  baseRanges(): readonly BackupRange[] | null {
    const { base } = this;
    return base === null ? null : TABLE_NAMES.flatMap((table) => base.ranges(table));
  }

  get isEncrypted(): boolean {
    return this.key !== null;
  }

  /** The photos that the rows so far use. */
  shownPictures(): string[] {
    return [...this.pictures].sort();
  }

  private async flush(tooLarge = DATA_TOO_LARGE): Promise<void> {
    const chunk = this.writer.take();
    if (!this.hasHead && this.encrypting !== null) await this.file.write(this.encrypting.head);
    this.hasHead = true;
    if (chunk.length > 0) await this.file.write(this.encrypting === null ? chunk : this.encrypting.update(chunk));
    if (this.file.bytes > ZIP_LIMITS.fileBytes) throw new DeskFailure('too-large', tooLarge);
  }

  private notePictures(table: TableName, rows: readonly StoredRow[]): void {
    if (table !== 'photos') return;
    for (const row of rows) {
      const name = pictureName(row);
      if (name !== null) this.pictures.add(name);
    }
  }

  /** Adds rows as one range, ids ascending, tables in order. Returns how many. */
  async add(table: TableName, bytes: Buffer): Promise<number> {
    const rows = this.writer.add(table, bytes);
    this.notePictures(table, rows);
    await this.flush();
    return rows.length;
  }

  /** Copies ranges of a table from the earlier backup, by index from 0. */
  async copy(table: TableName, from: number, count: number): Promise<void> {
    for (let index = from; index < from + count; index += 1) {
      const found = this.base?.packed(table, index) ?? null;
      if (this.base === null || found === null)
        throw new DeskFailure('failed', 'The previous backup was changed on the disk, so this one was not written. Back up again.');
      if (table === 'photos') this.notePictures(table, this.base.rangeRows(table, index));
      this.writer.copy(found.range, found.packed);
    }
    await this.flush();
  }

  /** Adds a photo inside the file. */
  async addPicture(name: string, bytes: Buffer): Promise<void> {
    this.writer.addPicture(name, bytes);
    await this.flush(PHOTOS_TOO_LARGE);
  }

  /** Closes the file and verifies the disk: reads it back byte for byte and opens it. */
  async close(beside: readonly string[]): Promise<{ readonly name: string; readonly bytes: number; readonly sha256: string }> {
    this.writer.finish(beside);
    await this.flush();
    if (this.encrypting !== null) await this.file.write(this.encrypting.end());
    const sha256 = await this.file.finish();
    try {
      await openBackupFile(this.folder, this.name, { key: this.key, passphrase: null }, 'packed');
    } catch (error) {
      await rm(join(this.folder, this.name), { force: true });
      throw new DeskFailure(
        'failed',
        'The backup could not be read back after it was written, so it was removed. Earlier backups are safe. Try again.',
        error,
      );
    }
    return { name: this.name, bytes: this.file.bytes, sha256 };
  }

  /**
   * Finishes a backup in the folder: checks its photos, verifies the file, thins older backups.
   * @param without photos whose bytes are lost
   * @throws DeskFailure with a sentence when the disk fails; older backups are then untouched
   */
  async finish(without: readonly string[] = [], limitBytes = BACKUPS_LIMIT_BYTES): Promise<SavedBackup> {
    const lost = new Set(without);
    const beside = this.shownPictures().filter((name) => !lost.has(name));
    const wanted = await wantedPictures(this.folder, beside, this.key !== null);
    if (wanted.length > 0) throw new DeskFailure('failed', 'A photo disappeared from the Photos folder during the backup. Back up again.');
    const file = await this.close(beside);
    const removed = await thin(this.folder, { dataset: this.naming.dataset, now: this.naming.madeAt, limitBytes });
    await sweepFolder(this.folder, this.key, Date.now()).catch(() => undefined);
    return { ...file, removed };
  }

  drop(): Promise<void> {
    return this.file.drop();
  }
}

/** The earlier backup, if ranges can be copied from it. */
const openBase = async (folder: string, name: string, dataset: string, key: BackupKey | null): Promise<OpenedBackup | null> => {
  try {
    const backup = await openBackupFile(folder, name, { key, passphrase: null }, 'packed');
    return backup.manifest.dataset === dataset && backup.manifest.schemaVersion === SCHEMA_VERSION ? backup : null;
  } catch {
    // Moved, deleted or damaged, so all rows are written.
    return null;
  }
};

/**
 * Starts a backup in a folder.
 * @param base the name of the earlier backup whose unchanged ranges can be copied
 */
export async function beginBackup(
  folder: string,
  naming: BackupNaming,
  key: BackupKey | null,
  base: string | null = null,
): Promise<BackupWriting> {
  await readyFolder(folder);
  return new BackupWriting(folder, naming, key, { base: base === null ? null : await openBase(folder, base, naming.dataset, key) });
}
