/** What a start prints where it cannot write, and where it finds npm and Electron on each system. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runtimePath } from '../../build/electron-runtime.mjs';
import { entryOf, npmEntry } from '../../build/local-tool.mjs';
import { explainRefusal } from '../../build/ready.mjs';

const failing = (code: string): Error => Object.assign(new Error(code), { code });

describe('a folder that cannot be written', () => {
  it('gives a sentence with what to do, and no stack', () => {
    for (const code of ['EACCES', 'EPERM', 'EROFS'])
      expect(explainRefusal(failing(code), '/mnt/cd/straightedge')).toMatchObject({
        message:
          'This folder is read-only, so Straightedge cannot be built in /mnt/cd/straightedge. Copy the program to a folder you can write to, then start it again. Your data is not affected.',
      });
    expect(explainRefusal(failing('ENOSPC'), '/full')).toMatchObject({ message: expect.stringContaining('The disk is full') });
  });

  it('passes every other failure on unchanged', () => {
    const other = failing('ENOENT');
    expect(explainRefusal(other, '/folder')).toBe(other);
    expect(explainRefusal(null, '/folder')).toBeNull();
  });
});

describe('npm', () => {
  it('is the one that runs the script, otherwise the one beside Node', () => {
    const running = join('/home', 'ida', 'npm', 'bin', 'npm-cli.js');
    expect(npmEntry({ npm_execpath: running }, '/usr/bin/node', (path) => path === running)).toBe(running);
    const beside = join('/usr', 'lib', 'node_modules', 'npm', 'bin', 'npm-cli.js');
    expect(npmEntry({ npm_execpath: '/opt/yarn.js' }, '/usr/bin/node', (path) => path === beside)).toBe(beside);
    expect(npmEntry({}, '/usr/bin/node', () => false)).toBeNull();
  });
});

it('a tool is run by its own entry file', () => {
  expect(entryOf('@playwright/test', 'playwright')).toBe(join(process.cwd(), 'node_modules', '@playwright', 'test', 'cli.js'));
  expect(() => entryOf('vite', 'no-such-program')).toThrow('has no program');
});

it('Electron’s runtime is where its package puts it on each system', () => {
  expect(runtimePath('e', 'darwin')).toBe(join('e', 'dist', 'Electron.app', 'Contents', 'MacOS', 'Electron'));
  expect(runtimePath('e', 'win32')).toBe(join('e', 'dist', 'electron.exe'));
  expect(runtimePath('e', 'linux')).toBe(join('e', 'dist', 'electron'));
});
