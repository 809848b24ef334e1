/** Installs packages and builds after a fresh clone. Each step runs only when its sources changed. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmdirSync, statSync, writeFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { npmEntry, ROOT, runHere } from './local-tool.mjs';

const SOURCES = ['shared-core', 'main', 'renderer', 'build', 'package-lock.json', 'tsconfig.json'];

const filesUnder = (path) => {
  if (!existsSync(path)) return [];
  if (statSync(path).isFile()) return [path];
  return readdirSync(path, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => join(e.parentPath, e.name))
    .sort();
};

/** A hash of every source file, the same on every system. */
export function sourcesHash() {
  const hash = createHash('sha256');
  for (const source of SOURCES) for (const file of filesUnder(source)) hash.update(file.split(sep).join('/')).update(readFileSync(file));
  return hash.digest('hex');
}

/** A failure shown to the user without a stack. */
export class Sentence extends Error {}

/** Whether the disk refused to write: read-only, no permission, or full. */
const isRefused = (error) => error instanceof Error && ['EACCES', 'EPERM', 'EROFS', 'ENOSPC', 'EDQUOT'].includes(error.code);

/** Says what to do when a folder cannot be written; passes other failures on. */
export function explainRefusal(error, folder) {
  if (!isRefused(error)) return error;
  const why = error.code === 'ENOSPC' || error.code === 'EDQUOT' ? 'The disk is full' : 'This folder is read-only';
  const remedy = why === 'The disk is full' ? 'Free up space' : 'Copy the program to a folder you can write to';
  return new Sentence(`${why}, so Straightedge cannot be built in ${folder}. ${remedy}, then start it again. Your data is not affected.`);
}

/** Runs a script's work, and ends with a sentence instead of a stack when the reason is known. */
export async function inWords(work) {
  try {
    await work();
  } catch (error) {
    const known = explainRefusal(error, process.cwd());
    if (!(known instanceof Sentence)) throw error;
    console.error(known.message);
    process.exit(1);
  }
}

/** Fails with the disk's error code when the folder cannot be written. */
function proveWritable(folder) {
  const probe = join(folder, `.write-test-${process.pid}`);
  mkdirSync(probe);
  rmdirSync(probe);
}

export function installPackages() {
  process.chdir(ROOT);
  const lock = createHash('sha256').update(readFileSync('package-lock.json')).digest('hex');
  const note = join('node_modules', '.straightedge-lock');
  if (existsSync(note) && readFileSync(note, 'utf8') === lock) return;
  if (existsSync(join('node_modules', 'vite')) && process.env.STRAIGHTEDGE_KEEP_PACKAGES === '1') return;
  proveWritable('.');
  console.log('Installing packages…');
  const npm = npmEntry();
  if (npm === null) throw new Sentence('npm was not found beside Node. Install Node with npm, then start again.');
  if (runHere(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error']) !== 0)
    throw new Sentence('The packages could not be installed. Check the internet connection and the messages above, then start again.');
  writeFileSync(note, lock);
}

export async function buildWhenChanged() {
  const hash = sourcesHash();
  const note = join('.out', 'built-from');
  if (existsSync(note) && readFileSync(note, 'utf8') === hash) return;
  proveWritable('.');
  console.log('Building…');
  const { buildAll } = await import('./bundle.mjs');
  await buildAll();
  mkdirSync('.out', { recursive: true });
  writeFileSync(note, hash);
}
