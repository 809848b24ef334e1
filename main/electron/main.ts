/** The shell's wiring. Listeners are installed before the window opens. */
import { app } from 'electron';
import { join } from 'node:path';
import { createDispatch, type Dispatch } from '../desk/dispatch.ts';
import { createHandlers } from '../desk/handlers.ts';
import { createLog } from '../desk/log.ts';
import { mendLogs } from '../desk/mend-logs.ts';
import { listPageFiles } from '../desk/page-files.ts';
import { backupsFolder, dataFolder, documentsFolder, thisPlace } from '../desk/places.ts';
import { registerCalls } from './register-calls.ts';
import { denyEverything } from './denials.ts';
import { hasHanded, listenForHanded } from './handed-backup.ts';
import { createMachine } from './machine.ts';
import { setMenu } from './menu.ts';
import { declareScheme, servePages } from './scheme.ts';
import { windowPlace } from './window-place.ts';
import { bringUpWindow, openWindow, showHanded } from './window.ts';

/** Records when the desk last worked, so that closing can wait for the last backup. */
const watched = (dispatch: Dispatch): { readonly dispatch: Dispatch; readonly lastWorkMs: () => number } => {
  let under = 0;
  let last = 0;
  return {
    lastWorkMs: () => (under > 0 ? Date.now() : last),
    dispatch: async (name, input) => {
      under += 1;
      try {
        return await dispatch(name, input);
      } finally {
        under -= 1;
        last = Date.now();
      }
    },
  };
};

/** Starts the shell with the built program in `outFolder`. */
export async function startShell(outFolder: string): Promise<void> {
  const place = thisPlace();
  // Set before the lock: one shell per data folder, and never the browser host's.
  app.setPath('userData', dataFolder('desktop', place));
  declareScheme();
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return;
  }
  app.on('second-instance', () => bringUpWindow());
  listenForHanded(showHanded);
  app.on('window-all-closed', () => app.quit());
  denyEverything(app);
  await app.whenReady();
  const data = app.getPath('userData');
  const logPath = join(data, 'straightedge.log');
  const log = createLog(logPath, () => new Date());
  process.on('uncaughtException', (error) => log(`uncaught: ${error.stack ?? error.message}`));
  process.on('unhandledRejection', (reason) =>
    log(`unhandled: ${reason instanceof Error ? (reason.stack ?? reason.message) : String(reason)}`),
  );
  // The lock above keeps every other shell from this folder.
  await mendLogs(data, log);
  const documents = await documentsFolder(place);
  const machine = createMachine({ documents, backups: backupsFolder(place, documents), fonts: join(outFolder, 'fonts') }, log, (path) =>
    app.addRecentDocument(path),
  );
  const { dispatch, lastWorkMs } = watched(createDispatch(createHandlers(machine), log));
  registerCalls(dispatch);
  servePages(await listPageFiles(join(outFolder, 'renderer')));
  setMenu(logPath);
  openWindow({
    preload: join(outFolder, 'main', 'preload.cjs'),
    place: windowPlace(join(data, 'window.json')),
    log,
    lastWorkMs,
    route: hasHanded() ? '/backup' : '/',
  });
}
