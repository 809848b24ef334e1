import { describe, expect, it } from 'vitest';
import { SQUARE_FOOT_M2 } from '../../../shared-core/measure/area.ts';
import { type NeedInput, testNeeds } from '../../../shared-core/substrate/test-needs.ts';
import { layer, NOW, test } from './a-floor.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import type { FloorTest, Layer } from '../../../shared-core/book/layer.ts';

type NeedId = ReturnType<typeof testNeeds>[number]['id'];

const CONTEXT = { depth: wordingFor('us', 'en-US').depth, pullOffLeastPa: 1.4e6 };
const slab = layer('concrete-on-ground');
const boards = layer('plywood');
const joists = layer('joists');
const limitOf = (value: number | null) => (value === null ? null : { value, source: 'the data sheet' });
/** Only whether a method has a limit is read here. */
const limitsOf = (slabHumidity: number | null, emissionLb: number | null) =>
  ({ slabHumidity: limitOf(slabHumidity), emissionLb: limitOf(emissionLb) }) as unknown as NeedInput['limits'];
const input = (change: Partial<NeedInput>): NeedInput => ({
  kept: [slab],
  layers: [slab],
  tests: [],
  areaM2: 12,
  exposed: [{ layer: slab }],
  isWoodFramed: false,
  limits: limitsOf(0.75, 3),
  product: null,
  hasMoistureSystem: false,
  now: NOW,
  ...change,
});
const needOf = (id: NeedId, change: Partial<NeedInput>) => testNeeds(input(change), CONTEXT).find((need) => need.id === id);
const ids = (change: Partial<NeedInput>) => testNeeds(input(change), CONTEXT).map((need) => need.id);
const DAY_MS = 86_400_000;
const daysAgo = (days: number): string => new Date(Date.parse(NOW) - days * DAY_MS).toISOString();
const holes = (count: number, takenAt?: string): FloorTest[] =>
  Array.from({ length: count }, (_, i) => test.humidity({ id: `rh-${i}`, ...(takenAt === undefined ? {} : { takenAt }) }));

