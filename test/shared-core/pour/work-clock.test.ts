import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PourEvent, pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { watchWords } from '../../../shared-core/documents/floor-words.ts';
import { afterPour } from '../../../shared-core/pour/after-pour.ts';
import { badBatchPlan } from '../../../shared-core/pour/bad-batch.ts';
import { edgeProblem, openAfterFirst, paperEntries, paperFront } from '../../../shared-core/pour/paper-log.ts';
import { cartEntry, finishedEntry, gaugeAhead, isFlowTestDue, mixedEntry } from '../../../shared-core/pour/pour-commands.ts';
import { pourState, type PourRecordPlan, type PourState } from '../../../shared-core/pour/pour-state.ts';
import { sectionNow, sectionsOf } from '../../../shared-core/pour/room-bays.ts';
import { SPREAD_MIN, workClocks } from '../../../shared-core/pour/work-clock.ts';
import { regionAreaM2 } from '../../../shared-core/plan/region.ts';
import { bay, laidOut, rectangle } from './floors.ts';
import { points } from '../../outlines.ts';

/** Three lanes of 4 m by 1 m, 10 mm deep, a batch of 2 bags covering 2 m²: two batches per lane. */
const layout = laidOut([bay('room-hall', rectangle(4, 3, 3))], 0.02, 'one-way', 2);
const PLAN: PourRecordPlan = { layout, hasLater: false, healingMin: 15, workingTimeMin: 20, bagsPerBatch: 2 };
const START = Date.parse('2026-05-12T14:00:00Z');
const instantOf = (min: number): string => new Date(START + min * 60_000).toISOString();

const logged = (entries: readonly (readonly [number, Record<string, unknown>])[]): PourEvent[] =>
  entries.map(([min, event], i) =>
    pourEventSchema.parse({ id: `event-${i}`, pourId: 'pour-1', seq: i + 1, instant: instantOf(min), estimated: false, ...event }),
  );
const stateOf = (entries: readonly (readonly [number, Record<string, unknown>])[], nowMin: number): PourState =>
  pourState(PLAN, { bagsOnSite: 20 }, logged(entries), instantOf(nowMin));
const placed = (batch: number) => ({ kind: 'placed', batch, roomId: 'room-hall', lane: null, bags: 2 });
const mixed = (batch: number) => ({ kind: 'mixed', batch, bags: 2, waterL: null });

// 0.04 m³ over 4 m² is 10 mm, and 0.12 m³ over 12 m² too: as laid out above.
it('sets the gauge to the depth of the next lane, and to none in a room where only the deep places are filled', () => {
  const rooms = ['room-hall', 'room-den'];
  const both = laidOut(
    rooms.map((id) => bay(id, rectangle(4, 3, 3))),
    0.02,
    'one-way',
    2,
  );
  const firstOf = (roomId: string): number => both.batches.find(({ lane }) => both.lanes[lane - 1]?.roomId === roomId)?.number ?? 0;
  const at = (roomId: string, deep: readonly string[]): number | null => {
    const done = both.batches.filter(({ number }) => number < firstOf(roomId)).map(({ number }) => [number, number] as const);
    return gaugeAhead(both, { covered: new Map(done) }, deep);
  };
  expect(rooms.map((id) => at(id, []))).toEqual([expect.closeTo(0.01, 6), expect.closeTo(0.01, 6)]);
  expect(rooms.map((id) => at(id, ['room-den']))).toEqual([expect.closeTo(0.01, 6), null]);
  expect(gaugeAhead(null, { covered: new Map() }, [])).toBeNull();
});

