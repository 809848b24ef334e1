/**
 * Build, start and test scripts in a folder whose name has a space, an ampersand and a non-ASCII letter. Sources are copied there; packages
 * are linked.
 */
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, realpathSync, symlinkSync, writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { scratchFolder } from '../scratch-folder.ts';

const outer = realpathSync(scratchFolder('odd'));
const folder = join(outer, 'a b & ü');
const SOURCES = ['shared-core', 'main', 'renderer', 'build', 'package.json', 'package-lock.json', 'tsconfig.json'];
const TESTS = [
  'test/setup.ts',
  'test/scratch-folder.ts',
  'test/moments.ts',
  'test/chromium.ts',
  'test/main/desk/places.test.ts',
  'test/tsconfig.json',
];

const run = (script: string, args: readonly string[], environment: NodeJS.ProcessEnv = {}) =>
  spawnSync(process.execPath, [script, ...args], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, NO_COLOR: '1', STRAIGHTEDGE_HOST: 'browser', STRAIGHTEDGE_DATA: join(outer, 'data'), ...environment },
  });

beforeAll(() => {
  mkdirSync(folder);
  for (const path of [...SOURCES, ...TESTS]) cpSync(path, join(folder, path), { recursive: true });
  // The fonts of the page, cut to their characters; they are found by their content.
  if (existsSync('.cache/web-fonts')) cpSync('.cache/web-fonts', join(folder, '.cache/web-fonts'), { recursive: true });
  mkdirSync(join(folder, 'node_modules'));
  for (const name of readdirSync('node_modules').filter((one) => !one.startsWith('.')))
    symlinkSync(realpathSync(join('node_modules', name)), join(folder, 'node_modules', name), 'junction');
  const lock = createHash('sha256').update(readFileSync('package-lock.json')).digest('hex');
  writeFileSync(join(folder, 'node_modules', '.straightedge-lock'), lock);
}, 60_000);

describe('a folder named "a b & ü"', () => {
  it('builds and starts', () => {
    const bin = join(outer, 'no browser');
    mkdirSync(bin);
    // A taken port makes the host exit, so that the test ends.
    const started = run('build/start.mjs', [], { STRAIGHTEDGE_PORT: 'none', STRAIGHTEDGE_CHROMIUM: join(bin, 'no such browser') });
    expect(started.stdout).toContain('Building…');
    expect(started.stdout).toContain('Not in Electron: STRAIGHTEDGE_HOST is set to browser.');
    expect(started.stderr).toBe('STRAIGHTEDGE_PORT is "none". Set it to a number from 0 to 65535, or leave it out.\n');
    expect(started.status).toBe(1);
    expect(readdirSync(join(folder, '.out', 'renderer'))).toContain('index.html');
  }, 120_000);

  it('runs the test runners: units, journeys, types of a folder', () => {
    const units = run('node_modules/vitest/vitest.mjs', ['run', '--config', 'build/vitest.config.ts', 'test/main/desk/places.test.ts']);
    expect(units.stdout + units.stderr).toContain('7 passed');
    const journeys = run('node_modules/@playwright/test/cli.js', ['test', '--config', 'build/playwright.config.ts', '--list']);
    expect(journeys.stdout + journeys.stderr).toMatch(/No tests found|Total: 0 tests/);
    const tool = run('--input-type=module', [
      '-e',
      `import { entryOf, ROOT } from './build/local-tool.mjs'; console.log(ROOT, entryOf('vite'))`,
    ]);
    expect(tool.stdout).toContain(folder);
  }, 120_000);
});
