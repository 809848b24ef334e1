import { describe, expect, it } from 'vitest';
import {
  ACI_117_CLASSES,
  combineF,
  curvatures,
  flatnessNumber,
  fNumbersOf,
  levelnessNumber,
} from '../../../shared-core/survey/f-numbers.ts';
import { spotsOf } from '../../../shared-core/survey/heights.ts';
import { ACI_117_TABLE, SLAC_DERIVED_FF, SLAC_PAD } from '../../reference/flatness.ts';
import { surveyOf } from './floors.ts';

describe('F-numbers', () => {
  it('use the curvatures that the SLAC pad survey prints', () => {
    for (const { elevationsMm, q } of SLAC_PAD) {
      const found = curvatures(elevationsMm);
      expect(found.length).toBe(q.length);
      found.forEach((value, i) => expect(Math.abs(value - (q[i] ?? 99))).toBeLessThan(0.0015));
    }
  });

  it('give F_F of the SLAC lines', () => {
    for (const { line, r, ff } of SLAC_DERIVED_FF) {
      const rated = flatnessNumber(SLAC_PAD[line]?.elevationsMm ?? [], 'metric');
      expect(rated.count).toBe(r);
      expect(Math.abs((rated.f ?? 0) - ff)).toBeLessThan(0.05);
    }
  });

  it('agree in inches and millimeters but for the metric constant’s own rounding, 0.24 %', () => {
    const mm = SLAC_PAD[0]?.elevationsMm ?? [];
    const metric = flatnessNumber(mm, 'metric').f ?? 0;
    const inch =
      flatnessNumber(
        mm.map((h) => h / 25.4),
        'inch',
      ).f ?? 0;
    expect(inch / metric).toBeCloseTo(116.078 / 115.8, 5);
  });

  it('combine by their readings, not by their average: 20 and 30 make 23.53', () => {
    expect(combineF(20, 10, 30, 10)).toBeCloseTo(23.53, 2);
  });

  it('require three fifths of the overall value in the worst part (ACI 117-10, 4.8.5.3)', () => {
    expect(ACI_117_CLASSES.map((row) => [row.name, row.flat, row.level])).toEqual(ACI_117_TABLE.map((row) => [...row]));
  });

  it('need rises over ten steps: a line tilted by a constant is levelness alone', () => {
    const rated = levelnessNumber(
      Array.from({ length: 15 }, (_, i) => i * 0.5),
      'metric',
    );
    expect(rated.f).toBeCloseTo(317.5 / 5, 9);
    expect(
      flatnessNumber(
        Array.from({ length: 15 }, () => 1),
        'metric',
      ).f,
    ).toBeNull();
  });

  it('are found in a survey along lines of twelve or more at 300 mm, and only there', () => {
    const heights = SLAC_PAD[0]?.elevationsMm ?? [];
    const line = heights.map((h, i): [number, number, number] => [0.5 + 0.3 * i, 1, h / 1000]);
    const turn = Array.from({ length: 5 }, (_, i): [number, number, number] => [4.4, 1.3 + 0.3 * i, 0.42]);
    const rated = fNumbersOf(spotsOf('height', surveyOf([...line, ...turn]).readings));
    expect(rated?.lines.map((one) => one.heightsM.length)).toEqual([14]);
    expect(Math.abs((rated?.flat ?? 0) - 28.77)).toBeLessThan(0.05);
    expect(fNumbersOf(spotsOf('height', surveyOf(line.slice(0, 11)).readings))).toBeNull();
    // The same heights read a foot apart are rated by the inch constant, 4.57 in. = 116.078 mm, not by 115.8 mm.
    const byTheFoot = heights.map((h, i): [number, number, number] => [0.5 + 0.3048 * i, 1, h / 1000]);
    const inches = fNumbersOf(spotsOf('height', surveyOf(byTheFoot).readings));
    expect((inches?.flat ?? 0) / (rated?.flat ?? 1)).toBeCloseTo(116.078 / 115.8, 6);
  });
});
