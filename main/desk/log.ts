/** The program's log: one file, kept under a megabyte by setting the old one aside. */
import { appendFileSync, mkdirSync, renameSync, statSync } from 'node:fs';
import { dirname } from 'node:path';

const LIMIT_BYTES = 1024 * 1024;

/** A function that appends a dated line to `path`. A log that cannot be written is not worth stopping for. */
export function createLog(path: string, now: () => Date): (line: string) => void {
  return (line) => {
    try {
      mkdirSync(dirname(path), { recursive: true });
      try {
        if (statSync(path).size > LIMIT_BYTES) renameSync(path, `${path}.old`);
      } catch {
        // No log yet.
      }
      appendFileSync(path, `${now().toISOString()} ${line}\n`);
    } catch {
      // Nowhere to write: the screen still shows what went wrong.
    }
  };
}
