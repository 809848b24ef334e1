/** A browser whose profile is on a full disk. It needs a file system of its own, so it runs on Linux as root, in `npm run soak`. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { SEED } from '../moments.ts';
import { killAgainAndAgain } from './killed-browser.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

const disk = mkdtempSync(join(tmpdir(), 'straightedge-full-'));
const isWanted = process.env['STRAIGHTEDGE_KILLS'] !== undefined;
const isMounted =
  isWanted && process.getuid?.() === 0 && spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=300m', 'tmpfs', disk]).status === 0;
afterAll(() => {
  // The killed browser may not be gone yet.
  if (isMounted) spawnSync('umount', ['--lazy', disk]);
  removeFolder(disk);
});

const FILLED_AFTER = 40;

it.runIf(isMounted)(
  'a pour log on a full disk refuses in a sentence, loses nothing that it acknowledged, and goes on when there is space',
  async () => {
    const ballast = join(disk, 'ballast');
    const refusals: string[] = [];
    let written = 0;
    let beforeRefusal = 0;
    const acknowledged = await killAgainAndAgain({
      script: 'pour-log-page.ts',
      folder: disk,
      kills: 2,
      seed: SEED,
      onWritten: (number) => {
        written = number;
        if (number !== FILLED_AFTER) return;
        const { bavail, bsize } = statfsSync(disk);
        try {
          writeFileSync(ballast, Buffer.alloc(bavail * bsize));
        } catch {
          // The browser took the rest meanwhile.
        }
      },
      onRefused: (message) => {
        refusals.push(message);
        beforeRefusal = written;
        rmSync(ballast, { maxRetries: 5, retryDelay: 100 });
      },
      check: (found, before) => {
        const kept = found as readonly { readonly seq: number; readonly text: string }[];
        expect(kept.length).toBeGreaterThanOrEqual(before);
        expect(kept).toEqual(kept.map((_, i) => ({ seq: i + 1, text: `entry ${i + 1}` })));
      },
    });
    expect(refusals).toEqual([expect.stringMatching(/disk (?:is|may be) full/)]);
    expect(beforeRefusal).toBeGreaterThanOrEqual(FILLED_AFTER);
    expect(acknowledged).toBeGreaterThan(beforeRefusal);
  },
  120_000,
);
