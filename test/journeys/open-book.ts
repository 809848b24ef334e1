/** Each journey gets the built program on a port of its own, with its own data and papers folders, in a browser with its own profile. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { test as base } from '@playwright/test';

export type RunningProgram = {
  /** With the key of this launch. */
  readonly address: string;
  readonly papers: string;
  /** The folder around everything the program keeps on disk. */
  readonly folder: string;
  /** Ends the program and starts it anew on the same port and folders, with more arguments; the address carries the new launch's key. */
  readonly restart: (...more: readonly string[]) => Promise<string>;
};

const started = (child: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    let said = '';
    child.stdout?.on('data', (part: Buffer) => {
      said += part.toString();
      const found = /http:\/\/127\.0\.0\.1:\d+\/#key=[\w-]+(&copy)?/.exec(said);
      if (found !== null) resolve(found[0]);
    });
    child.on('exit', (code) => reject(new Error(`The program ended with ${code ?? 'a signal'}: ${said}`)));
  });

export const test = base.extend<{ tools: Readonly<Record<string, string>>; program: RunningProgram; book: RunningProgram }>({
  /** Programs of the system that the host finds first on its path: by name, what each does as a shell script. */
  tools: [{}, { option: true }],
  program: async ({ tools }, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'straightedge-journey-'));
    const papers = join(folder, 'papers');
    const bin = join(folder, 'bin');
    mkdirSync(bin);
    for (const [name, script] of Object.entries(tools)) writeFileSync(join(bin, name), `#!/bin/sh\n${script}\n`, { mode: 0o755 });
    const start = (port: string, more: readonly string[] = []): ChildProcess =>
      spawn(process.execPath, ['.out/main/loopback.mjs', '--no-window', ...more], {
        env: {
          ...process.env,
          PATH: `${bin}${delimiter}${process.env['PATH'] ?? ''}`,
          STRAIGHTEDGE_PORT: port,
          STRAIGHTEDGE_DATA: join(folder, 'data'),
          STRAIGHTEDGE_DOCUMENTS: papers,
        },
        stdio: ['ignore', 'pipe', 'inherit'],
      });
    let child = start('0');
    const end = async (): Promise<void> => {
      child.removeAllListeners('exit');
      const ended = new Promise((resolve) => void child.once('exit', resolve));
      if (child.kill()) await ended;
    };
    try {
      const address = await started(child);
      const restart = async (...more: readonly string[]): Promise<string> => {
        await end();
        child = start(new URL(address).port, more);
        return started(child);
      };
      await use({ address, papers, folder, restart });
    } finally {
      await end();
      rmSync(folder, { recursive: true, force: true });
    }
  },
  /** The same, with the book already open on Today. */
  book: async ({ program, page }, use) => {
    await page.goto(program.address);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await use(program);
  },
});

export { expect } from '@playwright/test';