describe('the work clocks of placed batches', () => {
  it('spread a batch soon after it is placed, spike it while it heals and works', () => {
    const state = stateOf(
      [
        [0, mixed(1)],
        [3, placed(1)],
        [6, mixed(2)],
        [10, placed(2)],
      ],
      11,
    );
    expect(workClocks(PLAN, state)).toEqual([
      // Batch 1: 15 minutes of healing less the 8 since it was placed. Batch 2: likewise 15 less 1.
      { batch: 1, spreadLeftMin: 0, spikeLeftMin: expect.closeTo(7, 6) },
      { batch: 2, spreadLeftMin: expect.closeTo(SPREAD_MIN - 1, 6), spikeLeftMin: expect.closeTo(14, 6) },
    ]);
    // A batch that waited 12 minutes in the bucket has 8 of its working time of 20 left, not 15.
    const waited = stateOf(
      [
        [0, mixed(1)],
        [12, placed(1)],
      ],
      12,
    );
    expect(workClocks(PLAN, waited)[0]?.spikeLeftMin).toBeCloseTo(8, 6);
    // Past its healing time a batch is not touched.
    expect(
      workClocks(
        PLAN,
        stateOf(
          [
            [0, mixed(1)],
            [3, placed(1)],
          ],
          18,
        ),
      ),
    ).toEqual([]);
  });
});

it('reads a log the same in whatever order the database gives its entries', () => {
  const entries = logged([
    [0, mixed(1)],
    [2, placed(1)],
    [3, mixed(2)],
    [5, placed(2)],
    [6, { kind: 'incident', what: 'wrong-water', batch: 2, note: '' }],
    [7, mixed(3)],
    // The clock was set back two minutes.
    [5, placed(3)],
    [9, { kind: 'undone', eventId: 'event-6' }],
    [10, placed(3)],
    [50, mixed(4)],
    [52, placed(4)],
  ]);
  const stateOfAll = (events: readonly PourEvent[]) => pourState(PLAN, { bagsOnSite: 20 }, events, instantOf(60));
  const inOrder = stateOfAll(entries);
  expect([inOrder.placed, inOrder.notices.map(({ kind }) => kind)]).toEqual([4, expect.arrayContaining(['clock-back', 'long-gap'])]);
  fc.assert(
    fc.property(fc.shuffledSubarray(entries, { minLength: entries.length }), (some) => {
      expect(stateOfAll(some)).toEqual(inOrder);
    }),
    { numRuns: 30, seed: 20260512 },
  );
});

describe('a bad batch', () => {
  const two = [
    [0, placed(1)],
    [3, placed(2)],
  ] as const;
  it('is scraped out while the edges can wait, left where they cannot, and cut out once it is past its working time', () => {
    expect(badBatchPlan(PLAN, stateOf(two, 3.5), 2)).toEqual({ kind: 'scrape', leftMin: 19 });
    expect(badBatchPlan(PLAN, stateOf(two, 13), 2).kind).toBe('leave');
    expect(badBatchPlan(PLAN, stateOf(two, 24), 2).kind).toBe('too-late');
    expect(badBatchPlan(PLAN, stateOf([[0, mixed(1)]], 1), 1).kind).toBe('throw-out');
  });
});

