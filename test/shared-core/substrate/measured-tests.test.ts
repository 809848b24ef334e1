import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import {
  absorptionOf,
  absorptionOfAll,
  emissionGM2Day,
  emissionLb,
  probeDepthM,
  PLANK_DIFFERENCE_MOST,
  moistureDifference,
  isPhWithin,
  pullOffAnswer,
  pullOffLeastPa,
} from '../../../shared-core/substrate/measured-tests.ts';
import { deflectionOf, secondMomentM4, simpleSpanSagM } from '../../../shared-core/substrate/floor-deflection.ts';
import { isOneSlab, roomsOnSlab, slabTestCount, slabTests, woodReadingCount } from '../../../shared-core/substrate/test-counts.ts';
import { isStale, lastVisit, TEST_KINDS } from '../../../shared-core/substrate/test-kinds.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { DEFLECTION_CASES, DISH_CASES, ONE_POUND_G_M2_DAY, PROBE_CASES, TEST_COUNTS, TWO_BY_TEN } from '../../reference/substrate-tests.ts';
import { layer, STRIP, test } from './a-floor.ts';

const FT2 = 0.09290304;
const INCH = 0.0254;
const PSI = 6894.757293168361;
const PSF = PSI / 144;
const words = wordingFor('us', 'en-US');
const LIMITS = { ...words, pullOffLeastPa: 100 * PSI };

describe('the calcium chloride test (ASTM F1869)', () => {
  it.each(DISH_CASES)('gives the emission that the unit says ($id, derived)', ({ grams, hours, netM2, lb }) => {
    const emission = emissionLb({ massBeforeG: 30, massAfterG: 30 + grams, dishAreaM2: 0.01, domeAreaM2: netM2 + 0.01, hours });
    expect(emission.ok && emission.value).toBeCloseTo(lb, 2);
  });

  it('under-reports by 8.5% when the dish’s own area is not subtracted (M2)', () => {
    const of = (dishAreaM2: number) => emissionLb({ massBeforeG: 0.1, massAfterG: 3.1, dishAreaM2, domeAreaM2: 0.4861 * FT2, hours: 72 });
    const right = of((0.4861 - 0.44486) * FT2);
    const wrong = of(0);
    expect(right.ok && wrong.ok && 1 - wrong.value / right.value).toBeCloseTo(0.085, 3);
  });

  it('converts a pound to 4.8824 g/m² per day (M4)', () => {
    expect(emissionGM2Day(1)).toBeCloseTo(ONE_POUND_G_M2_DAY, 4);
  });

  it('asks about a dish that lost mass, and one as large as its dome', () => {
    expect(emissionLb({ massBeforeG: 31, massAfterG: 30, dishAreaM2: 0, domeAreaM2: 0.04, hours: 72 })).toMatchObject({ ok: false });
    expect(emissionLb({ massBeforeG: 30, massAfterG: 31, dishAreaM2: 0.04, domeAreaM2: 0.04, hours: 72 })).toMatchObject({ ok: false });
  });

  const why = (change: Parameters<typeof test.dish>[0], ...layers: ReturnType<typeof layer>[]) =>
    TEST_KINDS['moisture-dish'].doesNotCount(test.dish(change), layers, LIMITS);
  const slab = layer('concrete-on-ground');

  it.each(['old-leveling', 'gypsum', 'paint-or-sealer', 'membrane'] as const)('is refused on %s (M5, F1869 1.2 and 1.3)', (material) => {
    const top = layer(material);
    for (const overLayerId of [top.id, null]) expect(why({ overLayerId }, top)).toContain('needs bare, ground concrete');
  });

  it('without a named layer is judged by what is poured on, and asks where only part of that is bare concrete', () => {
    const strip = layer('plywood', { area: STRIP });
    expect(why({}, layer('radiant-heating'), slab)).toBeNull();
    expect(why({}, strip, slab)).toMatch(/^Enter what the dish was placed on/);
    expect(why({}, strip, layer('gypsum'), slab)).toMatch(/^The dish was on plywood or gypsum underlayment/);
    expect(why({ overLayerId: slab.id }, strip, slab)).toBeNull();
    expect(why({ overLayerId: strip.id }, strip, slab)).toMatch(/^The dish was on plywood/);
  });

  it('counts on bare concrete after 60 to 72 hours, and not outside them (EPA moisture guide)', () => {
    for (const hours of [60, 72]) expect(why({ hours }, slab)).toBeNull();
    for (const hours of [59, 73]) expect(why({ hours }, slab)).toContain('60 to 72 h');
  });
});

