import { describe, expect, it } from 'vitest';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import { liveEvents } from '../../../shared-core/pour/log-time.ts';
import { pourState, type PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { bay, laidOut, rectangle } from './floors.ts';

const layout = laidOut([bay('room-hall', rectangle(4, 3, 3))], 0.02, 'back-and-forth', 2);
const PLAN: PourRecordPlan = { layout, hasLater: false, healingMin: 15, workingTimeMin: 12, bagsPerBatch: 2 };
const START = Date.parse('2026-05-12T14:00:00Z');
const instantOf = (min: number) => new Date(START + min * 60_000).toISOString();

describe('corrected bags', () => {
  const stamps = { pourId: 'pour-1', estimated: false };
  const mixed = { ...stamps, id: 'mixed', seq: 1, instant: instantOf(0), kind: 'mixed', batch: 5, bags: 2, waterL: null } as const;
  const placed = {
    ...stamps,
    id: 'placed',
    seq: 2,
    instant: instantOf(4),
    kind: 'placed',
    batch: 5,
    roomId: null,
    lane: null,
    bags: 2,
  } as const;
  const fix = (seq: number, eventId: string, toBags: number): PourEvent => ({
    ...{
      ...stamps,
      id: `fix-${seq}`,
      seq,
      instant: instantOf(seq),
      kind: 'corrected',
      eventId,
      toAt: null,
      toBags,
      by: 'RT',
      why: 'counted',
    },
  });
  const bagsOf = (...events: PourEvent[]): unknown[] =>
    liveEvents(events).map((event) => (event.kind === 'mixed' || event.kind === 'placed' ? event.bags : null));

  it('are those of the batch, whichever of its entries was corrected; the latest counts', () => {
    expect(bagsOf(mixed, placed, fix(3, 'placed', 3))).toEqual([3, 3]);
    expect(bagsOf(mixed, placed, fix(3, 'placed', 3), fix(4, 'mixed', 1))).toEqual([1, 1]);
    expect(pourState(PLAN, { bagsOnSite: 14 }, [mixed, placed, fix(3, 'placed', 3)], instantOf(9))).toMatchObject({
      bagsUsed: 3,
      bagsLeft: 11,
    });
  });

  it('stay with their own pour and their own batch', () => {
    const other = { ...mixed, id: 'other', pourId: 'pour-2' };
    expect(bagsOf(mixed, placed, { ...mixed, id: 'six', batch: 6 }, other, fix(3, 'placed', 3))).toEqual([3, 3, 2, 2]);
  });

  it('no longer count once their entry is voided', () => {
    const voided: PourEvent = { ...stamps, id: 'void', seq: 4, instant: instantOf(5), kind: 'undone', eventId: 'mixed' };
    expect(bagsOf(mixed, placed, fix(3, 'mixed', 3), voided)).toEqual([2]);
  });
});
