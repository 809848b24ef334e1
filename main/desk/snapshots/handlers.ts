/** The calls that copy the book, read copies and choose where they go. */
import { randomBytes } from 'node:crypto';
import { access, constants } from 'node:fs/promises';
import { join } from 'node:path';
import type { CallName } from '../../../shared-core/desk/call-names.ts';
import type { Gives, Taken } from '../../../shared-core/desk/calls.ts';
import type { SNAPSHOT_CALLS } from '../../../shared-core/desk/snapshot-calls.ts';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import { keepChoices, readChoices } from '../choices.ts';
import { DeskFailure, explainDisk } from '../failure.ts';
import { listSnapshots, openBytes, openSnapshot, readyFolder, roomLeft } from './folder.ts';
import { type Lock, makeLock } from './lock.ts';
import { keepPicture, picturesBytes, readPicture, wantedPictures } from './pictures.ts';
import type { OpenedBook } from './read-book.ts';
import { ZIP_LIMITS } from './read-zip.ts';
import { beginSnapshot, SnapshotWriting } from './writing.ts';

export type SnapshotCall = Extract<CallName, keyof typeof SNAPSHOT_CALLS>;
export type SnapshotHandlers = { [N in SnapshotCall]: (input: Taken<N>) => Promise<Gives<N>> };

export type SnapshotPlaces = {
  readonly dataFolder: string;
  readonly papersFolder: string;
  readonly usualCopies: string;
  /** Asks in the system's own dialog; null when the person went back. A host without a dialog has no such function. */
  readonly chooseFolder: ((title: string) => Promise<string | null>) | null;
  readonly onKept: (path: string) => void;
  /** The file that the system handed to the program last; null when none waits. A host that is handed none has no such function. */
  readonly takeHanded: ((mostBytes: number) => Promise<Handed | null>) | null;
};

/** A file handed over: its own name and its bytes, null where it is larger than any copy. */
export type Handed = { readonly name: string; readonly bytes: Buffer | null };

/** How much of a table one answer carries. */
const PIECE_BYTES = 4_000_000;
const PICTURES_BYTES = 16_000_000;

const lockOf = (lock: Taken<'snapshot.begin'>['lock']): Lock | null =>
  lock === null ? null : { salt: Buffer.from(lock.salt, 'base64'), key: Buffer.from(lock.key, 'base64') };
const newId = (): string => randomBytes(12).toString('hex');
const over = (): DeskFailure =>
  new DeskFailure('not-found', 'That is not under way any more: the program was started anew or something else was begun. Begin again.');

/** Where the copies go: chosen, or the usual place. */
export async function copiesFolder(places: Pick<SnapshotPlaces, 'dataFolder' | 'usualCopies'>): Promise<string> {
  return (await readChoices(places.dataFolder)).copiesFolder ?? places.usualCopies;
}