describe('in-slab RH (ASTM F2170)', () => {
  it.each(PROBE_CASES)('is read $depthIn in. deep in a $slabIn in. slab drying from $sides side(s) (M6)', ({ sides, slabIn, depthIn }) => {
    expect(probeDepthM(slabIn * INCH, sides) / INCH).toBeCloseTo(depthIn, 6);
  });

  it('does not count at the wrong depth, too soon, or in a slab of unknown thickness', () => {
    const why = (reading: Parameters<typeof test.humidity>[0]) =>
      TEST_KINDS['slab-humidity'].doesNotCount(test.humidity(reading), [], LIMITS);
    expect(why({ slabThicknessM: 0.1, depthM: 0.04 })).toBeNull();
    expect(why({ slabThicknessM: 0.1, depthM: 0.045 })).toBeNull();
    expect(why({ slabThicknessM: 0.1, depthM: 0.0451 })).toContain('The probe was at');
    expect(why({ slabThicknessM: 0.1, depthM: 0.04, settledHours: 24 })).toBeNull();
    expect(why({ slabThicknessM: 0.1, depthM: 0.04, settledHours: 23.9 })).toContain('24 h');
    expect(why({ slabThicknessM: null })).toContain('thickness');
  });
});

describe('how many tests, and for how long', () => {
  it.each(TEST_COUNTS)('requires $tests moisture tests on $ft2 ft² (M7)', ({ ft2, tests }) => {
    expect(slabTestCount(ft2 * FT2)).toBe(tests);
  });

  // ASTM F1869 and F2170 count by the area tested (second-hand); one in each room is common practice, no source.
  it('counts slab tests over the rooms on one slab, and plans them where one stands for the most floor', () => {
    const rooms = (...ft2: number[]) => ft2.map((area) => ({ areaM2: area * FT2, have: 0 }));
    const planned = (of: ReturnType<typeof rooms>) => of.map((_, place) => slabTests(of, place).toMake);
    expect(planned(rooms(80))).toEqual([3]);
    expect(planned(rooms(120, 100, 90, 110, 80))).toEqual([1, 1, 1, 1, 1]);
    expect(planned(rooms(300, 120))).toEqual([2, 1]);
    expect(planned(rooms(1200, 700, 60))).toEqual([2, 1, 1]);
    expect(slabTests(rooms(1200, 700, 60), 0)).toMatchObject({ wanted: 4, have: 0 });
    const made = [2, 1].map((have, i) => ({ areaM2: ([120, 300][i] ?? 0) * FT2, have }));
    expect([slabTests(made, 0), slabTests(made, 1)]).toMatchObject([
      { wanted: 3, have: 3, toMake: 0 },
      { wanted: 3, have: 3, toMake: 0 },
    ]);
  });

  it('takes rooms for one slab where the same concrete lies on the ground under both', () => {
    const on = (slab: Layer, belowGrade: boolean | null = null) => ({ layers: [slab], circumstances: { belowGrade } });
    const ground = layer('concrete-on-ground', { thicknessM: 0.1, yearInstalled: 1998 });
    expect(isOneSlab(on(ground), on({ ...ground, id: 'other' }))).toBe(true);
    expect(isOneSlab(on(ground), on(ground, false))).toBe(true);
    for (const other of [
      on(ground, true),
      on({ ...ground, yearInstalled: 2010 }),
      on({ ...ground, thicknessM: 0.15 }),
      on({ ...ground, fate: 'remove' }),
      on(layer('plywood')),
    ])
      expect(isOneSlab(on(ground), other)).toBe(false);
    const rooms = ['hall', 'den', 'bath'].map((id) => ({ id, ...on(ground) }));
    const [hall] = rooms;
    const choices = (['wood-glued', 'wood-glued', 'tile-small'] as const).map((flooring, i) => ({ roomId: rooms[i]?.id ?? '', flooring }));
    expect(hall && roomsOnSlab(hall, rooms, choices).map(({ id }) => id)).toEqual(['den', 'hall']);
    // One a story, and no record says which.
    const suspended = on(layer('concrete-suspended'));
    expect(isOneSlab(suspended, suspended)).toBe(false);
  });

  it('requires 20 wood readings in 1,000 ft² (NWFA), and three in any room', () => {
    expect(woodReadingCount(1000 * FT2)).toBe(20);
    expect(woodReadingCount(2500 * FT2)).toBe(50);
    expect(woodReadingCount(20 * FT2)).toBe(3);
  });

  it('is outdated after its time and not before (common practice, no source)', () => {
    expect(isStale('air', '2026-05-04T00:00:00Z', '2026-05-04T12:00:00Z')).toBe(false);
    expect(isStale('air', '2026-05-04T00:00:00Z', '2026-05-04T12:00:01Z')).toBe(true);
    expect(isStale('slab-humidity', '2026-05-04T00:00:00Z', '2026-06-03T00:00:00Z')).toBe(false);
    expect(isStale('slab-humidity', '2026-05-04T00:00:00Z', '2026-06-03T00:00:01Z')).toBe(true);
    expect(isStale('floor-deflection', '2006-05-04T00:00:00Z', '2026-06-03T00:00:00Z')).toBe(false);
  });

  it('uses all readings of the last visit, in any order', () => {
    const old = test.humidity({ id: 'old1', takenAt: '2026-04-01T09:00:00Z' });
    const first = test.humidity({ id: 'new1', takenAt: '2026-05-03T09:00:00Z' });
    const second = test.humidity({ id: 'new2', takenAt: '2026-05-04T09:00:00Z' });
    expect(lastVisit([second, old, first], 'slab-humidity').map((one) => one.id)).toEqual(['new1', 'new2']);
  });
});

