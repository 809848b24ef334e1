import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { materialSchema, type Material, type PowderSheet } from '../../../shared-core/book/material.ts';
import { containersFor } from '../../../shared-core/material/containers.ts';
import { contradictions } from '../../../shared-core/material/contradictions.ts';
import { hasAggregate, liftDepthM, planLifts } from '../../../shared-core/material/lifts.ts';
import { primerNeed } from '../../../shared-core/material/primer.ts';
import { checkWater, effectiveSheet } from '../../../shared-core/material/sheet.ts';
import { waterPlan } from '../../../shared-core/material/water.ts';
import { shoppingCsv } from '../../../shared-core/documents/lists/shopping-csv.ts';
import { csvCell } from '../../../shared-core/table/csv.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { CU_FT_M3, IN_M, LB_KG } from '../../reference/material-facts.ts';

it('typical prices count from the day of the business, which in the evening is not yet the day of UTC', () => {
  // 9:40 pm in New York, UTC minus five hours (IANA time zone database).
  const [sheet] = typicalMaterials(typicalId, '2026-12-10T02:40:00.000Z', 'America/New_York');
  expect(sheet?.prices).toMatchObject([{ from: '2026-12-09' }]);
});

const sheets = typicalMaterials(typicalId, '2026-05-12T00:00:00.000Z', 'UTC');
const sheet = (slug: string): Material => {
  const found = sheets.find((m) => m.id === typicalId(slug));
  if (found === undefined) throw new Error(slug);
  return found;
};
const fine = sheet('underlayment-fine');
const changed = (powder: Partial<PowderSheet>): Material => {
  if (fine.powder === null) throw new Error('no powder');
  return { ...fine, powder: { ...fine.powder, ...powder } };
};
const read = (material: Material) => {
  const result = effectiveSheet(material);
  if (!result.ok) throw new Error(result.problem.kind);
  return result.value;
};

describe('typical data sheets', () => {
  it('are complete records, all marked typical, and none contradicts itself', () => {
    expect(new Set(sheets.map((m) => m.id)).size).toBe(sheets.length);
    for (const material of sheets) {
      expect(materialSchema.safeParse(material).success, material.name).toBe(true);
      expect(material.typical).toBe(true);
      expect(contradictions(material), material.name).toEqual([]);
    }
  });
  it('fill gaps of a data sheet with typical figures and say so', () => {
    const silent = read(changed({ workingTimeMin: null, densityFreshKgM3: null }));
    expect(silent.workingTimeMin.source).toBe('typical');
    expect(silent.densityFreshKgM3.source).toBe('typical');
  });
});