/** The handlers; one copy is written, one file arrives and one copy is looked into at a time. */
export function createSnapshotHandlers(places: SnapshotPlaces): SnapshotHandlers {
  let writing: SnapshotWriting | null = null;
  let arriving: { readonly id: string; parts: Buffer[]; bytes: number } | null = null;
  let looking: { readonly id: string; readonly book: OpenedBook; readonly folder: string } | null = null;

  const written = (id: string): SnapshotWriting => {
    if (writing?.id !== id) throw over();
    return writing;
  };
  const looked = (id: string): NonNullable<typeof looking> => {
    if (looking?.id !== id) throw over();
    return looking;
  };
  /** A failed piece spoils the whole: it is given up at once. */
  const orDrop = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      await writing?.drop();
      writing = null;
      throw error;
    }
  };
  const folder = (): Promise<string> => copiesFolder(places);

  return {
    'snapshot.list': async () => {
      const choices = await readChoices(places.dataFolder);
      const at = await folder();
      return {
        folder: at,
        chosen: choices.copiesFolder !== null,
        canChoose: places.chooseFolder !== null,
        limitBytes: choices.limitBytes,
        photosBytes: await picturesBytes(at),
        leftBytes: (await roomLeft(at)) ?? (await roomLeft(places.papersFolder)),
        snapshots: await listSnapshots(at),
      };
    },
    'snapshot.folder': async ({ choose }) => {
      const before = await folder();
      const choices = await readChoices(places.dataFolder);
      let chosen: string | null = null;
      if (choose === 'other') {
        if (places.chooseFolder === null)
          throw new DeskFailure(
            'unsupported',
            'This host cannot ask for a folder. Start it with STRAIGHTEDGE_BACKUPS set to the folder instead.',
          );
        chosen = await places.chooseFolder('Folder for the copies of the book');
        if (chosen === null) return { folder: before, changed: false };
        await readyFolder(chosen);
        await access(chosen, constants.W_OK).catch((error: unknown) => {
          throw explainDisk(error, 'The folder');
        });
      }
      await keepChoices(places.dataFolder, { ...choices, copiesFolder: chosen });
      return { folder: await folder(), changed: true };
    },
    'snapshot.limit': async ({ limitBytes }) => {
      await keepChoices(places.dataFolder, { ...(await readChoices(places.dataFolder)), limitBytes });
      return { limitBytes };
    },
    'snapshot.lock': async ({ passphrase }) => {
      const { salt, key } = await makeLock(passphrase);
      return { salt: salt.toString('base64'), key: key.toString('base64') };
    },
    'picture.wanted': async ({ names, locked }) => ({ wanted: await wantedPictures(await folder(), names, locked) }),
    'picture.keep': async ({ pictures, locked }) => {
      const at = await folder();
      const spoilt: string[] = [];
      for (const { name, base64 } of pictures) if (!(await keepPicture(at, name, Buffer.from(base64, 'base64'), locked))) spoilt.push(name);
      return { kept: pictures.length - spoilt.length, spoilt };
    },
    'snapshot.begin': async ({ madeAt, reason, lock }) => {
      await writing?.drop();
      writing = await beginSnapshot(await folder(), madeAt, reason, lockOf(lock));
      return { id: writing.id };
    },
    'snapshot.add': ({ id, table, rows }) =>
      orDrop(async () => {
        await written(id).add(table, rows);
        return { taken: rows.length };
      }),
    'snapshot.finish': ({ id, pictures }) =>
      orDrop(async () => {
        const { limitBytes } = await readChoices(places.dataFolder);
        const kept = await written(id).finish(pictures, limitBytes);
        writing = null;
        return { ...kept, folder: await folder() };
      }),
    'snapshot.carry': async ({ name, lock }) => {
      const at = await folder();
      const book = await openSnapshot(at, name, { lock: lockOf(lock), passphrase: null });
      const day = book.manifest.madeAt.slice(0, 16).replace('T', ' ').replace(':', '-');
      await readyFolder(places.papersFolder);
      const file = new SnapshotWriting(
        places.papersFolder,
        book.manifest.madeAt,
        book.manifest.reason,
        lockOf(lock),
        `Book to carry ${day}.${lock === null ? 'zip' : 'locked'}`,
      );
      try {
        for (const table of TABLE_NAMES)
          for (let from = 0; from < book.count(table); ) {
            const rows = book.rows(table, from, PIECE_BYTES);
            await file.add(table, rows);
            from += rows.length;
          }
        for (const picture of book.pictures()) {
          const bytes = book.picture(picture) ?? (await readPicture(at, picture));
          if (bytes === null)
            throw new DeskFailure(
              'not-found',
              'A photo of this copy is missing or damaged in the Photos folder. Copy the book anew, then carry that copy.',
            );
          await file.addPicture(picture, bytes);
        }
        const kept = await file.close([]);
        places.onKept(join(places.papersFolder, kept.name));
        return { ...kept, folder: places.papersFolder };
      } catch (error) {
        await file.drop();
        throw error;
      }
    },
    'snapshot.arrive': ({ id, base64 }) => {
      if (id === null) arriving = { id: newId(), parts: [], bytes: 0 };
      if (arriving === null || (id !== null && arriving.id !== id)) return Promise.reject(over());
      const part = Buffer.from(base64, 'base64');
      arriving.parts.push(part);
      arriving.bytes += part.length;
      if (arriving.bytes > ZIP_LIMITS.fileBytes) {
        arriving = null;
        return Promise.reject(new DeskFailure('too-large', 'This file is larger than any backup. Nothing in the book was changed.'));
      }
      return Promise.resolve({ id: arriving.id, bytes: arriving.bytes });
    },
    'snapshot.handed': async () => {
      const handed = await (places.takeHanded?.(ZIP_LIMITS.fileBytes) ?? null)?.catch((error: unknown) => {
        throw new DeskFailure(
          'not-found',
          'The file that was to be opened is gone or cannot be read. Copy it to this computer first, then open it again.',
          error,
        );
      });
      if (handed === null || handed === undefined) return { name: null, arrived: null };
      if (handed.bytes === null)
        throw new DeskFailure('too-large', 'This file is larger than any backup. Nothing in the book was changed.');
      arriving = { id: newId(), parts: [handed.bytes], bytes: handed.bytes.length };
      return { name: handed.name, arrived: arriving.id };
    },
    'snapshot.look': async ({ from, lock, passphrase }) => {
      const at = await folder();
      const by = { lock: lockOf(lock), passphrase };
      let book: OpenedBook;
      if ('name' in from) book = await openSnapshot(at, from.name, by);
      else {
        if (arriving?.id !== from.arrived) throw over();
        if (arriving.parts.length > 1) arriving.parts = [Buffer.concat(arriving.parts)];
        // It stays while it is locked, for the passphrase to be typed.
        book = await openBytes(arriving.parts[0] ?? Buffer.alloc(0), by);
        arriving = null;
      }
      looking = { id: newId(), book, folder: at };
      const { madeAt, reason, schemaVersion } = book.manifest;
      return {
        id: looking.id,
        madeAt,
        reason,
        schemaVersion,
        counts: Object.fromEntries(TABLE_NAMES.map((table) => [table, book.count(table)])) as Gives<'snapshot.look'>['counts'],
        pictures: book.pictures(),
      };
    },
    'snapshot.rows': ({ id, table, from }) =>
      new Promise((resolve) => {
        const { book } = looked(id);
        const rows = book.rows(table, from, PIECE_BYTES);
        const next = from + rows.length;
        // Every row was read with its id; the contract's type wants it said.
        resolve({ rows: rows as Gives<'snapshot.rows'>['rows'], next: next < book.count(table) && rows.length > 0 ? next : null });
      }),
    'snapshot.pictures': async ({ id, names }) => {
      const { book, folder: at } = looked(id);
      const known = new Set(book.pictures());
      const pictures: { name: string; base64: string }[] = [];
      let size = 0;
      for (const name of names) {
        if (size > PICTURES_BYTES) break;
        const bytes = known.has(name) ? (book.picture(name) ?? (await readPicture(at, name))) : null;
        if (bytes === null) continue;
        size += bytes.length;
        pictures.push({ name, base64: bytes.toString('base64') });
      }
      return { pictures };
    },
    'snapshot.close': ({ id }) => {
      const open = looking?.id === id;
      if (open) looking = null;
      return Promise.resolve({ closed: open });
    },
  };
}
