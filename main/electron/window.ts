/** The window: sandboxed, in its last position, and closed after the last backup is written. */
import { BrowserWindow, dialog, screen } from 'electron';
import { PAGE_ADDRESS } from './scheme.ts';
import type { WindowPlace } from './window-place.ts';

let open: BrowserWindow | null = null;
/** Runs from the moment the window is closed until it is destroyed; null while the window is in use. */
let closing: NodeJS.Timeout | null = null;

/** Quiet time after the last call that counts as done, ms. */
const QUIET_MS = 2500;
/** Maximum wait before closing, ms. */
const MAX_MS = 30_000;
const CHECK_MS = 250;

export type WindowOptions = {
  readonly preload: string;
  readonly place: WindowPlace;
  readonly log: (line: string) => void;
  /** When the desk last worked; now, while it is working. */
  readonly lastWorkMs: () => number;
  readonly route: `/${string}`;
};

/** A page makes a backup when it is hidden. The window closes when the desk has been quiet. */
const closeWhenBackedUp = (window: BrowserWindow, lastWorkMs: () => number): void => {
  const began = Date.now();
  window.hide();
  closing = setInterval(() => {
    const now = Date.now();
    if (now - Math.max(began, lastWorkMs()) < QUIET_MS && now - began < MAX_MS) return;
    stopClosing();
    window.destroy();
  }, CHECK_MS);
};

const stopClosing = (): void => {
  if (closing !== null) clearInterval(closing);
  closing = null;
};

const tellCrashed = async (window: BrowserWindow): Promise<void> => {
  const { response } = await dialog.showMessageBox(window, {
    type: 'error',
    message: 'Straightedge stopped working.',
    detail: 'Your data is safe: each entry was saved as you made it. The log says what happened. Reopen the window to continue.',
    buttons: ['Reopen', 'Quit'],
    defaultId: 0,
  });
  if (response === 0) void window.loadURL(PAGE_ADDRESS);
  else window.destroy();
};

export function openWindow({ preload, place, log, lastWorkMs, route }: WindowOptions): BrowserWindow {
  const { maximized, ...bounds } = place.read(screen.getAllDisplays().map((display) => display.workArea));
  const window = new BrowserWindow({
    ...bounds,
    minWidth: 390,
    minHeight: 600,
    show: false,
    title: 'Straightedge',
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      spellcheck: false,
    },
  });
  if (maximized) window.maximize();
  window.once('ready-to-show', () => window.show());
  window.on('close', (event) => {
    place.save({ ...window.getNormalBounds(), maximized: window.isMaximized() });
    if (closing !== null) return;
    event.preventDefault();
    closeWhenBackedUp(window, lastWorkMs);
  });
  window.on('closed', () => {
    stopClosing();
    open = null;
  });
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    log(`the page stopped: ${reason}`);
    if (closing === null) void tellCrashed(window);
  });
  void window.loadURL(route === '/' ? PAGE_ADDRESS : `${PAGE_ADDRESS}#${route}`);
  open = window;
  return window;
}

/** Brings the window to the front, for a second start of the program. A window that is closing stays open. */
export function bringUpWindow(): void {
  if (open === null) return;
  stopClosing();
  if (open.isMinimized()) open.restore();
  open.show();
  open.focus();
}

/** Opens a screen of the menu. */
export function showScreen(route: `/${string}`): void {
  bringUpWindow();
  void open?.webContents.executeJavaScript(`location.hash = ${JSON.stringify(`#${route}`)}; undefined`);
}

/** Opens the Backup screen and tells the page that a backup was passed. A page that is still loading asks by itself. */
export function showHanded(): void {
  if (open === null) return;
  showScreen('/backup');
  void open.webContents.executeJavaScript("dispatchEvent(new Event('straightedge-handed')); undefined");
}
