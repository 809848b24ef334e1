import fc from 'fast-check';
import { cumulativeStdNormalProbability } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { bagCount } from '../../../shared-core/material/bag-count.ts';
import { typicalPourMinutes } from '../../../shared-core/material/crew-hours.ts';
import { measuredYield, yieldByMass } from '../../../shared-core/material/mass-balance.ts';
import { normalShareBelow } from '../../../shared-core/measure/normal.ts';
import { addedWeight, layerMassKg, type RoomLayer } from '../../../shared-core/material/weight.ts';
import {
  CU_FT_M3,
  FIVE_BATCHES,
  HALF_FOOT_BAG,
  IN_M,
  LB_KG,
  MASS_BALANCE,
  QT_L,
  QUARTER_INCH,
  SQ_FT_M2,
  TWELVE_BAGS,
  WEIGHT,
} from '../../reference/material-facts.ts';

const lbCuFt = LB_KG / CU_FT_M3;

/** Bags for a volume and a yield that are known exactly. */
const wholeBags = (volumeM3: number, lossShare: number, yieldM3: number) => {
  const read = bagCount({ likelyM3: volumeM3, sdM3: 0 }, { likelyM3: yieldM3, sdShare: 0 }, lossShare, 0.8);
  return read.ok ? { ok: true, value: read.value.quotedBags } : read;
};

describe('a bag', () => {
  it('yields by mass what the calculation says (V4)', () => {
    const yieldM3 = yieldByMass(MASS_BALANCE.powderLb * LB_KG, MASS_BALANCE.waterQt * QT_L, MASS_BALANCE.freshLbCuFt * lbCuFt) / CU_FT_M3;
    expect(Math.abs(yieldM3 - MASS_BALANCE.cubicFeet)).toBeLessThan(MASS_BALANCE.within);
  });
  it('is needed five times for 100 sq ft at 1/4 in (V6, V7)', () => {
    const volume = QUARTER_INCH.sqFt * SQ_FT_M2 * 0.25 * IN_M;
    expect(volume / CU_FT_M3).toBeCloseTo(QUARTER_INCH.cubicFeet, 3);
    expect(volume * 1000).toBeCloseTo(QUARTER_INCH.liters, 1);
    expect(wholeBags(volume, 0, QUARTER_INCH.bagCuFt * CU_FT_M3)).toEqual({ ok: true, value: QUARTER_INCH.bags });
  });
  it.each(HALF_FOOT_BAG)(
    'of 0.5 cu ft covers $sqFt sq ft at $inches in, without an additional bag from rounding (V8)',
    ({ inches, sqFt }) => {
      expect(wholeBags(sqFt * SQ_FT_M2 * inches * IN_M, 0, 0.5 * CU_FT_M3)).toEqual({ ok: true, value: 1 });
      expect(wholeBags((sqFt + 1) * SQ_FT_M2 * inches * IN_M, 0, 0.5 * CU_FT_M3)).toEqual({ ok: true, value: 2 });
    },
  );
  it('is 3/8 in. deep when twelve of them cover 168 sq ft (common practice, no source)', () => {
    const inches = [TWELVE_BAGS.leastCuFt, TWELVE_BAGS.mostCuFt].map(
      (cuFt) => (TWELVE_BAGS.bags * cuFt * CU_FT_M3) / (TWELVE_BAGS.sqFt * SQ_FT_M2) / IN_M,
    );
    expect(inches[0]).toBeLessThan(TWELVE_BAGS.meanInches);
    expect(inches[1]).toBeGreaterThan(TWELVE_BAGS.meanInches);
    const volume = TWELVE_BAGS.sqFt * SQ_FT_M2 * TWELVE_BAGS.meanInches * IN_M;
    expect(wholeBags(volume, 0, 0.45 * CU_FT_M3)).toEqual({ ok: true, value: TWELVE_BAGS.bags });
  });
  it('twelve times takes two mixers 45 minutes, and 250 lb is five batches (common practice, no source)', () => {
    expect(typicalPourMinutes(TWELVE_BAGS.bags, { mixers: 2, helpers: 2 })).toBe(TWELVE_BAGS.minutes);
    expect(FIVE_BATCHES.powderLb / FIVE_BATCHES.bagLb).toBe(FIVE_BATCHES.batches);
  });
  it('with a yield of zero is refused', () => {
    expect(wholeBags(1, 0.05, 0)).toEqual({ ok: false, problem: 'yield' });
  });
  it('weighed in a bucket gives its yield, and refuses swapped readings', () => {
    const weighing = { bagKg: 25, waterL: 5, bucketVolumeM3: 0.01, emptyKg: 0.8, fullKg: 20.8 };
    const read = measuredYield(weighing);
    expect(read.ok && read.value.yieldM3).toBeCloseTo(0.015, 9);
    expect(measuredYield({ ...weighing, emptyKg: 20.8, fullKg: 0.8 })).toEqual({ ok: false, problem: { kind: 'swapped' } });
    expect(measuredYield({ ...weighing, bucketVolumeM3: 0.1 })).toEqual({ ok: false, problem: { kind: 'too-light' } });
  });
});

