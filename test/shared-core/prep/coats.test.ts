import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import type { TestOf } from '../../../shared-core/book/tests-of.ts';
import { paintAreasM2 } from '../../../shared-core/prep/items-surface.ts';
import { hoursFor } from '../../../shared-core/prep/task-hours.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { BOARDS, layer, LEFT_HALF, mark, RIGHT_HALF, SLAB, test, withTests } from '../substrate/a-floor.ts';
import { heldBy, inputOf, line, listOf } from './prep-lines.ts';

const PAINT = layer('paint-or-sealer', { id: 'p', yearInstalled: 2005 });
const tile = (yearInstalled: number, change: Partial<Layer> = {}): Layer =>
  layer('resilient-tile', { id: 'tile', yearInstalled, ...change });
type Lab = Pick<TestOf<'lab'>, 'layerId' | 'state'>;
/** A slab of 1998 under some layers, with looks and lab results. */
const over = (layers: readonly Layer[], is: TestOf<'surface-look'>['is'] = ['sound-clean'], ...labs: readonly Lab[]): FloorInput => {
  const floor = withTests({ ...SLAB, layers: [...layers, ...SLAB.layers] }, test.look(is));
  return { ...floor, tests: [...floor.tests, ...labs.map((lab) => test.lab({ id: `lab-${lab.layerId}`, ...lab }))] };
};
const FOUND: Lab = { layerId: 'tile', state: 'found' };
const of = (floor: FloorInput, key: string) => listOf(floor).filter((item) => item.key === key || item.key.startsWith(`${key}:`));
const doesOf = (floor: FloorInput, ruleId: string) => inputOf(floor).findings.find((one) => one.ruleId === ruleId);

// 29 CFR 1926.1101(l)(3): flooring with asbestos is not sanded; its finish comes off wet, with low-abrasion pads under 300 rpm. Common
// practice, no source, for other resilient flooring.
describe('paint over resilient tile', () => {
  it.each(['keep', 'remove'] as const)('is stripped wet and never ground (%s)', (fate) => {
    const floor = over([{ ...PAINT, fate }, tile(2005)], ['painted']);
    expect(of(floor, 'remove:p')).toMatchObject([
      {
        what: 'Strip the paint or sealer off the resilient tile wet with a low-abrasion pad, rinse, let it dry, and test the bond of the primer',
        who: 'own-crew',
        tasks: ['disturb-paint'],
        cautions: [],
        dust: null,
        hours: null,
      },
    ]);
    expect(heldBy(floor, 'remove:p')).toEqual([]);
    // The grinding rate prices none of it.
    expect(paintAreasM2(listOf(floor), { ...PAINT, fate }).machined).toBe(0);
  });

  it('has no second line for the paint that was seen, and is not ground by its finding', () => {
    const floor = over([PAINT, tile(2005)], ['painted']);
    expect(of(floor, 'clean')).toEqual([]);
    expect(doesOf(floor, 'paint-stays')).toMatchObject({
      does: ['disturb-paint'],
      text: expect.stringMatching(/Strip it wet off the resilient tile: never sand or grind there\.$/),
    });
  });

  it('is left to a licensed abatement contractor where the tile may contain asbestos', () => {
    for (const labs of [[], [FOUND]]) {
      const floor = over([PAINT, tile(1965)], ['painted'], ...labs);
      expect(of(floor, 'remove:p')).toMatchObject([
        {
          what: expect.stringMatching(/^Strip the paint or sealer off the resilient tile wet with a low-abrasion pad under 300 rpm/),
          who: 'licensed-only',
          tasks: ['disturb-paint'],
          cautions: [labs.length === 0 ? 'asbestos' : 'asbestos-found'],
        },
      ]);
      expect(of(floor, 'clean')).toEqual([]);
      // No drop and no scratch on the tile: the bond of the primer is tested instead.
      expect(of(floor, 'retest')).toEqual([]);
      expect(line(listOf(floor), 'bond-test')?.who).toBe('own-crew');
    }
  });

  // Common practice, no source: nothing of a layer is disturbed while its sample is at the lab.
  it('waits for the lab where the paint itself is sampled', () => {
    const floor = over([PAINT, tile(2005)], ['painted'], { layerId: 'p', state: 'sent' });
    expect(heldBy(floor, 'remove:p')).toEqual(['asbestos-pending']);
  });

  it('is ground off the slab beside the tile alone, each part with its own area', () => {
    const floor = over([PAINT, tile(2005, { area: LEFT_HALF })], ['painted']);
    expect(of(floor, 'remove:p')).toMatchObject([
      { key: 'remove:p', what: expect.stringMatching(/^Grind off .*, only on the slab on grade$/), amount: { value: 6 } },
      { key: 'remove:p:strip', what: expect.stringMatching(/^Strip the .* off the resilient tile wet/), amount: { value: 6 } },
    ]);
    expect(paintAreasM2(listOf(floor), PAINT).machined).toBeCloseTo(6, 9);
  });
});

