/** The desk calls that write and read backups and choose their folder. */
import { randomBytes } from 'node:crypto';
import { access, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { CallName } from '../../../shared-core/desk/call-names.ts';
import type { Gives, Taken } from '../../../shared-core/desk/calls.ts';
import type { BACKUP_CALLS } from '../../../shared-core/desk/backup-calls.ts';
import { SCHEMA_VERSION, TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import { askForFolder, readChoices, saveChoices } from '../choices.ts';
import { DeskFailure, explainDisk } from '../failure.ts';
import type { Machine } from '../host.ts';
import { FOLDER, freeBytes, listBackups, openBackupFile, openBytes, readyFolder } from './backups-folder.ts';
import { type BackupKey, isEncrypted, makeBackupKey } from './encryption.ts';
import { differingSpans } from './differing-spans.ts';
import { missingPictures, storePicture, picturesBytes, readPicture, wantedPictures } from './photos.ts';
import { savePortable } from './portable.ts';
import type { OpenedBackup } from './read-backup.ts';
import { ZIP_LIMITS } from './read-zip.ts';
import { beginBackup, type BackupWriting } from './writing.ts';

export type BackupCall = Extract<CallName, keyof typeof BACKUP_CALLS>;
export type BackupHandlers = { [N in BackupCall]: (input: Taken<N>) => Promise<Gives<N>> };

type BackupPlaces = Pick<Machine, 'dataFolder' | 'papersFolder' | 'usualBackups' | 'chooseFolder' | 'remember' | 'takeHanded'>;

/** Maximum size of a table's part in one reply, bytes. */
const PIECE_BYTES = 4_000_000;
const PICTURES_BYTES = 16_000_000;
const TOO_LARGE = 'This file is larger than any backup. Your data was not changed.';

const keyOf = (key: Taken<'backup.begin'>['key']): BackupKey | null =>
  key === null ? null : { salt: Buffer.from(key.salt, 'base64'), key: Buffer.from(key.key, 'base64') };
const newId = (): string => randomBytes(12).toString('hex');
const interrupted = (): DeskFailure => new DeskFailure('not-found', 'This was interrupted. Start it again.');

type Places = Pick<BackupPlaces, 'dataFolder' | 'usualBackups'>;

/** The chosen folder, or the default one. */
async function backupsFolder(places: Places): Promise<string> {
  return (await readChoices(places.dataFolder)).backupsFolder ?? places.usualBackups;
}

/** @throws DeskFailure when a chosen folder is not there, such as on a disk that is not connected */
async function findChosen(places: Places, folder: string): Promise<void> {
  if (folder === places.usualBackups) return;
  await access(folder).catch((error: unknown) => {
    throw new DeskFailure('not-found', `The Backups folder ${folder} was not found. Reconnect its disk, or choose another folder.`, error);
  });
}

/** The folder that backups are read from. @throws as `findChosen` */
async function foundBackups(places: Places): Promise<string> {
  const folder = await backupsFolder(places);
  await findChosen(places, folder);
  return folder;
}

/** The folder, created where it is the default one; a chosen one is not created again. */
export async function readyBackups(places: Places): Promise<string> {
  const folder = await foundBackups(places);
  if (folder === places.usualBackups) await readyFolder(folder);
  return folder;
}

type Listed = Pick<Gives<'backup.list'>, 'problem' | 'photosBytes' | 'freeBytes' | 'backups'>;

/** What is in the folder; `problem` where that is unknown. */
async function readListed(places: BackupPlaces, folder: string, dataset: string): Promise<Listed> {
  try {
    await findChosen(places, folder);
    const backups = await listBackups(folder);
    const free = await freeBytes(folder);
    return {
      problem: null,
      photosBytes: await picturesBytes(folder),
      // The default folder is created with the first backup.
      freeBytes: free === null && folder === places.usualBackups ? await freeBytes(places.papersFolder) : free,
      backups: backups.map(({ name, madeAt, bytes, reason, dataset: of }) => ({
        ...{ name, madeAt, bytes, reason, isOwn: of === dataset, isEncrypted: name.endsWith('.encrypted') },
      })),
    };
  } catch (error) {
    if (!(error instanceof DeskFailure)) throw error;
    return { problem: error.message, photosBytes: 0, freeBytes: null, backups: [] };
  }
}

const ASKED = {
  title: 'Backups folder',
  what: FOLDER,
  refusal: 'Straightedge cannot ask for a folder here. Start it with STRAIGHTEDGE_BACKUPS set to the folder instead.',
};

type FolderCalls = 'backup.list' | 'backup.delete' | 'backup.folder' | 'backup.limit' | 'backup.make-key';
const folderHandlers = (places: BackupPlaces): Pick<BackupHandlers, FolderCalls> => {
  const folder = (): Promise<string> => backupsFolder(places);
  return {
    'backup.list': async ({ dataset }) => {
      const choices = await readChoices(places.dataFolder);
      const folderPath = await folder();
      return {
        folder: folderPath,
        chosen: choices.backupsFolder !== null,
        canChoose: places.chooseFolder !== null,
        limitBytes: choices.limitBytes,
        ...(await readListed(places, folderPath, dataset)),
      };
    },
    'backup.delete': async ({ name }) => {
      const folderPath = await foundBackups(places);
      try {
        await rm(join(folderPath, name));
        return { deleted: true };
      } catch (error) {
        throw explainDisk(error, name, 'deleted');
      }
    },
    'backup.folder': async ({ choose }) => {
      const chosen = choose === 'other' ? await askForFolder(places.chooseFolder, ASKED) : null;
      if (choose === 'other' && chosen === null) return { folder: await folder(), changed: false };
      await saveChoices(places.dataFolder, { ...(await readChoices(places.dataFolder)), backupsFolder: chosen });
      return { folder: await folder(), changed: true };
    },
    'backup.limit': async ({ limitBytes }) => {
      await saveChoices(places.dataFolder, { ...(await readChoices(places.dataFolder)), limitBytes });
      return { limitBytes };
    },
    'backup.make-key': async ({ passphrase }) => {
      const { salt, key } = await makeBackupKey(passphrase);
      return { salt: salt.toString('base64'), key: key.toString('base64') };
    },
  };
};

type WritingCalls =
  | 'backup.begin'
  | 'backup.add-rows'
  | 'backup.copy'
  | 'backup.missing-photos'
  | 'backup.add-photos'
  | 'backup.finish'
  | 'backup.save-portable';
const writingHandlers = (places: BackupPlaces): Pick<BackupHandlers, WritingCalls> => {
  let writing: BackupWriting | null = null;
  const folder = (): Promise<string> => backupsFolder(places);
  const written = (id: string): BackupWriting => {
    if (writing?.id !== id) throw interrupted();
    return writing;
  };
  /** A failed piece invalidates the whole backup. */
  const orDrop = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      await writing?.drop();
      writing = null;
      throw error;
    }
  };
  return {
    'backup.begin': async ({ key, base, ...naming }) => {
      await writing?.drop();
      writing = await beginBackup(await readyBackups(places), naming, keyOf(key), base);
      const ranges = writing.baseRanges();
      return {
        id: writing.id,
        ranges: (ranges?.map(({ table, first, last }) => ({ table, first, last })) ?? null) as Gives<'backup.begin'>['ranges'],
      };
    },
    'backup.add-rows': ({ id, table, bytes }) =>
      orDrop(async () => ({ taken: await written(id).add(table, Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)) })),
    'backup.copy': ({ id, table, from, count }) =>
      orDrop(async () => {
        await written(id).copy(table, from, count);
        return { copied: count };
      }),
    'backup.missing-photos': async ({ id }) => {
      const one = written(id);
      return { names: await wantedPictures(await folder(), one.shownPictures(), one.isEncrypted) };
    },
    'backup.add-photos': async ({ photos, encrypted }) => {
      const folderPath = await readyBackups(places);
      const damaged: string[] = [];
      for (const { name, base64 } of photos)
        if (!(await storePicture(folderPath, name, Buffer.from(base64, 'base64'), encrypted))) damaged.push(name);
      return { saved: photos.length - damaged.length, damaged };
    },
    'backup.finish': ({ id, withoutPhotos }) =>
      orDrop(async () => {
        const { limitBytes } = await readChoices(places.dataFolder);
        const saved = await written(id).finish(withoutPhotos, limitBytes);
        writing = null;
        return { ...saved, folder: await folder() };
      }),
    'backup.save-portable': async ({ name, key }) => {
      const folderPath = await foundBackups(places);
      const backup = await openBackupFile(folderPath, name, { key: keyOf(key), passphrase: null });
      await readyFolder(places.papersFolder);
      const saved = await savePortable(backup, folderPath, places.papersFolder, keyOf(key));
      places.remember?.(join(places.papersFolder, saved.name));
      return { ...saved, folder: places.papersFolder };
    },
  };
};