describe('the chance of running short', () => {
  it('follows the normal distribution, compared with the table of an independent library', () => {
    for (const z of [-2.5, -1.28, -0.5, 0, 0.3, 1, 1.96, 3]) expect(normalShareBelow(z)).toBeCloseTo(cumulativeStdNormalProbability(z), 3);
    expect(normalShareBelow(1.959963985)).toBeCloseTo(0.975, 6);
  });
  it('matches drawing many floors and bags', () => {
    const count = bagCount({ likelyM3: 0.25, sdM3: 0.02 }, { likelyM3: 0.0127, sdShare: 0.03 }, 0.05, 0.8);
    if (!count.ok) throw new Error(count.problem);
    let seed = 42;
    const next = () => ((seed = (seed * 1103515245 + 12345) % 2147483648) + 0.5) / 2147483648;
    const normal = () => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
    let short = 0;
    const runs = 40_000;
    for (let i = 0; i < runs; i += 1)
      if ((0.25 + 0.02 * normal()) * 1.05 > count.value.quotedBags * 0.0127 * (1 + 0.03 * normal())) short += 1;
    expect(short / runs).toBeCloseTo(count.value.chanceShort, 1);
    expect(Math.abs(short / runs - count.value.chanceShort)).toBeLessThan(0.01);
  });
  it('never rises with another bag, and the quoted number is the lowest that suffices', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 0.3, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (likelyM3, spread, percentile) => {
          const count = bagCount({ likelyM3, sdM3: likelyM3 * spread }, { likelyM3: 0.0127, sdShare: 0.04 }, 0.05, percentile);
          if (!count.ok) throw new Error(count.problem);
          const { curve, quotedBags, chanceShort } = count.value;
          for (const [i, point] of curve.entries()) if (i > 0) expect(point.chance).toBeLessThanOrEqual((curve[i - 1]?.chance ?? 1) + 1e-9);
          expect(chanceShort).toBeLessThanOrEqual(1 - percentile + 1e-9);
          const oneLess = bagCount({ likelyM3, sdM3: likelyM3 * spread }, { likelyM3: 0.0127, sdShare: 0.04 }, 0.05, 0.5);
          expect(oneLess.ok && oneLess.value.quotedBags).toBeLessThanOrEqual(quotedBags);
        },
      ),
      { numRuns: 200 },
    );
  });
});

