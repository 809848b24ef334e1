/** The desk calls' work. `Machine` has what differs between hosts. */
import { createHash } from 'node:crypto';
import { createCalendarHandlers } from './calendar.ts';
import type { CallHandlers } from './dispatch.ts';
import { DeskFailure } from './failure.ts';
import { findFile, placeIn, readyPlace, saveFile } from './files.ts';
import { inkDocument } from './ink/ink-document.ts';
import { createJournalHandlers } from './recovery-log-files.ts';
import { createBackupHandlers, type Handed, readyBackups } from './backups/backup-handlers.ts';

/** What a host provides. A null function means that the host cannot do it. */
export type Machine = {
  readonly host: string;
  readonly version: string;
  readonly papersFolder: string;
  /** The program's own folder, for settings of this computer. */
  readonly dataFolder: string;
  /** Default folder of backups. */
  readonly usualBackups: string;
  readonly chooseFolder: ((title: string) => Promise<string | null>) | null;
  /** Takes the file that the system passed to the program. */
  readonly takeHanded?: (mostBytes: number) => Promise<Handed | null>;
  readonly fontsFolder: string;
  readonly openPath: ((path: string) => Promise<void>) | null;
  readonly stayAwake: ((on: boolean) => boolean) | null;
  /** Called for each file saved or opened, for the system's list of recent files. */
  readonly remember: ((path: string) => void) | null;
  /** Returns whether the system accepted it. */
  readonly notify: ((title: string, body: string) => boolean | Promise<boolean>) | null;
  readonly log: (line: string) => void;
};

export function createHandlers(machine: Machine): CallHandlers {
  const openOnMachine = async (path: string): Promise<{ opened: boolean }> => {
    if (machine.openPath === null)
      throw new DeskFailure('unsupported', `Straightedge cannot open files here. Look in ${machine.papersFolder}.`);
    await machine.openPath(path);
    return { opened: true };
  };
  const papersIn = (folder: string | undefined): string =>
    folder === undefined ? machine.papersFolder : placeIn(machine.papersFolder, folder);
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
      return {
        pdfBase64: Buffer.from(pdf).toString('base64'),
        pages,
        sha256: createHash('sha256').update(pdf).digest('hex'),
        version: machine.version,
      };
    },
    ...createCalendarHandlers(machine),
    'file.save': async ({ name, base64, bytes, folder }) => {
      const content = bytes ?? Buffer.from(base64 ?? '', 'base64');
      const place = papersIn(folder);
      return { name: await saveFile(place, name, content), folder: place, bytes: content.length };
    },
    'file.open': async ({ name }) => {
      const path = await findFile(machine.papersFolder, name);
      machine.remember?.(path);
      return openOnMachine(path);
    },
    'folder.open': async ({ folder, which }) => {
      const place = which === 'backups' ? await readyBackups(machine) : papersIn(folder);
      if (which !== 'backups') await readyPlace(place);
      return openOnMachine(place);
    },
    ...createBackupHandlers({
      takeHanded: machine.takeHanded ?? null,
      dataFolder: machine.dataFolder,
      papersFolder: machine.papersFolder,
      usualBackups: machine.usualBackups,
      chooseFolder: machine.chooseFolder,
      onSaved: (path) => machine.remember?.(path),
    }),
    ...createJournalHandlers(machine),
    'power.stay-awake': ({ on }) => Promise.resolve({ on: machine.stayAwake?.(on) ?? false }),
    'notice.show': async ({ title, body }) => ({ shown: (await machine.notify?.(title, body)) ?? false }),
    'log.write': ({ level, message }) => {
      machine.log(`${level} from the screen: ${message}`);
      return Promise.resolve({ written: true });
    },
  };
}
