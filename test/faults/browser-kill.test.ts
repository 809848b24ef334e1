/**
 * A browser killed at random moments, repeatedly, on one profile: while it logs a pour, and while it edits, imports and restores. Only the
 * database's code runs in the page, so that a kill is cheap; the journey `pour-kill` kills the whole program. STRAIGHTEDGE_KILLS sets the
 * number.
 */
import { expect, it } from 'vitest';
import { SEED } from '../moments.ts';
import { killAgainAndAgain } from './killed-browser.ts';

const KILLS = Number(process.env['STRAIGHTEDGE_KILLS'] ?? 4);
const LIMIT_MS = 30_000 + KILLS * 15_000;

type Kept = readonly { readonly seq: number; readonly text: string }[];

it(
  `a browser killed ${KILLS} times while a pour is logged loses no acknowledged entry, and none is out of order (seed ${SEED})`,
  async () => {
    const check = (found: unknown, acknowledged: number, context: string): void => {
      const kept = found as Kept;
      // A kill between the disk and its report may leave one entry more than was reported.
      expect(kept.length, context).toBeGreaterThanOrEqual(acknowledged);
      expect(kept.length - acknowledged, context).toBeLessThanOrEqual(1);
      expect(kept, context).toEqual(kept.map((_, i) => ({ seq: i + 1, text: `entry ${i + 1}` })));
    };
    expect(await killAgainAndAgain({ script: 'pour-log-page.ts', kills: KILLS, seed: SEED, check })).toBeGreaterThan(KILLS);
  },
  LIMIT_MS,
);

it(
  `a browser killed ${KILLS} times while it edits, imports and restores has each of them whole or not at all (seed ${SEED})`,
  async () => {
    const check = (found: unknown, acknowledged: number, context: string): void => {
      expect(found, context).not.toBe('mixed');
      expect(Number(found), context).toBeGreaterThanOrEqual(acknowledged);
      expect(Number(found) - acknowledged, context).toBeLessThanOrEqual(1);
    };
    expect(await killAgainAndAgain({ script: 'edits-page.ts', kills: KILLS, seed: SEED, check })).toBeGreaterThan(KILLS);
  },
  LIMIT_MS,
);
