import { describe, expect, it } from 'vitest';
import { frequencyMultiplier, liftingIndex, weightLimitKg, type LiftPosture } from '../../../shared-core/material/lifting.ts';
import { BAG, PACKAGE, TABLE_5_SPOTS } from '../../reference/lifting-niosh.ts';
import { IN_M, LB_KG } from '../../reference/material-facts.ts';

const posture = (h: number, origin: number, destination: number, d: number, f: number, twist = 0): LiftPosture => ({
  horizontalM: h * IN_M,
  originM: origin * IN_M,
  heightM: destination * IN_M,
  travelM: d * IN_M,
  twistDeg: twist,
  liftsPerMinute: f,
  duration: 'short',
  coupling: 'fair',
});
const limitLb = (p: LiftPosture) => weightLimitKg(p) / LB_KG;

describe('the lifting equation', () => {
  it('gives the limits of the package example (N1, N2, N3)', () => {
    const { origin, destination } = PACKAGE;
    const from = weightLimitKg(posture(10, origin.v, origin.v, origin.d, origin.f));
    expect(frequencyMultiplier(origin.f, 'short', origin.v * IN_M)).toBe(0.88);
    expect(Math.abs(from / LB_KG - origin.rwlLb)).toBeLessThan(0.11);
    const to = weightLimitKg(posture(destination.h, origin.v, destination.v, origin.d, origin.f));
    expect(Math.abs(to / LB_KG - destination.rwlLb)).toBeLessThan(0.11);
    expect(liftingIndex(PACKAGE.loadLb * LB_KG, from)).toBeCloseTo(PACKAGE.index[0] ?? 0, 1);
    expect(liftingIndex(PACKAGE.loadLb * LB_KG, to)).toBeCloseTo(PACKAGE.index[1] ?? 0, 1);
  });
  it('puts a 50 lb bag from the floor at twice its limit (N12)', () => {
    const p = posture(BAG.h, BAG.v, BAG.v, BAG.d, 0.1);
    expect(Math.abs(limitLb(p) - BAG.rwlLb)).toBeLessThan(0.1);
    expect(liftingIndex(BAG.lb * LB_KG, weightLimitKg(p))).toBeCloseTo(BAG.index, 1);
  });
  it('excludes a reach of 26 in, a twist of 136 degrees and hands at 71 in, and nothing below these (N13)', () => {
    for (const p of [posture(26, 30, 30, 10, 1), posture(15, 30, 30, 10, 1, 136), posture(15, 71, 71, 10, 1)]) {
      expect(weightLimitKg(p)).toBe(0);
      expect(liftingIndex(10, weightLimitKg(p))).toBeNull();
    }
    for (const p of [posture(25, 30, 30, 10, 1), posture(15, 30, 30, 10, 1, 135), posture(15, 70, 70, 10, 1)])
      expect(weightLimitKg(p)).toBeGreaterThan(0);
  });
  it('reads its frequency table, with a column on each side of 30 in', () => {
    for (const { perMin, low } of TABLE_5_SPOTS) expect(frequencyMultiplier(perMin, 'short', 29 * IN_M)).toBe(low);
    expect(frequencyMultiplier(15, 'short', 30 * IN_M)).toBe(0.28);
    expect(frequencyMultiplier(15, 'short', 29 * IN_M)).toBe(0);
    expect(frequencyMultiplier(0.01, 'long', 0)).toBe(0.85);
  });
});
