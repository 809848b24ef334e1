import { expect, it } from 'vitest';
import type { TaskAmount, TaskReason } from '../../../shared-core/material/crew-hours.ts';
import { taskReasonWords } from '../../../shared-core/price/hours-words.ts';

const done = (amount: TaskAmount, factor: number | null = null): TaskReason => ({ kind: 'by-amount', amount, hours: 0.5, factor });

it.each([
  [done({ of: 'room' }), 'the room and the way in in 30 min, typical'],
  [done({ of: 'lead-safe' }), 'set-up, cleaning and its check in 30 min, typical'],
  [done({ of: 'tests', count: 1 }), '1 test in 30 min, typical'],
  [done({ of: 'bags', count: 12 }, 1.25), '12 bags in 30 min, 1.25 times typical, from your own jobs'],
  [done({ of: 'edges', lengthM: 14, dams: 2 }), '14.00 m of strip and 2 dams in 30 min, typical'],
  [done({ of: 'coats', areaM2: 30, coats: [2] }), '30 m², 2 coats in 30 min, typical'],
  [done({ of: 'coats', areaM2: 30, coats: [2, 2, 2] }), '30 m², 2 coats before each of 3 lifts in 30 min, typical'],
  [
    done({ of: 'coats', areaM2: 30, coats: [1, 2] }),
    '30 m², 1 coat before the first lift and 2 coats before each later lift in 30 min, typical',
  ],
  [{ kind: 'set-ups', minutesEach: 60, pours: 2, helpers: 1, factor: null }, '1 h for each of 2 pours, owner and 1 helper, typical'],
  [
    { kind: 'set-ups', minutesEach: 90, pours: 1, helpers: 1, factor: 1.5 },
    '1 h 30 min for 1 pour, owner and 1 helper, 1.5 times typical, from your own jobs',
  ],
  [
    { kind: 'planned', batches: 1, planned: { minutes: 45, source: 'simulated' }, helpers: 3 },
    '1 batch in 45 min from the pour simulation, owner and 3 helpers',
  ],
  [
    { kind: 'planned', batches: 12, planned: { minutes: 45, source: 'planned' }, helpers: 3 },
    '12 batches in 45 min from the pour plan, owner and 3 helpers',
  ],
  [{ kind: 'typical-pour', batches: 12, mixers: 2, helpers: 3 }, '12 batches at 7.5 min, 2 mixers, owner and 3 helpers, typical'],
  [{ kind: 'edges-after-pour' }, 'edges, patches, and checks after the first pour, typical'],
] as const)('says how the hours of %o are calculated', (why, words) => expect(taskReasonWords(why, 'metric', 'en-US')).toBe(words));
