/** Each journey gets the built program on a port of its own, with its own data and papers folders, in a browser with its own profile. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test as base } from '@playwright/test';
import { startHost } from '../start-host.ts';

export type RunningProgram = {
  /** Opens the program with the key of this launch; each reading of it gives a new code. */
  readonly address: string;
  readonly papers: string;
  /** The folder around everything the program keeps on disk. */
  readonly folder: string;
  /** Ends the program and starts it again on the same port and folders, with more arguments; gives the new launch's address. */
  readonly restart: (...more: readonly string[]) => Promise<string>;
};

export const test = base.extend<{ tools: Readonly<Record<string, string>>; program: RunningProgram; book: RunningProgram }>({
  /** Programs of the system that the host finds first on its path: by name, what each does as a shell script. */
  tools: [{}, { option: true }],
  program: async ({ tools }, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'straightedge-journey-'));
    const bin = join(folder, 'bin');
    mkdirSync(bin);
    for (const [name, script] of Object.entries(tools)) writeFileSync(join(bin, name), `#!/bin/sh\n${script}\n`, { mode: 0o755 });
    let host = await startHost({ folder });
    const restart = async (...more: readonly string[]): Promise<string> => {
      const { port } = host;
      await host.end();
      host = await startHost({ folder, port, args: more });
      return more.length > 0 ? `${host.address()}&copy` : host.address();
    };
    try {
      await use({
        get address() {
          return host.address();
        },
        papers: join(folder, 'papers'),
        folder,
        restart,
      });
    } finally {
      await host.end();
      // The host has ended; a program it started may still write its last file.
      rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    }
  },
  /** The same, with the program already open on Today. */
  book: async ({ program, page }, use) => {
    await page.goto(program.address);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await use(program);
  },
});

export { expect } from '@playwright/test';