describe('weight added', () => {
  it('is 10.417 lb/sq ft an inch at 125 lb/cu ft, 2.002 kg/m² a millimeter (V9)', () => {
    const density = WEIGHT.lbCuFt * lbCuFt;
    const inch = addedWeight({
      depths: { meanM: IN_M, mostM: 2 * IN_M },
      densityKgM3: density,
      areaM2: 10,
      removed: [],
      laid: [],
      allowedPa: null,
    });
    expect((inch.meanKgM2 / LB_KG) * SQ_FT_M2).toBeCloseTo(WEIGHT.psfPerInch, 3);
    expect(density / 1000).toBeCloseTo(WEIGHT.kgM2PerMm, 3);
  });
  it('is 36 psf for 3 in of concrete at 12 psf an inch (V10)', () => {
    const density = (WEIGHT.concretePsfPerInch * 12 * LB_KG) / CU_FT_M3;
    const slab = addedWeight({
      depths: { meanM: WEIGHT.slabInches * IN_M, mostM: WEIGHT.slabInches * IN_M },
      densityKgM3: density,
      areaM2: 1,
      removed: [],
      laid: [],
      allowedPa: null,
    });
    expect((slab.meanKgM2 / LB_KG) * SQ_FT_M2).toBeCloseTo(WEIGHT.slabPsf, 9);
  });
  it('over its allowance at the deepest place is reported', () => {
    const over = addedWeight({
      depths: { meanM: 0.01, mostM: 0.03 },
      densityKgM3: 2000,
      areaM2: 1,
      removed: [],
      laid: [],
      allowedPa: 400,
    });
    expect(over.within).toBe(false);
    expect(
      addedWeight({ depths: { meanM: 0.01, mostM: 0.02 }, densityKgM3: 2000, areaM2: 1, removed: [], laid: [], allowedPa: 400 }).within,
    ).toBe(true);
  });

  it('counts at the deepest place only layers removed over the whole room', () => {
    // A room of 200 sq ft, 1 1/4 in. at its deepest at 125 lb/cu ft: 13.0 psf there, whatever came out of the other half.
    const psf = (pa: number): number => ((pa / 9.80665) * SQ_FT_M2) / LB_KG;
    const screed = (areaM2: number, thicknessM: number | null = 1.25 * IN_M) => ({ material: 'screed', thicknessM, areaM2 }) as const;
    const of = (removed: readonly RoomLayer[], allowedPsf = 10) =>
      addedWeight({
        depths: { meanM: 0.5 * IN_M, mostM: 1.25 * IN_M },
        densityKgM3: WEIGHT.lbCuFt * lbCuFt,
        areaM2: 200 * SQ_FT_M2,
        removed,
        laid: [],
        allowedPa: (allowedPsf * LB_KG * 9.80665) / SQ_FT_M2,
      });
    const [half, whole] = [of([screed(100 * SQ_FT_M2)]), of([screed(200 * SQ_FT_M2)])];
    expect(psf(half.deepestPa)).toBeCloseTo(WEIGHT.psfPerInch * 1.25, 2);
    expect(half.within).toBe(false);
    expect(half.removedKgM2).toBeCloseTo(whole.removedKgM2 / 2, 9);
    expect(whole.within).toBe(true);
    expect(whole.removedAllOverKgM2).toBe(whole.removedKgM2);
    // Not measured, not counted.
    expect(of([screed(200 * SQ_FT_M2, null)]).deepestPa).toBe(of([]).deepestPa);
  });

  // Common practice, no source: a few coats of paint are some hundredths of an inch, and weigh a few pounds on 72 sq ft.
  it('takes a coat, adhesive or felt that was not measured for thin, and any other layer for 6 mm', () => {
    const pounds = (material: RoomLayer['material']): number => layerMassKg({ material, thicknessM: null, areaM2: 72 * SQ_FT_M2 }) / LB_KG;
    expect(pounds('paint-or-sealer')).toBeGreaterThan(2);
    expect(pounds('paint-or-sealer')).toBeLessThan(10);
    for (const thin of ['adhesive-cutback', 'adhesive-other', 'adhesive-unknown', 'underlay-felt'] as const)
      expect(pounds(thin)).toBeLessThan(25);
    expect(pounds('thinset')).toBeGreaterThan(100);
  });
});
