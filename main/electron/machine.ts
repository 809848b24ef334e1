/** What this host lends the desk. */
import { app, dialog, Notification, powerSaveBlocker, shell } from 'electron';
import type { Machine } from '../desk/handlers.ts';
import { takeHanded } from './handed.ts';
import { copiesPlace, papersFolder } from '../desk/places.ts';

/** The machine as Electron gives it. */
export function createMachine(fontsFolder: string, log: (line: string) => void, remember: (path: string) => void): Machine {
  let blocker: number | null = null;
  return {
    host: 'desktop window',
    version: app.getVersion(),
    papersFolder: papersFolder(process.env),
    dataFolder: app.getPath('userData'),
    usualCopies: copiesPlace(process.env),
    chooseFolder: async (title) => {
      const { canceled, filePaths } = await dialog.showOpenDialog({
        title,
        properties: ['openDirectory', 'createDirectory'],
      });
      return canceled ? null : (filePaths[0] ?? null);
    },
    remember,
    takeHanded,
    fontsFolder,
    openPath: async (path) => {
      const problem = await shell.openPath(path);
      if (problem !== '') log(`open: ${problem}`);
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
