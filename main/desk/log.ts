/** The program's log: one file below 1 MB; a full one is renamed. */
import { appendFileSync, mkdirSync, renameSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { PRIVATE_FILE, PRIVATE_FOLDER } from './files.ts';

const LIMIT_BYTES = 1024 * 1024;
/** C0 and C1 controls, which a terminal could execute, and marks that reverse the text. */
// oxlint-disable-next-line no-control-regex -- these are what is looked for
const CONTROL = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/** One log entry: control characters spelled out and later lines indented, so that no text can pose as an entry. */
export function logEntry(line: string, now: Date): string {
  const lines = line.replace(/\r\n?/g, '\n').replace(CONTROL, (one) => `\\u${(one.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`);
  return `${now.toISOString()} ${lines.replace(/[\n\u2028\u2029]/g, '\n    ')}\n`;
}

/** Returns a function that appends a dated entry to `path`. A failed write stops nothing. */
export function createLog(path: string, now: () => Date): (line: string) => void {
  return (line) => {
    try {
      mkdirSync(dirname(path), { recursive: true, mode: PRIVATE_FOLDER });
      try {
        if (statSync(path).size > LIMIT_BYTES) renameSync(path, `${path}.old`);
      } catch {
        // No log yet.
      }
      appendFileSync(path, logEntry(line, now()), { mode: PRIVATE_FILE });
    } catch {
      // The screen still shows the failure.
    }
  };
}
