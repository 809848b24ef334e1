import { expect, it } from 'vitest';
import { parseDilution } from '../../../shared-core/measure/dilution.ts';

// The order of a ratio differs from label to label: common practice, no source.
it.each<readonly [typed: string, waterParts: number]>([
  ['3', 3],
  ['0', 0],
  ['undiluted', 0],
  ['1:1', 1],
  ['3:1 water to primer', 3],
  ['3:1 (water:primer)', 3],
  ['1:3 primer:water', 3],
  ['1 part primer to 3 parts water', 3],
  ['3 parts water to 1 part primer', 3],
  ['3 parts water to 1', 3],
  ['2 parts primer to 1 part water', 0.5],
])('%s is %f parts of water per part of primer', (typed, waterParts) => {
  expect(parseDilution(typed)).toEqual({ ok: true, value: waterParts });
});

it.each<readonly [typed: string, words: string]>([
  ['3:1', 'which part is water'],
  ['1 to 3', 'which part is water'],
  ['3:1 water', 'which part is water'],
  ['1 to 2 parts water', 'which part is water'],
  ['3 water to 1 water', 'which part is water'],
  ['3 parts water to 0 parts primer', 'at least one part of primer'],
  ['some', 'is not a number'],
])('%s is refused', (typed, words) => {
  const read = parseDilution(typed);
  expect(read.ok ? '' : read.message).toContain(words);
});
