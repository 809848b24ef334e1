/**
 * How hours are calculated and what is wrong in a takeoff, each kind in words, as last approved: a guard against a change that nobody
 * meant. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/price/approved -u` and read the difference.
 */
import { expect, it } from 'vitest';
import type { TaskAmount, TaskReason } from '../../../shared-core/material/crew-hours.ts';
import type { LiftNote } from '../../../shared-core/material/lifts.ts';
import type { TakeoffDoubt } from '../../../shared-core/material/takeoff-problem.ts';
import type { AddedWeight } from '../../../shared-core/material/weight.ts';
import { taskReasonWords } from '../../../shared-core/price/hours-words.ts';
import { doubtWords, liftNoteWords, noCoverageWords } from '../../../shared-core/price/takeoff-words.ts';
import { eachKind, wordsText } from '../each-kind.ts';

const SAY = ['metric', 'en-US'] as const;
const done = (amount: TaskAmount, factor: number | null = null) => ({ amount, hours: 0.5, factor });
const added = (of: Partial<AddedWeight> = {}) => ({
  weight: {
    ...{ meanKgM2: 20, mostKgM2: 60, removedKgM2: 5, removedAllOverKgM2: 5, laidKgM2: 0, deepestPa: 539, allowedPa: 400, within: false },
    ...of,
  },
});
const tooThin = { shallowestM: 0.001, leastM: 0.003, source: 'typical' } as const;

it('hours and takeoffs in words', async () => {
  const hours = eachKind((why: TaskReason) => taskReasonWords(why, ...SAY), {
    'by-amount': [
      done({ of: 'room' }),
      done({ of: 'lead-safe' }),
      done({ of: 'tests', count: 1 }),
      done({ of: 'bags', count: 12 }, 1.25),
      done({
        of: 'removed',
        layers: [
          { material: 'carpet', areaM2: 30 },
          { material: 'ceramic-tile', areaM2: 8 },
        ],
      }),
      done({ of: 'area', areaM2: 30 }),
      done({ of: 'length', lengthM: 14 }),
      done({ of: 'edges', lengthM: 14, dams: 2 }),
      ...[[2], [2, 2, 2], [1, 2]].map((coats) => done({ of: 'coats', areaM2: 30, coats })),
    ],
    'set-ups': [
      { minutesEach: 60, pours: 2, helpers: 1, factor: null },
      { minutesEach: 90, pours: 1, helpers: 1, factor: 1.5 },
    ],
    planned: [
      { batches: { likely: 1, all: 1 }, planned: { minutes: 45, source: 'simulated' }, helpers: 3 },
      { batches: { likely: 11, all: 12 }, planned: { minutes: 45, source: 'simulated' }, helpers: 3 },
      { batches: { likely: 11, all: 12 }, planned: { minutes: 45, source: 'planned' }, helpers: 3 },
    ],
    'typical-pour': [{ batches: { likely: 12, all: 12 }, mixers: 2, helpers: 3 }],
    'edges-after-pour': [{}],
  });
  const fromPorous = { kind: 'other-substrate', name: 'Primer', for: ['porous', 'tile'], substrate: 'wood' } as const;
  const doubts = eachKind((doubt: TakeoffDoubt) => doubtWords(doubt, ...SAY), {
    'no-survey': [{}],
    'no-material': [{}],
    'no-primer': [{}],
    sheet: [{ why: { kind: 'not-mixed', name: 'Primer' } }, { why: { kind: 'no-yield', name: 'Fine' } }],
    primer: [{ why: { kind: 'no-coverage', name: 'Primer' } }, { why: { kind: 'not-entered', name: 'Primer' } }, { why: fromPorous }],
    'lift-primer': [{ why: { kind: 'no-coverage', name: 'Primer' } }, { why: { ...fromPorous, for: ['wood'], substrate: 'porous' } }],
    bags: [{ why: 'yield' }, ...(['volume', 'waste', 'volume-range', 'yield-range', 'percentile'] as const).map((why) => ({ why }))],
    bucket: [
      { batchM3: 0.0255, bagsPerBatch: 2, bucketL: 29.9 },
      { batchM3: 0.0255, bagsPerBatch: 1, bucketL: 29.9 },
    ],
    weight: [
      added(),
      added({ within: true }),
      added({ removedAllOverKgM2: 2 }),
      added({ laidKgM2: 8 }),
      // Without an allowance it is left to an engineer.
      added({ removedKgM2: 0, removedAllOverKgM2: 0, allowedPa: null, within: null }),
    ],
    'too-thin': [tooThin],
  });
  const lifts = eachKind((note: LiftNote) => liftNoteWords(note, ...SAY), {
    several: [{ deepestM: 0.04, liftM: 0.025, count: 2 }],
    aggregate: [{ leastM: 0.02, mostM: 0.05 }],
    cap: [{ capM: 0.006 }],
    'too-shallow-for-aggregate': [{ shallowestM: 0.01, leastM: 0.02 }],
    'no-aggregate': [{}],
    'too-thin': [{ ...tooThin, source: 'bag' }],
  });
  const coverage = (['kg', 'L', 'm', 'm2', 'piece'] as const).map((unit) =>
    noCoverageWords({ materialId: 'm', name: 'Sealer', container: 'jug', unit }),
  );
  await expect(wordsText({ hours, doubts, lifts, coverage })).toMatchFileSnapshot('./approved/words.txt');
});
