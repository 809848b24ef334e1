/** The calls' work, host-neutral. What differs between hosts comes in as `Machine`. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { writeCalendar } from './calendar.ts';
import type { CallHandlers } from './dispatch.ts';
import { DeskFailure } from './failure.ts';
import { findFile, keepFile } from './files.ts';
import { inkDocument } from './ink/ink-document.ts';
import { keepSnapshot, listSnapshots, opened, readSnapshot } from './snapshots/folder.ts';
import type { UnpackedBook } from './snapshots/pack.ts';

/** What a host lends the desk. A missing function is something that host cannot do. */
export type Machine = {
  readonly host: string;
  readonly version: string;
  readonly papersFolder: string;
  readonly fontsFolder: string;
  readonly openPath: ((path: string) => Promise<void>) | null;
  readonly stayAwake: ((on: boolean) => boolean) | null;
  readonly notify: ((title: string, body: string) => boolean) | null;
  readonly log: (line: string) => void;
};

const told = ({ manifest, rows }: UnpackedBook): Gives<'snapshot.read'> => ({
  madeAt: manifest.madeAt,
  reason: manifest.reason,
  schemaVersion: manifest.schemaVersion,
  // Every row was read with its id; the contract's type wants it said.
  rows: rows as Gives<'snapshot.read'>['rows'],
});

/** All handlers over one machine. */
export function createHandlers(machine: Machine): CallHandlers {
  const openOnMachine = async (path: string): Promise<{ opened: boolean }> => {
    if (machine.openPath === null) throw new DeskFailure('unsupported', `This host cannot open files. It is in ${machine.papersFolder}.`);
    await machine.openPath(path);
    return { opened: true };
  };
  const backups = join(machine.papersFolder, 'Backups');
  return {
    'desk.about': () =>
      Promise.resolve({
        host: machine.host,
        version: machine.version,
        can: {
          openFiles: machine.openPath !== null,
          keepFiles: true,
          notify: machine.notify !== null,
          stayAwake: machine.stayAwake !== null,
        },
        papersFolder: machine.papersFolder,
      }),
    'document.ink': async ({ tree }) => {
      const { pdf, pages } = await inkDocument(tree, machine.fontsFolder);
      return { pdfBase64: Buffer.from(pdf).toString('base64'), pages, sha256: createHash('sha256').update(pdf).digest('hex') };
    },
    'calendar.write': (input) => Promise.resolve({ text: writeCalendar(input) }),
    'file.keep': async ({ name, base64 }) => {
      const bytes = Buffer.from(base64, 'base64');
      await keepFile(machine.papersFolder, name, bytes);
      return { name, folder: machine.papersFolder, bytes: bytes.length };
    },
    'file.open': async ({ name }) => openOnMachine(await findFile(machine.papersFolder, name)),
    'folder.open': () => openOnMachine(machine.papersFolder),
    'snapshot.keep': async ({ rows, madeAt, reason }) => ({ ...(await keepSnapshot(backups, rows, madeAt, reason)), folder: backups }),
    'snapshot.list': async () => ({ folder: backups, snapshots: await listSnapshots(backups) }),
    'snapshot.read': async ({ name }) => told(await readSnapshot(backups, name)),
    // Awaited so that a refusal reaches the dispatcher as a rejection.
    'snapshot.open': ({ base64 }) => new Promise((resolve) => resolve(told(opened(Buffer.from(base64, 'base64'))))),
    'power.stay-awake': ({ on }) => Promise.resolve({ on: machine.stayAwake?.(on) ?? false }),
    'notice.show': ({ title, body }) => Promise.resolve({ shown: machine.notify?.(title, body) ?? false }),
    'log.write': ({ level, message }) => {
      machine.log(`${level} from the screen: ${message}`);
      return Promise.resolve({ written: true });
    },
  };
}
