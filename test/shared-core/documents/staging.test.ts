import { describe, expect, it } from 'vitest';
import type { PowderSheet } from '../../../shared-core/book/material.ts';
import { clocksAt } from '../../../shared-core/pour/clocks.ts';
import { recipeOf, stagingOf, stopRules } from '../../../shared-core/documents/staging.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import { bay, laidOut, rectangle } from '../pour/floors.ts';

const typical = <T>(value: T) => ({ value, source: 'typical' as const });
const sheet: PowderSheet = {
  bagKg: typical(22.7),
  yieldM3: typical(0.0127),
  yieldBasis: 'sheet',
  measuredYieldM3: null,
  waterL: typical({ least: 4.5, most: 5 }),
  mixMinutes: typical({ least: 2, most: 3 }),
  workingTimeMin: null,
  healingMin: null,
  liftM: typical({ least: 0.003, most: 0.03 }),
  liftExtendedM: null,
  aggregateShare: null,
  densityFreshKgM3: null,
  densityHardKgM3: null,
  roomTempC: typical({ least: 10, most: 30 }),
  referenceTempC: typical(21),
  waterTempC: null,
  leastCureTempC: typical(5),
  strengthPa: null,
  enDesignation: null,
  profileCsp: null,
  bondsTo: [],
  lossShare: typical(0.05),
  shelfMonths: null,
  milestones: [],
  wearsBare: false,
};
// Twelve bags, one per batch.
const layout = laidOut([bay('hall', rectangle(4, 3, 3), 0.0127)], 0.0127);
const METRIC = {
  units: 'metric',
  locale: 'en-US',
  bagsOnSite: 14,
  aggregateKg: 0,
  onJoists: false,
  nothingStuckIn: false,
  onGenerator: false,
} as const;

describe('stagingOf', () => {
  const items = stagingOf(layout, TYPICAL_CREW, sheet, METRIC);
  const wordsOf = (key: string) => items.find((item) => item.key === key)?.words ?? '';

  it('counts bags, stacks and spares', () => {
    expect(wordsOf('bags')).toContain('14 bags in 4 stacks');
    expect(wordsOf('bags')).toContain('2 more than the 12 planned');
  });

  it('says how many bags are missing', () => {
    expect(stagingOf(layout, TYPICAL_CREW, sheet, { ...METRIC, bagsOnSite: 10 })[0]?.words).toContain('2 short of the 12 planned');
    const exact = stagingOf(layout, TYPICAL_CREW, sheet, { ...METRIC, bagsOnSite: 12 })[0]?.words ?? '';
    expect(exact).toContain('12 bags in 3 stacks of up to 4 beside the mixers. Total');
    expect(exact).not.toContain('planned');
  });

  it('counts buckets, water and cart trips', () => {
    expect(items.find((item) => item.key === 'water')?.count).toBe(6);
    // Water for all fourteen bags on site, 5 L each.
    expect(wordsOf('water')).toContain('70 L');
    // Five, five and two.
    expect(items.find((item) => item.key === 'cart')?.count).toBe(3);
  });

  it('has one of a thing in the singular', () => {
    const crew = { ...TYPICAL_CREW, cartBatches: 1, mixers: 1 };
    const words = (bagsOnSite: number, of = layout) => stagingOf(of, crew, sheet, { ...METRIC, bagsOnSite }).map((item) => item.words);
    expect(words(1)[0]).toMatch(/^1 bag in 1 stack of /);
    expect(words(14).find((text) => text.startsWith('Cart:'))).toMatch(/^Cart: 12 trips of up to 1 batch, /);
    const small = laidOut([bay('closet', rectangle(4, 3, 3), 0.0127)], 1);
    expect(small.batches).toHaveLength(1);
    expect(words(1, small).find((text) => text.includes('measured water'))).toMatch(/^1 bucket of measured water/);
    expect(words(1, small).find((text) => text.startsWith('Cart:'))).toMatch(/^Cart: 1 trip of up to 1 batch, /);
  });

  // Common practice, no source: metal spikes cut mats and tubing.
  it('has no spikes where nothing is stuck into the floor', () => {
    const tools =
      stagingOf(layout, TYPICAL_CREW, sheet, { ...METRIC, nothingStuckIn: true }).find((item) => item.key === 'tools')?.words ?? '';
    expect(wordsOf('tools')).toMatch(/spiked shoes.*Spiked roller/);
    expect(tools).not.toMatch(/spiked/i);
    expect(tools).toContain('No metal spikes');
  });

  it('requires GFCI circuits, and no cart where there is none', () => {
    expect(wordsOf('power')).toContain('its own GFCI circuit');
    expect(stagingOf(layout, { ...TYPICAL_CREW, carry: 'by-hand' }, sheet, METRIC).some((item) => item.key === 'cart')).toBe(false);
  });
});

