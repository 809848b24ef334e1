import { describe, expect, it } from 'vitest';
import type { PowderSheet } from '../../../shared-core/book/material.ts';
import { clocksAt } from '../../../shared-core/pour/clocks.ts';
import { outsideWords } from '../../../shared-core/documents/pour-words.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { findingsOf } from '../../../shared-core/substrate/rules.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { line, listOf } from '../prep/prep-lines.ts';
import { air, BOARDS, CALM, doorsOf, factsOf, opening, powder, SLAB, test, withTests } from './a-floor.ts';

const US = wordingFor('us', 'en-US');
const textOf = (floor: FloorInput, id: string): string =>
  findingsOf(factsOf(floor), US).find(({ ruleId }) => ruleId === id)?.text ?? `no ${id}`;
const INCH = 0.0254;
type Source = 'bag' | 'typical';
const of = <T>(value: T, source: Source) => ({ value, source });
const withFigures = (floor: FloorInput, change: Partial<PowderSheet>): FloorInput => ({
  ...floor,
  product: { kind: 'cement-underlayment', powder: powder(change) },
});
const WET = [1, 2, 3].map((i) => test.humidity({ id: `rh-${i}`, relativeHumidity: 0.92 }));
const cold = { ...SLAB, air: air({}, { airTempC: 8, surfaceTempC: 8 }) };
const hot = { ...SLAB, air: air({}, { airTempC: 35, surfaceTempC: 35 }) };

// Common practice, no source: a figure that nobody read off a data sheet is not the data sheet's.
describe('a figure that is not from a data sheet', () => {
  const said = (source: Source): readonly string[] => [
    textOf(withFigures(cold, { roomTempC: of({ least: 10, most: 32 }, source) }), 'too-cold'),
    textOf(withFigures(hot, { roomTempC: of({ least: 10, most: 32 }, source) }), 'too-hot'),
    textOf(withFigures(withTests(SLAB, ...WET), { slabHumidityMost: of(0.8, source) }), 'underlayment-humid'),
    textOf(withFigures(SLAB, { strengthPa: of(1e6, source) }), 'product-weak'),
    textOf(withFigures(BOARDS, { overWoodLeastM: of(0.02, source) }), 'thin-over-wood'),
    outsideWords(clocksAt(powder({ roomTempC: of({ least: 10, most: 32 }, source) }), 5)) ?? '',
    outsideWords(clocksAt(powder({ roomTempC: of({ least: 10, most: 32 }, source) }), 35), 'running') ?? '',
    textOf({ ...withFigures(SLAB, { roomTempC: of({ least: 10, most: 32 }, source), bondsTo: ['tile'] }) }, 'bond-not-named'),
  ];

  it('is called typical', () => {
    for (const words of said('typical')) {
      expect(words).toContain('typical');
      expect(words).not.toMatch(/data sheet’s|data sheet (allows|asks|gives|does)/);
    }
  });

  it('is the data sheet’s once it is entered', () => {
    for (const words of said('bag')) {
      expect(words).toMatch(/data sheet’s|data sheet does not name/);
      expect(words).not.toContain('typical');
    }
  });
});

it('keeps over lath the minimum over wood that the estimate and the pour keep', () => {
  const why = (change: Partial<PowderSheet>): string => line(listOf(withFigures(BOARDS, change)), 'reinforce')?.why ?? '';
  expect(why({ overWoodLeastM: of(0.375 * INCH, 'typical') })).toContain('Pour at least 3/8 in. over it (typical).');
  expect(why({ overWoodLeastM: of(0.5 * INCH, 'bag') })).toContain('Pour at least 1/2 in. over it.');
  const metric = line(listOf(withFigures(BOARDS, { overWoodLeastM: of(0.375 * INCH, 'typical') }), { units: 'metric' }), 'reinforce');
  expect(metric?.why).toContain('Pour at least 10 mm over it (typical).');
  expect(why({})).toContain('as deep over it as the data sheet says');
});

// ASTM F710: concrete on the ground without a vapor retarder takes up moisture from the soil for as long as it lies there.
it('does not let a slab dry that has no vapor retarder under it', () => {
  const over = (vaporRetarder: 'absent' | 'present') =>
    textOf({ ...withTests(SLAB, ...WET), circumstances: { ...CALM, vaporRetarder } }, 'slab-humid');
  expect(over('absent')).toMatch(/does not dry.*Choose a moisture mitigation system, or flooring that allows/);
  expect(over('absent')).not.toContain('let the slab dry');
  expect(over('present')).toContain('let the slab dry');
});

// 2010 ADA Standards 303.2 to 303.4 and 405.2: to 1/4 in. as it is, to 1/2 in. beveled, above that a ramp.
describe('the step at a doorway', () => {
  const step = (inches: number): string => textOf({ ...SLAB, ...doorsOf(opening({ adjoiningM: -inches * INCH })) }, 'threshold-step');
  it('is a transition or a patch up to 1/2 in. and neither above', () => {
    expect(step(0.5)).toContain('patch feathered by hand');
    for (const inches of [0.5625, 1.5, 4]) {
      expect(step(inches)).not.toContain('feathered');
      // No reducer takes up more than the 1-1/2 in. of an outside door's threshold (IRC R311.3); common practice.
      expect(step(inches)).toContain(inches > 1.5 ? 'Plan a ramp, a step that local code allows,' : 'Plan a ramp, a threshold reducer,');
    }
  });

  it('never reads as the limit it is over', () => {
    expect(step(0.26)).toContain('just over ¼″');
    expect(step(0.52)).toContain('just over ½″');
  });
});

it('advises no plywood that nails reach through', () => {
  const nailed = textOf({ ...SLAB, flooring: 'wood-nailed' }, 'nailed-over-pour');
  expect(nailed).toContain('Plywood over the pour is glued or floated, never fastened to it');
});
