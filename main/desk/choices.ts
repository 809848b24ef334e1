/** Settings of this computer: the Backups folder, its storage limit, the folder of the calendar files. */
import { access, constants, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { DeskFailure, explainDisk } from './failure.ts';
import { readyPlace, replaceFile } from './files.ts';
import type { Machine } from './host.ts';
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

/**
 * Asks for a folder that can be written to; null when the dialog is canceled.
 * @throws DeskFailure with `refusal` in a host without a dialog
 */
export async function askForFolder(
  chooseFolder: Machine['chooseFolder'],
  { title, what, refusal }: { readonly title: string; readonly what?: string; readonly refusal: string },
): Promise<string | null> {
  if (chooseFolder === null) throw new DeskFailure('unsupported', refusal);
  const chosen = await chooseFolder(title);
  if (chosen === null) return null;
  await readyPlace(chosen, what);
  await access(chosen, constants.W_OK).catch((error: unknown) => {
    throw explainDisk(error, 'The folder', 'chosen');
  });
  return chosen;
}
