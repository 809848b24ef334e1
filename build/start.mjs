/** `npm start`: installs, builds, and opens the job book in Electron where its runtime is there, otherwise in a browser's app window. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildWhenChanged, installPackages } from './ready.mjs';

/** A copy to look at is named as seen from where the command was given. */
const from = process.env.INIT_CWD ?? process.cwd();
const given = process.argv.slice(2).map((argument) => (argument.startsWith('-') ? argument : resolve(from, argument)));
process.chdir(join(dirname(fileURLToPath(import.meta.url)), '..'));
installPackages();
await buildWhenChanged();

const require = createRequire(import.meta.url);

/** The runtime's path, fetching it once where it can be fetched; otherwise why not. */
function electronRuntime() {
  if (process.env.STRAIGHTEDGE_HOST === 'browser') return { path: null, why: 'STRAIGHTEDGE_HOST asks for the browser' };
  const folder = dirname(require.resolve('electron/package.json'));
  const binary = { darwin: 'Electron.app/Contents/MacOS/Electron', win32: 'electron.exe' }[process.platform] ?? 'electron';
  const path = join(folder, 'dist', binary);
  if (existsSync(path)) return { path, why: 'its runtime is installed' };
  const installer = join(folder, 'install.js');
  if (!existsSync(installer)) return { path: null, why: 'its runtime is not installed' };
  console.log('Fetching the Electron runtime (once)…');
  const fetched = spawnSync(process.execPath, [installer], { stdio: 'ignore', timeout: 180_000 });
  if (fetched.status === 0 && existsSync(path)) return { path, why: 'its runtime was fetched' };
  return { path: null, why: 'its runtime is not installed and could not be fetched' };
}

const runtime = electronRuntime();
if (runtime.path !== null) {
  console.log(`Opening in Electron: ${runtime.why}.`);
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  const child = spawn(runtime.path, [...asRoot, '.', ...given], { stdio: 'inherit' });
  child.on('exit', (code) => process.exit(code ?? 0));
} else {
  console.log(`Not in Electron: ${runtime.why}. Using a browser on this machine instead.`);
  const child = spawn(process.execPath, ['.out/main/loopback.mjs', ...given], { stdio: 'inherit' });
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
  child.on('exit', (code) => process.exit(code ?? 0));
}