describe('the tests a floor needs', () => {
  it('are those of a slab, of a wood floor, and of one whose structure is not listed', () => {
    expect(ids({})).toEqual(['slab-moisture', 'absorption', 'surface-strength', 'surface-look', 'air']);
    expect(ids({ kept: [boards, joists], layers: [boards, joists], exposed: [{ layer: boards }], isWoodFramed: true })).toEqual([
      'wood-boards',
      'wood-structure',
      'surface-look',
      'deflection',
      'air',
    ]);
    // ASTM F2170 is for concrete slabs; a mortar bed on wood framing is none.
    const bed = layer('screed');
    const bedOver = (...under: Layer[]) => ids({ kept: [bed, ...under], layers: [bed, ...under], exposed: [{ layer: bed }] });
    expect(bedOver(boards, joists)).not.toContain('slab-moisture');
    expect(ids({ kept: [boards, bed], layers: [boards, bed], isWoodFramed: true })).toContain('slab-moisture');
    expect(bedOver()).toContain('slab-moisture');
    expect(bedOver(layer('concrete-suspended'))).toContain('slab-moisture');
    expect(ids({ kept: [joists], layers: [joists], exposed: [], isWoodFramed: true })).toEqual(['wood-structure', 'deflection', 'air']);
    expect(ids({ exposed: [{ layer: layer('gypsum') }], kept: [layer('gypsum'), joists] })).toContain('absorption');
    expect(ids({ exposed: [{ layer: layer('ceramic-tile') }], kept: [layer('ceramic-tile'), slab] })).not.toContain('absorption');
  });

  it('ask for no moisture test of a slab where nothing limits it, and for one where either method has a limit', () => {
    expect(ids({ limits: limitsOf(null, null) })).not.toContain('slab-moisture');
    expect(ids({ limits: limitsOf(0.75, null) })).toContain('slab-moisture');
    expect(ids({ limits: limitsOf(null, 3) })).toContain('slab-moisture');
  });

  // ASTM F2170 and F1869 count by the area tested (second-hand).
  it('count the slab tests of all rooms on it, of which each has one', () => {
    const rooms = (...have: number[]) => ({ rooms: have.map((count) => ({ areaM2: 12, layers: [slab], tests: holes(count) })), place: 0 });
    const of = (...have: number[]) => needOf('slab-moisture', { tests: holes(have[0] ?? 0), slab: rooms(...have) });
    expect(of(0, 0, 0, 0, 0)).toMatchObject({ wanted: 3, have: 0, toMake: 1, rooms: 5, state: 'missing' });
    expect(of(1, 0, 0)).toMatchObject({ have: 1, toMake: 0, state: 'few' });
    expect(of(1, 1, 1, 0, 0)).toMatchObject({ have: 3, toMake: 0, state: 'enough' });
    expect(of(0, 1, 1, 1, 0)).toMatchObject({ have: 3, toMake: 1, state: 'missing' });
    expect(of(0)).toMatchObject({ have: 0, toMake: 3, rooms: 1 });
    const old = holes(1, daysAgo(40));
    expect(
      needOf('slab-moisture', {
        tests: holes(1),
        slab: {
          rooms: [
            { areaM2: 12, layers: [slab], tests: holes(1) },
            { areaM2: 12, layers: [slab], tests: old },
          ],
          place: 0,
        },
      }),
    ).toMatchObject({ have: 1, toMake: 1 });
  });

  // ASTM F2170 and F1869: three in the first 1,000 sq ft, one more for each 1,000 sq ft begun. NWFA: 20 readings in 1,000 sq ft.
  it.each([
    [null, 3, 3],
    [1000, 3, 20],
    [1001, 4, 21],
    [2000, 4, 40],
    [3500, 6, 70],
  ])('in %s sq ft are %s moisture tests of a slab, and %s readings of a wood subfloor', (ft2, ofSlab, ofBoards) => {
    const areaM2 = ft2 === null ? null : ft2 * SQUARE_FOOT_M2;
    expect(needOf('slab-moisture', { areaM2 })?.wanted).toBe(ofSlab);
    expect(needOf('wood-boards', { areaM2, kept: [boards, joists], layers: [boards, joists], exposed: [{ layer: boards }] })?.wanted).toBe(
      ofBoards,
    );
  });

  it('are missing, few, enough or stale by what was made', () => {
    const state = (tests: FloorTest[]) => {
      const need = needOf('slab-moisture', { tests });
      return [need?.state, need?.have];
    };
    expect(state([])).toEqual(['missing', 0]);
    expect(state(holes(2))).toEqual(['few', 2]);
    expect(state(holes(3))).toEqual(['enough', 3]);
    // Common practice, no source: a moisture test is good for 30 days.
    expect(state(holes(3, daysAgo(30)))).toEqual(['enough', 3]);
    expect(state(holes(3, daysAgo(30.01)))).toEqual(['stale', 0]);
  });

  // ASTM F2170 and F1869, second-hand: three in the first 1,000 sq ft by each method, so two by one and one by the other are not three.
  it('count the moisture tests of a slab by one method, not the sum of both', () => {
    const dishes = (count: number): FloorTest[] => Array.from({ length: count }, (_, i) => test.dish({ id: `dish-${i}` }));
    expect(needOf('slab-moisture', { tests: [...holes(2), ...dishes(1)] })).toMatchObject({ have: 2, state: 'few' });
    expect(needOf('slab-moisture', { tests: [...holes(1), ...dishes(3)] })).toMatchObject({ have: 3, state: 'enough' });
    expect(needOf('slab-moisture', { tests: [...holes(3), ...dishes(1)] })).toMatchObject({ have: 3, state: 'enough' });
  });

  it('do not count a moisture test that no limit of the flooring can be compared with, and say so', () => {
    const dishes = [test.dish({ id: 'dish-1' }), test.dish({ id: 'dish-2' }), test.dish({ id: 'dish-3' })];
    const byHumidity = needOf('slab-moisture', { limits: limitsOf(0.85, null), tests: dishes });
    expect(byHumidity).toMatchObject({ state: 'missing', have: 0, accepts: ['slab-humidity'], lifts: 'room.tests.slab-humidity' });
    expect(byHumidity?.refused.map(({ testId, why }) => [testId, why.includes('no MVER limit')])).toEqual([
      ['dish-1', true],
      ['dish-2', true],
      ['dish-3', true],
    ]);
    const byEmission = needOf('slab-moisture', { limits: limitsOf(null, 3), tests: holes(3) });
    expect(byEmission).toMatchObject({ state: 'missing', have: 0, accepts: ['moisture-dish'], lifts: 'room.tests.moisture-dish' });
    expect(byEmission?.refused[0]?.why).toContain('no RH limit');
    expect(needOf('slab-moisture', { limits: limitsOf(0.85, null), tests: [...holes(3), ...dishes] })).toMatchObject({ state: 'enough' });
  });

  // Common practice, no source: an underlayment bonds to no slab over the limit of its own data sheet, whatever covers it.
  it('include slab moisture for the limit of the underlayment where the flooring has none, unless a system blocks the moisture', () => {
    const own = (rh: number | null, lb: number | null) => {
      const figure = (value: number | null) => (value === null ? null : { value, source: 'bag' as const });
      return { limits: limitsOf(null, null), product: { powder: { slabHumidityMost: figure(rh), emissionMostLb: figure(lb) } } };
    };
    expect(needOf('slab-moisture', own(0.8, 5))).toMatchObject({
      state: 'missing',
      wanted: 3,
      accepts: ['slab-humidity', 'moisture-dish'],
    });
    expect(needOf('slab-moisture', { ...own(0.8, null), tests: [test.dish()] })).toMatchObject({
      accepts: ['slab-humidity'],
      refused: [{ why: expect.stringContaining('This underlayment has no MVER limit') }],
    });
    expect(needOf('slab-moisture', { ...own(0.8, 5), tests: holes(3) })?.state).toBe('enough');
    expect(ids(own(null, null))).not.toContain('slab-moisture');
    expect(ids({ ...own(0.8, 5), hasMoistureSystem: true })).not.toContain('slab-moisture');
    // A mortar bed on wood is no slab.
    const bed = layer('screed');
    expect(ids({ ...own(0.8, 5), kept: [bed, boards, joists], exposed: [{ layer: bed }] })).not.toContain('slab-moisture');
    // The flooring's own limits decide which tests count.
    expect(needOf('slab-moisture', { ...own(0.8, 5), limits: limitsOf(0.85, null) })?.accepts).toEqual(['slab-humidity']);
  });

  it('count every reading of one wood test, of the part it was made on', () => {
    const floor = { kept: [boards, joists], layers: [boards, joists], exposed: [{ layer: boards }], isWoodFramed: true };
    const tests = [test.wood('boards', [0.1, 0.1, 0.1]), test.wood('structure', [0.1])];
    expect(needOf('wood-boards', { ...floor, tests })).toMatchObject({ have: 3, state: 'enough' });
    expect(needOf('wood-structure', { ...floor, tests })).toMatchObject({ have: 1, state: 'few' });
  });

  it('name the readings that do not count, and why', () => {
    const tests = [test.drop('drop1'), { ...test.drop('drop2', null), watchedSeconds: 20 }];
    expect(needOf('absorption', { tests })).toMatchObject({
      have: 1,
      state: 'few',
      refused: [{ testId: 'drop2', why: 'The drop was watched for less than a minute.' }],
    });
  });

  it('leave the air to the day of the pour, and nothing else', () => {
    expect(testNeeds(input({}), CONTEXT).flatMap((need) => (need.onTheDay ? [need.id] : []))).toEqual(['air']);
  });
});