describe('a data sheet that contradicts itself', () => {
  it('shows the mass balance and the figures to choose from', () => {
    const [found] = contradictions(changed({ densityFreshKgM3: { value: (125 * LB_KG) / CU_FT_M3, source: 'bag' } }));
    expect(found).toMatchObject({
      kind: 'yield-mass',
      bagKg: expect.closeTo(50 * LB_KG, 9) as number,
      figures: ['yieldM3', 'densityFreshKgM3'],
    });
    expect(found?.choices.map((c) => c.yieldBasis)).toEqual(['sheet', 'mass']);
  });
  it('with a yield of zero, or minimum water above the maximum, stops the estimate', () => {
    expect(contradictions(changed({ yieldM3: { value: 0, source: 'bag' } })).some((c) => c.stops)).toBe(true);
    expect(effectiveSheet(changed({ yieldM3: { value: 0, source: 'bag' } })).ok).toBe(false);
    expect(contradictions(changed({ waterL: { value: { least: 6, most: 5 }, source: 'bag' } }))).toContainEqual({
      kind: 'askew',
      figure: 'waterL',
      figures: ['waterL'],
      choices: [],
      stops: true,
    });
  });
  // Our tolerance, no source: a bucket that is weighed is read to a few percent.
  it('shows a measured yield that is well off the stated one, and not one that is near it', () => {
    const yieldM3 = { value: 0.01275, source: 'bag' } as const;
    const kinds = (measuredYieldM3: number) => contradictions(changed({ yieldM3, measuredYieldM3 })).map(({ kind }) => kind);
    expect(kinds(0.01275 * 0.8)).toContain('yield-measured');
    expect(kinds(0.01275 * 1.2)).toContain('yield-measured');
    expect(kinds(0.01275 * 1.005)).not.toContain('yield-measured');
  });
  it('by designation, by times or by aggregate is reported', () => {
    const keys = (powder: Partial<PowderSheet>) => contradictions(changed(powder)).map((c) => c.kind);
    expect(keys({ enDesignation: 'CT-C22-F5' })).toContain('designation');
    expect(keys({ enDesignation: 'CT-C40-F7' })).toContain('designation-strength');
    expect(keys({ healingMin: { value: { least: 20, most: 40 }, source: 'bag' } })).toContain('healing-flow');
    expect(keys({ aggregateShare: null })).toContain('extended-share');
  });
  it('is reported from the limit on, and not at it', () => {
    const keys = (powder: Partial<PowderSheet>) => contradictions(changed(powder)).map((c) => c.kind);
    const span = (least: number, most: number) => ({ value: { least, most }, source: 'bag' }) as const;
    // Our limits, no source: water of 12 to 36% of the powder; set concrete no more than 2% heavier than fresh.
    const water = (least: number, most: number) =>
      contradictions(changed({ bagKg: { value: 25, source: 'bag' }, waterL: span(least * 25, most * 25) })).find(
        (c) => c.kind === 'water-share',
      );
    expect([water(0.12, 0.36), water(0.2, 0.24)]).toEqual([undefined, undefined]);
    expect(water(0.119, 0.24)).toMatchObject({ waterL: 0.119 * 25, bagKg: 25 });
    expect(water(0.2, 0.361)).toMatchObject({ waterL: 0.361 * 25, bagKg: 25 });
    const hard = (kgM3: number) =>
      contradictions(changed({ densityFreshKgM3: { value: 2000, source: 'bag' }, densityHardKgM3: { value: kgM3, source: 'bag' } }));
    expect(hard(2040).map((c) => c.kind)).not.toContain('hard-fresh');
    expect(hard(2041)).toContainEqual(expect.objectContaining({ kind: 'hard-fresh', hardKgM3: 2041, freshKgM3: 2000 }));
    expect(keys({ densityFreshKgM3: { value: 2000, source: 'bag' }, densityHardKgM3: null })).not.toContain('hard-fresh');
    // Nothing can be mixed for as long as it flows, and healing ends with the flow.
    const flow = { workingTimeMin: span(12, 20) };
    expect(keys({ ...flow, healingMin: span(5, 20), mixMinutes: span(2, 11.9) })).not.toEqual(expect.arrayContaining(['healing-flow']));
    expect(keys({ ...flow, mixMinutes: span(2, 11.9) })).not.toContain('mix-flow');
    expect(keys({ ...flow, mixMinutes: span(2, 12) })).toContain('mix-flow');
    expect(keys({ ...flow, healingMin: span(5, 20.1) })).toContain('healing-flow');
  });
  it('is not compared with a density that is not entered', () => {
    for (const densityFreshKgM3 of [null, { value: 0, source: 'bag' as const }])
      expect(contradictions(changed({ densityFreshKgM3 })).map((c) => c.kind)).not.toContain('yield-mass');
  });
  it('refuses more water than the data sheet allows', () => {
    const most = read(fine).waterL.value.most;
    expect(checkWater(read(fine), most)).toBeNull();
    expect(checkWater(read(fine), most + 0.1)).toEqual({ kind: 'too-much', waterL: most + 0.1, limitL: most });
    expect(checkWater(read(fine), 0)).toMatchObject({ kind: 'too-little', limitL: read(fine).waterL.value.least });
  });
});

