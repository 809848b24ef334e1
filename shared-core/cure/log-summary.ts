/** Summary of a room's readings since the pour: count, coldest, warmest, gaps. */
import { type Interval, stoodStill } from './clock.ts';
import { HOUR_MS, type Piece } from './temperature-history.ts';

export type LogSummary = {
  readonly readings: number;
  /** Null without readings. */
  readonly leastC: number | null;
  readonly mostC: number | null;
  /** Gaps longer than `GAP_HOURS`. */
  readonly gaps: readonly Interval[];
  /** Measured or bridged times below the minimum temperature. */
  readonly stoodStill: readonly Interval[];
  readonly hoursStoodStill: number;
};

/**
 * Sums up a history.
 * @param pieces from `temperatureHistory`
 * @param readings how many readings fall after the pour
 */
export function summarizeLog(pieces: readonly Piece[], readings: number, leastCureC: number): LogSummary {
  let leastC = Infinity;
  let mostC = -Infinity;
  const gaps: Interval[] = [];
  for (const p of pieces) {
    if (p.known === 'gap') gaps.push({ fromMs: p.fromMs, toMs: p.toMs });
    if (p.known !== 'read') continue;
    leastC = Math.min(leastC, p.fromC, p.toC);
    mostC = Math.max(mostC, p.fromC, p.toC);
  }
  const pauses = stoodStill(pieces, leastCureC);
  return {
    readings,
    leastC: Number.isFinite(leastC) ? leastC : null,
    mostC: Number.isFinite(mostC) ? mostC : null,
    gaps,
    stoodStill: pauses,
    hoursStoodStill: pauses.reduce((sum, i) => sum + (i.toMs - i.fromMs) / HOUR_MS, 0),
  };
}
