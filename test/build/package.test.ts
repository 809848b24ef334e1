/** What is packaged, looked at over a stand-in for Electron's runtime. That the runtime itself starts is not claimed here. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import config from '../../build/electron-builder.config.mjs';
import { isCopyName } from '../../main/desk/snapshots/handed.ts';
import { packageWithStandIn } from '../../build/check-package.mjs';

const folder = mkdtempSync(join(tmpdir(), 'straightedge-package-'));
let files: string[] = [];
let unpacked = '';
let child: ChildProcess | null = null;

beforeAll(() => {
  ({ files, unpacked } = packageWithStandIn(folder));
}, 120_000);
afterAll(() => {
  child?.kill();
  rmSync(folder, { recursive: true, force: true });
});

describe('the packaged program', () => {
  it('holds the two hosts, the screens and the fonts', () => {
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

  it('is offered for copies of the book, whose names it opens, and takes zip files from nobody', () => {
    const declared = [...config.fileAssociations, ...config.mac.fileAssociations];
    expect(declared.map((one) => one.ext).sort()).toEqual(['locked', 'zip']);
    for (const one of declared) {
      expect(isCopyName(`Book.${one.ext}`), one.ext).toBe(true);
      expect(one.role).toBe('Viewer');
    }
    // On Windows and Linux the installer would make the program the one that opens them.
    expect(config.fileAssociations.map((one) => one.ext)).toEqual(['locked']);
    expect(config.win.fileAssociations).toBeUndefined();
    expect(config.linux.mimeTypes).toContain('application/zip');
    expect(config.mac.fileAssociations.map((one) => one.rank)).toEqual(['Alternate']);
  });

  it('holds no sources, no tests, no build tools and nothing that is bundled already', () => {
    const own = files.filter((f) => !f.startsWith('/node_modules'));
    expect(own.filter((f) => /\.(ts|tsx|map)$|^\/(test|build|shared-core|main|renderer)\//.test(f))).toEqual([]);
    for (const name of ['react', 'dexie', 'vite', 'electron', 'typescript', '@playwright', 'zod'])
      expect(files.filter((f) => f.startsWith(`/node_modules/${name}/`))).toEqual([]);
  });

  it('ships the license of everything it is made of', () => {
    const list = JSON.parse(readFileSync(join(unpacked, '.out/renderer/licenses.json'), 'utf8')) as {
      name: string;
      license: string;
      text: string;
    }[];
    for (const name of ['react', 'dexie', 'zod', 'pdfkit', 'papaparse', 'ical.js', '@expo-google-fonts/source-serif-4'])
      expect(list.map((one) => one.name)).toContain(name);
    const shipped = files.flatMap((f) => /^\/node_modules\/((?:@[^/]+\/)?[^/]+)\/package\.json$/.exec(f)?.[1] ?? []);
    for (const name of shipped) expect(list.map((one) => one.name)).toContain(name);
    for (const one of list) expect(one.license + one.text, one.name).not.toBe('');
  });

  it('carries no inline script and no source map in its page', () => {
    const html = readFileSync(join(unpacked, '.out/renderer/index.html'), 'utf8');
    expect(html).not.toMatch(/<script(?![^>]*\bsrc=)|\son[a-z]+=|javascript:/i);
    for (const f of files.filter((name) => /^\/\.out\/renderer\/.*\.js$/.test(name))) {
      const code = readFileSync(join(unpacked, f), 'utf8');
      expect(code, f).not.toMatch(/sourceMappingURL/);
    }
  });

  it('starts on the loopback host and serves the job book', async () => {
    const started = spawn(process.execPath, [join(unpacked, '.out/main/loopback.mjs'), '--no-window'], {
      env: {
        ...process.env,
        STRAIGHTEDGE_PORT: '0',
        STRAIGHTEDGE_DATA: join(folder, 'data'),
        STRAIGHTEDGE_DOCUMENTS: join(folder, 'papers'),
      },
    });
    child = started;
    const address = await new Promise<string>((resolve, reject) => {
      let said = '';
      started.stdout.on('data', (part: Buffer) => {
        said += part.toString();
        const found = /http:\/\/127\.0\.0\.1:\d+\//.exec(said);
        if (found !== null) resolve(found[0]);
      });
      started.on('exit', () => reject(new Error(said)));
    });
    const page = await fetch(address);
    expect(page.status).toBe(200);
    expect(await page.text()).toContain('<title>Straightedge</title>');
  });
});
