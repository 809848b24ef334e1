import { describe, expect, it } from 'vitest';
import type { FloorTest } from '../../../shared-core/book/layer.ts';
import { type ArithmeticContext, testArithmetic } from '../../../shared-core/assess/test-arithmetic.ts';
import { layer, NOW, test } from '../substrate/a-floor.ts';

const context: ArithmeticContext = {
  now: NOW,
  yearBuilt: 1998,
  units: 'us',
  locale: 'en-US',
  layers: [layer('concrete-on-ground')],
  addedLoadPa: null,
  pullOffLeastPa: 689476,
  spanOver: 360,
};
const arithmetic = (floorTest: FloorTest, more: Partial<ArithmeticContext> = {}): string =>
  testArithmetic(floorTest, { ...context, ...more }).sentences.join(' ');

describe('the arithmetic of a test', () => {
  // ASTM F1869 as printed on dishes: 52.91 × grams ÷ (square feet × hours). 1 g over 0.4446 sq ft in 72 h: 1.65 lb.
  it('converts a dish’s gain to pounds per 1,000 sq ft in 24 h', () => {
    const dish = test.dish({ massBeforeG: 30, massAfterG: 31, domeAreaM2: 0.4446 * 0.09290304 + 0.004, dishAreaM2: 0.004, hours: 72 });
    expect(52.91 / (0.4446 * 72)).toBeCloseTo(1.653, 3);
    expect(arithmetic(dish)).toContain('1.65 lb/1,000 sq ft/24 h');
  });

  it('does not count a dish over underlayment (ASTM F1869 clause 1.2)', () => {
    const over = testArithmetic(test.dish(), { ...context, layers: [layer('old-leveling')] });
    expect(over.doesNotCount).toContain('needs bare, ground concrete');
    expect(testArithmetic(test.dish(), context).doesNotCount).toBeNull();
  });

  // ASTM F2170: 40% of the thickness of a slab that dries from one side, 20% from two.
  it('gives the probe depth for a slab', () => {
    expect(arithmetic(test.humidity({ slabThicknessM: 0.1 }), { units: 'metric' })).toContain('40 mm');
    expect(arithmetic(test.humidity({ slabThicknessM: 0.1, dryingSides: 2 }), { units: 'metric' })).toContain('20 mm');
  });

  // Published worked example, painting guide: air 80 °F, 50 %, floor 58 °F: dew point 59 °F, the floor 1 °F below it (psychrolib 59.71).
  it('finds condensation on a floor colder than the dew point', () => {
    const cold = test.air({ airTempC: 80 / 1.8 - 32 / 1.8, relativeHumidity: 0.5, surfaceTempC: (58 - 32) / 1.8 });
    expect(arithmetic(cold)).toMatch(/The dew point is 59\.\d\s*°F\. The floor is \d.*below it/);
    expect(arithmetic(test.air())).toContain('The minimum is');
  });

  // 5 w L⁴ / (384 E I): 2 × 10 joists every 16 in over 14 ft, E 1.6 million psi, live load 40 psf: 0.291 in, L/577, of 0.467 in; the program rounds down.
  it('deflects joists by the beam formula, and is no structural check', () => {
    const words = arithmetic(test.deflection());
    expect(words).toContain('L/576');
    expect(words).toContain('not a structural check');
    expect(words).not.toContain('structural engineer');
    expect(arithmetic(test.deflection({ spanM: 5.4864 }))).toContain('ask a structural engineer');
  });

  it('gives the maximum, minimum and average of wood readings', () => {
    expect(arithmetic(test.wood('boards', [0.1, 0.12, 0.11]))).toMatch(/^3 readings: maximum 12\s?%, minimum 10\s?%, average 11\s?%\.$/);
  });

  // ASTM F3191, from memory: porous when absorbed within a minute.
  it('tells a porous substrate from a non-porous one', () => {
    expect(arithmetic(test.drop('d1', 59))).toMatch(/^Porous/);
    expect(arithmetic(test.drop('d1', null))).toMatch(/^Non-porous/);
  });

  it('asks about unlikely values', () => {
    expect(testArithmetic(test.air({ airTempC: 149 }), context).questions.join(' ')).toContain('unlikely indoors');
    expect(testArithmetic(test.dish({ massAfterG: 29 }), context).questions.join(' ')).toContain('lost mass');
    expect(testArithmetic(test.ph(9), context).questions).toEqual([]);
  });
});
