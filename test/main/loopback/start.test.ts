/** The built loopback host: without a display, after a kill, started twice, and over an unusable folder. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { startHost } from '../../start-host.ts';
import { tornEntry } from '../../torn-log.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const children: ChildProcess[] = [];
const aFolder = (): string => scratchFolder('start & ');
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL');
});

/** Starts the host with a window, and waits until it prints `until` or exits. */
const start = (folder: string, until: RegExp, environment: NodeJS.ProcessEnv = {}): Promise<string> =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, ['.out/main/loopback.mjs'], {
      env: {
        ...process.env,
        STRAIGHTEDGE_PORT: '0',
        STRAIGHTEDGE_DATA: join(folder, 'data'),
        STRAIGHTEDGE_DOCUMENTS: folder,
        ...environment,
      },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    children.push(child);
    let text = '';
    const hear = (part: Buffer): void => {
      text += part.toString();
      if (until.test(text)) resolve(text);
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.once('close', () => resolve(text));
  });

const endedPid = (): number => spawnSync(process.execPath, ['-e', '']).pid;

/** A browser that is a shell script. */
const browser = (folder: string, script: string): string => {
  const path = join(folder, 'a browser');
  writeFileSync(path, `#!/bin/sh\n${script}\n`);
  chmodSync(path, 0o755);
  return path;
};

describe.runIf(process.platform !== 'win32')('a start', () => {
  it('without a display prints the address', async () => {
    const folder = aFolder();
    const path = browser(folder, 'exit 1');
    const text = await start(folder, /Press Ctrl\+C/, { STRAIGHTEDGE_CHROMIUM: path });
    expect(text).toContain(`${path} could not open a window here.`);
    expect(text).toMatch(
      /Open this address in a browser on this machine\. It works once, for ten minutes:\nhttp:\/\/127\.0\.0\.1:\d+\/#code=\S+/,
    );
    expect(text).not.toContain('is open in an app window');
  });

  it.each([
    ['mends a profile after a kill', null, 0],
    ['mends a profile whose browser has ended', `this-computer-${endedPid()}`, 0],
    ['leaves a profile alone that a browser has open', `this-computer-${process.pid}`, tornEntry().length],
  ])('%s', async (_, holder, left) => {
    const folder = aFolder();
    const profile = join(folder, 'data', 'browser', 'profile');
    const log = join(profile, 'Default', 'IndexedDB', 'a.leveldb', '000003.log');
    mkdirSync(join(log, '..'), { recursive: true });
    writeFileSync(log, tornEntry());
    if (holder !== null) symlinkSync(holder, join(profile, 'SingletonLock'));
    await start(folder, /Press Ctrl\+C/, { STRAIGHTEDGE_CHROMIUM: browser(folder, 'exit 1') });
    expect(readFileSync(log)).toHaveLength(left);
  });

  it('gives the browser a code, and shows the key in no process list', async () => {
    const folder = aFolder();
    const text = await start(folder, /Press Ctrl\+C/, {
      STRAIGHTEDGE_CHROMIUM: browser(folder, `printf '%s\\n' "$@" > "$(dirname "$0")/arguments"`),
    });
    expect(text).toContain('Straightedge is open in an app window of');
    const { key } = JSON.parse(readFileSync(join(folder, 'data', 'browser', 'running-1.json'), 'utf8')) as { key: string };
    const args = readFileSync(join(folder, 'arguments'), 'utf8');
    expect(args).toContain('#code=');
    expect(args + text).not.toContain(key);
  });
});

describe('a data folder', () => {
  it('is free again after its host was killed', async () => {
    const folder = aFolder();
    const first = await startHost({ folder });
    process.kill(first.pid ?? 0, 'SIGKILL');
    await first.end();
    const second = await startHost({ folder });
    expect((await fetch(second.origin)).status).toBe(200);
    await second.end();
  });

  it('has one host, whatever the port', async () => {
    const folder = aFolder();
    const first = await startHost({ folder });
    const text = await start(folder, /#code=\S+\n/, { STRAIGHTEDGE_CHROMIUM: join(folder, 'no such browser') });
    expect(text).toContain('Straightedge is already running.');
    expect(text).toContain(first.origin);
    await first.end();
  });

  it('that cannot be used gives a sentence', async () => {
    const folder = aFolder();
    mkdirSync(join(folder, 'data'));
    writeFileSync(join(folder, 'data', 'browser'), 'a file');
    const text = await start(folder, /never/);
    expect(text).toContain(join(folder, 'data', 'browser'));
    expect(text).not.toMatch(/ at .*:\d+:\d+|Error:/);
  });
});

it('a port of another program is not opened, and that program learns no key', async () => {
  const folder = aFolder();
  const requests: string[] = [];
  const stranger = createServer((request, response) => {
    requests.push(JSON.stringify([request.url, request.headers]));
    response.end('anything');
  });
  await new Promise<void>((resolve) => stranger.listen(0, '127.0.0.1', resolve));
  const { port } = stranger.address() as AddressInfo;
  // A note of a killed host whose port another program has taken since.
  mkdirSync(join(folder, 'data', 'browser'), { recursive: true });
  writeFileSync(join(folder, 'data', 'browser', 'running-1.json'), JSON.stringify({ port, key: 'the-old-key', pid: 1 }));
  const text = await start(folder, /never/, { STRAIGHTEDGE_PORT: String(port) });
  stranger.close();
  expect(text).toContain(`Port ${port} on this machine is used by another program.`);
  expect(text).not.toContain('#code=');
  expect(requests.join()).not.toContain('the-old-key');
});