describe('keys of a pour', () => {
  it('empty a cart at once: every batch in hand, none mistaken for a double press', () => {
    let entries: PourEvent[] = logged([
      [0, mixed(1)],
      [1, mixed(2)],
      [2, mixed(3)],
    ]);
    for (let i = 0; i < 3; i++) {
      const state = pourState(PLAN, { bagsOnSite: 20 }, entries, instantOf(5));
      const entry = cartEntry(state, PLAN, { id: `cart-${i}`, pourId: 'pour-1', instant: instantOf(5) }, i === 0);
      if (entry === null) throw new Error('A batch is in hand.');
      entries = [...entries, entry.event];
    }
    const state = pourState(PLAN, { bagsOnSite: 20 }, entries, instantOf(5));
    expect([state.placed, state.inHand.length, state.notices]).toEqual([3, 0, []]);
    expect(cartEntry(state, PLAN, { id: 'cart-9', pourId: 'pour-1', instant: instantOf(6) }, true)).toBeNull();
  });

  it('ask for the flow test with the first batch, and again after a doubtful one', () => {
    const reading = { kind: 'reading', airTempC: null, surfaceTempC: null, waterTempC: null, powderTempC: null, relativeHumidity: null };
    expect(isFlowTestDue(stateOf([[0, mixed(1)]], 1))).toBe(true);
    const tested = [
      [0, mixed(1)],
      [1, { ...reading, spreadM: 0.13 }],
      [3, placed(1)],
    ] as const;
    expect(isFlowTestDue(stateOf(tested, 4))).toBe(false);
    const doubted = [...tested, [5, { kind: 'incident', what: 'wrong-water', batch: 1, note: '' }]] as const;
    expect(isFlowTestDue(stateOf(doubted, 6))).toBe(true);
    expect(isFlowTestDue(stateOf([...doubted, [7, { ...reading, spreadM: 0.14 }]], 8))).toBe(false);
  });

  it('let a batch that was thrown out age no more', () => {
    const thrown = [
      [0, mixed(1)],
      [2, { kind: 'discarded', batch: 1, by: '', why: 'wrong water' }],
    ] as const;
    expect(stateOf(thrown, 90).batches[0]).toMatchObject({ ageMin: 2, tooOld: false });
    expect(stateOf(thrown.slice(0, 1), 90).batches[0]).toMatchObject({ ageMin: 90, tooOld: true });
  });

  it('question a difference between stack and log at the end: ten on site, thirteen used, five left', () => {
    const state = pourState(
      PLAN,
      { bagsOnSite: 10 },
      logged([1, 2, 3, 4, 5, 6].map((batch) => [batch * 3, { ...placed(batch), bags: batch === 6 ? 3 : 2 }] as const)),
      instantOf(20),
    );
    const stamp = { id: 'end', pourId: 'pour-1', instant: instantOf(21) };
    expect(finishedEntry(state, stamp, { bagsLeft: 5, floor: 'whole' }).ask).toEqual({
      kind: 'end-count-differs',
      bagsBrought: 10,
      bagsUsed: 13,
      bagsLeft: -3,
      counted: 5,
    });
    expect(finishedEntry(state, stamp, { bagsLeft: null, floor: 'whole' }).ask).toBeNull();
    expect(mixedEntry(state, PLAN, stamp, null).ask).toMatchObject({ kind: 'mixed-short', bagsLeft: -3 });
  });
});

describe('the last edge of a handwritten pour', () => {
  it('divides its lane at the point: lanes before it are complete, and the lanes on either side are marked', () => {
    const front = paperFront(layout, 'room-hall', { xM: 1, yM: 1.5 });
    expect(front?.lanesDone).toBe(1);
    const areaOf = (state: string): number =>
      (front?.marks ?? []).filter((m) => m.state === state).reduce((sum, m) => sum + regionAreaM2({ outline: m.outline, holes: [] }), 0);
    const forward = layout.lanes[1]?.forward === true;
    expect(areaOf('placed')).toBeCloseTo(forward ? 1 : 3, 6);
    expect(areaOf('not-placed')).toBeCloseTo(forward ? 3 : 1, 6);
    expect(paperFront(layout, 'room-hall', { xM: 9, yM: 9 })).toBeNull();
    // The edge goes from one side of the lane to the other, through the point.
    const ends = [front?.line.from, front?.line.to].map((end) => [end?.xM, end?.yM].map((m) => Math.round((m ?? NaN) * 1e6) / 1e6));
    expect(ends.toSorted((a, b) => (a[1] ?? 0) - (b[1] ?? 0))).toEqual([
      [1, 1],
      [1, 2],
    ]);
  });

  it('in the first lane leaves the other lanes open, 4 m² each', () => {
    const openM2 = (marks: ReturnType<typeof openAfterFirst>): number =>
      marks.reduce((sum, m) => sum + (m.state === 'not-placed' ? regionAreaM2({ outline: m.outline, holes: [] }) : 0), 0);
    expect(openM2(openAfterFirst(layout))).toBeCloseTo(8, 6);
    expect(openM2(paperFront(layout, 'room-hall', { xM: 2, yM: 0.5 })?.marks ?? [])).toBeCloseTo(10, 6);
  });

  it('is asked for where the batches or bags are all of the plan and nothing says what is open', () => {
    const entriesOf = (toBatch: number, bags: number) => {
      let id = 0;
      const made = paperEntries(PLAN, 'pour-1', 1, [{ batch: 1, toBatch, bags, placedAt: instantOf(9) }], () => `entry-${(id += 1)}`);
      if (!made.ok) throw new Error(made.problem.kind);
      return made.value;
    };
    expect(edgeProblem(PLAN, null, entriesOf(6, 2))).toBe('no-lanes');
    expect(edgeProblem(PLAN, null, entriesOf(3, 4))).toBe('no-lanes');
    expect(edgeProblem(PLAN, null, entriesOf(5, 2))).toBeNull();
    expect([0, 2, 3].map((lanes) => edgeProblem(PLAN, lanes, entriesOf(6, 2)))).toEqual([null, null, 'all-full']);
    // What is open is the section left for another day.
    for (const lanes of [null, 0, 3]) expect(edgeProblem({ ...PLAN, hasLater: true }, lanes, entriesOf(6, 2))).toBeNull();
  });
});

