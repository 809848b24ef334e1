import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { removeFolder } from '../build/remove-folder.mjs';

const made: string[] = [];

/** An empty folder, removed after the tests of the file. */
export function scratchFolder(name: string): string {
  const folder = mkdtempSync(join(tmpdir(), `straightedge-${name}-`));
  made.push(folder);
  return folder;
}

export function removeScratchFolders(): void {
  for (const folder of made.splice(0)) removeFolder(folder);
}
