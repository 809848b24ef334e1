/** Moving a level by hand: steps, limits, and the choice that results. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { levelStepsM, liftedLevel, movedLevel } from '../../../shared-core/survey/move-level.ts';
import { readFloor } from '../../../shared-core/survey/read-floor.ts';
import { settleLevel } from '../../../shared-core/survey/settle-level.ts';
import { levelChoice, planOf, surveyOf } from './floors.ts';
import { xy, xyz } from '../../outlines.ts';

const OPTIONS = { units: 'us', grindPrices: null, flooringThicknessM: 0 } as const;
const plan = planOf(xy('0,0 5,0 5,4 0,4'));
const read = readFloor(plan, surveyOf(xyz('0,0,0.004 5,0,0.011 5,4,0.002 0,4,0.019 2,2,0.007')), 'us');
if (!read.ok) throw new Error(read.message);
const { floor } = read;
const settled = (choice = levelChoice({})) => settleLevel(floor, plan, choice, OPTIONS);
const SIXTEENTH = 0.0254 / 16;

describe('a level moved by hand', () => {
  it('is at a whole number of sixteenths above the low point, and the settled level is where it was released', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.03, max: 0.05, noNaN: true }), (byM) => {
        const from = settled();
        const choice = movedLevel(levelChoice({}), from, floor, byM, 'us');
        const after = settled(choice);
        expect(after.levelM).toBeGreaterThanOrEqual(floor.lowestM - 1e-12);
        if (choice.levelM === null) return;
        const steps = (after.levelM - floor.lowestM) / SIXTEENTH;
        expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-9);
        expect(Math.abs(after.levelM - from.levelM - Math.max(byM, floor.lowestM - from.levelM))).toBeLessThanOrEqual(
          SIXTEENTH / 2 + 1e-12,
        );
      }),
    );
  });

  it('becomes “as low as possible” within half a step of that, and leaves it again', () => {
    const from = settled(levelChoice({ levelM: 0.05 }));
    const back = movedLevel(levelChoice({ levelM: 0.05 }), from, floor, (from.lowestWithGrindingM ?? 0) - 0.05 + 0.0006, 'us');
    expect(back.levelM).toBeNull();
    const up = movedLevel(levelChoice({}), settled(), floor, SIXTEENTH, 'us');
    expect(up.levelM).not.toBeNull();
  });

  it('a constant thickness changes by whole steps and never to zero', () => {
    const choice = levelChoice({ mode: 'follow', followThicknessM: 0.01 });
    const from = settleLevel(floor, plan, choice, OPTIONS);
    expect(movedLevel(choice, from, floor, 0.0042, 'metric').followThicknessM).toBeCloseTo(0.014, 12);
    expect(movedLevel(choice, from, floor, -1, 'metric').followThicknessM).toBe(0.001);
  });

  it('a ramp rises with every height it passes through, and one without heights stays', () => {
    const through = [
      { point: { xM: 0, yM: 0 }, heightM: 0.03 },
      { point: { xM: 5, yM: 0 }, heightM: 0.05 },
    ];
    const choice = levelChoice({ mode: 'ramp', rampThrough: through });
    const from = settleLevel(floor, plan, choice, OPTIONS);
    const up = movedLevel(choice, from, floor, 0.003, 'metric');
    const after = settleLevel(floor, plan, up, OPTIONS);
    expect(after.plane.zM).toBeCloseTo(from.plane.zM + 0.003, 12);
    expect(after.plane.slopeX).toBeCloseTo(from.plane.slopeX, 12);
    const empty = levelChoice({ mode: 'ramp', rampThrough: [] });
    expect(movedLevel(empty, settled(empty), floor, 0.01, 'us')).toEqual(empty);
  });

  it('a raised level is the settled one’s plane, higher; its volume waits to be settled', () => {
    const lifted = liftedLevel(settled(), 0.002);
    expect(lifted.plane.zM).toBeCloseTo(settled().plane.zM + 0.002, 12);
    expect(lifted.fill).toEqual(settled().fill);
  });

  it('its steps are the graduations of a rule', () => {
    expect(levelStepsM('us').coarse / levelStepsM('us').fine).toBeCloseTo(4, 12);
    expect(levelStepsM('metric')).toEqual({ fine: 0.001, coarse: 0.005 });
  });
});
