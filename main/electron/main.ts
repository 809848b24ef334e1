/** The shell: wiring only. Listeners stand before the window opens. */
import { app } from 'electron';
import { join } from 'node:path';
import { createDispatch } from '../desk/dispatch.ts';
import { createHandlers } from '../desk/handlers.ts';
import { createLog } from '../desk/log.ts';
import { listPageFiles } from '../desk/page-files.ts';
import { registerCalls } from './calls.ts';
import { denyEverything } from './denials.ts';
import { createMachine } from './machine.ts';
import { setMenu } from './menu.ts';
import { declareScheme, servePages } from './scheme.ts';
import { bringUpWindow, openWindow } from './window.ts';

export async function startShell(outFolder: string): Promise<void> {
  declareScheme();
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return;
  }
  app.on('second-instance', () => bringUpWindow());
  app.on('window-all-closed', () => app.quit());
  denyEverything(app);
  await app.whenReady();
  const log = createLog(join(app.getPath('userData'), 'straightedge.log'), () => new Date());
  process.on('uncaughtException', (error) => log(`uncaught: ${error.stack ?? error.message}`));
  registerCalls(createDispatch(createHandlers(createMachine(join(outFolder, 'fonts'), log, () => undefined)), log));
  servePages(await listPageFiles(join(outFolder, 'renderer')));
  setMenu();
  openWindow(join(outFolder, 'main', 'preload.cjs'));
}
