/** Writing a file so that it is there whole or not at all: beside, flushed, read back, renamed. */
import { createHash, randomBytes } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileHandle, open, readdir, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { DeskFailure, explainDisk } from '../failure.ts';

/** What a killed program left half written is swept up after this long. */
const STALE_MS = 10 * 60_000;
const HALF_WRITTEN = /^\.[0-9a-f]{16}\.part$/;

export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The checksum of a file on the disk, read piece by piece. */
export async function fileSha256(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const part of createReadStream(path)) hash.update(part as Buffer);
  return hash.digest('hex');
}

/** Flushes a folder's own list of names. On systems that cannot, the write or rename alone has to do. */
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

/** A file under way; nothing stands under its name until `finish`. */
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

  /** Appends bytes. */
  async write(bytes: Uint8Array): Promise<void> {
    try {
      this.handle ??= await open(this.beside, 'wx');
      await this.handle.writeFile(bytes);
    } catch (error) {
      await this.drop();
      throw explainDisk(error, this.name);
    }
    this.hash.update(bytes);
    this.bytes += bytes.length;
  }

  /** Flushes, reads back, renames. Gives the checksum. */
  async finish(): Promise<string> {
    const sha256 = this.hash.digest('hex');
    try {
      this.handle ??= await open(this.beside, 'wx');
      await this.handle.sync();
      await this.handle.close();
      this.handle = null;
      // Read back before it takes the name: a disk that lies is found out while the older files still stand.
      if ((await fileSha256(this.beside)) !== sha256)
        throw new DeskFailure(
          'failed',
          'The disk did not give back what was written to it. Use another disk for the backups, and have this one checked.',
        );
      await rename(this.beside, join(this.folder, this.name));
      await flushFolder(this.folder);
    } catch (error) {
      await this.drop();
      throw explainDisk(error, this.name);
    }
    return sha256;
  }

  /** Gives it up; nothing stays behind. */
  async drop(): Promise<void> {
    await this.handle?.close().catch(() => undefined);
    this.handle = null;
    await rm(this.beside, { force: true }).catch(() => undefined);
  }
}

/** Takes away what a killed program left half written. */
export async function sweepHalfWritten(folder: string, nowMs: number): Promise<void> {
  for (const name of await readdir(folder)) {
    if (!HALF_WRITTEN.test(name)) continue;
    const path = join(folder, name);
    const age = await stat(path).then(
      (found) => nowMs - found.mtimeMs,
      () => 0,
    );
    if (age > STALE_MS) await rm(path, { force: true });
  }
}
