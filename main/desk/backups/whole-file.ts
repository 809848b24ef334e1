/** Writes a file atomically: to a temporary name, flushed, read back, renamed. */
import { createHash, randomBytes } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileHandle, open, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { DeskFailure, explainDisk } from '../failure.ts';
import { PRIVATE_FILE } from '../files.ts';

/** The SHA-256 of a file, read in pieces. */
export async function fileSha256(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const part of createReadStream(path)) hash.update(part as Buffer);
  return hash.digest('hex');
}

/** Flushes a folder's entries. Windows cannot, so there the write or rename has to suffice. */
export const flushFolder = async (folder: string): Promise<void> => {
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch {
    // Windows refuses to open a folder for this.
  }
};

/** A file being written, which gets its name in `finish`. */
export class WholeFile {
  private readonly folder: string;
  private readonly name: string;
  private readonly beside: string;
  private readonly hash = createHash('sha256');
  private handle: FileHandle | null = null;
  bytes = 0;

  constructor(folder: string, name: string) {
    this.folder = folder;
    this.name = name;
    this.beside = join(folder, `.${randomBytes(8).toString('hex')}.part`);
  }

  async write(bytes: Uint8Array): Promise<void> {
    try {
      this.handle ??= await open(this.beside, 'wx', PRIVATE_FILE);
      await this.handle.writeFile(bytes);
    } catch (error) {
      await this.drop();
      throw explainDisk(error, this.name);
    }
    this.hash.update(bytes);
    this.bytes += bytes.length;
  }

  /** Flushes, reads back and renames. Returns the checksum. */
  async finish(): Promise<string> {
    const sha256 = this.hash.digest('hex');
    try {
      this.handle ??= await open(this.beside, 'wx', PRIVATE_FILE);
      await this.handle.sync();
      await this.handle.close();
      this.handle = null;
      // Read back before the rename, so that a bad disk is found while the older files exist.
      if ((await fileSha256(this.beside)) !== sha256)
        throw new DeskFailure(
          'failed',
          'The backup could not be read back from the disk as it was written. Use another disk for backups and have this one checked.',
        );
      await rename(this.beside, join(this.folder, this.name));
      await flushFolder(this.folder);
    } catch (error) {
      await this.drop();
      throw explainDisk(error, this.name);
    }
    return sha256;
  }

  /** Deletes the partial file. */
  async drop(): Promise<void> {
    await this.handle?.close().catch(() => undefined);
    this.handle = null;
    await rm(this.beside, { force: true }).catch(() => undefined);
  }
}
