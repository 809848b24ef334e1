import { describe, expect, it } from 'vitest';
import { pourEventSchema, type PourEvent } from '../../../shared-core/book/pour-record.ts';
import { watchWords } from '../../../shared-core/documents/floor-words.ts';
import { afterPour } from '../../../shared-core/pour/after-pour.ts';
import { noticeWords } from '../../../shared-core/documents/log-words.ts';
import { TYPICAL_SPREAD } from '../../../shared-core/pour/forecast.ts';
import { leakAlarm } from '../../../shared-core/pour/leak.ts';
import { tickGap } from '../../../shared-core/pour/log-time.ts';
import {
  bagsAddedEntry,
  correctedEntry,
  finishedEntry,
  incidentEntry,
  placedEntry,
  mixedEntry,
  laneFinishedEntry,
  undoEntry,
  type Entry,
} from '../../../shared-core/pour/pour-commands.ts';
import { paperDays, paperEntries } from '../../../shared-core/pour/paper-log.ts';
import { pourState, type PourRecordPlan, type PourState } from '../../../shared-core/pour/pour-state.ts';
import { bay, laidOut, rectangle } from './floors.ts';

// Three lanes of two batches each, two bags per batch.
const layout = laidOut([bay('room-hall', rectangle(4, 3, 3))], 0.02, 'back-and-forth', 2);
const PLAN: PourRecordPlan = { layout, hasLater: false, healingMin: 15, workingTimeMin: 12, bagsPerBatch: 2 };
const START = Date.parse('2026-05-12T14:00:00Z');
const instantOf = (min: number) => new Date(START + min * 60_000).toISOString();

/** A pour logged by its commands as on a screen; every entry is validated. */
class Pouring {
  readonly events: PourEvent[] = [];
  question: Entry['ask'] = null;
  constructor(readonly bagsOnSite = 14) {}
  state(min: number): PourState {
    return pourState(PLAN, { bagsOnSite: this.bagsOnSite }, this.events, instantOf(min));
  }
  log(min: number, make: (state: PourState, stamp: { id: string; pourId: string; instant: string }) => Entry | null): void {
    const entry = make(this.state(min), { id: `event-${this.events.length + 1}`, pourId: 'pour-1', instant: instantOf(min) });
    if (!entry) throw new Error('nothing to log');
    this.question = entry.ask;
    this.events.push(pourEventSchema.parse(entry.event));
  }
  mix(min: number) {
    this.log(min, (s, stamp) => mixedEntry(s, PLAN, stamp, null));
  }
  land(min: number) {
    this.log(min, (s, stamp) => placedEntry(s, PLAN, stamp));
  }
}