describe('wood, drops, pH and pull-off', () => {
  it('finds plank at 8% and subfloor at 11% three points apart: too far for planks (M10)', () => {
    const apart = moistureDifference([0.11], [0.08]);
    expect(apart).toBe(0.03);
    expect(Number(apart)).toBeGreaterThan(PLANK_DIFFERENCE_MOST);
    expect(moistureDifference([], [0.08])).toBeNull();
  });

  it('is porous at 59 s and non-porous at 60 s (M8, from memory)', () => {
    expect(absorptionOf({ seconds: 59, watchedSeconds: 90 })).toBe('porous');
    expect(absorptionOf({ seconds: 60, watchedSeconds: 90 })).toBe('non-porous');
    expect(absorptionOf({ seconds: null, watchedSeconds: 60 })).toBe('non-porous');
    expect(absorptionOf({ seconds: null, watchedSeconds: 59 })).toBeNull();
    expect(
      absorptionOfAll([
        { seconds: 20, watchedSeconds: 60 },
        { seconds: null, watchedSeconds: 60 },
      ]),
    ).toBe('non-porous');
    expect(absorptionOfAll([])).toBeNull();
  });

  it('says nothing of a primer where the drop was watched for less than a minute', () => {
    const kind = TEST_KINDS['drop-absorption'];
    const limits = { units: 'us', addedLoadPa: null, pullOffLeastPa: 200 * PSI, spanOver: 360 } as const;
    expect(kind.arithmetic({ ...test.drop('drop', null), watchedSeconds: 59 }, limits, words)).toEqual([]);
    expect(kind.arithmetic({ ...test.drop('drop', null), watchedSeconds: 60 }, limits, words)).toHaveLength(1);
  });

  it('accepts pH 7 to 10 and refuses 10.5 (M9)', () => {
    expect([6.99, 7, 10, 10.01, 10.5].map(isPhWithin)).toEqual([false, true, true, false, false]);
  });

  // Data sheets, second-hand: 100 psi under flooring. ASTM F3010 by a lab's page: 200 psi under a moisture system.
  it('requires 100 psi under flooring, 200 under toppings and moisture systems, and counts no adhesive failure', () => {
    const sheet = (pullOffLeastPa: number | null) => ({
      pullOffLeastPa: pullOffLeastPa === null ? null : { value: pullOffLeastPa, source: 'bag' as const },
    });
    expect(pullOffLeastPa(null, false)).toBeCloseTo(100 * PSI, 6);
    expect(pullOffLeastPa({ kind: 'cement-topping', powder: sheet(null) }, false)).toBeCloseTo(200 * PSI, 6);
    expect(pullOffLeastPa({ kind: 'cement-underlayment', powder: sheet(150 * PSI) }, false)).toBeCloseTo(150 * PSI, 6);
    expect(pullOffLeastPa({ kind: 'cement-underlayment', powder: sheet(150 * PSI) }, true)).toBeCloseTo(200 * PSI, 6);
    expect(pullOffAnswer({ stressPa: 200 * PSI, failedIn: 'substrate' }, 200 * PSI)).toBe('strong');
    expect(pullOffAnswer({ stressPa: 199.9 * PSI, failedIn: 'substrate' }, 200 * PSI)).toBe('weak');
    expect(pullOffAnswer({ stressPa: 199.9 * PSI, failedIn: 'glue' }, 200 * PSI)).toBe('not-proved');
  });
});

