/** The application menu: screens with their keys, and the system's roles. A packaged program has no developer tools. */
import { app, Menu, type MenuItemConstructorOptions, shell } from 'electron';
import { showScreen } from './window.ts';

const screen = (label: string, route: `/${string}`, accelerator?: string): MenuItemConstructorOptions => ({
  label,
  click: () => showScreen(route),
  ...(accelerator === undefined ? {} : { accelerator }),
});

/** @param logPath the log file, to be shown in its folder */
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
          screen('Backup…', '/backup', 'CmdOrCtrl+Shift+S'),
          screen('Open Backup…', '/backup', 'CmdOrCtrl+O'),
          { role: 'recentDocuments', submenu: [{ role: 'clearRecentDocuments' }] },
          { type: 'separator' },
          { role: isMac ? 'close' : 'quit' },
        ],
      },
      { role: 'editMenu' },
      {
        label: 'Go',
        submenu: [
          screen('Today', '/', 'CmdOrCtrl+1'),
          screen('Jobs', '/jobs', 'CmdOrCtrl+2'),
          screen('Customers', '/customers', 'CmdOrCtrl+3'),
          screen('Materials', '/materials', 'CmdOrCtrl+4'),
          screen('Settings', '/business', 'CmdOrCtrl+,'),
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
          screen('Licenses', '/licenses'),
          { label: 'Show Log File', click: () => shell.showItemInFolder(logPath) },
          ...(isMac ? [] : [{ type: 'separator' } as const, about]),
        ],
      },
    ]),
  );
}