describe('pourState', () => {
  it('has a batch at its corrected time with its corrected bags, and those after it as they were', () => {
    const pour = new Pouring();
    pour.mix(0);
    pour.land(4);
    pour.mix(5);
    const [first] = pour.events;
    const before = pour.state(6);
    pour.log(6, (s, stamp) =>
      correctedEntry(s, stamp, { eventId: first?.id ?? '', toAt: instantOf(-1), toBags: 3, by: 'Ros', why: 'miscounted' }),
    );
    expect(pour.events.at(-1)).toMatchObject({
      kind: 'corrected',
      eventId: first?.id,
      toAt: instantOf(-1),
      toBags: 3,
      by: 'Ros',
      why: 'miscounted',
    });
    expect(before.bagsLeft - pour.state(6).bagsLeft).toBe(1);
  });

  it('follows a batch from its water to the floor', () => {
    const p = new Pouring();
    p.log(0, (s, stamp) => ({ event: { ...stamp, seq: s.nextSeq, estimated: false, kind: 'started' }, ask: null }));
    p.mix(1);
    expect(p.state(3).inHand).toMatchObject([{ number: 1, bags: 2, ageMin: 2, tooOld: false }]);
    p.land(4);
    const s = p.state(5);
    expect(s.batches).toMatchObject([{ number: 1, mixedMin: 1, placedMin: 4, ageMin: 3, roomId: 'room-hall', lane: 1 }]);
    expect([s.placed, s.nextToMix, s.nextToLand, s.bagsUsed, s.bagsLeft]).toEqual([1, 2, 2, 2, 12]);
  });

  it('shows a batch past its working time as too old', () => {
    const p = new Pouring();
    p.mix(0);
    expect(p.state(12.5).inHand[0]?.tooOld).toBe(true);
  });

  it('gives the age of the oldest edge that still waits for its neighbor', () => {
    const p = new Pouring();
    for (const min of [0, 4, 8]) p.land(min);
    // Batch 1 waits for batch 4 beside it; batch 2 was met by batch 3.
    expect(p.state(10).oldestEdge).toEqual({ besideBatch: 1, ageMin: 10, leftMin: 5 });
    p.land(12);
    expect(p.state(13).oldestEdge).toMatchObject({ besideBatch: 3, ageMin: 5 });
  });

  it('closes the edges of a lane marked finished, and all of them at the end', () => {
    const p = new Pouring();
    for (const min of [0, 4, 8]) p.land(min);
    for (let i = 0; i < 2; i++) p.log(9, (s, stamp) => laneFinishedEntry(s, PLAN, stamp));
    // Three batches fill two lanes: the second reaches past the middle of lane 2, beside lane 3.
    expect(p.state(10).oldestEdge?.besideBatch).toBe(2);
    p.log(11, (s, stamp) => finishedEntry(s, stamp, { bagsLeft: null, floor: null }));
    expect(p.state(12).oldestEdge).toBeNull();
    expect(p.state(12).phase).toBe('finished');
  });

  it('asks whether a lane finished late was full before, and keeps the later batches in the next lane', () => {
    // Two batches fill lane 1; four are placed before anyone logs its end.
    const p = new Pouring();
    for (const min of [0, 4, 8, 12]) p.land(min);
    const late = laneFinishedEntry(p.state(17), PLAN, { id: 'late', pourId: 'pour-1', instant: instantOf(17) });
    if (late === null) throw new Error('Lane 1 is open.');
    expect(late.ask).toEqual({ kind: 'lane-late', lane: 1, batch: 2 });
    expect(late.otherwise).toMatchObject({ kind: 'lane-finished', lane: 1, instant: instantOf(17), estimated: false });
    const before = p.state(17);
    p.log(17, () => late);
    const after = p.state(17);
    expect(after.lanesDone).toMatchObject([{ lane: 1, min: 4, bagsUsed: 4 }]);
    expect(leakAlarm(PLAN, after, TYPICAL_SPREAD)).not.toMatchObject({ lane: 1 });
    // Nothing moved on the floor: the batches lie where they lay by the plan.
    expect([...after.covered]).toEqual([...before.covered]);
    // Logged in time, nothing is asked.
    expect(
      laneFinishedEntry(pourState(PLAN, { bagsOnSite: 14 }, p.events.slice(0, 2), instantOf(5)), PLAN, {
        id: 'on-time',
        pourId: 'pour-1',
        instant: instantOf(5),
      })?.ask,
    ).toBeNull();
  });

  it('counts the bags of a lane up to the corrected time of its end', () => {
    const p = new Pouring();
    for (const min of [0, 4, 8, 12]) p.land(min);
    p.log(13, (s, { id, pourId, instant }) => ({
      event: { id, pourId, instant, seq: s.nextSeq, estimated: false, kind: 'lane-finished', roomId: 'room-hall', lane: 1 },
      ask: null,
    }));
    const eventId = p.events.at(-1)?.id ?? '';
    expect(p.state(14).lanesDone[0]?.bagsUsed).toBe(8);
    p.log(14, (s, stamp) => correctedEntry(s, stamp, { eventId, toAt: instantOf(5), toBags: null, by: 'MP', why: 'forgot' }));
    expect(p.state(15).lanesDone[0]).toMatchObject({ min: 5, bagsUsed: 4 });
  });

  it('undoes the last entry and keeps both; undoing again undoes the one before', () => {
    const p = new Pouring();
    p.land(0);
    p.land(4);
    p.log(5, undoEntry);
    expect(p.state(6)).toMatchObject({ placed: 1, nextToLand: 2, bagsUsed: 2 });
    expect(
      p
        .state(6)
        .entries.filter((e) => e.undone)
        .map((e) => e.event.id),
    ).toEqual(['event-2']);
    p.log(6, undoEntry);
    expect(p.state(7).placed).toBe(0);
    expect(p.events).toHaveLength(4);
    expect(undoEntry(p.state(7), { id: 'more', pourId: 'pour-1', instant: instantOf(7) })).toBeNull();
  });

  it('keeps ages rising when the clock is set back an hour, and reports it', () => {
    const p = new Pouring();
    p.land(0);
    p.land(4);
    p.land(-56 + 4);
    const s = p.state(-56 + 7);
    expect(s.batches.map((b) => b.placedMin)).toEqual([0, 4, 4]);
    expect(s.nowMin).toBe(7);
    // One notice, so that the jump of the log is no key pressed twice.
    expect(s.notices).toEqual([{ kind: 'clock-back', minutes: 56 }]);
    expect(s.notices.map(noticeWords).join(' ')).toContain('clock went back 56 minutes');
    expect(p.question).toBeNull();
  });

  it('continues through ten minutes of sleep, and says how long', () => {
    const p = new Pouring();
    p.land(0);
    expect(p.state(10).oldestEdge?.ageMin).toBe(10);
    expect(tickGap(instantOf(0), instantOf(10), 1000)).toEqual({ kind: 'asleep', minutes: 10 });
    expect(tickGap(instantOf(0), instantOf(0.02), 1000)).toBeNull();
    expect(tickGap(instantOf(0), instantOf(-5), 1000)).toEqual({ kind: 'clock-back', minutes: 5 });
  });

  it('asks about a batch logged twice in a second', () => {
    const p = new Pouring();
    p.land(0);
    p.land(0.01);
    expect(p.question).toEqual({ kind: 'placed-twice', batch: 2 });
    expect(p.state(1).notices).toEqual([{ kind: 'same-key', batch: 2 }]);
    p.land(4);
    expect(p.question).toBeNull();
  });

  it('questions more batches than bags, and never refuses one', () => {
    const p = new Pouring(3);
    p.land(0);
    p.land(4);
    expect(p.question).toEqual({ kind: 'placed-short', batch: 2, bags: 2, bagsLeft: 1 });
    const s = p.state(5);
    expect([s.placed, s.bagsLeft]).toEqual([2, -1]);
    expect(s.notices).toEqual([{ kind: 'more-than-on-site' }]);
    p.log(6, (state, stamp) => bagsAddedEntry(state, stamp, 10));
    expect(p.state(7).bagsLeft).toBe(9);
  });

  it('pauses nothing for a problem', () => {
    const p = new Pouring();
    p.land(0);
    p.log(2, (s, stamp) => incidentEntry(s, stamp, { what: 'spill', note: 'by the door' }));
    expect(p.state(5)).toMatchObject({ phase: 'pouring', oldestEdge: { ageMin: 5 } });
    expect(p.state(5).incidents).toHaveLength(1);
  });

  it('has a problem that is added after the end at the time it happened, as an estimate', () => {
    const p = new Pouring();
    for (const min of [0, 4, 8]) p.land(min);
    p.log(600, (s, stamp) => incidentEntry(s, stamp, { what: 'leak', note: 'from memory', at: instantOf(5) }));
    expect(p.state(610).incidents).toMatchObject([{ min: 5, event: { instant: instantOf(5), estimated: true, seq: 4 } }]);
    expect(p.state(610).notices).toEqual([]);
  });

  it('waits with nothing logged', () => {
    expect(new Pouring().state(0)).toMatchObject({ phase: 'waiting', placed: 0, nextToMix: 1, oldestEdge: null, nextSeq: 1 });
  });
});

