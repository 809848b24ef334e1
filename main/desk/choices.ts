/** What the person chose on this machine: the folder of the copies, the size they are kept within, the folder of the calendar files. */
import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { BACKUPS_LIMIT_BYTES } from './snapshots/writing.ts';

export type Choices = {
  readonly copiesFolder: string | null;
  readonly limitBytes: number;
  readonly calendarFolder: string | null;
};

const USUAL: Choices = { copiesFolder: null, limitBytes: BACKUPS_LIMIT_BYTES, calendarFolder: null };
const pathIn = (dataFolder: string): string => join(dataFolder, 'choices.json');

const folder = (kept: unknown): string | null => (typeof kept === 'string' && kept !== '' ? kept : null);

/** Reads the choices; what was never chosen, or cannot be read, is the usual. */
export async function readChoices(dataFolder: string): Promise<Choices> {
  try {
    const kept: unknown = JSON.parse(await readFile(pathIn(dataFolder), 'utf8'));
    if (typeof kept !== 'object' || kept === null) return USUAL;
    const { copiesFolder, limitBytes, calendarFolder } = kept as Partial<Record<keyof Choices, unknown>>;
    return {
      copiesFolder: folder(copiesFolder),
      limitBytes: typeof limitBytes === 'number' && limitBytes > 0 ? limitBytes : USUAL.limitBytes,
      calendarFolder: folder(calendarFolder),
    };
  } catch {
    return USUAL;
  }
}

/** Keeps the choices. */
export async function keepChoices(dataFolder: string, choices: Choices): Promise<void> {
  await mkdir(dataFolder, { recursive: true });
  await writeFile(`${pathIn(dataFolder)}.part`, `${JSON.stringify(choices)}\n`);
  await rename(`${pathIn(dataFolder)}.part`, pathIn(dataFolder));
}
