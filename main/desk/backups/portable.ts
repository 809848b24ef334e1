/** A portable backup: one file with its photos, for another computer. */
import { join } from 'node:path';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import { minuteOfInstant } from '../../../shared-core/measure/moment.ts';
import { DeskFailure } from '../failure.ts';
import { isThere, numbered } from '../files.ts';
import type { BackupKey } from './encryption.ts';
import { readPicture } from './photos.ts';
import type { OpenedBackup } from './read-backup.ts';
import { BackupWriting } from './writing.ts';

const freeName = async (folder: string, name: string): Promise<string> => {
  let n = 1;
  while (await isThere(join(folder, numbered(name, n)))) n += 1;
  return numbered(name, n);
};

/**
 * Writes an opened backup with its photos into a folder, without replacing a file.
 * @param backups the folder that its photos are in
 * @throws DeskFailure when a photo is missing or the disk fails; no file is left then
 */
export async function savePortable(
  backup: OpenedBackup,
  backups: string,
  folder: string,
  key: BackupKey | null,
): Promise<{ readonly name: string; readonly bytes: number; readonly sha256: string }> {
  const { dataset, madeAt, reason } = backup.manifest;
  const minute = minuteOfInstant(madeAt, new Intl.DateTimeFormat().resolvedOptions().timeZone).replace(':', '-');
  const name = await freeName(folder, `Portable backup ${minute}.${key === null ? 'zip' : 'encrypted'}`);
  const file = new BackupWriting(folder, { dataset, madeAt, reason }, key, { name, base: backup });
  try {
    for (const table of TABLE_NAMES) {
      const many = backup.ranges(table).length;
      if (many > 0) await file.copy(table, 0, many);
    }
    for (const picture of backup.pictures()) {
      const bytes = backup.picture(picture) ?? (await readPicture(backups, picture));
      if (bytes === null)
        throw new DeskFailure(
          'not-found',
          'A photo of this backup is missing or damaged in the Photos folder. Back up again, then save that backup.',
        );
      await file.addPicture(picture, bytes);
    }
    return await file.close([]);
  } catch (error) {
    await file.drop();
    throw error;
  }
}