describe('paperEntries', () => {
  const line = (batch: number, min: number, bags = 2) => ({ batch, bags, placedAt: instantOf(min) });
  let n = 0;
  const entries = (...lines: ReturnType<typeof line>[]) => paperEntries(PLAN, 'pour-1', 1, lines, () => `paper-${++n}`);

  it('marks every time as estimated', () => {
    const found = entries(line(1, 0), line(2, 5), line(3, 9));
    if (!found.ok) throw new Error(found.problem.kind);
    for (const event of found.value) expect(pourEventSchema.parse(event).estimated).toBe(true);
    const s = pourState(PLAN, { bagsOnSite: 14 }, found.value, instantOf(600));
    expect(s.batches.map((b) => [b.placedMin, b.lane])).toEqual([
      [0, 1],
      [5, 1],
      [9, 2],
    ]);
    expect(s.notices).toEqual([]);
  });

  it('puts a line on the next day only where that is the nearer time', () => {
    expect(paperDays(['23:50', null, '00:10'], '2026-06-01')).toEqual(['2026-06-01', '2026-06-01', '2026-06-02']);
    // 9:55 is a misread 10:55: on the next day it would be 24 hours later, and as written it is out of order.
    expect(paperDays(['09:40', '10:05', '09:55', '10:20'], '2026-06-01')).toEqual(Array(4).fill('2026-06-01'));
    expect(paperDays(['23:50', '00:10', '23:55'], '2026-06-01')).toEqual(['2026-06-01', '2026-06-02', '2026-06-01']);
    expect(paperDays([null, '09:40'], '2026-06-01')).toEqual(['2026-06-01', '2026-06-01']);
  });

  it('names the invalid line', () => {
    expect(entries(line(1, 5), line(2, 0))).toEqual({ ok: false, problem: { kind: 'out-of-order', line: 2, batch: 2, repeated: null } });
    expect(entries(line(1, 0), line(1, 4))).toEqual({ ok: false, problem: { kind: 'repeated', line: 2, batch: 1, repeated: 1 } });
    expect(entries(line(1, 0, 0))).toMatchObject({ problem: { kind: 'no-bags', line: 1 } });
    expect(entries({ batch: 1, bags: 2, placedAt: 'noon' })).toMatchObject({ problem: { kind: 'no-time' } });
  });
});