// Common practice, no source: paint on a layer that comes out leaves with it.
describe('paint over a layer that is removed', () => {
  const both = ['keep', 'remove'] as const;
  it.each(both)('leaves with that layer (%s)', (fate) => {
    for (const year of [2005, 1965]) {
      const floor = over([{ ...PAINT, fate }, tile(year, { fate: 'remove' })]);
      expect(of(floor, 'remove:p')).toEqual([]);
      expect(line(listOf(floor), 'remove:tile')?.tasks).toEqual(['lift-out', 'disturb-paint']);
      expect(paintAreasM2(listOf(floor), { ...PAINT, fate }).machined).toBe(0);
    }
  });

  it('is not ground by its finding', () => {
    expect(doesOf(over([PAINT, tile(2005, { fate: 'remove' })]), 'paint-stays')).toMatchObject({
      does: [],
      text: 'Underlayment bonds no better than the paint or sealer under it. It leaves with the resilient tile under it.',
    });
  });

  it.each(both)('is ground only off the half that stays (%s)', (fate) => {
    const floor = over([{ ...PAINT, fate }, tile(2005, { fate: 'remove', area: LEFT_HALF })]);
    expect(of(floor, 'remove:p')).toMatchObject([
      { what: expect.stringMatching(/^Grind off .*, only on the slab on grade$/), amount: { value: 6 } },
    ]);
    expect(paintAreasM2(listOf(floor), PAINT).machined).toBeCloseTo(6, 9);
  });

  // 40 CFR 745.83: paint of a house built before 1978 counts as lead paint. 29 CFR 1926.1101: a sample at the lab comes first.
  it('brings its lead and its sample to the line of that layer', () => {
    const floor = over([{ ...PAINT, yearInstalled: 1960 }, tile(2005, { fate: 'remove' })], ['sound-clean'], {
      layerId: 'p',
      state: 'sent',
    });
    const out = line(listOf({ ...floor, yearBuilt: 1960 }), 'remove:tile');
    expect(out?.what).toBe('Remove the resilient tile, after a lab sample shows no asbestos');
    expect(out?.cautions).toEqual(['asbestos', 'lead']);
  });
});

// Common practice, no source: paint under a layer that comes out is what is on top then, and comes off too.
describe('paint under a layer that is removed with the paint on it', () => {
  const both = ['keep', 'remove'] as const;
  const LOWER = { ...PAINT, id: 'lower' };
  const areas = [null, LEFT_HALF] as const;
  it.each(both.flatMap((fate) => areas.map((area) => [fate, area] as const)))('is ground off the slab (%s, %j)', (fate, area) => {
    const floor = over([{ ...PAINT, fate, area }, tile(2005, { fate: 'remove', area }), LOWER]);
    expect(of(floor, 'remove:p')).toEqual([]);
    expect(of(floor, 'remove:lower')).toMatchObject([
      { what: 'Grind off the paint or sealer down to the bare substrate', amount: { value: 12 } },
    ]);
    expect(paintAreasM2(listOf(floor), LOWER).machined).toBeCloseTo(12, 9);
    const findings = inputOf(floor).findings.filter(({ ruleId }) => ruleId === 'paint-stays');
    expect(findings.find(({ key }) => key === 'paint-stays:lower')?.does).toEqual(['grind', 'disturb-paint']);
  });

  it('counts once where both lie on what stays', () => {
    expect(of(over([PAINT, LOWER]), 'remove')).toHaveLength(1);
  });

  // 40 CFR 745.85: paint of a house built before 1978 is not sanded before a test.
  it('is sanded off wood, and waits for the test of its lead', () => {
    const layers = [PAINT, layer('plywood', { fate: 'remove' }), { ...LOWER, yearInstalled: 1950 }, layer('boards'), layer('joists')];
    const floor = { ...BOARDS, yearBuilt: 1950, layers };
    expect(of(floor, 'remove:lower')).toMatchObject([{ tasks: ['sand', 'disturb-paint'], cautions: ['lead', 'wood-dust'] }]);
    expect(heldBy(floor, 'remove:lower')).toEqual(['lead-floor']);
  });
});

// 29 CFR 1926.1101: what contains asbestos is left in place or abated.
it('paint with asbestos that stays has one finding, which asks for no work on it', () => {
  const floor = over([PAINT], ['sound-clean'], { layerId: 'p', state: 'found' });
  const rules = inputOf(floor).findings.map(({ ruleId }) => ruleId);
  expect(rules).toContain('asbestos-found-stays');
  expect(rules).not.toContain('paint-stays');
});

