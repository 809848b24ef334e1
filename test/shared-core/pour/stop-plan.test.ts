import { describe, expect, it } from 'vitest';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import { outsideWords } from '../../../shared-core/documents/pour-words.ts';
import { clocksAt } from '../../../shared-core/pour/clocks.ts';
import { pourModel } from '../../../shared-core/pour/crew-model.ts';
import { pourState, type PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { newRandom, nextUnit, seedRandom } from '../../../shared-core/pour/random.ts';
import { joinAges } from '../../../shared-core/pour/joins.ts';
import { timelineOf } from '../../../shared-core/pour/simulate.ts';
import { startCrew } from '../../../shared-core/pour/start-crew.ts';
import { alarmWords, stopWords } from '../../../renderer/stages/pour/pour-mode-words.ts';
import { DAM_MIN, damsInRoom, placeableBags, stopPlan } from '../../../shared-core/pour/stop-plan.ts';
import { layOut } from '../../../shared-core/pour/layout.ts';
import { powder } from '../substrate/a-floor.ts';
import { bay, box, laidOut, recordPlan, rectangle } from './floors.ts';

/** Six lanes of 4 m in a floor 4.5 m wide, 10 mm deep, bags of 12.5 L: about 14 batches of one bag. */
const layout = laidOut([bay('room-hall', rectangle(4, 4.5, 6))], 0.0125, 'one-way', 1);
/** The same floor in the default ten lanes, each placed well within the healing time. */
const startLayout = laidOut([bay('room-hall', rectangle(4, 4.5, 10))], 0.0125, 'one-way', 1);
const clocks = clocksAt(null, 21.1);
const PLAN = recordPlan(layout, clocks);
const START_PLAN: PourRecordPlan = { ...PLAN, layout: startLayout };
const START = Date.parse('2026-05-12T14:00:00Z');
const instantOf = (min: number): string => new Date(START + min * 60_000).toISOString();

/** The log of the batches placed by a minute. */
function logOf(placedMin: readonly number[], untilMin: number): PourEvent[] {
  return placedMin.flatMap((min, i): PourEvent[] =>
    min > untilMin
      ? []
      : [
          {
            id: `event-${i + 1}`,
            pourId: 'pour-1',
            seq: i + 1,
            instant: instantOf(min),
            estimated: false,
            kind: 'placed',
            batch: i + 1,
            roomId: 'room-hall',
            lane: null,
            bags: 1,
          },
        ],
  );
}

const coldM = (endMin: readonly number[], isJoined: (batch: number) => boolean): number =>
  joinAges(
    startLayout.joins.filter((join) => join.points.some((p) => isJoined(p.newer) && isJoined(p.older))),
    { startMin: endMin, endMin },
  ).reduce((sum, age) => sum + (age.mostMin > clocks.healingMin ? age.join.lengthM : 0), 0);

describe('where to stop', () => {
  const stateAt = (placed: readonly number[], now: number) => pourState(PLAN, { bagsOnSite: 20 }, logOf(placed, now), instantOf(now));

  it('dams all wet sides: the rest of the lane before, the front, and the placed side toward the next lane', () => {
    // Batch 4 is in lane 2: 4 batches of 1.25 m² cover 5 of 18 m², a lane holds 3.
    const plan = stopPlan(PLAN, stateAt([1, 2, 3, 4], 5), { bags: 0, outageMin: null });
    expect(plan).toMatchObject({ kind: 'here', lane: 2, batches: 0 });
    // Plane geometry: the placed floor is lane 1 and 2 / 0.75 m of lane 2. Its outline is 2 (4 + 1.5) m, of which the walls take 4, 0.75, 1.5.
    const wetM = 2 * (4 + 1.5) - 4 - 0.75 - 1.5;
    expect(plan?.dams.reduce((sum, dam) => sum + dam.lengthM, 0)).toBeCloseTo(wetM, 3);
    expect(plan?.dams.map((dam) => dam.lengthM)).toEqual([
      expect.closeTo(0.75, 3),
      expect.closeTo(4 - 2 / 0.75, 3),
      expect.closeTo(2 / 0.75, 3),
    ]);
    if (plan === null) throw new Error('There is a plan.');
    expect(stopWords(plan, (m) => `${m.toFixed(2)} m`)).toMatch(/^Stop in lane 2 at the front\. Set 4\.75 m of dam within \d+ min\./);
  });

  it('dams an open doorway to the room that is not reached yet, and none where both rooms are placed', () => {
    // Each room is one lane of 8 m², 0.08 m³: four batches of 20 L.
    const sides = [
      { roomId: 'room-hall', from: { xM: 0.5, yM: 2 }, to: { xM: 1.5, yM: 2 } },
      { roomId: 'room-den', from: { xM: 0.5, yM: 2.15 }, to: { xM: 1.5, yM: 2.15 } },
    ] as const;
    const found = layOut({
      bays: [bay('room-hall', [[box(0, 0, 4, 2)]]), bay('room-den', [[box(0, 2.15, 4, 4.15)]])],
      doorways: [{ sides }],
      pattern: 'one-way',
      bagYieldM3: 0.02,
      bagsPerBatch: 1,
    });
    if (!found.ok) throw new Error(found.problem.kind);
    const rooms = { ...PLAN, layout: found.value };
    const damsAfter = (batches: number) => {
      const minutes = Array.from({ length: batches }, (_, i) => i + 1);
      return stopPlan(rooms, pourState(rooms, { bagsOnSite: 20 }, logOf(minutes, 10), instantOf(10)), { bags: 0, outageMin: null })?.dams;
    };
    expect(damsAfter(4)?.map((dam) => dam.lengthM)).toEqual([expect.closeTo(1, 2)]);
    // A batch is 1 m of a lane: the den's first reaches the middle of the doorway.
    expect(damsAfter(5)?.map((dam) => dam.lengthM)).toEqual([expect.closeTo(2, 3), expect.closeTo(0.5, 2)]);
    expect(damsAfter(6)?.map((dam) => dam.lengthM)).toEqual([expect.closeTo(2, 3)]);
    // Half of the hall: its front, and the half of the doorway beside it, on the hall's side and across it on the den's.
    expect(damsAfter(2)).toEqual([
      expect.objectContaining({ roomId: 'room-hall', lengthM: expect.closeTo(2, 3) }),
      {
        roomId: 'room-hall',
        from: { xM: expect.closeTo(0.5, 2), yM: 2 },
        to: { xM: expect.closeTo(1.5, 2), yM: 2 },
        lengthM: expect.closeTo(1, 2),
        across: {
          roomId: 'room-den',
          from: { xM: expect.closeTo(0.5, 2), yM: 2.15 },
          to: { xM: expect.closeTo(1.5, 2), yM: 2.15 },
        },
      },
    ]);
    // Every dam that the sentence counts is on the plan of the room being poured, the hall and then the den.
    for (const [batches, roomId] of [
      [2, 'room-hall'],
      [4, 'room-den'],
      [5, 'room-den'],
    ] as const) {
      const dams = damsAfter(batches) ?? [];
      expect(damsInRoom(dams, roomId)).toHaveLength(dams.length);
    }
  });

  it('finishes a lane that the batches in hand can reach', () => {
    const plan = stopPlan(PLAN, stateAt([1, 2, 3, 4], 5), { bags: 1, outageMin: null });
    expect(plan).toMatchObject({ kind: 'lane-end', lane: 2, batches: 1 });
    expect(plan?.dams.map((dam) => dam.lengthM)).toEqual([expect.closeTo(4, 6)]);
  });

  it('says what to do while an edge waits, and where the wall is the end of a lane', () => {
    const plan = stopPlan(PLAN, stateAt([1, 2, 3, 4], 5), { bags: 1, outageMin: null });
    if (plan === null) throw new Error('There is a plan.');
    const words = (more: Partial<typeof plan>) => stopWords({ ...plan, ...more }, String);
    expect(words({ kind: 'wait', leftMin: 4.7 })).toBe('Wait. The edges allow 4 min. Do not mix another batch. Keep working the wet edge.');
    expect(words({ dams: [] })).toBe('Place 1 more batch. Stop at the end of lane 2. No dam is needed: the wall is the end.');
  });

  it('changes its sentence once the edge is past healing, suggests the joint, and is silent once the dam is logged', () => {
    const placed = [1, 3, 5, 7];
    const sentences = (now: number, more: readonly PourEvent[] = []): string[] => {
      const state = pourState(PLAN, { bagsOnSite: 20 }, [...logOf(placed, now), ...more], instantOf(now));
      const stop = stopPlan(PLAN, state, { bags: placeableBags(state), outageMin: null });
      return alarmWords(state, { leak: null, stop: stop === null ? null : stopWords(stop, (m) => `${m.toFixed(1)} m`), outside: null });
    };
    const { healingMin } = clocks;
    // Batch 1 lies in lane 1, and lane 2 has met half of it by batch 4.
    expect(sentences(3 + healingMin - 4)).toEqual([]);
    expect(sentences(3 + healingMin - 1).join()).toContain('close to its healing time. Meet it next.');
    const cold = sentences(3 + healingMin + 1).join();
    expect(cold).toMatch(/is past healing: cold joint\. Stop in lane 2 at the front\. Set \d\.\d m of dam now\./);
    const stamp = { pourId: 'pour-1', estimated: false, instant: instantOf(3 + healingMin) };
    const dam = { kind: 'joint', roomId: 'room-hall', from: { xM: 0, yM: 0 }, to: { xM: 1, yM: 0 }, note: '' } as const;
    expect(sentences(3 + healingMin + 1, [{ ...stamp, id: 'dam', seq: 99, ...dam }])).toEqual([]);
  });

  // The order is common practice, no source: what is being lost now comes before what may be.
  it('puts the edge past healing and the batch past working time before a leak, a leak before an edge that is only close, and a cold room last', () => {
    const { oldestEdge, inHand } = pourState(
      PLAN,
      { bagsOnSite: 20 },
      [
        ...logOf([1, 2, 3, 4], 5),
        { id: 'mix-5', pourId: 'pour-1', seq: 5, instant: instantOf(4), estimated: false, kind: 'mixed', batch: 5, bags: 1, waterL: null },
      ],
      instantOf(4 + clocks.workingTimeMin + 1),
    );
    if (oldestEdge === null) throw new Error('There is no edge.');
    const first = (leftMin: number): string[] =>
      alarmWords(
        { oldestEdge: { ...oldestEdge, leftMin }, inHand },
        // A floor read at 45 F, under the 50 F minimum of most data sheets (from memory).
        { leak: 'Lane 2 has taken 9 bags.', stop: null, outside: outsideWords(clocksAt(powder(), 7.2), 'running') },
      );
    expect(first(-1)).toEqual([
      expect.stringContaining('is past healing'),
      expect.stringContaining('past its working time'),
      expect.stringContaining('Lane 2 has taken'),
      expect.stringMatching(/^Colder than the .* minimum\. Warm the room .* no fuel-burning heater/),
    ]);
    expect(first(1)).toEqual([
      expect.stringContaining('past its working time'),
      expect.stringContaining('Lane 2 has taken'),
      expect.stringContaining('close to its healing time'),
      expect.stringContaining('Colder than'),
    ]);
  });

  it('closes the floor with the mixed batches when a helper is hurt, and drops a batch that became too old', () => {
    const mixed = (batch: number, min: number): PourEvent => ({
      ...{ id: `mix-${batch}`, pourId: 'pour-1', seq: 50 + batch, instant: instantOf(min), estimated: false },
      ...{ kind: 'mixed', batch, bags: 1, waterL: null },
    });
    const planAt = (now: number) => {
      const state = pourState(PLAN, { bagsOnSite: 20 }, [...logOf([1, 2, 3, 4], now), mixed(5, 4)], instantOf(now));
      return stopPlan(PLAN, state, { bags: placeableBags(state), outageMin: null });
    };
    // The batch in hand fills lane 2; too old, it is thrown out and the dam goes to the front.
    expect(planAt(5)).toMatchObject({ kind: 'lane-end', lane: 2, batches: 1 });
    expect(planAt(5 + clocks.workingTimeMin)).toMatchObject({ kind: 'here', lane: 2, batches: 0 });
  });

  it.each(['by-hand', 'cart'] as const)('loses less to cold joints than continuing when power fails, over 200 seeded pours %s', (carry) => {
    const crew = startCrew(carry, clocks);
    const model = pourModel(startLayout, crew, clocks);
    if (!model.ok) throw new Error(model.problem.kind);
    const random = newRandom();
    seedRandom(random, 7, 0);
    let goingOnM = 0;
    let advisedM = 0;
    for (let run = 0; run < 200; run++) {
      const endMin = [...timelineOf(model.value, 20, run).laid.endMin];
      const lostMin = nextUnit(random) * (endMin.at(-1) ?? 0);
      const outageMin = 5 + nextUnit(random) * 55;
      goingOnM += coldM(
        endMin.map((min) => (min > lostMin ? min + outageMin : min)),
        () => true,
      );
      const state = pourState(START_PLAN, { bagsOnSite: 20 }, logOf(endMin, lostMin), instantOf(lostMin));
      const plan = stopPlan(START_PLAN, state, { bags: crew.mixers, outageMin });
      if (plan === null) throw new Error('There is a plan.');
      if (plan.kind === 'wait') {
        advisedM += coldM(
          endMin.map((min) => (min > lostMin ? min + outageMin : min)),
          () => true,
        );
        continue;
      }
      const last = state.placed + plan.batches;
      advisedM += coldM(endMin, (batch) => batch <= last);
      // A dam that cannot be set in time leaves its whole length as a cold joint.
      if (plan.leftMin !== null && plan.leftMin < DAM_MIN) advisedM += plan.dams.reduce((sum, dam) => sum + dam.lengthM, 0);
    }
    expect(goingOnM).toBeGreaterThan(0);
    expect(advisedM).toBeLessThan(goingOnM / 2);
  });
});