describe('afterPour', () => {
  const p = new Pouring();
  [0, 4, 8, 24, 28, 32].forEach((min, i) => {
    p.land(min);
    if (i % 2 === 1) p.log(min + 0.5, (s, stamp) => laneFinishedEntry(s, PLAN, stamp));
  });
  const after = afterPour(layout, p.state(40), PLAN, [1, 2, 3, 4, 5, 6]);

  it('lists the joints past the healing time with their place', () => {
    // Batch 4 joined batch 1 after 24 minutes and batch 3 after 16; 5 joined 4 after 4; 6 joined 3 after 24.
    expect(after.toWatch.map((s) => [s.kind, s.olderBatch, s.newerBatch, s.mostMin])).toEqual([
      ['lane', 1, 4, 24],
      ['lane', 3, 6, 24],
      ['batch', 3, 4, 16],
    ]);
    expect(watchWords(after)).toContain('3 possible cold joints');
  });

  it('does not call joints met in time that it cannot place: batches past the last lane logged as finished', () => {
    const q = new Pouring();
    for (const min of [0, 4]) q.land(min);
    q.log(5, (s, stamp) => laneFinishedEntry(s, PLAN, stamp));
    // The end of lane 2 is forgotten, and the mixer stands still before the last batch.
    for (const min of [8, 12, 16, 60]) q.land(min);
    q.log(61, (s, stamp) => finishedEntry(s, stamp, { bagsLeft: null, floor: 'partly' }));
    const unsure = afterPour(layout, q.state(62), PLAN, null);
    expect(unsure.noPlace).toBe(2);
    expect(watchWords(unsure)).toContain('2 batches were placed past the last lane logged as finished, and their joints were not timed.');
    expect(watchWords(unsure)).not.toContain('All joints between logged batches');
    expect(after.noPlace).toBe(0);
  });

  it('shows bags and thickness by lane beside the plan', () => {
    for (const lane of after.lanes) {
      expect(lane.bags).toBe(4);
      // Four bags of 0.01 m3 over 4 m2: 10 mm, as planned.
      expect(lane.thicknessM).toBeCloseTo(0.01, 9);
    }
    expect(after.lastedMin).toBe(32);
    expect(after.batches[3]).toMatchObject({ plannedPlacedMin: 4, placedMin: 24 });
  });
});

describe('limits by temperature', () => {
  // Healing time 15 minutes as planned, 6 at 30 C and 24 at 10 C; working time likewise.
  const limitsAt = (tempC: number | null) => {
    const healingMin = tempC === null ? 15 : tempC > 20 ? 6 : 24;
    return { healingMin, workingTimeMin: healingMin };
  };
  const reading = (seq: number, min: number, tempC: number): PourEvent => ({
    ...{ id: `reading-${seq}`, pourId: 'pour-1', seq, instant: instantOf(min), estimated: false, kind: 'reading', airTempC: null },
    ...{ surfaceTempC: tempC, waterTempC: null, powderTempC: null, relativeHumidity: null, spreadM: null },
  });
  /** Six batches, one every four minutes, each two minutes old when placed; the readings at these minutes. */
  const judged = (...readings: [number, number][]) => {
    const moments = [1, 2, 3, 4, 5, 6].flatMap((batch) => [
      { min: batch * 4 - 2, event: { kind: 'mixed', batch, bags: 2, waterL: null } },
      { min: batch * 4, event: { kind: 'placed', batch, roomId: 'room-hall', lane: null, bags: 2 } },
    ]);
    const log = [
      ...readings.map(([min, tempC], i) => ({ min, event: reading(i + 1, min, tempC) })),
      ...moments.map(({ min, event }) => ({ min, event })),
    ]
      .sort((a, b) => a.min - b.min)
      .map(({ min, event }, i) =>
        pourEventSchema.parse({ ...event, id: `event-${i}`, pourId: 'pour-1', seq: i + 1, instant: instantOf(min), estimated: false }),
      );
    const plan = { ...PLAN, limitsAt };
    const state = pourState(plan, { bagsOnSite: 14 }, log, instantOf(60));
    return afterPour(layout, state, plan, null).toWatch.map((join) => [join.olderBatch, join.newerBatch]);
  };
  // Each lane meets the one before it after 12 minutes at most.
  const HOT = [
    [1, 4],
    [3, 6],
  ];

  it('judge a join by the temperature while it waited', () => {
    expect(judged()).toEqual([]);
    expect(judged([0, 30])).toEqual(HOT);
    expect(judged([0, 10])).toEqual([]);
  });

  it('are not changed by a reading after the join was met', () => {
    expect(judged([0, 30], [50, 10])).toEqual(HOT);
    expect(judged([0, 10], [50, 30])).toEqual([]);
  });

  it('are the shortest of those read while it waited: batch 1 was met at minute 16, before it grew hot', () => {
    expect(judged([0, 10], [20, 30])).toEqual([[3, 6]]);
  });
});