// Common practice, no source: wood is sanded, never ground.
describe('paint over part of a floor', () => {
  const halves = (area: Layer['area']) => over([{ ...PAINT, area }, layer('plywood', { area: LEFT_HALF })]);

  it('comes off by what lies under it', () => {
    expect(of(halves(LEFT_HALF), 'remove:p')).toMatchObject([
      {
        what: 'Sand off the paint or sealer down to the bare substrate',
        tasks: ['sand', 'disturb-paint'],
        cautions: ['wood-dust'],
        dust: null,
      },
    ]);
    expect(of(halves(RIGHT_HALF), 'remove:p')).toMatchObject([
      { what: 'Grind off the paint or sealer down to the bare substrate', tasks: ['grind', 'disturb-paint'], cautions: ['silica'] },
    ]);
    expect(of(halves(null), 'remove:p')).toMatchObject([
      {
        what: 'Grind off the paint or sealer down to the bare substrate. Sand it off the plywood, and do not grind there',
        tasks: ['grind', 'sand', 'disturb-paint'],
        cautions: ['wood-dust', 'silica'],
      },
    ]);
  });

  it('has a finding that asks for the work of its line', () => {
    for (const floor of [halves(LEFT_HALF), halves(RIGHT_HALF), halves(null), { ...BOARDS, layers: [PAINT, ...BOARDS.layers] }])
      expect(doesOf({ ...floor, yearBuilt: 1998 }, 'paint-stays')?.does).toEqual(of(floor, 'remove:p')[0]?.tasks);
  });
});

describe('a surface of which only a part may contain asbestos', () => {
  // 29 CFR 1926.1101(l)(3) for the tile; common practice, no source, for the slab beside it.
  it('has no machine work on the rest, which could not be signed', () => {
    const floor = over([tile(1965, { area: LEFT_HALF })], ['waxed']);
    expect(of(floor, 'clean')).toMatchObject([
      {
        key: 'clean:wet',
        who: 'licensed-only',
        what: expect.stringMatching(/^Strip the resilient tile wet .*300 rpm/),
        amount: { value: 6 },
      },
      {
        key: 'clean:wet:abate',
        who: 'licensed-only',
        what: 'A licensed abatement contractor cleans the slab on grade',
        why: 'nothing bonds to wax, gloss, oil or paint, and no machine runs on a floor that may contain asbestos',
        amount: { value: 6 },
        tasks: [],
        cautions: [],
        hours: null,
      },
    ]);
    // The contractor does not test a primer.
    expect(line(listOf(floor), 'clean:wet')?.what).not.toMatch(/primer/);
    expect(line(listOf(floor), 'bond-test')).toMatchObject({ what: expect.stringMatching(/^Test the bond of the primer/) });
  });

  it('is not cleaned by a contractor where only the paint on it may, or was detected to', () => {
    for (const state of ['sent', 'found'] as const) {
      const floor = over([PAINT], ['painted'], { layerId: 'p', state });
      expect(of(floor, 'clean')).toEqual([]);
      expect(listOf(floor).filter(({ who, phase }) => phase === 'surface' && who === 'licensed-only')).toEqual([]);
    }
  });

  it('has its contaminated places stripped or ground by the part they lie on', () => {
    const on = (points: Layer['area'], layers: readonly Layer[], ...labs: readonly Lab[]) => {
      const floor = { ...over(layers, ['sound-clean'], ...labs), marks: [mark('contaminated', { shape: 'area', points: points ?? [] })] };
      return { floor, lines: of(floor, 'contaminated') };
    };
    const whole = on(LEFT_HALF, [tile(1965)], FOUND);
    expect(whole.lines).toMatchObject([
      {
        what: expect.stringMatching(/^Strip the contaminated places wet with a low-abrasion pad under 300 rpm/),
        who: 'licensed-only',
        tasks: [],
        cautions: ['asbestos-found'],
        dust: null,
        hours: null,
      },
    ]);
    expect(heldBy(whole.floor, 'contaminated')).toEqual([]);
    expect(doesOf(whole.floor, 'contaminated')?.text).toMatch(/only a licensed abatement contractor cleans it\.$/);
    const half = tile(1965, { area: LEFT_HALF });
    expect(on(LEFT_HALF, [half], FOUND).lines).toMatchObject([
      { who: 'licensed-only', what: expect.stringContaining(' on the resilient tile wet') },
    ]);
    const beside = on(RIGHT_HALF, [half], FOUND);
    expect(beside.lines).toMatchObject([
      {
        who: 'licensed-only',
        what: 'A licensed abatement contractor cleans the contaminated places on the slab on grade',
        tasks: [],
        hours: null,
      },
    ]);
    expect(doesOf(beside.floor, 'contaminated')).toMatchObject({ does: [], text: expect.stringMatching(/contractor cleans it\.$/) });
    expect(on(RIGHT_HALF, [layer('plywood', { area: RIGHT_HALF })]).lines).toMatchObject([{ tasks: ['sand'], dust: null }]);
  });

  // By hand: the room is 4 m by 3 m, the place all of it, 6 m² on each half. Common practice, no source: only machine work has hours.
  it('counts a contaminated place once where it lies on two parts', () => {
    const floor = over([tile(2005, { area: LEFT_HALF })]);
    const points = [...LEFT_HALF.slice(0, 1), { xM: 4, yM: 0 }, { xM: 4, yM: 3 }, { xM: 0, yM: 3 }];
    const lines = of({ ...floor, marks: [mark('contaminated', { shape: 'area', points })] }, 'contaminated');
    expect(lines).toMatchObject([
      { key: 'contaminated', amount: { value: 6 }, hours: hoursFor('cleanContaminated', 6) },
      { key: 'contaminated:strip', amount: { value: 6 }, hours: null },
    ]);
  });
});

