/** Packages the program with a stand-in for Electron's runtime and lists the archive. */
import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { spawnSync } from 'node:child_process';
import { dirname, join, resolve } from 'node:path';
import { removeFolder } from './remove-folder.mjs';

const require = createRequire(import.meta.url);

/** Builds `.out/packages/linux-unpacked`; returns the archive's path and its files. */
export function packageWithStandIn(folder) {
  const dist = join(folder, 'stand-in');
  mkdirSync(dist, { recursive: true });
  writeFileSync(join(dist, 'electron'), '#!/bin/sh\n');
  chmodSync(join(dist, 'electron'), 0o755);
  writeFileSync(join(dist, 'version'), require('electron/package.json').version);
  removeFolder('.out/packages');
  const builder = join(dirname(require.resolve('electron-builder/package.json')), 'cli.js');
  const made = spawnSync(
    process.execPath,
    [builder, '--config', 'build/electron-builder.config.mjs', '--publish', 'never', '--linux', 'dir'],
    {
      encoding: 'utf8',
      env: { ...process.env, STRAIGHTEDGE_ELECTRON_DIST: resolve(dist) },
    },
  );
  if (made.status !== 0) throw new Error(`${made.stdout}\n${made.stderr}`);
  const archive = '.out/packages/linux-unpacked/resources/app.asar';
  const { listPackage, extractAll } = require('@electron/asar');
  const files = listPackage(archive, { isPack: false });
  const unpacked = join(folder, 'unpacked');
  extractAll(archive, unpacked);
  return { files, unpacked };
}
