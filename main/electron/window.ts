/** The one window. */
import { BrowserWindow } from 'electron';
import { PAGE_ADDRESS } from './scheme.ts';

let open: BrowserWindow | null = null;

/** Opens the book's window, locked down. */
export function openWindow(preload: string): BrowserWindow {
  const window = new BrowserWindow({
    width: 1440,
    height: 900,
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
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
    },
  });
  window.once('ready-to-show', () => window.show());
  window.on('closed', () => {
    open = null;
  });
  void window.loadURL(PAGE_ADDRESS);
  open = window;
  return window;
}

/** Brings the window to the front when the program is started a second time. */
export function bringUpWindow(): void {
  if (open === null) return;
  if (open.isMinimized()) open.restore();
  open.focus();
}
