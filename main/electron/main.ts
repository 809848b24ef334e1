/** The shell's wiring. Listeners are installed before the window opens. */
import { app, ipcMain, session, shell, type App } from 'electron';
import { join } from 'node:path';
import { createDispatch, type Dispatch } from '../desk/dispatch.ts';
import { createHandlers } from '../desk/handlers.ts';
import { createLog } from '../desk/log.ts';
import { mendLogs } from '../desk/mend-logs.ts';
import { listPageFiles } from '../desk/page-files.ts';
import { backupsFolder, dataFolder, documentsFolder, thisPlace } from '../desk/places.ts';
import { hasHanded, listenForHanded } from './handed-backup.ts';
import { createMachine } from './machine.ts';
import { setMenu } from './menu.ts';
import { declareScheme, servePages, isOwnAddress } from './scheme.ts';
import { windowPlace } from './window-place.ts';
import { bringUpWindow, openWindow, showHanded } from './window.ts';
import { CALL_NAMES } from '../../shared-core/desk/call-names.ts';
import { failure } from '../../shared-core/desk/envelope.ts';

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
  // macOS starts no second instance; it activates the first.
  app.on('activate', () => bringUpWindow());
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

function registerCalls(dispatch: Dispatch): void {
  for (const name of CALL_NAMES) {
    ipcMain.handle(`desk:${name}`, (event, input: unknown) => {
      const frame = event.senderFrame;
      if (frame === null || frame.parent !== null || !isOwnAddress(frame.url))
        return failure('not-allowed', 'Only the Straightedge window can make this request.');
      return dispatch(name, input);
    });
  }
}

/** Screen lock for pour mode, writing to the clipboard, notifications and full screen; everything else is refused. */
const GRANTED: ReadonlySet<string> = new Set(['screen-wake-lock', 'clipboard-sanitized-write', 'notifications', 'fullscreen']);

/** Maximum length of an address passed to another program; Windows refuses longer ones. */
const MAX_ADDRESS = 2000;

/** Only addresses that start an email or a call are passed to the system. */
function mayOpenOutside(address: string): boolean {
  return address.length <= MAX_ADDRESS && /^(mailto|tel):[!-~]+$/i.test(address);
}

/** Installs every refusal; call before any window exists. */
function denyEverything(app: App): void {
  const openOutside = (address: string): void => {
    if (mayOpenOutside(address)) void shell.openExternal(address);
  };
  app.enableSandbox();
  app.on('web-contents-created', (_event, contents) => {
    // A link for email or a call arrives here as a navigation.
    contents.on('will-navigate', (event, address) => {
      if (isOwnAddress(address)) return;
      event.preventDefault();
      openOutside(address);
    });
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(({ url }) => {
      openOutside(url);
      return { action: 'deny' };
    });
  });
  void app.whenReady().then(() => {
    session.defaultSession.setPermissionRequestHandler((contents, permission, answer) =>
      answer(GRANTED.has(permission) && isOwnAddress(contents.getURL())),
    );
    session.defaultSession.setPermissionCheckHandler((_contents, permission, origin) => GRANTED.has(permission) && isOwnAddress(origin));
    session.defaultSession.setDevicePermissionHandler(() => false);
  });
}