describe('a handwritten line', () => {
  const wrongIn = (...lines: readonly Partial<{ batch: number; toBatch: number; bags: number; placedAt: string }>[]) => {
    let id = 0;
    const whole = lines.map((line, i) => ({ batch: i + 1, bags: 2, placedAt: instantOf(9 + i), ...line }));
    const made = paperEntries(PLAN, 'pour-1', 4, whole, () => `entry-${(id += 1)}`);
    return made.ok ? null : [made.problem.kind, made.problem.line, made.problem.batch, made.problem.repeated];
  };

  it('numbers its batches from 1, in whole numbers, forward, each one once', () => {
    expect([wrongIn({}), wrongIn({ batch: 1, toBatch: 1 }), wrongIn({ toBatch: 3 }, { batch: 4 })]).toEqual([null, null, null]);
    for (const batch of [0, -1, 1.5, NaN]) expect(wrongIn({}, { batch })).toEqual(['not-numbered', 2, batch, null]);
    for (const toBatch of [1, 2.5]) expect(wrongIn({ batch: 2, toBatch })).toEqual(['range-backward', 1, 2, null]);
    expect(wrongIn({ toBatch: 3 }, { batch: 3 })).toEqual(['repeated', 2, 3, 3]);
    expect(wrongIn({ batch: 4 }, { batch: 2, toBatch: 5 })).toEqual(['repeated', 2, 2, 4]);
  });

  it('has bags and a time, at or after the line before', () => {
    for (const bags of [0, -1, NaN]) expect(wrongIn({ bags })).toEqual(['no-bags', 1, 1, null]);
    expect(wrongIn({ placedAt: '' })).toEqual(['no-time', 1, 1, null]);
    expect(wrongIn({ placedAt: instantOf(9) }, { placedAt: instantOf(9) })).toBeNull();
    expect(wrongIn({ placedAt: instantOf(9) }, { placedAt: instantOf(8.9) })).toEqual(['out-of-order', 2, 2, null]);
  });
});