describe('the deflection of a wood floor', () => {
  const twoByTen = {
    spanM: 14 * 12 * INCH,
    joistWidthM: TWO_BY_TEN.widthIn * INCH,
    joistDepthM: TWO_BY_TEN.depthIn * INCH,
    spacingM: 16 * INCH,
    modulusPa: 1.6e6 * PSI,
  };

  it('has the section of a 2×10 (W4)', () => {
    expect(secondMomentM4(twoByTen.joistWidthM, twoByTen.joistDepthM) / INCH ** 4).toBeCloseTo(TWO_BY_TEN.momentIn4, 1);
  });

  it.each(DEFLECTION_CASES)('is $sagIn in. under $psf psf ($id, derived)', ({ psf, sagIn, spanOver }) => {
    const { liveM, liveSpanOver } = deflectionOf({ ...twoByTen, liveLoadPa: psf * PSF, deadLoadPa: 0 }, 0);
    expect(Math.abs(liveM / INCH - sagIn)).toBeLessThan(0.002);
    expect(Math.round(liveSpanOver)).toBe(spanOver);
  });

  it('includes the floor’s own weight and the pour in the total, not in what the limit is about (W6, W7)', () => {
    const answer = deflectionOf({ ...twoByTen, liveLoadPa: 40 * PSF, deadLoadPa: 10 * PSF }, 10.417 * PSF);
    expect(Math.round(answer.liveSpanOver)).toBe(577);
    expect(Math.round(answer.totalSpanOver)).toBe(382);
  });

  it('grows with the fourth power of the span and linearly with the load', () => {
    const some = fc.double({ min: 1, max: 10, noNaN: true });
    fc.assert(
      fc.property(some, some, (span, load) => {
        const once = simpleSpanSagM(load, span, 1e10, 1e-5);
        expect(simpleSpanSagM(load, 2 * span, 1e10, 1e-5) / once).toBeCloseTo(16, 9);
        expect(simpleSpanSagM(3 * load, span, 1e10, 1e-5) / once).toBeCloseTo(3, 9);
      }),
    );
  });
});