describe('lifts', () => {
  const depths = (least: number, most: number) => ({ leastM: least * IN_M, meanM: ((least + most) / 2) * IN_M, mostM: most * IN_M });
  it('need one up to the maximum lift, and two with a wait above it', () => {
    expect(planLifts(depths(0.25, 1), read(fine), false)).toMatchObject({ count: 1, waitHours: null, notes: [] });
    expect(planLifts(depths(0.25, 1.1), read(fine), false)).toMatchObject({
      count: 2,
      waitHours: { value: { least: 12, most: 16 } },
    });
  });
  it('say what they ask for, and nothing where one lift does', () => {
    const notes = (least: number, most: number, withAggregate: boolean, of: Material = fine) =>
      planLifts(depths(least, most), read(of), withAggregate).notes;
    expect(notes(0.25, 1, false)).toEqual([]);
    expect(notes(0.25, 1.5, false)[0]).toEqual({
      kind: 'several',
      deepestM: expect.closeTo(1.5 * IN_M, 9) as number,
      liftM: expect.closeTo(IN_M, 9) as number,
      count: 2,
    });
    expect(notes(0.75, 1, true)).toEqual([
      {
        kind: 'too-shallow-for-aggregate',
        shallowestM: expect.closeTo(0.75 * IN_M, 9) as number,
        leastM: expect.closeTo(IN_M, 9) as number,
      },
    ]);
    expect(notes(1, 1.5, true).map((note) => note.kind)).toEqual(['aggregate', 'cap']);
    // The cap is not thinner than the data sheet's minimum.
    const thick = changed({ liftM: { value: { least: 0.375 * IN_M, most: IN_M }, source: 'bag' } });
    expect(notes(1.5, 2, true, thick).at(-1)).toEqual({ kind: 'cap', capM: 0.375 * IN_M });
    expect(notes(0.01, 0.5, false)).toMatchObject([{ kind: 'too-thin', shallowestM: expect.closeTo(0.01 * IN_M, 9) as number }]);
    expect(notes(0.25, 0.5, true, changed({ aggregateShare: null }))).toEqual([{ kind: 'no-aggregate' }]);
    expect(planLifts(depths(0, 0), read(fine), false)).toMatchObject({ count: 0, eachMostM: 0, notes: [] });
    expect(planLifts(depths(0.25, 3), read(fine), false)).toMatchObject({ count: 3, eachMostM: expect.closeTo(IN_M, 9) as number });
  });
  // A typical sheet: neat up to 1 in., with aggregate 3/4 to 2 in. Common practice, no source: a cap of 1/4 in. without aggregate.
  it('have aggregate only where it is asked for and the shallowest place takes it and its cap', () => {
    expect(planLifts(depths(1, 3), read(fine), false)).toMatchObject({ count: 3, extended: false });
    expect(planLifts(depths(2.5, 3), read(fine), true)).toMatchObject({
      count: 3,
      extended: true,
      eachMostM: expect.closeTo(1.375 * IN_M, 9) as number,
    });
    expect(planLifts(depths(1, 2.25), read(fine), true)).toMatchObject({ count: 2, extended: true });
    expect(planLifts(depths(0.9, 2.25), read(fine), true)).toMatchObject({ count: 3, extended: false });
  });
  it('fill the deep places first; the cap is the last and goes over all of the floor', () => {
    const lifts = planLifts(depths(3, 4), read(fine), true);
    const inches = (depth: number) => [1, 2, 3].map((lift) => liftDepthM(depth * IN_M, lifts, lift) / IN_M);
    const close = (all: readonly number[]) => all.map((depth) => expect.closeTo(depth, 9) as number);
    expect(lifts.count).toBe(3);
    expect(inches(4)).toEqual(close([1.875, 1.875, 0.25]));
    expect(inches(3)).toEqual(close([0.875, 1.875, 0.25]));
    expect([1, 2, 3].map((lift) => hasAggregate(lifts, lift))).toEqual([true, true, false]);
    const neat = planLifts(depths(0.25, 3), read(fine), false);
    expect([1, 2, 3].map((lift) => liftDepthM(1.5 * IN_M, neat, lift) / IN_M)).toEqual(close([0, 0.5, 1]));
    expect(hasAggregate(neat, 1)).toBe(false);
  });
  // The same sheet. Stones cannot run out to an edge: each lift with them is 3/4 to 2 in. at every place. By hand for 4 in. at most: over a
  // cap of 1/4 in. two lifts, of which the upper leaves the lower no more than 2 in., so 1 3/4 in. at least, and 3/4 in. of the lower.
  it('have aggregate in no lift thinner or thicker than the data sheet allows', () => {
    for (const least of [2.75, 3, 3.5, 4]) {
      const lifts = planLifts(depths(least, 4), read(fine), true);
      expect(lifts).toMatchObject({ count: 3, extended: true });
      for (const depth of [least, (least + 4) / 2, 4])
        for (const lift of [1, 2]) {
          const inches = liftDepthM(depth * IN_M, lifts, lift) / IN_M;
          expect(inches).toBeGreaterThanOrEqual(0.75 - 1e-6);
          expect(inches).toBeLessThanOrEqual(2 + 1e-6);
        }
    }
    const shallow = planLifts(depths(2.7, 4), read(fine), true);
    expect(shallow.extended).toBe(false);
    const needed = shallow.notes.find(({ kind }) => kind === 'too-shallow-for-aggregate');
    expect(needed).toMatchObject({ leastM: expect.closeTo(2.75 * IN_M, 9) as number });
  });
});

