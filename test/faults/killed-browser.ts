/** Kills a browser at random moments while a page writes to the database, repeatedly, on one profile. */
import { spawn } from 'node:child_process';
import { appendFileSync, closeSync, mkdtempSync, openSync, readdirSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { chromiumArgs } from '../../build/chromium.mjs';
import { mendLogs, wholeLength } from '../../main/desk/mend-logs.ts';
import { chromiumPath } from '../chromium.ts';
import { moments } from '../moments.ts';
import { tornEntry } from '../torn-log.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

/** Maximum time of a kill after the first acknowledged entry, ms. */
const WINDOW_MS = 250;

export type Killing = {
  /** The page's script. It posts what it finds to /kept, then the number of each acknowledged entry to /written, a failure to /trouble. */
  readonly script: string;
  readonly kills: number;
  readonly seed: number;
  /** Where the profile and the browser's log go; a new folder unless given. */
  readonly folder?: string;
  /** Called with each acknowledged number, between the page and its kill. */
  readonly onWritten?: (number: number) => void;
  /** Called when the page is refused, which then ends its browser; without it a refusal fails the test. */
  readonly onRefused?: (message: string) => void;
  /** Called after each start with what the page found and the last number acknowledged before the kill. */
  readonly check: (kept: unknown, acknowledged: number, context: string) => void;
};

/**
 * Leaves the worst that a kill can: an entry that announces 500 bytes and has 100, at the end of each log of the database. Without
 * `mendLogs` the browser writes on behind it and deletes the database at the start after the next.
 */
function tearLogs(profile: string): void {
  const databases = join(profile, 'Default', 'IndexedDB');
  for (const name of readdirSync(databases, { recursive: true, encoding: 'utf8' })) {
    if (!/\d\.log$/.test(name)) continue;
    const path = join(databases, name);
    const log = readFileSync(path);
    // The kill may have torn it by itself; the rest of the entry must fit its block.
    if (wholeLength(log) === log.length && log.length % 32_768 < 32_000) appendFileSync(path, tornEntry());
  }
}

/** @returns the last acknowledged number */
export async function killAgainAndAgain({ script, kills, seed, check, onWritten, onRefused, ...rest }: Killing): Promise<number> {
  const folder = rest.folder ?? mkdtempSync(join(tmpdir(), 'straightedge-browser-kill-'));
  const bundled = await build({
    entryPoints: [join(import.meta.dirname, script)],
    bundle: true,
    write: false,
    format: 'esm',
    target: 'es2022',
    define: { __ARITHMETIC__: '"tested"' },
    logLevel: 'error',
  });
  const code = bundled.outputFiles[0]?.text ?? '';
  const log = openSync(join(folder, 'browser.log'), 'a');
  const random = moments(seed);
  let onReport: (path: string, body: unknown) => void = () => undefined;
  const server = createServer((request, response) => {
    if (request.method === 'POST') {
      let body = '';
      request.on('data', (part: Buffer) => (body += part.toString()));
      request.on('end', () => {
        onReport(request.url ?? '', JSON.parse(body));
        response.end();
      });
    } else if (request.url === '/page.js') response.setHeader('content-type', 'text/javascript').end(code);
    else
      response
        .setHeader('content-type', 'text/html')
        .end('<!doctype html><title>writer</title><script type="module" src="/page.js"></script>');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  let confirmed = 0;
  let isSound = false;
  let isRefused = false;
  const once = (afterMs: number | null): Promise<{ readonly kept: unknown }> =>
    new Promise((resolve, reject) => {
      const args = [
        '--headless',
        '--no-first-run',
        '--enable-logging=stderr',
        `--user-data-dir=${join(folder, 'profile')}`,
        ...chromiumArgs(),
        address,
      ];
      // A group of its own, so that one signal ends every process of the browser and no other.
      const child = spawn(chromiumPath(), args, { detached: true, stdio: ['ignore', 'ignore', log] });
      const end = () => child.pid !== undefined && process.kill(-child.pid, 'SIGKILL');
      let found: { readonly kept: unknown } | null = null;
      let killing: ReturnType<typeof setTimeout> | null = null;
      onReport = (path, body) => {
        if (path === '/kept') {
          found = { kept: body };
          if (afterMs === null) end();
        } else if (path === '/written') {
          confirmed = body as number;
          // A report still on its way from the browser before must not start this one's clock.
          // With a refusal awaited, the first run lasts until it comes.
          if (found !== null && (onRefused === undefined || isRefused)) killing ??= setTimeout(end, afterMs ?? 0);
          onWritten?.(confirmed);
        } else {
          end();
          isRefused = true;
          if (onRefused === undefined) reject(new Error(String(body)));
          else onRefused(String(body));
        }
      };
      child.once('error', reject);
      child.once('close', () =>
        found === null ? reject(new Error('The browser ended before it reported what it found.')) : resolve(found),
      );
    });
  try {
    for (let kill = 0; kill <= kills; kill++) {
      const acknowledged = confirmed;
      // A profile that came up empty is kept, with the browser's own log.
      const context = `after kill ${kill} of seed ${seed}; the profile and the browser’s log are in ${folder}`;
      const { kept } = await once(kill === kills ? null : random() * WINDOW_MS);
      check(kept, acknowledged, context);
      tearLogs(join(folder, 'profile'));
      // As both hosts do before they start the browser.
      await mendLogs(join(folder, 'profile'), () => undefined);
    }
    isSound = true;
    return confirmed;
  } finally {
    closeSync(log);
    server.closeAllConnections();
    server.close();
    if (isSound && rest.folder === undefined) removeFolder(folder);
  }
}
