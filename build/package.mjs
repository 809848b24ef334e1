/** `npm run package`: the program for this system by electron-builder; arguments are passed on. */
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildWhenChanged, installPackages } from './ready.mjs';

process.chdir(join(dirname(fileURLToPath(import.meta.url)), '..'));
installPackages();
await buildWhenChanged();
const { status } = spawnSync(
  'npx',
  ['electron-builder', '--config', 'build/electron-builder.config.mjs', '--publish', 'never', ...process.argv.slice(2)],
  { stdio: 'inherit', shell: process.platform === 'win32' },
);
process.exit(status ?? 1);
