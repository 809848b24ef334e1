/** The one window: locked down, where it was last, and closed only when the book's last copy is written. */
import { BrowserWindow, dialog, screen } from 'electron';
import { PAGE_ADDRESS } from './scheme.ts';
import type { WindowPlace } from './window-place.ts';

let open: BrowserWindow | null = null;

/** How long nothing is asked of the desk before the program counts as done, and how long it is waited for at most. */
const QUIET_MS = 2500;
const MOST_MS = 30_000;
const LOOK_MS = 250;

export type WindowOptions = {
  readonly preload: string;
  readonly place: WindowPlace;
  readonly log: (line: string) => void;
  /** When the desk was last at work; now while it is. */
  readonly lastWorkMs: () => number;
  /** The first sheet. */
  readonly route: `/${string}`;
};

/** Hidden, the page copies the book if it changed; the window goes when the desk has been quiet. */
const closeWhenCopied = (window: BrowserWindow, lastWorkMs: () => number): void => {
  const began = Date.now();
  window.hide();
  const timer = setInterval(() => {
    const now = Date.now();
    if (now - Math.max(began, lastWorkMs()) < QUIET_MS && now - began < MOST_MS) return;
    clearInterval(timer);
    window.destroy();
  }, LOOK_MS);
};

const sayCrashed = async (window: BrowserWindow): Promise<void> => {
  const { response } = await dialog.showMessageBox(window, {
    type: 'error',
    message: 'The sheet stopped.',
    detail: 'Everything entered is in the book: it was written as you typed it. What happened stands in the log.',
    buttons: ['Open it again', 'Close Straightedge'],
    defaultId: 0,
  });
  if (response === 0) void window.loadURL(PAGE_ADDRESS);
  else window.destroy();
};

/** Opens the book's window. */
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
    place.keep({ ...window.getNormalBounds(), maximized: window.isMaximized() });
    if (leaving) return;
    leaving = true;
    event.preventDefault();
    closeWhenCopied(window, lastWorkMs);
  });
  window.on('closed', () => {
    open = null;
  });
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    log(`the page stopped: ${reason}`);
    if (!leaving) void sayCrashed(window);
  });
  void window.loadURL(route === '/' ? PAGE_ADDRESS : `${PAGE_ADDRESS}#${route}`);
  open = window;
  return window;
}

/** Brings the window to the front when the program is started a second time. */
export function bringUpWindow(): void {
  if (open === null) return;
  if (open.isMinimized()) open.restore();
  open.show();
  open.focus();
}

/** Turns the page to a sheet; the addresses are the menu's own. */
export function showSheet(route: `/${string}`): void {
  bringUpWindow();
  void open?.webContents.executeJavaScript(`location.hash = ${JSON.stringify(`#${route}`)}; undefined`);
}

/** Turns the page to the copies and tells it that one was handed over; a page that is only now opening asks by itself. */
export function showHanded(): void {
  if (open === null) return;
  showSheet('/backup');
  void open.webContents.executeJavaScript("dispatchEvent(new Event('straightedge-handed')); undefined");
}
