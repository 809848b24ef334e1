import { describe, expect, it } from 'vitest';
import type { TakeoffDoubt } from '../../../shared-core/material/takeoff-problem.ts';
import type { AddedWeight } from '../../../shared-core/material/weight.ts';
import { doubtWords, liftNoteWords, noCoverageWords } from '../../../shared-core/price/takeoff-words.ts';

const weight: AddedWeight = {
  meanKgM2: 20,
  mostKgM2: 60,
  removedKgM2: 5,
  removedAllOverKgM2: 5,
  laidKgM2: 0,
  deepestPa: 539,
  allowedPa: 400,
  within: false,
};

describe('doubtWords', () => {
  const said: readonly (readonly [TakeoffDoubt, string])[] = [
    [{ kind: 'no-survey' }, 'the volume is unknown. Draw the room and take readings.'],
    [{ kind: 'no-material' }, 'no material is chosen. Choose its data sheet.'],
    [{ kind: 'no-primer' }, 'no primer is chosen. Nearly every floor needs one. Choose its data sheet.'],
    [{ kind: 'sheet', why: { kind: 'not-mixed', name: 'Primer' } }, 'Primer is not mixed from bags. Choose an underlayment or topping.'],
    [
      { kind: 'sheet', why: { kind: 'no-yield', name: 'Fine' } },
      'Fine: the yield per bag is 0. Enter it from the bag, or weigh a mixed bag.',
    ],
    [
      { kind: 'primer', why: { kind: 'no-coverage', name: 'Primer' } },
      'Primer has no coverage. Add it to the data sheet, or choose another primer.',
    ],
    [{ kind: 'primer', why: { kind: 'not-entered', name: 'Primer' } }, 'Primer: enter the area and the coverage.'],
    [
      { kind: 'primer', why: { kind: 'other-substrate', name: 'Primer', for: ['porous', 'tile'], substrate: 'wood' } },
      'Primer is for porous substrates, tile, not for wood. Choose another primer.',
    ],
    [{ kind: 'bags', why: 'percentile' }, 'Enter a percent from 50 to 99.'],
    [
      { kind: 'bucket', batchM3: 0.0255, bucketL: 29.9 },
      'A batch of 25.5 L does not fit in a bucket of 29.9 L. Mix fewer bags at once, or use a larger bucket.',
    ],
    [{ kind: 'too-thin', shallowestM: 0.001, leastM: 0.003 }, 'The shallowest point is 1 mm. The data sheet’s minimum is 3 mm.'],
  ];
  it.each(said)('says what %o means', (doubt, words) => expect(doubtWords(doubt, 'metric', 'en-US')).toBe(words));

  it('compares the weight added with the allowance, or defers to an engineer', () => {
    const said = (of: Partial<AddedWeight>) => doubtWords({ kind: 'weight', weight: { ...weight, ...of } }, 'metric', 'en-US');
    expect(said({})).toMatch(
      /^The pour adds 20 kg\/m² on average, 60 kg\/m² at the deepest point, less 5 kg\/m² removed\. That is over the/,
    );
    expect(said({ within: true })).toMatch(/removed\. The allowance entered is /);
    expect(said({ removedAllOverKgM2: 2 })).toMatch(
      /deepest point\. 5 kg\/m² is removed on average, and 2 kg\/m² over the whole room, which is what counts at the deepest point\. That is over/,
    );
    expect(said({ laidKgM2: 8 })).toContain(' New layers add 8 kg/m². ');
    expect(said({ removedKgM2: 0, removedAllOverKgM2: 0, allowedPa: null, within: null })).toMatch(
      /deepest point\. This is not a structural check\. On a suspended floor, ask a structural engineer\.$/,
    );
  });
});

describe('liftNoteWords', () => {
  it.each([
    [
      { kind: 'several', deepestM: 0.04, liftM: 0.025, count: 2 },
      '40 mm at the deepest point is over the maximum lift of 25 mm. Place 2 lifts, deep areas first.',
    ],
    [{ kind: 'aggregate', leastM: 0.02, mostM: 0.05 }, 'With aggregate, a lift is 20 mm to 50 mm.'],
    [
      { kind: 'too-shallow-for-aggregate', shallowestM: 0.01, leastM: 0.02 },
      'No aggregate: with its cap it needs a minimum depth of 20 mm. Here it is 10 mm.',
    ],
    [{ kind: 'no-aggregate' }, 'The data sheet allows no aggregate.'],
  ] as const)('says why: %o', (note, words) => expect(liftNoteWords(note, 'metric', 'en-US')).toBe(words));
});

it('noCoverageWords names the container and the measure', () =>
  expect(noCoverageWords({ materialId: 'm', name: 'Sealer', container: 'jug', unit: 'm2' })).toBe(
    'Sealer has no coverage per jug by area. Add it to the data sheet.',
  ));
