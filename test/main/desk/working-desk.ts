/** A desk over a temporary folder. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createDispatch, type Dispatch } from '../../../main/desk/dispatch.ts';
import { createHandlers, type Machine } from '../../../main/desk/handlers.ts';
import { copyFonts } from '../../../build/fonts.mjs';

export type WorkingDesk = { readonly dispatch: Dispatch; readonly papers: string; readonly opened: string[]; readonly log: string[] };

let fonts: string | null = null;
/** Fonts are copied once for all tests. */
export function testFonts(): string {
  if (fonts === null) {
    fonts = join(process.cwd(), '.cache', 'test-fonts');
    copyFonts(fonts);
  }
  return fonts;
}

export function workingDesk(lent: Partial<Machine> = {}): WorkingDesk {
  const papers = join(mkdtempSync(join(tmpdir(), 'straightedge-')), 'Papers');
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
