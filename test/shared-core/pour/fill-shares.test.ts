import { describe, expect, it } from 'vitest';
import type { PourPlan } from '../../../shared-core/book/job.ts';
import type { LiftPlan } from '../../../shared-core/material/lifts.ts';
import { fillShares, laterSections, liftPours, nextShare } from '../../../shared-core/pour/fill-shares.ts';
import type { Region } from '../../../shared-core/plan/region.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import { points } from '../../outlines.ts';

/** A room of 8 m by 4 m whose depth runs from 10 mm at x = 0 to 90 mm at x = 8 m. */
const plan = { outline: points('0,0 8,0 8,4 0,4'), holes: [], openings: [] };
const depthM = (xM: number): number => 0.01 + 0.01 * xM;
const undivided = { plan, pourPlan: null };
const lifts: LiftPlan = {
  count: 2,
  extended: false,
  lowestMostM: 0.045,
  eachMostM: 0.045,
  capM: 0,
  waitHours: null,
  notes: [],
};
/** A dam across the middle: sections without an exit are in the order of the plan. */
const divided = (section: number | null): { plan: typeof plan; pourPlan: PourPlan } => ({
  plan,
  pourPlan: {
    ...{ laneWidthM: 1, angleDeg: 90, pattern: 'one-way', wayOutId: null, crew: TYPICAL_CREW, section },
    joints: [{ id: 'jnt-middle', from: { xM: 4, yM: 0 }, to: { xM: 4, yM: 4 } }],
  },
});
const half = (fromM: number): Region => ({ outline: points(`${fromM},0 ${fromM + 4},0 ${fromM + 4},4 ${fromM},4`), holes: [] });

/** Volumes by the area of a triangle and of a trapezoid (Euclid, Elements I.41), times the width of 4 m. */
describe('the fill of a room', () => {
  it('is divided by the bags of each lift, and within a lift by the volume of each section', () => {
    expect(fillShares(undivided, lifts, [10, 30], depthM)).toEqual([[0.25], [0.75]]);
    const [low = [], top = []] = fillShares(divided(1), lifts, [10, 30], depthM);
    // Lift 1 is the wedge below 45 mm: from 3.5 m, where it starts, 5 mm deep at 4 m and 45 mm at 8 m: 0.00125 and 0.1 of 0.10125 m2.
    expect([...low].sort()).toEqual([expect.closeTo((0.25 * 0.00125) / 0.10125, 3), expect.closeTo((0.25 * 0.1) / 0.10125, 3)]);
    // Lift 2 is 10 to 45 mm deep over 3.5 m and 45 mm from there: 0.11875 and 0.18 of 0.29875 m2.
    expect([...top].sort()).toEqual([expect.closeTo((0.75 * 0.11875) / 0.29875, 3), expect.closeTo((0.75 * 0.18) / 0.29875, 3)]);
  });

  it('is divided by the volume of each section', () => {
    const [shares] = fillShares(divided(1), null, [40], depthM) as [[number, number]];
    // 10 to 50 mm over 4 m and 50 to 90 mm over 4 m: 0.12 and 0.28 of 0.4 m2.
    expect([...shares].sort()).toEqual([expect.closeTo(0.3, 3), expect.closeTo(0.7, 3)]);
    expect(fillShares(divided(null), null, [40], depthM)).toEqual([[1]]);
  });
});

describe('a room without an outline', () => {
  const bare = { ...divided(1), plan: { ...plan, outline: [] } };
  it('has one pour of each lift, and no shares', () => {
    expect(fillShares(bare, lifts, [10, 30], depthM)).toEqual([]);
    expect(liftPours([], bare, { number: 1, of: 2, open: null })).toEqual([0.5]);
    expect(nextShare([], bare, 1, null)).toBeNull();
    expect([laterSections(bare), laterSections(undivided), laterSections(divided(1))]).toEqual([0, 0, 1]);
  });
});

describe('the pours of one lift', () => {
  const one = { number: 1, of: 1, open: null };

  it('are the chosen section and then the others', () => {
    expect(liftPours([[0.3, 0.7]], divided(1), one)).toEqual([0.3, 0.7]);
    expect(liftPours([[0.3, 0.7]], divided(2), one)).toEqual([0.7, 0.3]);
    expect(liftPours([[1]], divided(null), one)).toEqual([1]);
  });

  it('are one of what is open where the chosen section is placed', () => {
    const order = fillShares(divided(1), null, [40], depthM)[0] ?? [];
    const isShallowFirst = (order[0] ?? 0) < 0.5;
    const rest = { ...one, open: [half(isShallowFirst ? 4 : 0)] };
    expect(liftPours([order], divided(1), rest)).toEqual([expect.closeTo(isShallowFirst ? 0.7 : 0.3, 3)]);
  });

  it('are equal lifts, and sections by their area, where nothing is known of the fill', () => {
    expect(liftPours([], undivided, { number: 2, of: 4, open: null })).toEqual([0.25]);
    expect(liftPours([], divided(1), { number: 1, of: 2, open: null })).toEqual([0.25, 0.25]);
    expect(liftPours([], undivided, { ...one, open: [half(0)] })).toEqual([0.5]);
  });
});
