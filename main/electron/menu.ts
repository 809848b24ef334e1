/** The application menu: the book's own sheets with their keys, the system's own roles, nothing that opens tools in a packaged program. */
import { app, Menu, type MenuItemConstructorOptions, shell } from 'electron';
import { showSheet } from './window.ts';

const sheet = (label: string, route: `/${string}`, accelerator?: string): MenuItemConstructorOptions => ({
  label,
  click: () => showSheet(route),
  ...(accelerator === undefined ? {} : { accelerator }),
});

/** Sets the menu. @param logPath the log file, to be shown in its folder */
export function setMenu(logPath: string): void {
  const isMac = process.platform === 'darwin';
  app.setAboutPanelOptions({
    applicationName: 'Straightedge',
    applicationVersion: app.getVersion(),
    version: '',
    copyright: 'MIT License',
  });
  const about: MenuItemConstructorOptions = { role: 'about' };
  Menu.setApplicationMenu(
    Menu.buildFromTemplate([
      ...(isMac ? ([{ role: 'appMenu' }] as const) : []),
      {
        label: 'File',
        submenu: [
          sheet('Copies of the Book…', '/backup', 'CmdOrCtrl+Shift+S'),
          sheet('Open a Copy…', '/backup', 'CmdOrCtrl+O'),
          { role: 'recentDocuments', submenu: [{ role: 'clearRecentDocuments' }] },
          { type: 'separator' },
          { role: isMac ? 'close' : 'quit' },
        ],
      },
      { role: 'editMenu' },
      {
        label: 'Book',
        submenu: [
          sheet('Today', '/', 'CmdOrCtrl+1'),
          sheet('Jobs', '/jobs', 'CmdOrCtrl+2'),
          sheet('People', '/customers', 'CmdOrCtrl+3'),
          sheet('Materials', '/materials', 'CmdOrCtrl+4'),
          sheet('Business', '/business', 'CmdOrCtrl+5'),
        ],
      },
      {
        label: 'View',
        submenu: [{ role: 'resetZoom' }, { role: 'zoomIn' }, { role: 'zoomOut' }, { type: 'separator' }, { role: 'togglefullscreen' }],
      },
      { role: 'windowMenu' },
      {
        role: 'help',
        submenu: [
          sheet('Licenses', '/licenses'),
          { label: 'Show the Log', click: () => shell.showItemInFolder(logPath) },
          ...(isMac ? [] : [{ type: 'separator' } as const, about]),
        ],
      },
    ]),
  );
}
