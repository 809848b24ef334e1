/**
 * Starts the built program for each journey on its own port, with its own data and documents folders, and a browser profile of its own.
 * With STRAIGHTEDGE_TEST_ELECTRON set to a runtime, the page is the real Electron's window.
 */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type ElectronApplication, type Page, test as base } from '@playwright/test';
import { startElectron } from '../shell/start-electron.ts';
import { startHost } from '../start-host.ts';
import { openPrepared } from './prepared-book.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

export type RunningProgram = {
  /** The address that opens the program; each read has a new code. */
  readonly address: string;
  readonly papers: string;
  /** The folder of everything the program stores on disk. */
  readonly folder: string;
  /** Restarts the program on the same port and folders with more arguments; returns the new address. */
  readonly restart: (...more: readonly string[]) => Promise<string>;
};

type Fixtures = {
  tools: Readonly<Record<string, string>>;
  /** The folder of everything the program stores on disk. */
  folder: string;
  /** The real Electron, if this run has its runtime. */
  electron: ElectronApplication | null;
  program: RunningProgram;
  book: RunningProgram;
  sample: RunningProgram;
  /** A page of another browser profile, which has no data of the program. */
  fresh: Page;
};

/** Electron's window has no address, so it is reloaded instead. */
const inElectron = (folder: string): RunningProgram => {
  const address = 'app://book/';
  return { address, papers: join(folder, 'papers'), folder, restart: () => Promise.resolve(address) };
};

/** The port of this process's journeys, one after another: a page that stays keeps the program's compiled code for its address. */
let samePort = 0;

export const test = base.extend<Fixtures>({
  /** Stand-ins for system programs, first on the host's path: shell scripts by name. */
  tools: [{}, { option: true }],
  // Playwright reads the names it is given from this pattern, which may be empty.
  // oxlint-disable-next-line no-empty-pattern
  folder: async ({}, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'straightedge-journey-'));
    await use(folder);
    // A program started by the host may still be writing its last file.
    removeFolder(folder);
  },
  electron: async ({ folder }, use) => {
    const electron = process.env['STRAIGHTEDGE_TEST_ELECTRON'] === undefined ? null : await startElectron(folder);
    await use(electron);
    await electron?.close();
  },
  page: async ({ electron, page }, use) => {
    if (electron !== null) return use(await electron.firstWindow());
    // After a journey that closed its page, the page is empty at the host's address, and an address that differs after the # loads nothing.
    await page.goto('about:blank');
    await use(page);
    // The page is used by the next journey too: it leaves this one's host before that ends.
    if (!page.isClosed()) await page.goto('about:blank');
  },
  program: async ({ tools, electron, folder }, use) => {
    if (electron !== null) return use(inElectron(folder));
    const bin = join(folder, 'bin');
    mkdirSync(bin);
    // Where there is a display, each saved PDF would open a window.
    for (const [name, script] of Object.entries({ 'xdg-open': 'exit 0', ...tools }))
      writeFileSync(join(bin, name), `#!/bin/sh\n${script}\n`, { mode: 0o755 });
    let host = await startHost({ folder, port: samePort });
    samePort = host.port;
    const restart = async (...more: readonly string[]): Promise<string> => {
      const { port } = host;
      await host.end();
      host = await startHost({ folder, port, args: more });
      return more.length > 0 ? `${host.address()}&backup` : host.address();
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
    }
  },
  /** The same, with Today already open. */
  book: async ({ program, page }, use) => {
    if (!page.url().startsWith('app:')) await page.goto(program.address);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await use(program);
  },
  /** The same, with the sample data in it. */
  sample: async ({ program, page }, use) => {
    await openPrepared(page, program.address);
    await use(program);
  },
  fresh: async ({ browser }, use) => {
    const profile = await browser.newContext();
    await use(await profile.newPage());
    await profile.close();
  },
});

/** A screen's address in a program's. */
export const addressOf = (address: string, route: string): string => new URL(`/#${route}`, address).href;

export { expect } from '@playwright/test';
