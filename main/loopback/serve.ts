/** Starts the loopback host, opens the book in an app window, and says where it is. */
import { randomBytes } from 'node:crypto';
import { join, resolve } from 'node:path';
import { createDispatch } from '../desk/dispatch.ts';
import { createHandlers } from '../desk/handlers.ts';
import { createLog } from '../desk/log.ts';
import { listPageFiles } from '../desk/page-files.ts';
import { copiesPlace, dataFolder, papersFolder } from '../desk/places.ts';
import { copyAmong, readHanded } from '../desk/snapshots/handed.ts';
import { folderDialog } from './choose-folder.ts';
import { findBrowser, openAppWindow, openWithSystem } from './app-window.ts';
import { forgetRunning, noteHanded, noteRunning, readRunning, type Running, takeNotedCopy } from './running.ts';
import { systemNotice } from './notify.ts';
import { startLoopback } from './server.ts';

/** Fixed: the browser keeps the book under this origin. */
const PORT = 47613;
const say = (line: string): void => void process.stdout.write(`${line}\n`);

const data = dataFolder(process.env);
const mayOpen = !process.argv.includes('--no-window');
/** The copy to look at that this launch was started with. */
const named = copyAmong(process.argv.slice(1));
const copy = named === null ? null : resolve(named);
const address = (running: Running): string => `http://127.0.0.1:${running.port}/#key=${running.key}${copy === null ? '' : '&copy'}`;

const bringUp = (running: Running): void => {
  const browser = mayOpen ? findBrowser(process.env['PATH'] ?? '') : null;
  if (browser === null) {
    say(`Open this address in a browser on this machine:\n${address(running)}`);
    return;
  }
  say(`The job book opens in an app window of ${browser}.`);
  openAppWindow(browser, address(running), join(data, 'profile'), process.getuid?.() === 0);
};

let waiting = copy;
const takeHanded = async (mostBytes: number) => {
  const path = waiting ?? (await takeNotedCopy(data));
  waiting = null;
  return path === null ? null : readHanded(path, mostBytes);
};

const start = async (): Promise<void> => {
  const strange = process.argv.slice(2).filter((argument) => !argument.startsWith('-') && argument !== named);
  if (strange.length > 0)
    say(`Not a copy of the book: ${strange.join(', ')}. A copy’s name ends in .zip or .locked; one is opened at a time, to look at.`);
  const log = createLog(join(data, 'straightedge.log'), () => new Date());
  const out = join(import.meta.dirname, '..');
  const machine = {
    host: 'browser window',
    version: process.env['STRAIGHTEDGE_VERSION'] ?? '0.1.0',
    papersFolder: papersFolder(process.env),
    dataFolder: data,
    usualCopies: copiesPlace(process.env),
    chooseFolder: folderDialog(process.env['PATH'] ?? ''),
    remember: null,
    takeHanded,
    fontsFolder: join(out, 'fonts'),
    openPath: openWithSystem,
    stayAwake: null,
    notify: systemNotice(process.env['PATH'] ?? ''),
    log,
  };
  const key = randomBytes(24).toString('base64url');
  const port = Number(process.env['STRAIGHTEDGE_PORT'] ?? PORT);
  try {
    const loopback = await startLoopback({
      dispatch: createDispatch(createHandlers(machine), log),
      pages: await listPageFiles(join(out, 'renderer')),
      port,
      key,
    });
    const running = { port: loopback.port, key, pid: process.pid };
    // What an earlier host was told and never asked for is nobody's wish any more.
    await takeNotedCopy(data);
    await noteRunning(data, running);
    const stop = (): void => {
      void forgetRunning(data)
        .then(() => loopback.close())
        .then(() => process.exit(0));
    };
    process.on('SIGINT', stop);
    process.on('SIGTERM', stop);
    bringUp(running);
    say('Leave this running while you work; Ctrl C closes it.');
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'EADDRINUSE')) throw error;
    const running = await readRunning(data);
    if (running === null) {
      say(
        `Port ${port} on this machine is taken by another program. Close it, or set STRAIGHTEDGE_PORT to another number (the book stays with its number).`,
      );
      process.exitCode = 1;
      return;
    }
    say('The job book is running already: bringing it up.');
    if (copy !== null) await noteHanded(data, copy);
    bringUp(running);
  }
};
await start();
