/** Finds Electron's runtime, and downloads it once where possible. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './local-tool.mjs';

const BINARIES = { darwin: ['Electron.app', 'Contents', 'MacOS', 'Electron'], win32: ['electron.exe'] };

/** Path of each system's Electron in the package's folder. */
export function runtimePath(folder, platform = process.platform) {
  return join(folder, 'dist', ...(BINARIES[platform] ?? ['electron']));
}

/** The runtime's path, or null with the reason in `why`. */
export function findRuntime(environment = process.env) {
  if (environment.STRAIGHTEDGE_HOST === 'browser') return { path: null, why: 'STRAIGHTEDGE_HOST is set to browser' };
  const folder = join(ROOT, 'node_modules', 'electron');
  const path = runtimePath(folder);
  if (existsSync(path)) return { path, why: 'its runtime is installed' };
  const installer = join(folder, 'install.js');
  if (!existsSync(installer)) return { path: null, why: 'its runtime is not installed' };
  console.log('Downloading the Electron runtime (once)…');
  const { status } = spawnSync(process.execPath, [installer], { stdio: 'ignore', timeout: 180_000 });
  if (status === 0 && existsSync(path)) return { path, why: 'its runtime was downloaded' };
  return { path: null, why: 'its runtime is not installed and could not be downloaded' };
}
