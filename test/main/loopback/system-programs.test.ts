import { chmodSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openAppWindow } from '../../../main/loopback/app-window.ts';
import { thisPlace } from '../../../main/desk/places.ts';
import type { Surroundings } from '../../../main/loopback/find-browser.ts';
import {
  folderCommand,
  notificationCommand,
  openCommand,
  openWithSystem,
  systemNotification,
} from '../../../main/loopback/system-programs.ts';
import { scratchFolder } from '../../scratch-folder.ts';

/** A folder with one program, a shell script. */
const bin = (name: string, script: string): string => {
  const folder = scratchFolder('bin & ');
  writeFileSync(join(folder, name), `#!/bin/sh\n${script}\n`);
  chmodSync(join(folder, name), 0o755);
  return folder;
};
const withPath = (folder: string): Surroundings => ({
  ...thisPlace(),
  homeFolder: '/home/ida',
  platform: 'linux',
  environment: { PATH: folder },
});
const elsewhere = (platform: NodeJS.Platform): Surroundings => ({ ...thisPlace(), homeFolder: '/home/ida', platform, environment: {} });
const HOSTILE = '"; Remove-Item * "$(date)';

afterEach(() => vi.unstubAllEnvs());

describe('a command for another system', () => {
  it('never has a user’s text in a script: Windows gets it through the environment, macOS as arguments', () => {
    for (const command of [
      openCommand(HOSTILE, elsewhere('win32')),
      folderCommand(HOSTILE, elsewhere('win32')),
      notificationCommand(HOSTILE, HOSTILE, elsewhere('win32')),
    ]) {
      expect(command?.program).toBe('powershell.exe');
      expect(command?.args.join(' ')).not.toContain('Remove-Item');
      expect(Object.values(command?.environment ?? {})).toContain(HOSTILE);
    }
    for (const command of [folderCommand(HOSTILE, elsewhere('darwin')), notificationCommand(HOSTILE, HOSTILE, elsewhere('darwin'))]) {
      expect(command?.program).toBe('osascript');
      const end = command?.args.indexOf('--') ?? -1;
      expect(command?.args.slice(0, end).join(' ')).not.toContain('Remove-Item');
      expect(command?.args.slice(end + 1)).toContain(HOSTILE);
    }
    expect(openCommand('/Users/ida/a b & ü.pdf', elsewhere('darwin'))).toMatchObject({ program: 'open', args: ['/Users/ida/a b & ü.pdf'] });
  });

  it('is null where the system has no program for it', () => {
    expect(folderCommand('Folder', elsewhere('linux'))).toBeNull();
    expect(notificationCommand('Title', 'body', elsewhere('linux'))).toBeNull();
    expect(systemNotification(elsewhere('linux'))).toBeNull();
  });
});

// The programs below are shell scripts.
describe.runIf(process.platform !== 'win32')('a notification', () => {
  it('passes title and body as text, never as options or markup', async () => {
    const folder = bin('notify-send', `printf '%s\\n' "$@" > "$(dirname "$0")/said"`);
    expect(await systemNotification(withPath(folder))?.('--expire-time=1 $(date)', 'a <b>bold</b> & plain line')).toBe(true);
    expect(readFileSync(join(folder, 'said'), 'utf8').split('\n')).toEqual([
      '--app-name=Straightedge',
      '--',
      '--expire-time=1 $(date)',
      'a &lt;b&gt;bold&lt;/b&gt; &amp; plain line',
      '',
    ]);
  });

  it('reports a refusal by the system', async () => {
    expect(await systemNotification(withPath(bin('notify-send', 'exit 1')))?.('Title', 'body')).toBe(false);
  });
});

describe.runIf(process.platform !== 'win32')('a file opened with the system', () => {
  const open = (folder: string, waitMs?: number) => {
    vi.stubEnv('PATH', `${folder}:${process.env['PATH'] ?? ''}`);
    return openWithSystem('/documents/Quote 26-031.pdf', withPath(folder), waitMs);
  };

  it('is a failure with its folder when no program opens it', async () => {
    await expect(open(bin('xdg-open', 'exit 3'), 20_000)).rejects.toThrow(
      'No program on this computer opened Quote 26-031.pdf. The file is saved in /documents.',
    );
  });

  it('counts as open when the program ended well or is still running', async () => {
    await expect(open(bin('xdg-open', 'exit 0'))).resolves.toBeUndefined();
    await expect(open(bin('xdg-open', 'exec sleep 30'), 50)).resolves.toBeUndefined();
  });
});

describe.runIf(process.platform !== 'win32')('an app window', () => {
  const start = (script: string, settleMs = 5000) =>
    openAppWindow(join(bin('browser', script), 'browser'), 'http://127.0.0.1:9/#code=1', join(tmpdir(), 'profile'), {
      asRoot: false,
      settleMs,
    });

  it('is open when the browser stays, or passes the address to a running one', async () => {
    expect(await start('exec sleep 30', 50)).toBe(true);
    expect(await start('exit 0')).toBe(true);
  });

  it('is not open when the browser ends at once, as without a display, or cannot be started', async () => {
    expect(await start('exit 1')).toBe(false);
    expect(await start('kill -9 $$')).toBe(false);
    expect(await openAppWindow('/nowhere/browser', 'http://127.0.0.1:9/', tmpdir(), { asRoot: false })).toBe(false);
  });

  it('gets an address with a code, which is all that a process list shows', async () => {
    const folder = bin('browser', `printf '%s\\n' "$@" > "$(dirname "$0")/said"`);
    await openAppWindow(join(folder, 'browser'), 'http://127.0.0.1:9/#code=once', join(folder, 'profile'), { asRoot: false });
    expect(readFileSync(join(folder, 'said'), 'utf8')).toContain('--app=http://127.0.0.1:9/#code=once\n');
  });
});
