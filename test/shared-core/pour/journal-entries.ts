/** A pour with log entries, for tests of the recovery log. */
import { barePlan } from './bare-plan.ts';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';

const START = '2026-05-12T11:05:00.000Z';

export const aPour: Pour = {
  id: 'pour-7',
  createdAt: START,
  changedAt: START,
  deletedAt: null,
  jobId: 'job-7',
  roomIds: ['room-7'],
  lift: 1,
  materialId: 'powder-7',
  startedAt: START,
  finishedAt: null,
  bagsOnSite: 20,
  bagsPlanned: 18,
  plans: [],
  asPoured: barePlan(['room-7']),
  fromPaper: false,
  notes: '',
};

/** The entry of a number, one minute per number after the start; `mark` distinguishes entries of the same number. */
export const entry = (seq: number, mark = 'a', minute = seq): PourEvent => ({
  id: `entry-${mark}-${seq}`,
  pourId: aPour.id,
  seq,
  instant: new Date(Date.parse(START) + minute * 60_000).toISOString(),
  estimated: false,
  kind: 'placed',
  batch: seq,
  roomId: null,
  lane: null,
  bags: 2,
});

export const theEnd = (seq: number): PourEvent => ({
  id: `end-${seq}`,
  pourId: aPour.id,
  seq,
  instant: new Date(Date.parse(START) + seq * 60_000).toISOString(),
  estimated: false,
  kind: 'finished',
  bagsLeft: 1,
});
