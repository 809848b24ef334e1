/**
 * Runs a package's own program with this Node and no shell, so that a folder named `a b & ü` and arguments with spaces work on every
 * system.
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The repository's folder. */
export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');

/** The entry file of a package's program, from `bin` in its `package.json`. */
export function entryOf(packageName, program = packageName.split('/').at(-1)) {
  const folder = join(ROOT, 'node_modules', packageName);
  const { bin } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = typeof bin === 'string' ? bin : bin?.[program];
  if (file === undefined) throw new Error(`The package ${packageName} has no program ${program}.`);
  return join(folder, file);
}

/** npm's entry file: that of the npm that runs this script, otherwise the one beside this Node. */
export function npmEntry(environment = process.env, nodePath = process.execPath, isThere = existsSync) {
  const running = environment.npm_execpath;
  if (running !== undefined && /npm-cli\.c?js$/.test(running) && isThere(running)) return running;
  const beside = dirname(nodePath);
  const places = [
    join(beside, 'node_modules', 'npm', 'bin', 'npm-cli.js'),
    join(beside, '..', 'lib', 'node_modules', 'npm', 'bin', 'npm-cli.js'),
    join(beside, '..', 'share', 'nodejs', 'npm', 'bin', 'npm-cli.js'),
    join(beside, '..', 'share', 'npm', 'bin', 'npm-cli.js'),
  ];
  return places.find((place) => isThere(place)) ?? null;
}

/** Runs a Node script in this terminal; returns its exit code. */
export function runHere(script, args = [], options = {}) {
  const { status, error } = spawnSync(process.execPath, [script, ...args], { cwd: ROOT, stdio: 'inherit', ...options });
  if (error !== undefined) throw error;
  return status ?? 1;
}

/** Runs a command and collects its output. */
export function runQuietly(command, args, options = {}) {
  return new Promise((resolve) => {
    const started = performance.now();
    const child = spawn(command, args, { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'], ...options });
    let text = '';
    child.stdout.on('data', (part) => (text += part));
    child.stderr.on('data', (part) => (text += part));
    const end = (code) => resolve({ code, text, seconds: (performance.now() - started) / 1000 });
    child.on('error', (error) => {
      text += `${error.message}\n`;
      end(1);
    });
    child.on('close', end);
  });
}