// 29 CFR 1926.1101(l)(3) for flooring with asbestos that stays. Common practice, no source, for the slab beside it and under it.
describe('cracks and hollow places of a floor where asbestos stays', () => {
  const marks = [mark('hollow', { shape: 'area', points: RIGHT_HALF }), mark('crack')];
  const half = tile(1965, { area: LEFT_HALF });
  /** The screed covers the tile whole. */
  const covered = [layer('screed'), tile(1965)];
  it.each([
    ['beside it', [half]],
    ['over it', covered],
  ])('are opened by no machine of the own crew (%s)', (_where, layers) => {
    const floor = { ...over(layers, ['sound-clean'], FOUND), marks };
    expect(of(floor, 'hollow')).toMatchObject([
      {
        what: 'A licensed abatement contractor opens the hollow places and removes loose material. Patch them after the clearance',
        who: 'licensed-only',
        tasks: [],
        cautions: ['asbestos-found'],
        dust: null,
        hours: null,
      },
    ]);
    expect(of(floor, 'fill-cracks')).toMatchObject([
      {
        what: 'Clean dormant cracks and joints with a HEPA vacuum, and fill them by hand. Do not open or cut them here',
        who: 'own-crew',
        tasks: [],
        cautions: ['asbestos-found'],
        dust: null,
      },
    ]);
    for (const key of ['hollow', 'fill-cracks']) expect(heldBy(floor, key), key).toEqual([]);
    expect(doesOf(floor, 'hollow')).toMatchObject({
      does: [],
      text: expect.stringContaining('Only a licensed abatement contractor opens'),
    });
    expect(doesOf(floor, 'joint-still')).toMatchObject({
      does: [],
      text: expect.stringMatching(/fill it by hand .* Do not open or cut it/),
    });
  });

  it('are opened by the crew where a lab detected none, where the layer comes out, and under paint that comes off', () => {
    const clear = over([half], ['sound-clean'], { layerId: 'tile', state: 'none-found' });
    const out = over([{ ...half, fate: 'remove' }], ['sound-clean'], FOUND);
    const paint = over([PAINT], ['sound-clean'], { layerId: 'p', state: 'sent' });
    for (const floor of [clear, out, paint]) {
      expect(of({ ...floor, marks }, 'hollow')).toMatchObject([{ who: 'own-crew', tasks: ['drill', 'scrape'], dust: 'chipping-hammer' }]);
      expect(of({ ...floor, marks }, 'fill-cracks')).toMatchObject([{ tasks: ['grind'], dust: 'hand-grinder' }]);
    }
  });
});

// Common practice, no source: who did not clean a surface tests that primer bonds to it.
describe('the test of the primer', () => {
  const both = ['keep', 'remove'] as const;
  const hasTest = (floor: FloorInput): boolean => of(floor, 'bond-test').length > 0;

  it.each(both)('follows paint that a contractor takes off (%s), which has no second line', (fate) => {
    const floor = over([{ ...PAINT, fate }, tile(1965)], ['painted']);
    expect(hasTest(floor)).toBe(true);
    expect(of(floor, 'clean')).toEqual([]);
  });

  it('is not asked for where no contractor cleans what stays', () => {
    expect(hasTest(over([{ ...PAINT, fate: 'remove', area: RIGHT_HALF }, tile(1965, { fate: 'remove' })], ['sound-clean'], FOUND))).toBe(
      false,
    );
    expect(hasTest(over([tile(1965)], ['sound-clean'], FOUND))).toBe(false);
    expect(hasTest(over([PAINT, tile(2005)], ['painted']))).toBe(false);
  });
});