type ReadingCalls =
  | 'backup.upload'
  | 'backup.handed'
  | 'backup.open'
  | 'backup.differences'
  | 'backup.rows'
  | 'backup.photos'
  | 'backup.close';
const readingHandlers = (places: BackupPlaces): Pick<BackupHandlers, ReadingCalls> => {
  let uploading: { readonly id: string; parts: Buffer[]; bytes: number } | null = null;
  let open: { readonly id: string; readonly backup: OpenedBackup; readonly folder: string } | null = null;
  const opened = (id: string): NonNullable<typeof open> => {
    if (open?.id !== id) throw interrupted();
    return open;
  };
  return {
    'backup.upload': ({ id, base64 }) => {
      if (id === null) uploading = { id: newId(), parts: [], bytes: 0 };
      if (uploading === null || (id !== null && uploading.id !== id)) return Promise.reject(interrupted());
      const part = Buffer.from(base64, 'base64');
      uploading.parts.push(part);
      uploading.bytes += part.length;
      if (uploading.bytes > ZIP_LIMITS.fileBytes) {
        uploading = null;
        return Promise.reject(new DeskFailure('too-large', TOO_LARGE));
      }
      return Promise.resolve({ id: uploading.id, bytes: uploading.bytes });
    },
    'backup.handed': async () => {
      const handed = await places.takeHanded?.(ZIP_LIMITS.fileBytes).catch((error: unknown) => {
        throw new DeskFailure(
          'not-found',
          'The file to open was moved or cannot be read. Copy it to this computer, then open it again.',
          error,
        );
      });
      if (handed === null || handed === undefined) return { name: null, uploaded: null };
      if (handed.bytes === null) throw new DeskFailure('too-large', TOO_LARGE);
      uploading = { id: newId(), parts: [handed.bytes], bytes: handed.bytes.length };
      return { name: handed.name, uploaded: uploading.id };
    },
    'backup.open': async ({ from, key, passphrase }) => {
      const folderPath = await backupsFolder(places);
      const by = { key: keyOf(key), passphrase };
      let backup: OpenedBackup;
      let wasEncrypted: boolean;
      if ('name' in from) {
        backup = await openBackupFile(await foundBackups(places), from.name, by);
        wasEncrypted = from.name.endsWith('.encrypted');
      } else {
        if (uploading?.id !== from.uploaded) throw interrupted();
        if (uploading.parts.length > 1) uploading.parts = [Buffer.concat(uploading.parts)];
        const bytes = uploading.parts[0] ?? Buffer.alloc(0);
        // Kept while it is encrypted, because the passphrase is asked for next.
        backup = await openBytes(bytes, by);
        wasEncrypted = isEncrypted(bytes);
        uploading = null;
      }
      open = { id: newId(), backup, folder: folderPath };
      const { madeAt, reason, schemaVersion, dataset } = backup.manifest;
      return {
        id: open.id,
        ...{ dataset, madeAt, reason, schemaVersion },
        counts: Object.fromEntries(TABLE_NAMES.map((table) => [table, backup.count(table)])) as Gives<'backup.open'>['counts'],
        photos: backup.pictures(),
        photosMissing: (await missingPictures(folderPath, backup.manifest.beside)).length,
        isEncrypted: wasEncrypted,
      };
    },
    'backup.differences': async ({ id, name, key }) => {
      const { backup, folder } = opened(id);
      const present = await openBackupFile(folder, name, { key: keyOf(key), passphrase: null }, 'packed').catch(() => null);
      if (present === null || [backup, present].some(({ manifest }) => manifest.schemaVersion !== SCHEMA_VERSION))
        return { spans: null, counts: {} };
      return {
        spans: differingSpans(backup, present),
        counts: Object.fromEntries(TABLE_NAMES.map((table) => [table, present.count(table)])),
      };
    },
    'backup.rows': ({ id, table, from }) =>
      new Promise((resolve) => {
        const { backup } = opened(id);
        const { bytes, many } = backup.rows(table, from, PIECE_BYTES);
        const next = from + many;
        resolve({ bytes, next: next < backup.count(table) && many > 0 ? next : null });
      }),
    'backup.photos': async ({ id, names }) => {
      const { backup, folder } = opened(id);
      const known = new Set(backup.pictures());
      const photos: { name: string; base64: string }[] = [];
      let size = 0;
      for (const name of names) {
        if (size > PICTURES_BYTES) break;
        const bytes = known.has(name) ? (backup.picture(name) ?? (await readPicture(folder, name))) : null;
        if (bytes === null) continue;
        size += bytes.length;
        photos.push({ name, base64: bytes.toString('base64') });
      }
      return { photos };
    },
    'backup.close': ({ id }) => {
      const isOpen = open?.id === id;
      if (isOpen) open = null;
      return Promise.resolve({ closed: isOpen });
    },
  };
};

/** Writes one backup, receives one file and has one backup open at a time. */
export function createBackupHandlers(places: BackupPlaces): BackupHandlers {
  return { ...folderHandlers(places), ...writingHandlers(places), ...readingHandlers(places) };
}
