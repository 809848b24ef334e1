/** Settings of this computer: the Backups folder, its storage limit, the folder of the calendar files. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { replaceFile } from './files.ts';
import { BACKUPS_LIMIT_BYTES } from './backups/writing.ts';

export type Choices = {
  readonly backupsFolder: string | null;
  readonly limitBytes: number;
  readonly calendarFolder: string | null;
};

const USUAL: Choices = { backupsFolder: null, limitBytes: BACKUPS_LIMIT_BYTES, calendarFolder: null };
const NAME = 'choices.json';
const pathIn = (dataFolder: string): string => join(dataFolder, NAME);

const folder = (stored: unknown): string | null => (typeof stored === 'string' && stored !== '' ? stored : null);

/** Missing or unreadable settings have their defaults. */
export async function readChoices(dataFolder: string): Promise<Choices> {
  try {
    const stored: unknown = JSON.parse(await readFile(pathIn(dataFolder), 'utf8'));
    if (typeof stored !== 'object' || stored === null) return USUAL;
    const { backupsFolder, limitBytes, calendarFolder } = stored as Partial<Record<keyof Choices, unknown>>;
    return {
      backupsFolder: folder(backupsFolder),
      limitBytes: typeof limitBytes === 'number' && limitBytes > 0 ? limitBytes : USUAL.limitBytes,
      calendarFolder: folder(calendarFolder),
    };
  } catch {
    return USUAL;
  }
}

export async function saveChoices(dataFolder: string, choices: Choices): Promise<void> {
  await replaceFile(dataFolder, NAME, Buffer.from(`${JSON.stringify(choices)}\n`));
}
