/**
 * Starts the built loopback host for a test, on a free port with folders of its own. It counts as started when its note is
 * in the data folder; addresses are made from that note, as a second launch makes them.
 *
 * STRAIGHTEDGE_TEST_NODE names another Node to run the host with: a command that takes a script, such as one that runs
 * Node for Windows. STRAIGHTEDGE_TEST_NODE_ROOT is what that Node calls the root folder of this system, such as `Z:`.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { delimiter, join, resolve } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { makeCode } from '../main/loopback/launch-code.ts';
import type { Running } from '../main/loopback/running.ts';

export type StartedHost = {
  readonly pid: number | undefined;
  readonly port: number;
  readonly origin: string;
  /** The address with a new code, which works once. */
  readonly address: () => string;
  /** The output of the host so far. */
  readonly printed: () => string;
  /** Ends the host and waits until it has exited. */
  readonly end: () => Promise<void>;
};

export type HostOptions = {
  /** Holds `data`, `papers` and, if present, `bin`, which comes first on the host's path. */
  readonly folder: string;
  readonly port?: number;
  readonly args?: readonly string[];
  /** The host's script. */
  readonly script?: string;
  readonly environment?: NodeJS.ProcessEnv;
};

const [command = process.execPath, ...commandArgs] = (process.env['STRAIGHTEDGE_TEST_NODE'] ?? '').split(' ').filter((part) => part !== '');
const otherRoot = process.env['STRAIGHTEDGE_TEST_NODE_ROOT'];
/** A path as the host's Node writes it. */
const theirs = (path: string): string => (otherRoot === undefined ? path : `${otherRoot}${resolve(path).replaceAll('/', '\\')}`);

/** The data folder of a host under `folder`. */
export const hostData = (folder: string): string => join(folder, 'data', 'browser');

const readNote = (folder: string): Running | null => {
  try {
    const [name] = readdirSync(hostData(folder))
      .filter((one) => /^running-\d+\.json$/.test(one))
      .sort((a, b) => b.localeCompare(a, 'en', { numeric: true }));
    return name === undefined ? null : (JSON.parse(readFileSync(join(hostData(folder), name), 'utf8')) as Running);
  } catch {
    return null;
  }
};

const POLL_MS = 20;
/** A host under an emulator takes seconds to start. */
const START_MS = 60_000;

/** Kills a host with its children; under an emulator the host is a grandchild. */
const endAll = async (child: ChildProcess): Promise<void> => {
  if (child.exitCode !== null || child.signalCode !== null || child.pid === undefined) return;
  const ended = new Promise((done) => void child.once('exit', done));
  if (otherRoot === undefined) child.kill();
  else process.kill(-child.pid, 'SIGKILL');
  await ended;
};

/** Starts a host. @throws with its output when it exits instead of starting */
export async function startHost({
  folder,
  port = 0,
  args = [],
  script = '.out/main/loopback.mjs',
  environment = {},
}: HostOptions): Promise<StartedHost> {
  const before = readNote(folder)?.key;
  const child = spawn(command, [...commandArgs, theirs(script), '--no-window', ...args], {
    detached: otherRoot !== undefined,
    env: {
      ...process.env,
      PATH: `${join(folder, 'bin')}${delimiter}${process.env['PATH'] ?? ''}`,
      STRAIGHTEDGE_PORT: String(port),
      STRAIGHTEDGE_DATA: theirs(join(folder, 'data')),
      STRAIGHTEDGE_DOCUMENTS: theirs(join(folder, 'papers')),
      ...environment,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let text = '';
  child.stdout.on('data', (part: Buffer) => (text += part.toString()));
  child.stderr.on('data', (part: Buffer) => (text += part.toString()));
  let failed: string | null = null;
  child.once('error', (error) => (failed = error.message));
  child.once('exit', (code) => (failed = `The host ended with ${code ?? 'a signal'}: ${text}`));
  const until = performance.now() + START_MS;
  for (let note = readNote(folder); ; note = readNote(folder)) {
    if (note !== null && note.key !== before) {
      const running = note;
      const origin = `http://127.0.0.1:${running.port}`;
      return {
        pid: child.pid,
        port: running.port,
        origin,
        address: () => `${origin}/#code=${makeCode(running.key, Date.now())}`,
        printed: () => text,
        end: () => endAll(child),
      };
    }
    // oxlint-disable-next-line typescript/no-unnecessary-condition -- the listeners above set it
    if (failed !== null) throw new Error(failed);
    if (performance.now() > until) {
      await endAll(child);
      throw new Error(`The host did not start within ${START_MS / 1000} s: ${text}`);
    }
    await wait(POLL_MS);
  }
}
