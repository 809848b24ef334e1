/** Makes a fresh clone ready: packages from the lock file, then the build, each only when something it is made from changed. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const SOURCES = ['shared-core', 'main', 'renderer', 'build', 'package-lock.json', 'tsconfig.json'];
const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';

const filesUnder = (path) => {
  if (!existsSync(path)) return [];
  if (statSync(path).isFile()) return [path];
  return readdirSync(path, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => join(e.parentPath, e.name))
    .sort();
};

/** One hash over every source file. */
export function sourcesHash() {
  const hash = createHash('sha256');
  for (const source of SOURCES) for (const file of filesUnder(source)) hash.update(file).update(readFileSync(file));
  return hash.digest('hex');
}

export function installPackages() {
  const lock = createHash('sha256').update(readFileSync('package-lock.json')).digest('hex');
  const note = join('node_modules', '.straightedge-lock');
  if (existsSync(note) && readFileSync(note, 'utf8') === lock) return;
  if (existsSync(join('node_modules', 'vite')) && process.env.STRAIGHTEDGE_KEEP_PACKAGES === '1') return;
  console.log('Installing packages…');
  execFileSync(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], { stdio: 'inherit', shell: process.platform === 'win32' });
  writeFileSync(note, lock);
}

export async function buildWhenChanged() {
  const hash = sourcesHash();
  const note = join('.out', 'built-from');
  if (existsSync(note) && readFileSync(note, 'utf8') === hash) return;
  console.log('Building…');
  const { buildAll } = await import('./bundle.mjs');
  await buildAll();
  mkdirSync('.out', { recursive: true });
  writeFileSync(note, hash);
}