describe('recipeOf', () => {
  it('multiplies bag and water by the bags in a batch', () => {
    const recipe = recipeOf({ ...TYPICAL_CREW, bagsPerBatch: 2 }, sheet, METRIC);
    expect(recipe).toMatchObject({ bags: 2, waterMost: '10 L' });
    expect(recipe.words).toContain('Never add more water');
    expect(recipe.words).not.toContain('aggregate');
  });

  // NIST Handbook 44, appendix C: a quart is 0.946352946 L. 4 to 4.5 qt a bag are 8 to 9 qt for two, and 4.968 L are not 5 L.
  it('prints no limit of the water rounded past itself, and quarts as a bucket is marked', () => {
    const recipe = (least: number, most: number, bags: number, units: 'us' | 'metric') =>
      recipeOf(
        { ...TYPICAL_CREW, bagsPerBatch: bags },
        { ...sheet, waterL: { value: { least, most }, source: 'bag' } },
        { ...METRIC, units },
      );
    const deep = recipe(4 * 0.946352946, 4.5 * 0.946352946, 2, 'us');
    expect([deep.waterMost, deep.words.split(' of water')[0]]).toEqual(['9 qt', '8 qt to 9 qt']);
    expect(recipe(4.737, 4.968, 1, 'metric').words).toMatch(/^4\.74 L to 4\.96 L of water first/);
    expect(recipe(4.9, 4.9, 1, 'metric').words).toMatch(/^4\.9 L of water first/);
    for (const most of [6.25, 5.05, 6.35, 5.678]) {
      for (const bags of [1, 2, 3]) {
        expect(Number.parseFloat(recipe(4.7, most, bags, 'metric').waterMost)).toBeLessThanOrEqual(most * bags + 1e-9);
        expect(Number.parseFloat(recipe(4.7, most, bags, 'us').waterMost) * 0.946352946).toBeLessThanOrEqual(most * bags + 1e-9);
      }
    }
  });

  // By hand: 10 kg in each of 2 bags; a cart of 5 batches holds 10 bags of 22.7 kg, 5 L of water and 10 kg: 377 kg.
  it('adds the aggregate to the batch, to what is staged and to the weight of the cart', () => {
    const crew = { ...TYPICAL_CREW, bagsPerBatch: 2, cartBatches: 5 };
    const choice = { ...METRIC, aggregateKg: 10 };
    expect(recipeOf(crew, sheet, choice).words).toContain('Then 20 kg of aggregate.');
    const items = stagingOf(layout, crew, sheet, choice);
    expect(items.find(({ key }) => key === 'aggregate')?.words).toBe('140 kg of washed, dry aggregate, weighed out 20 kg per batch.');
    expect(items.find(({ key }) => key === 'cart')?.words).toContain('377 kg per full load');
    // A sieve would hold the aggregate back.
    const toolsOf = (of: typeof items) => of.find(({ key }) => key === 'tools')?.words;
    expect(toolsOf(items)).not.toMatch(/sieve/i);
    expect(toolsOf(stagingOf(layout, crew, sheet, METRIC))).toContain('Sieve');
  });
});

describe('stopRules', () => {
  it('state working time and healing time, with typical ones marked', () => {
    const rules = stopRules(clocksAt(null, 21.1), false).join(' ');
    expect(rules).toContain('A batch is over 15 min old (typical)');
    expect(rules).toContain('A wet edge is close to 8 min old (typical)');
  });
});
