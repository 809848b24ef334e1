/** A snapshot on its way to the folder, in the pieces the screens send. One at a time: a new one drops what was left of another. */
import { randomBytes } from 'node:crypto';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { StoredRow } from '../../../shared-core/book/migrations/list.ts';
import { snapshotName } from '../../../shared-core/book/snapshot-names.ts';
import type { SnapshotReason } from '../../../shared-core/book/snapshot.ts';
import type { TableName } from '../../../shared-core/book/tables.ts';
import { DeskFailure } from '../failure.ts';
import { openSnapshot, readyFolder, sweepFolder, thin } from './folder.ts';
import { beginLocking, type Lock, type Locking } from './lock.ts';
import { wantedPictures } from './pictures.ts';
import { ZIP_LIMITS } from './read-zip.ts';
import { WholeFile } from './whole-file.ts';
import { BookWriter } from './write-book.ts';

/** The room all snapshots together may take, until the person says otherwise. */
export const BACKUPS_LIMIT_BYTES = 2 * 1000 ** 3;

export type KeptSnapshot = { readonly name: string; readonly bytes: number; readonly sha256: string; readonly removed: string[] };

export class SnapshotWriting {
  readonly id = randomBytes(12).toString('hex');
  private readonly folder: string;
  private readonly madeAt: string;
  private readonly lock: Lock | null;
  private readonly name: string;
  private readonly writer: BookWriter;
  private readonly file: WholeFile;
  private readonly locking: Locking | null;
  private headed = false;

  constructor(
    folder: string,
    madeAt: string,
    reason: SnapshotReason,
    lock: Lock | null,
    name = snapshotName(madeAt, reason, lock !== null),
  ) {
    this.folder = folder;
    this.madeAt = madeAt;
    this.lock = lock;
    this.name = name;
    this.writer = new BookWriter(madeAt, reason);
    this.file = new WholeFile(folder, name);
    this.locking = lock === null ? null : beginLocking(lock);
  }

  private async flush(): Promise<void> {
    const made = this.writer.take();
    if (!this.headed && this.locking !== null) await this.file.write(this.locking.head);
    this.headed = true;
    if (made.length > 0) await this.file.write(this.locking === null ? made : this.locking.update(made));
    if (this.file.bytes > ZIP_LIMITS.fileBytes)
      throw new DeskFailure(
        'too-large',
        'The book is larger than one backup can hold. Put old papers of finished jobs away, then try again; the older backups stand.',
      );
  }

  /** Takes rows, ids ascending, tables in order. */
  async add(table: TableName, rows: readonly StoredRow[]): Promise<void> {
    this.writer.add(table, rows);
    await this.flush();
  }

  /** Takes a photo into the file itself. */
  async addPicture(name: string, bytes: Uint8Array): Promise<void> {
    this.writer.addPicture(name, bytes);
    await this.flush();
  }

  /** Closes the file and proves what stands on the disk. */
  async close(beside: readonly string[]): Promise<{ readonly name: string; readonly bytes: number; readonly sha256: string }> {
    this.writer.finish(beside);
    await this.flush();
    if (this.locking !== null) await this.file.write(this.locking.end());
    const sha256 = await this.file.finish();
    try {
      await openSnapshot(this.folder, this.name, { lock: this.lock, passphrase: null });
    } catch (error) {
      await rm(join(this.folder, this.name), { force: true });
      throw new DeskFailure(
        'failed',
        'The backup could not be read back after it was written, so it was removed. The older ones stand; try again.',
        error,
      );
    }
    return { name: this.name, bytes: this.file.bytes, sha256 };
  }

  /**
   * Finishes a snapshot of the folder: the photos are there, the file is proven, older ones are thinned.
   * @throws DeskFailure with a sentence when the disk refuses; older snapshots then stand untouched
   */
  async finish(pictures: readonly string[], limitBytes = BACKUPS_LIMIT_BYTES): Promise<KeptSnapshot> {
    const wanted = await wantedPictures(this.folder, pictures, this.lock !== null);
    if (wanted.length > 0)
      throw new DeskFailure('failed', 'A photo went missing from the Photos folder while the book was copied. Copy it again.');
    const kept = await this.close([...pictures].sort());
    const removed = await thin(this.folder, this.madeAt, limitBytes, kept.name);
    await sweepFolder(this.folder, this.lock, Date.now()).catch(() => undefined);
    return { ...kept, removed };
  }

  /** Gives it up. */
  drop(): Promise<void> {
    return this.file.drop();
  }
}

/** Begins a snapshot in a folder. */
export async function beginSnapshot(folder: string, madeAt: string, reason: SnapshotReason, lock: Lock | null): Promise<SnapshotWriting> {
  await readyFolder(folder);
  return new SnapshotWriting(folder, madeAt, reason, lock);
}
