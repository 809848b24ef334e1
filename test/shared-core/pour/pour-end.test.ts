import { describe, expect, it } from 'vitest';
import { pourEventSchema, type PourEvent } from '../../../shared-core/book/pour-record.ts';
import { pourEnd, workSpans } from '../../../shared-core/pour/log-time.ts';

const START = Date.parse('2026-05-12T14:00:00Z');
const instantOf = (min: number) => new Date(START + min * 60_000).toISOString();

describe('the end of a pour', () => {
  const at = (min: number, id: string, event: Record<string, unknown>, seq = min + 1): PourEvent =>
    pourEventSchema.parse({ id, pourId: 'pour-1', seq, instant: instantOf(min), estimated: false, ...event });
  const placed = (min: number, batch: number): PourEvent =>
    at(min, `placed-${batch}`, { kind: 'placed', batch, roomId: null, lane: null, bags: 2 });
  const finished = (min: number, id = 'the-end'): PourEvent => at(min, id, { kind: 'finished', bagsLeft: null });
  const corrected = (min: number, eventId: string, toAt: string): PourEvent =>
    at(min, `fix-${min}`, { kind: 'corrected', eventId, toAt, toBags: null, by: 'RT', why: 'wrong time' });

  const resumed = (min: number): PourEvent => at(min, `resumed-${min}`, { kind: 'resumed', by: 'RT', why: '' });
  const spans = (...log: readonly PourEvent[]) => workSpans(instantOf(-10), log);
  const span = (from: number, until: number) => ({ from: instantOf(from), until: instantOf(until) });

  it('is when the last batch was placed, and not the next morning when it was logged', () => {
    const log = [placed(0, 1), placed(120, 2), finished(1170)];
    expect(pourEnd(log)).toBe(instantOf(120));
    expect(spans(...log)).toEqual([span(-10, 120)]);
  });

  it('follows the corrected time of a batch, whichever was placed last then', () => {
    const log = [placed(0, 1), placed(120, 2), finished(1170), corrected(1200, 'placed-2', instantOf(90))];
    expect(pourEnd(log)).toBe(instantOf(90));
    expect(pourEnd([...log, corrected(1201, 'placed-1', instantOf(95))])).toBe(instantOf(95));
  });

  it('counts clean-up as work up to two hours after the last batch', () => {
    expect(spans(placed(0, 1), finished(120))).toEqual([span(-10, 120)]);
    expect(spans(placed(0, 1), finished(121))).toEqual([span(-10, 0)]);
    const early = [placed(0, 1), finished(1170), corrected(1200, 'the-end', instantOf(30))];
    expect([pourEnd(early), ...spans(...early)]).toEqual([instantOf(0), span(-10, 30)]);
  });

  it('is the entry itself where nothing was placed, and nothing while the pour runs', () => {
    expect(pourEnd([finished(40)])).toBe(instantOf(40));
    expect(pourEnd([placed(0, 1)])).toBeNull();
    expect([spans(finished(40)), spans(placed(0, 1))]).toEqual([[], []]);
  });

  it('divides the work where the pour was resumed, without a night between', () => {
    const log = [placed(0, 1), finished(20), resumed(30), placed(50, 2)];
    expect(spans(...log, finished(55, 'end-2'))).toEqual([span(-10, 20), span(20, 55)]);
    // Resumed and ended again without another batch: nothing more was poured.
    expect(spans(...log.slice(0, 3), finished(55, 'end-2'))).toEqual([span(-10, 20)]);
    // Ended before the first batch by mistake: the time since the start stays.
    expect(spans(finished(2), resumed(3), placed(20, 1), finished(25, 'end-2'))).toEqual([span(-10, 25)]);
    // Resumed the next morning: two hours after the last batch at most.
    expect(spans(placed(0, 1), finished(20), resumed(1200), placed(1230, 2), finished(1240, 'end-2'))).toEqual([
      span(-10, 20),
      span(1200, 1240),
    ]);
    // Of two ends in a row the later one counts.
    expect(spans(placed(0, 1), finished(20), finished(30, 'end-2'))).toEqual([span(-10, 30)]);
  });
});
