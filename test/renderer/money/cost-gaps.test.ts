import { expect, it } from 'vitest';
import { costGaps } from '../../../renderer/money/cost-gaps.ts';

it('says which hours and bags are not in the cost of a job, and nothing where all are', () => {
  expect(costGaps({ minutes: 0, bags: 0 }, 'en-US')).toEqual([]);
  expect(costGaps({ minutes: 360, bags: 1.5 }, 'en-US')).toEqual([
    '6 h in the logs are not recorded and not in the cost.',
    'No purchase of this job names 1.5 of the bags it used. Their cost may be missing.',
  ]);
});
