/** The window: sandboxed, in its last position, and closed after the last backup is written. */
import { BrowserWindow, dialog, screen } from 'electron';
import { PAGE_ADDRESS } from './scheme.ts';
import type { WindowPlace } from './window-place.ts';

let open: BrowserWindow | null = null;

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
  const timer = setInterval(() => {
    const now = Date.now();
    if (now - Math.max(began, lastWorkMs()) < QUIET_MS && now - began < MAX_MS) return;
    clearInterval(timer);
    window.destroy();
  }, CHECK_MS);
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
  let leaving = false;
  window.on('close', (event) => {
    place.save({ ...window.getNormalBounds(), maximized: window.isMaximized() });
    if (leaving) return;
    leaving = true;
    event.preventDefault();
    closeWhenBackedUp(window, lastWorkMs);
  });
  window.on('closed', () => {
    open = null;
  });
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    log(`the page stopped: ${reason}`);
    if (!leaving) void tellCrashed(window);
  });
  void window.loadURL(route === '/' ? PAGE_ADDRESS : `${PAGE_ADDRESS}#${route}`);
  open = window;
  return window;
}

/** Brings the window to the front, for a second start of the program. */
export function bringUpWindow(): void {
  if (open === null) return;
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
