/** The package's content, with a stand-in for Electron's runtime; the runtime itself is not started. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import config from '../../build/electron-builder.config.mjs';
import { isBackupName } from '../../main/desk/backups/passed-file.ts';
import { packageWithStandIn } from '../../build/check-package.mjs';
import { licenseFault } from '../../build/licenses.mjs';
import { type StartedHost, startHost } from '../start-host.ts';
import { scratchFolder } from '../scratch-folder.ts';

const folder = scratchFolder('package');
let files: string[] = [];
let unpacked = '';
let host: StartedHost | null = null;

beforeAll(() => {
  ({ files, unpacked } = packageWithStandIn(folder));
}, 120_000);
afterAll(async () => {
  await host?.end();
});

describe('the packaged program', () => {
  it('contains the two hosts, the screens and the fonts', () => {
    for (const name of [
      '/.out/main/electron.cjs',
      '/.out/main/preload.cjs',
      '/.out/main/loopback.mjs',
      '/.out/renderer/index.html',
      '/.out/renderer/licenses.json',
      '/.out/fonts/SourceSerif4_400Regular.ttf',
      '/package.json',
    ])
      expect(files).toContain(name);
  });

  it('is offered for backups and does not become the default for zip files', () => {
    const declared = [...config.fileAssociations, ...config.mac.fileAssociations];
    expect(declared.map((one) => one.ext).sort()).toEqual(['encrypted', 'zip']);
    for (const one of declared) {
      expect(isBackupName(`Book.${one.ext}`), one.ext).toBe(true);
      expect(one.role).toBe('Viewer');
    }
    // Otherwise the installers of Windows and Linux would make this program the default for zip files.
    expect(config.fileAssociations.map((one) => one.ext)).toEqual(['encrypted']);
    expect(config.win.fileAssociations).toBeUndefined();
    expect(config.linux.mimeTypes).toContain('application/zip');
    expect(config.mac.fileAssociations.map((one) => one.rank)).toEqual(['Alternate']);
  });

  it('contains no sources, tests, build tools or bundled packages', () => {
    const own = files.filter((f) => !f.startsWith('/node_modules'));
    expect(own.filter((f) => /\.(ts|tsx|map)$|^\/(test|build|shared-core|main|renderer)\//.test(f))).toEqual([]);
    for (const name of ['react', 'dexie', 'vite', 'electron', 'typescript', '@playwright', 'zod'])
      expect(files.filter((f) => f.startsWith(`/node_modules/${name}/`))).toEqual([]);
  });

  it('ships the license of everything in it', () => {
    const list = JSON.parse(readFileSync(join(unpacked, '.out/renderer/licenses.json'), 'utf8')) as {
      name: string;
      license: string;
      text: string;
    }[];
    for (const name of ['react', 'dexie', 'zod', 'pdfkit', 'papaparse', 'ical.js', '@expo-google-fonts/source-serif-4'])
      expect(list.map((one) => one.name)).toContain(name);
    const shipped = files.flatMap((f) => /^\/node_modules\/((?:@[^/]+\/)?[^/]+)\/package\.json$/.exec(f)?.[1] ?? []);
    for (const name of shipped) expect(list.map((one) => one.name)).toContain(name);
    expect(list.map(licenseFault).filter((fault) => fault !== null)).toEqual([]);
    expect(list.find((one) => one.name === '@expo-google-fonts/source-serif-4')?.text).toContain('SIL OPEN FONT LICENSE');
    const one = { name: 'a-package', license: 'MIT', text: 'text' };
    expect(licenseFault(one)).toBeNull();
    expect(licenseFault({ ...one, license: 'GPL-3.0-only' })).toContain('GPL-3.0-only');
    expect(licenseFault({ ...one, license: 'SEE LICENSE IN FILE' })).not.toBeNull();
    expect(licenseFault({ ...one, license: '' })).toContain('names no license');
    expect(licenseFault({ ...one, text: ' ' })).toContain('no license text');
  });

  it('has no inline script and no source map in its page', () => {
    const html = readFileSync(join(unpacked, '.out/renderer/index.html'), 'utf8');
    expect(html).not.toMatch(/<script(?![^>]*\bsrc=)|\son[a-z]+=|javascript:/i);
    for (const f of files.filter((name) => /^\/\.out\/renderer\/.*\.js$/.test(name))) {
      const code = readFileSync(join(unpacked, f), 'utf8');
      expect(code, f).not.toMatch(/sourceMappingURL/);
    }
  });

  it('starts on the loopback host and serves the page', async () => {
    host = await startHost({ folder, script: join(unpacked, '.out/main/loopback.mjs') });
    const page = await fetch(host.origin);
    expect(page.status).toBe(200);
    expect(await page.text()).toContain('<title>Straightedge</title>');
  });
});
