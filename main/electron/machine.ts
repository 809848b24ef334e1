import { app, dialog, Notification, powerSaveBlocker, shell } from 'electron';
import { basename, dirname } from 'node:path';
import { DeskFailure } from '../desk/failure.ts';
import type { Machine } from '../desk/host.ts';
import { takeHanded } from './handed-backup.ts';

export type MachineFolders = {
  readonly documents: string;
  readonly backups: string;
  readonly fonts: string;
};

/**
 * What Electron provides to the desk.
 * @param remember called with each file saved or opened, for the system's list of recent files
 */
export function createMachine(folders: MachineFolders, log: (line: string) => void, remember: (path: string) => void): Machine {
  let blocker: number | null = null;
  return {
    host: 'desktop window',
    version: app.getVersion(),
    papersFolder: folders.documents,
    dataFolder: app.getPath('userData'),
    usualBackups: folders.backups,
    chooseFolder: async (title) => {
      const { canceled, filePaths } = await dialog.showOpenDialog({
        title,
        properties: ['openDirectory', 'createDirectory'],
      });
      return canceled ? null : (filePaths[0] ?? null);
    },
    remember,
    takeHanded,
    fontsFolder: folders.fonts,
    openPath: async (path) => {
      const problem = await shell.openPath(path);
      if (problem === '') return;
      log(`open: ${problem}`);
      throw new DeskFailure(
        'unsupported',
        `No program on this computer opened ${basename(path)}. The file is saved in ${dirname(path)}. Open it from there.`,
      );
    },
    stayAwake: (on) => {
      if (on && blocker === null) blocker = powerSaveBlocker.start('prevent-display-sleep');
      if (!on && blocker !== null) {
        powerSaveBlocker.stop(blocker);
        blocker = null;
      }
      return blocker !== null;
    },
    notify: (title, body) => {
      if (!Notification.isSupported()) return false;
      new Notification({ title, body }).show();
      return true;
    },
    log,
  };
}
