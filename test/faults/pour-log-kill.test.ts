/**
 * Kills the browser that writes a pour log at random moments, repeatedly, on one profile. Every acknowledged entry is in the log
 * afterwards, in order, once. Only the log's code runs in the page, so that a kill is cheap; the journey of the same name kills the whole
 * program. STRAIGHTEDGE_KILLS sets the number.
 */
import { spawn } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { expect, it } from 'vitest';
import { chromiumArgs } from '../../build/chromium.mjs';
import { chromiumPath } from '../chromium.ts';

const KILLS = Number(process.env['STRAIGHTEDGE_KILLS'] ?? 8);
/** Maximum time of a kill after the first acknowledged entry, ms. */
const WINDOW_MS = 250;

type Kept = readonly { readonly seq: number; readonly text: string }[];

it(
  `a browser killed ${KILLS} times while a pour is logged loses no acknowledged entry and keeps the order`,
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'straightedge-pour-kill-'));
    const bundled = await build({
      entryPoints: [join(import.meta.dirname, 'pour-log-page.ts')],
      bundle: true,
      write: false,
      format: 'esm',
      target: 'es2022',
      logLevel: 'error',
    });
    const script = bundled.outputFiles[0]?.text ?? '';
    const log = openSync(join(folder, 'browser.log'), 'a');
    let onReport: (path: string, body: unknown) => void = () => undefined;
    const server = createServer((request, response) => {
      if (request.method === 'POST') {
        let body = '';
        request.on('data', (part: Buffer) => (body += part.toString()));
        request.on('end', () => {
          onReport(request.url ?? '', JSON.parse(body));
          response.end();
        });
      } else if (request.url === '/page.js') response.setHeader('content-type', 'text/javascript').end(script);
      else
        response
          .setHeader('content-type', 'text/html')
          .end('<!doctype html><title>log</title><script type="module" src="/page.js"></script>');
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
    let confirmed = 0;
    let isSound = false;
    const once = (afterMs: number | null): Promise<Kept> =>
      new Promise((resolve, reject) => {
        const args = [
          '--headless',
          '--no-first-run',
          '--enable-logging=stderr',
          `--user-data-dir=${join(folder, 'profile')}`,
          ...chromiumArgs(),
          address,
        ];
        // A process group of its own, so that one signal ends every process of this browser only.
        const child = spawn(chromiumPath(), args, { detached: true, stdio: ['ignore', 'ignore', log] });
        const end = () => child.pid !== undefined && process.kill(-child.pid, 'SIGKILL');
        let kept: Kept | null = null;
        let killing: ReturnType<typeof setTimeout> | null = null;
        onReport = (path, body) => {
          if (path === '/kept') {
            kept = body as Kept;
            if (afterMs === null) end();
          } else if (path === '/written') {
            confirmed = body as number;
            // A late message of the previous browser must not start this one's clock.
            if (kept !== null) killing ??= setTimeout(end, afterMs ?? 0);
          } else {
            end();
            reject(new Error(String(body)));
          }
        };
        child.once('error', reject);
        child.once('close', () => (kept === null ? reject(new Error('The browser ended before it told what it kept.')) : resolve(kept)));
      });
    try {
      for (let kill = 0; kill <= KILLS; kill++) {
        const acknowledged = confirmed;
        // An empty profile is kept with the browser's output.
        const context = `after kill ${kill}; the profile and the browser’s own log are kept in ${folder}`;
        const log = await once(kill === KILLS ? null : Math.random() * WINDOW_MS);
        // A kill between the write and its acknowledgment may leave one more entry.
        expect(log.length, context).toBeGreaterThanOrEqual(acknowledged);
        expect(log.length - acknowledged, context).toBeLessThanOrEqual(1);
        expect(log, context).toEqual(log.map((_, i) => ({ seq: i + 1, text: `entry ${i + 1}` })));
      }
      expect(confirmed).toBeGreaterThan(KILLS);
      isSound = true;
    } finally {
      closeSync(log);
      server.closeAllConnections();
      server.close();
      if (isSound) rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
    }
  },
  30_000 + KILLS * 15_000,
);