describe('water', () => {
  // A typical 50 lb bag yields 0.45 cu ft with 5 qt (4.73 L) of water. Two are 0.9 cu ft or 25.5 L, 85% of a 30 L bucket.
  const planned = (bucketL: number, mixM3: number | null = null) =>
    waterPlan(read(fine), { bags: 7, likelyBags: 5.2, bagsPerBatch: 2, bucketL, mixM3 });
  it('is measured for each batch, the last one short', () => {
    const plan = planned(30);
    expect(plan).toMatchObject({ batches: { likely: 3, all: 4 }, bagsPerBatch: 2, overfilledBucketL: null });
    expect(plan.batchM3 / CU_FT_M3).toBeCloseTo(0.9, 6);
    const { least } = read(fine).waterL.value;
    expect(plan.perBatchL.least).toBeCloseTo(2 * least, 9);
    expect(plan.totalL.least).toBeCloseTo(7 * least, 9);
  });
  it('warns of a bucket that is too small, also for the aggregate', () => {
    expect(planned(29.9).overfilledBucketL).toBe(29.9);
    expect(planned(30, 0.6 * CU_FT_M3).overfilledBucketL).toBe(30);
  });
});

describe('primer and containers', () => {
  it('is calculated by area and coats, diluted as the data sheet says', () => {
    const need = primerNeed(sheet('primer-porous'), 'porous', 30);
    if (!need.ok) throw new Error(need.problem.kind);
    expect(need.value.spreadL).toBeCloseTo((30 * 2) / need.value.coverageM2PerL, 9);
    expect(need.value.neatL * 4).toBeCloseTo(need.value.spreadL, 9);
    expect(primerNeed(sheet('primer-porous'), 'wood', 30)).toMatchObject({ problem: { kind: 'other-substrate', substrate: 'wood' } });
  });
  it('are bought whole', () => {
    expect(containersFor(10, 4)).toBe(3);
    expect(containersFor(12, 4)).toBe(3);
    expect(containersFor(0, 4)).toBe(0);
  });
  it('read back from their CSV with every formula disarmed', () => {
    const item = {
      key: 'k',
      materialId: 'm',
      kind: 'primer' as const,
      name: '=HYPERLINK("x"),"y"',
      need: 1,
      unit: 'L' as const,
      container: 'jug',
      each: 1,
      containers: 1,
      rooms: ['Hall', '@cmd'],
    };
    const back = Papa.parse<string[]>(shoppingCsv({ items: [item], problems: [] }, { units: 'us', locale: 'en-US' }).trimEnd()).data;
    expect(back[1]?.[2]).toBe(`'${item.name}`);
    expect(back[1]?.[4]).toBe('Hall; @cmd');
    expect(back.every((row) => row.length === 5)).toBe(true);
    for (const text of ['+1+1', '-2+3', '\tx', '@a', ' =1']) expect(csvCell(text).replace(/^"/, '')[0]).toBe("'");
    expect(csvCell('-2')).toBe('-2');
  });
});