describe('joints of a handwritten pour', () => {
  // Healing time of the plan: 15 minutes.
  const afterOf = (...lines: readonly { batch: number; toBatch?: number; min: number }[]) => {
    let id = 0;
    const made = paperEntries(
      PLAN,
      'pour-1',
      1,
      lines.map(({ min, ...line }) => ({ ...line, bags: 2, placedAt: instantOf(min) })),
      () => `entry-${(id += 1)}`,
    );
    if (!made.ok) throw new Error(made.problem.kind);
    const after = afterPour(layout, pourState(PLAN, { bagsOnSite: 14 }, made.value, instantOf(300)), PLAN, null);
    return { after, cold: after.toWatch.map((joint) => [joint.olderBatch, joint.newerBatch]), words: watchWords(after) };
  };

  it('are not timed between batches of one line, or by its time', () => {
    // All six batches by minute 120: neither met in time nor late, nor placed in no time.
    const together = afterOf({ batch: 1, toBatch: 6, min: 120 });
    expect([together.cold, together.after.lastedMin]).toEqual([[], null]);
    expect(together.words).toContain('joints were not timed');
    expect(together.words).not.toContain('All joints');
    // Three batches by minute 20, the others by minute 42: one batch every seven minutes fits, and so does a long wait.
    const twice = afterOf({ batch: 1, toBatch: 3, min: 20 }, { batch: 4, toBatch: 6, min: 42 });
    expect([twice.cold, twice.after.lastedMin, twice.after.timed]).toEqual([[], null, 0]);
  });

  it('are not timed where the batches with a time of their own share none', () => {
    // Two batches in each of three lanes: the first and the last meet nowhere.
    const ends = afterOf({ batch: 1, min: 5 }, { batch: 2, toBatch: 5, min: 60 }, { batch: 6, min: 90 });
    expect([ends.after.timed, ends.after.timedJoints]).toEqual([2, 0]);
    expect(ends.words).toBe('Batches were logged together, so joints were not timed. Look for ridges or hairline cracks before flooring.');
    // The first and the second meet end to end in lane 1; the others are to be looked at.
    const some = afterOf({ batch: 1, min: 5 }, { batch: 2, min: 9 }, { batch: 3, toBatch: 6, min: 60 });
    expect([some.after.timed, some.after.timedJoints, some.cold]).toEqual([2, 1, []]);
    expect(some.words).toMatch(
      /^All joints between timed batches .* were not timed\. Look for ridges or hairline cracks before flooring\.$/,
    );
  });

  it('are timed where each batch has its own line', () => {
    const minutes = [0, 4, 8, 32, 36, 40];
    const { after, cold } = afterOf(...minutes.map((min, i) => ({ batch: i + 1, min })));
    // Lanes go one way: batch 4 meets batch 2 beside it after 28 minutes and batch 3 at its end after 24; 5 meets 3 after 28.
    expect(cold).toEqual([
      [2, 4],
      [3, 5],
      [3, 4],
    ]);
    expect([after.lastedMin, after.timed]).toEqual([40, 6]);
    // With batches 5 and 6 on one line, only the joints of batch 4 are timed.
    const some = afterOf(...minutes.slice(0, 4).map((min, i) => ({ batch: i + 1, min })), { batch: 5, toBatch: 6, min: 40 });
    expect([some.cold, some.after.lastedMin, some.after.timed]).toEqual([
      [
        [2, 4],
        [3, 4],
      ],
      null,
      4,
    ]);
    expect(some.words).toContain('Joints of batches logged together were not timed.');
  });
});

describe('sections between dammed joints', () => {
  const outline = points('0,0 6,0 6,3 0,3');
  const room = {
    plan: { outline, holes: [], openings: [] },
    pourPlan: { laneWidthM: 1, angleDeg: 0, wayOutId: null, joints: [{ id: 'joint-1', from: { xM: 2, yM: -1 }, to: { xM: 2, yM: 4 } }] },
  };
  const area = (regions: readonly { outline: readonly { xM: number; yM: number }[]; holes: readonly [] }[]): number =>
    regions.reduce((sum, region) => sum + regionAreaM2(region), 0);

  it('are each poured on their own day: one now, the others later; a placed one is not poured again', () => {
    expect(sectionsOf(room)).toHaveLength(2);
    const first = sectionNow(room, 1, null);
    expect(area(first.only as never) + area(first.later as never)).toBeCloseTo(18, 6);
    expect(first.later).toHaveLength(1);
    // The rest after section 1: its section is complete, so all of the open floor is next.
    const rest = sectionNow(room, 1, first.later);
    expect(rest).toEqual({ only: first.later, later: [] });
    expect(sectionNow(room, null, null)).toEqual({ only: null, later: [] });
  });
});
