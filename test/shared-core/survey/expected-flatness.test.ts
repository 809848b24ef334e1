import { describe, expect, it } from 'vitest';
import { newLevelChoice } from '../../../shared-core/book/new-records.ts';
import { expectedFlatness, POUR_LEAVES } from '../../../shared-core/survey/expected-flatness.ts';
import { worstGap } from '../../../shared-core/survey/flatness.ts';
import { readFloor } from '../../../shared-core/survey/read-floor.ts';
import { settleLevel } from '../../../shared-core/survey/settle-level.ts';
import { gridReadings, planOf, rectangle, surveyOf } from './floors.ts';

const MM = 0.001;
const INCH = 0.0254;
const plan = planOf(rectangle(6, 4));
const OPTIONS = { units: 'metric', grindPrices: null, flooringThicknessM: 0 } as const;

/** A flat floor with one ridge across its center, of this height and 1 m wide at its foot. */
function ridge(highM: number) {
  const read = readFloor(plan, surveyOf(gridReadings(6, 4, 12, 8, (x) => Math.max(0, highM * (1 - Math.abs(x - 3) / 0.5)))), 'metric');
  if (!read.ok) throw new Error(read.message);
  return read.floor;
}
const floor = ridge(12 * MM);

function expected(choice: Partial<ReturnType<typeof newLevelChoice>>, mayGrind = false, floor = ridge(12 * MM)) {
  const whole = { ...newLevelChoice(), leastThicknessM: 0, grindMostM: 0, ...choice };
  const level = settleLevel(floor, plan, whole, {
    ...OPTIONS,
    grindPrices: mayGrind ? { fillM3: 1000, grindM2: 10, removeM3: 0 } : null,
  });
  return expectedFlatness(floor, level, mayGrind ? whole.grindMostM : 0, 3.048, {
    flooring: 'tile-large',
    flooringLimits: null,
    country: 'US',
  });
}

describe('the expected flatness of the poured floor', () => {
  it('is what a pour leaves where one plane covers everything, compared with the flooring’s limits', () => {
    const flat = expected({ levelM: null });
    expect(flat).toMatchObject({ because: 'plane', byPlanM: 0 });
    expect(flat.expectedM).toBeCloseTo(INCH / 8, 9);
    // ANSI A108.02, 4.2.2 as quoted in trade articles: 1/8 in under 10 ft and 1/16 in under 24 in.
    expect(flat.forFlooring.map((v) => v.meets)).toEqual([true]);
    expect(flat.forFlooring[0]?.checks.map((c) => c.gapM)).toEqual([
      expect.closeTo(INCH / 8, 9),
      // A fifth of 1/8 in, in proportion.
      expect.closeTo(INCH / 40, 9),
    ]);
  });

  it('keeps the gaps of the floor where the pour follows it', () => {
    const flat = expected({ mode: 'follow' });
    expect(flat.because).toBe('follows');
    expect(flat.expectedM).toBeCloseTo(worstGap(floor.profiles, 3.048).gapM, 12);
    expect(flat.forFlooring[0]?.meets).toBe(false);
  });

  it('never promises a floor flatter than a pour leaves, even where it follows an even slope', () => {
    const flat = expected({ mode: 'follow' }, false, ridge(0));
    expect(flat).toMatchObject({ because: 'follows', byPlanM: 0 });
    expect(flat.expectedM).toBeCloseTo(INCH / 8, 9);
  });

  it('includes high spots above a level set too low, beside a straightedge on top', () => {
    // The level at 8 mm leaves 4 mm of the ridge, its flanks 1/6 m to each side. Tilted over it, the straightedge rests on the crest and on
    // the new floor its own length away: widest at the foot of the ridge.
    const flat = expected({ levelM: 8 * MM });
    const [spanM, standsM, flankM] = [3.048, 4 * MM, 1 / 6];
    // Across the room the line is cut by the wall 3 m from the crest.
    const reachM = Math.min(3, spanM);
    expect(flat.because).toBe('proud');
    expect(flat.byPlanM).toBeGreaterThan(standsM * (1 - flankM / reachM) - 0.2 * MM);
    expect(flat.byPlanM).toBeLessThanOrEqual(standsM);
    expect(flat.expectedM).toBeCloseTo(flat.byPlanM + POUR_LEAVES.gapM, 12);
    expect(flat.forFlooring[0]?.meets).toBe(false);
  });

  it('has no high spots once they are ground off first', () => {
    expect(expected({ levelM: 8 * MM, grindMostM: 4 * MM }, true)).toMatchObject({ because: 'plane', byPlanM: 0 });
    expect(expected({ levelM: 8 * MM, grindMostM: 4 * MM }, false).because).toBe('proud');
  });
});
