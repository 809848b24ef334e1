/** The desk calls' work. */
import { createHash } from 'node:crypto';
import { createCalendarHandlers } from './calendar.ts';
import type { CallHandlers } from './dispatch.ts';
import { DeskFailure } from './failure.ts';
import { findFile, placeIn, readyPlace, saveFile } from './files.ts';
import { inkDocument } from './ink/ink-document.ts';
import type { Machine } from './host.ts';
import { createJournalHandlers } from './recovery-log-files.ts';
import { createBackupHandlers, readyBackups } from './backups/backup-handlers.ts';

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
    ...createBackupHandlers(machine),
    ...createJournalHandlers(machine),
    'power.stay-awake': ({ on }) => Promise.resolve({ on: machine.stayAwake?.(on) ?? false }),
    'notice.show': async ({ title, body }) => ({ shown: (await machine.notify?.(title, body)) ?? false }),
    'log.write': ({ level, message }) => {
      machine.log(`${level} from the screen: ${message}`);
      return Promise.resolve({ written: true });
    },
  };
}
