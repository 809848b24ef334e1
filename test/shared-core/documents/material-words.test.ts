import { describe, expect, it } from 'vitest';
import { carryingWords, contradictionWords, waterProblemWords } from '../../../shared-core/documents/material-words.ts';
import type { Disagreement } from '../../../shared-core/material/contradictions.ts';
import { CU_FT_M3, IN_M, LB_KG } from '../../reference/material-facts.ts';

// Quarts of the US, NIST Handbook 44, appendix C.
const QT_L = 0.946352946;
const PCF = LB_KG / CU_FT_M3;

describe('contradictionWords', () => {
  const yieldM3 = 0.45 * CU_FT_M3;
  const bagKg = 50 * LB_KG;
  const said: readonly (readonly [Disagreement, string])[] = [
    [{ kind: 'askew', figure: 'waterL' }, 'Mix water per bag: the minimum is greater than the maximum. Are the two swapped?'],
    [{ kind: 'yield-zero' }, 'The yield per bag is 0. Enter it from the bag, or weigh a mixed bag.'],
    [
      { kind: 'yield-mass', bagKg, waterL: 5 * QT_L, densityKgM3: 125 * PCF, byMassM3: (60.43 / 125) * CU_FT_M3, statedM3: yieldM3 },
      '50 lb and 5 qt of water weigh 60.4 lb. At 125 lb/cu ft that fills 0.48 cu ft, not 0.45 cu ft. The smaller yield is safer. It buys about 1 more bag in 14.',
    ],
    [
      { kind: 'yield-measured', measuredM3: 0.52 * CU_FT_M3, statedM3: yieldM3 },
      'The weighed yield is 0.52 cu ft per bag. The data sheet says 0.45 cu ft. Weigh again before you use either.',
    ],
    [{ kind: 'measured-missing' }, 'No weighed bag is recorded, so the data sheet’s yield is used.'],
    [
      { kind: 'water-share', waterL: 10 * QT_L, bagKg },
      '2.5 gal of water is 42% of 50 lb of powder. The usual range is 12% to 36%. Check the unit on the bag.',
    ],
    [{ kind: 'healing-flow' }, 'The healing time is longer than the working time. Check both.'],
    [{ kind: 'mix-flow' }, 'The mixing time is as long as the working time. Check both.'],
    [{ kind: 'milestone-order' }, 'Furniture is allowed before foot traffic. Check both times.'],
    [{ kind: 'extended-share' }, 'An extended lift is entered without the aggregate per bag.'],
    [{ kind: 'extended-thin', extendedM: IN_M, neatM: 2 * IN_M }, 'The maximum lift with aggregate, 1″, is no deeper than without, 2″.'],
    [
      { kind: 'hard-fresh', hardKgM3: 130 * PCF, freshKgM3: 120 * PCF },
      'The hardened density, 130 lb/cu ft, is more than the fresh density, 120 lb/cu ft. Check both.',
    ],
    [
      { kind: 'designation', designation: 'CT-C25' },
      'CT-C25 is not a class of EN 13813. Enter a binder and its classes, such as CT-C25-F5.',
    ],
    // EN 13813: C25 is 25 N/mm².
    [
      { kind: 'designation-strength', designation: 'CT-C25-F5', declaredPa: 25e6, statedPa: 20e6 },
      'CT-C25-F5 declares at least 25 N/mm². The data sheet’s strength is 20 N/mm².',
    ],
    [{ kind: 'cure-temperature', leastC: 20, referenceC: 20 }, 'Curing pauses below 20 °C, but the hours are given at 20 °C. Check both.'],
  ];
  it.each(said)('says what %o means', (what, words) => {
    const units = what.kind === 'cure-temperature' || what.kind === 'designation-strength' ? 'metric' : 'us';
    expect(contradictionWords(what, units, 'en-US').replaceAll('\u00a0', ' ')).toBe(words);
  });
});

describe('waterProblemWords', () => {
  it('says which limit of the data sheet is broken', () => {
    expect(waterProblemWords({ kind: 'too-much', waterL: 6, limitL: 5 }, 'Fine', 'metric', 'en-US')).toBe(
      '6 L is too much water for Fine. The maximum is 5 L per bag. More makes it weak and dusty.',
    );
    expect(waterProblemWords({ kind: 'too-little', waterL: 4, limitL: 4.5 }, 'Fine', 'metric', 'en-US')).toBe(
      '4 L is too little water for Fine. The minimum is 4.5 L per bag.',
    );
  });
});

describe('carryingWords', () => {
  // Over an index of 1 some people are at risk, over 3 nearly all: NIOSH publication 94-110.
  const way = (index: number | null) => ({ loadKg: 25, limitKg: 10, index });
  const said = (index: number | null) =>
    carryingWords({ totalKg: 1200, lifts: 90, ways: { alone: way(index), cart: way(1.5), two: way(null) } }, 'metric', 'en-US');
  it('compares a bag with the limit, a cart and a second person', () => {
    expect(said(0.9)).toBe(
      '1,200 kg to carry in, 90 lifts by hand. A bag of 25 kg from the floor is within the 10 kg the NIOSH lifting equation allows.',
    );
    expect(said(2)).toBe(
      '1,200 kg to carry in, 90 lifts by hand. A bag of 25 kg from the floor is 2.0 times the 10 kg of the NIOSH lifting equation, a risk for some people. From a cart at knuckle height it is 1.5 times, and for two people no limit.',
    );
    expect(said(3.1)).toContain('is 3.1 times the 10 kg of the NIOSH lifting equation, a risk for nearly all people.');
  });
});
