/** Starts the loopback host, opens Straightedge in an app window, and prints the address. */
import { randomBytes } from 'node:crypto';
import { join, resolve } from 'node:path';
import { createDispatch } from '../desk/dispatch.ts';
import { DeskFailure, explainDisk } from '../desk/failure.ts';
import { createHandlers } from '../desk/handlers.ts';
import { createLog } from '../desk/log.ts';
import { mendLogs } from '../desk/mend-logs.ts';
import { listPageFiles } from '../desk/page-files.ts';
import { backupsFolder, dataFolder, documentsFolder, thisPlace } from '../desk/places.ts';
import { backupAmong, readHanded } from '../desk/backups/passed-file.ts';
import { isProfileOpen, openAppWindow } from './app-window.ts';
import { askProof } from './ask-proof.ts';
import { findBrowser } from './find-browser.ts';
import { makeCode } from './launch-code.ts';
import { claimFolder, noteHanded, readRunning, releaseFolder, type Running, takeNotedCopy } from './running.ts';
import { startLoopback } from './server.ts';
import { folderDialog, openWithSystem, systemNotification } from './system-programs.ts';

/** Fixed, because the browser stores the database by origin. */
const PORT = 47613;
const HIGHEST_PORT = 65535;
const print = (line: string): void => void process.stdout.write(`${line}\n`);

const place = thisPlace();
const data = dataFolder('browser', place);
const profile = join(data, 'profile');
const log = createLog(join(data, 'straightedge.log'), () => new Date());
const mayOpen = !process.argv.includes('--no-window');
/** The backup that this launch was asked to open. */
const named = backupAmong(process.argv.slice(1));
const backup = named === null ? null : resolve(named);

/** The address of the running host with a new code, which works once. */
const address = ({ port, key }: Running): string =>
  `http://127.0.0.1:${port}/#code=${makeCode(key, Date.now())}${backup === null ? '' : '&backup'}`;

const bringUp = async (running: Running): Promise<void> => {
  const browser = mayOpen ? findBrowser(place) : null;
  if (browser !== null) {
    if (!(await isProfileOpen(profile))) await mendLogs(profile, log);
    if (await openAppWindow(browser, address(running), profile, { asRoot: process.getuid?.() === 0 })) {
      print(`Straightedge is open in an app window of ${browser}.`);
      return;
    }
    print(`${browser} could not open a window here.`);
  }
  print(`Open this address in a browser on this machine. It works once, for ten minutes:\n${address(running)}`);
};

let waiting = backup;
const takeHanded = async (maxBytes: number) => {
  const path = waiting ?? (await takeNotedCopy(data));
  waiting = null;
  return path === null ? null : readHanded(path, maxBytes);
};

const chosenPort = (): number => {
  const text = process.env['STRAIGHTEDGE_PORT'];
  if (text === undefined || text === '') return PORT;
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= HIGHEST_PORT) return port;
  throw new DeskFailure('bad-input', `STRAIGHTEDGE_PORT is "${text}". Set it to a number from 0 to ${HIGHEST_PORT}, or leave it out.`);
};

/** Opens a second window of the running host. */
const joinRunning = async (running: Running, pulse: 'alive' | 'silent'): Promise<void> => {
  if (pulse === 'silent')
    throw new DeskFailure(
      'failed',
      `Straightedge is running already but does not respond. End process ${running.pid}, then start it again.`,
    );
  print('Straightedge is already running.');
  if (backup !== null) await noteHanded(data, backup);
  await bringUp(running);
};

const listenOrJoin = async (): Promise<void> => {
  const out = join(import.meta.dirname, '..');
  const documents = await documentsFolder(place);
  const desk = createHandlers({
    host: 'browser window',
    version: process.env['STRAIGHTEDGE_VERSION'] ?? '0.1.0',
    papersFolder: documents,
    dataFolder: data,
    usualBackups: backupsFolder(place, documents),
    chooseFolder: folderDialog(place),
    remember: null,
    takeHanded,
    fontsFolder: join(out, 'fonts'),
    openPath: (path) => openWithSystem(path, place),
    stayAwake: null,
    notify: systemNotification(place),
    log,
  });
  const key = randomBytes(24).toString('base64url');
  const port = chosenPort();
  const loopback = await startLoopback({
    dispatch: createDispatch(desk, log),
    pages: await listPageFiles(join(out, 'renderer')),
    port,
    key,
    nowMs: Date.now,
  }).catch((error: unknown) => {
    if (error instanceof Error && 'code' in error && (error.code === 'EADDRINUSE' || error.code === 'EACCES')) return null;
    throw error;
  });
  if (loopback === null) {
    const running = await readRunning(data);
    const pulse = running === null ? 'gone' : await askProof(running);
    if (running !== null && pulse !== 'gone') return joinRunning(running, pulse);
    // Another program on the port must not get the database's origin, so no window opens.
    throw new DeskFailure(
      'in-use',
      `Port ${port} on this machine is used by another program. Close that program, or set STRAIGHTEDGE_PORT to another number. Each number has its own data.`,
    );
  }
  const running = { port: loopback.port, key, pid: process.pid };
  const claim = await claimFolder(data, running, askProof).catch((error: unknown) => {
    void loopback.close();
    throw explainDisk(error, `The data folder ${data}`, 'opened');
  });
  if (claim.owner === 'other') {
    await loopback.close();
    return joinRunning(claim.running, claim.pulse);
  }
  // A record for an earlier host that never took it.
  await takeNotedCopy(data);
  const stop = (): void => {
    void releaseFolder(data, running)
      .then(() => loopback.close())
      .then(() => process.exit(0));
  };
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
  process.on('SIGHUP', stop);
  await bringUp(running);
  print('Leave this running while you work. Press Ctrl+C to close it.');
};

const start = async (): Promise<void> => {
  const unknown = process.argv.slice(2).filter((argument) => !argument.startsWith('-') && argument !== named);
  if (unknown.length > 0)
    print(`Not a backup: ${unknown.join(', ')}. The name of a backup ends in .zip or .encrypted. Only one is opened at a time.`);
  try {
    await listenOrJoin();
  } catch (error) {
    if (!(error instanceof DeskFailure)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
  }
};
await start();
