/**
 * Makes a browser's database safe to open after the program was killed. Chromium keeps IndexedDB and local storage in LevelDB, which writes
 * an entry in pieces, ignores one that was cut short, and then goes on writing behind it. At the next start it takes what follows for
 * damage, and the browser deletes the whole database. So the incomplete entry is cut off before the browser starts; nothing else is touched.
 * Source: the LevelDB project's description of its log format (`doc/log_format.md`).
 */
import { readdir, readFile, truncate } from 'node:fs/promises';
import { join } from 'node:path';

const BLOCK_BYTES = 32_768;
/** Checksum (4), length (2), kind (1). */
const HEADER_BYTES = 7;
const ZERO = 0;
const FULL = 1;
const LAST = 4;

/**
 * The length of a log up to the end of its last whole entry.
 * @returns the log's own length when nothing needs to be cut off, or when it holds damage of another kind
 */
export function wholeLength(log: Buffer): number {
  let whole = 0;
  for (let at = 0; at < log.length; ) {
    const left = BLOCK_BYTES - (at % BLOCK_BYTES);
    if (left < HEADER_BYTES) {
      at += left;
      continue;
    }
    if (at + HEADER_BYTES > log.length) break;
    const end = at + HEADER_BYTES + log.readUInt16LE(at + 4);
    const kind = log.readUInt8(at + 6);
    // Zeros are what a disk leaves where a power failure kept a piece from being written.
    if (kind === ZERO && log.subarray(at).every((byte) => byte === 0)) break;
    if (kind < FULL || kind > LAST || end - at > left) return log.length;
    if (end > log.length) break;
    at = end;
    if (kind === FULL || kind === LAST) whole = at;
  }
  return whole;
}

/** The databases of a Chromium profile, and of Electron's data folder. */
const DATABASES = ['', 'Default'].flatMap((profile) => [join(profile, 'IndexedDB'), join(profile, 'Local Storage')]);

async function logsOf(profileFolder: string): Promise<string[]> {
  const logs: string[] = [];
  for (const kind of DATABASES)
    for (const database of await readdir(join(profileFolder, kind)).catch(() => [])) {
      const folder = join(profileFolder, kind, database);
      for (const name of await readdir(folder).catch(() => [])) if (/^(?:\d+\.log|MANIFEST-\d+)$/.test(name)) logs.push(join(folder, name));
    }
  return logs;
}

/**
 * Cuts incomplete entries off the logs of a profile's databases. No browser may have it open.
 * @param note gets a line for each log that was mended or could not be
 */
export async function mendLogs(profileFolder: string, note: (line: string) => void): Promise<void> {
  for (const path of await logsOf(profileFolder)) {
    try {
      const log = await readFile(path);
      const whole = wholeLength(log);
      if (whole === log.length) continue;
      await truncate(path, whole);
      note(`${path}: cut off ${log.length - whole} bytes of an entry that was not written to its end`);
    } catch (error) {
      // The browser then decides by itself.
      note(`${path}: could not be checked: ${String(error)}`);
    }
  }
}
