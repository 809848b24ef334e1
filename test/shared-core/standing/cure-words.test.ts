import { expect, it } from 'vitest';
import { promiseWords } from '../../../shared-core/standing/cure-words.ts';

const HOUR = 3_600_000;

it.each([
  ['on-track', -HOUR, 'On track'],
  ['at-risk', 0, 'At risk'],
  ['on-hold', null, 'On hold: no date'],
  ['late', 1, 'Likely 1 hour late'],
  ['late', 2.1 * HOUR, 'Likely 3 hours late'],
  ['late', 47 * HOUR, 'Likely 47 hours late'],
  ['late', 47.1 * HOUR, 'Likely 2 days late'],
  ['late', 49 * HOUR, 'Likely 3 days late'],
] as const)('a promise that is %s by %s ms never understates the delay', (state, lateByMs, words) =>
  expect(promiseWords({ state, lateByMs })).toBe(words),
);
