/** A desk over a temporary folder. */
import { existsSync, mkdirSync, mkdtempSync, renameSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { createDispatch, type Dispatch } from '../../../main/desk/dispatch.ts';
import { createHandlers } from '../../../main/desk/handlers.ts';
import type { Machine } from '../../../main/desk/host.ts';
import { copyFonts } from '../../../build/fonts.mjs';
import { scratchFolder } from '../../scratch-folder.ts';
import { removeFolder } from '../../../build/remove-folder.mjs';

export type WorkingDesk = { readonly dispatch: Dispatch; readonly papers: string; readonly opened: string[]; readonly log: string[] };

let fonts: string | null = null;
/** Fonts are copied once for all tests, whole: tests in other processes read them at the same time. */
export function testFonts(): string {
  if (fonts !== null) return fonts;
  const target = join(process.cwd(), '.cache', 'test-fonts');
  if (!existsSync(target)) {
    mkdirSync(dirname(target), { recursive: true });
    const copied = mkdtempSync(`${target}-`);
    copyFonts(copied);
    try {
      renameSync(copied, target);
    } catch (failure) {
      if (!existsSync(target)) throw failure;
      removeFolder(copied);
    }
  }
  fonts = target;
  return fonts;
}

export function workingDesk(lent: Partial<Machine> = {}): WorkingDesk {
  const papers = join(scratchFolder('desk'), 'Papers');
  const opened: string[] = [];
  const log: string[] = [];
  const machine: Machine = {
    host: 'test',
    version: '0.0.0',
    papersFolder: papers,
    dataFolder: join(papers, '..', 'data'),
    usualBackups: join(papers, 'Backups'),
    chooseFolder: null,
    remember: null,
    fontsFolder: testFonts(),
    openPath: (path) => {
      opened.push(path);
      return Promise.resolve();
    },
    stayAwake: null,
    notify: null,
    log: (line) => log.push(line),
    ...lent,
  };
  return { dispatch: createDispatch(createHandlers(machine), machine.log), papers, opened, log };
}
