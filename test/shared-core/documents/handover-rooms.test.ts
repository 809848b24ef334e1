/** What the handover says of a floor: from every pour of it, by its log as corrected. */
import { describe, expect, it } from 'vitest';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import { handoverRooms } from '../../../shared-core/documents/handover-rooms.ts';
import { roomShare } from '../../../shared-core/documents/handover-tables.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { middleJoint } from '../../../shared-core/standing/edit-pour-plan.ts';
import { firstPourPlan } from '../../../shared-core/standing/read-pour.ts';
import { barePlan } from '../pour/bare-plan.ts';
import { at, family, jobOf, logOf, nextPour, NOW, placed, ROOM } from './poured-family.ts';

const LATER = '2026-05-25T12:00:00.000Z';

/** Eight batches with two hours of standstill after the fourth; the rest two days later without one. */
function inTwoPours() {
  const first = nextPour(readJob(family, NOW), 'pour-b', '13');
  const firstLog = logOf('pour-b', [
    ...Array.from({ length: 8 }, (_, i) => placed(at('13', 3 * i + (i < 4 ? 0 : 120)), i + 1)),
    { kind: 'finished', bagsLeft: null, floor: 'partly', instant: at('13', 200) },
  ]);
  const partly = readJob({ ...family, pours: [first], pourEvents: firstLog }, at('14', 0));
  const second = nextPour(partly, 'pour-a', '15');
  const batches = second.asPoured.layout?.batches ?? [];
  const secondLog = logOf('pour-a', [
    ...batches.map((batch, i) => placed(at('15', 2 * i), batch.number)),
    { kind: 'finished', bagsLeft: null, floor: 'whole', instant: at('15', 200) },
  ]);
  return { first, second, firstLog, secondLog };
}

describe('a floor of two pours', () => {
  const { first, second, firstLog, secondLog } = inTwoPours();
  const readingOf = (pours: Pour[], firstOf = firstLog) => readJob({ ...family, pours, pourEvents: [...firstOf, ...secondLog] }, LATER);

  it.each([
    ['first before second', [first, second]],
    ['second before first', [second, first]],
  ] as const)('lists the possible cold joints of both, whatever the order of their records: %s', (_, pours) => {
    const reading = readingOf([...pours]);
    const [room] = handoverRooms(reading);
    expect([second.asPoured.rooms[0]?.isRest, room?.pour.id, room?.parts.map((part) => part.pour.id)]).toEqual([
      true,
      'pour-a',
      ['pour-b', 'pour-a'],
    ]);
    // Batches 4 and 5 are 111 minutes apart or more, no two of the second pour.
    expect(room?.joins.length).toBeGreaterThan(0);
    for (const join of room?.joins ?? []) expect(join.openMin).toBeGreaterThan(100);
  });

  it('counts bags and lots as the log says after Undo, Redo and corrections', () => {
    const used = (more: readonly Record<string, unknown>[]) => {
      const lot = { kind: 'lot', lot: 'A-17', instant: at('13', 1) };
      const log = logOf('pour-b', [lot, ...firstLog.map(({ id: _, pourId: _p, seq: _s, ...line }) => line), ...more]);
      const [room] = handoverRooms(readingOf([first, second], log));
      return [room?.bags, room?.lots];
    };
    const voided = (eventId: string) => ({ kind: 'undone', eventId: `pour-b-${eventId}`, instant: at('13', 210) });
    const all = 2 * (8 + (second.asPoured.layout?.batches.length ?? 0));
    // Entry 1 is the lot, entry 2 the first batch, entry 10 the end: the next one is 11.
    expect(used([])).toEqual([all, ['A-17']]);
    expect(used([voided('1')])).toEqual([all, []]);
    expect(used([voided('1'), voided('11')])).toEqual([all, ['A-17']]);
    const corrected = { kind: 'corrected', eventId: 'pour-b-2', toAt: null, toBags: 1.5, by: 'RT', why: 'half a bag spoiled' };
    expect(used([{ ...corrected, instant: at('13', 210) }])).toEqual([all - 0.5, ['A-17']]);
  });
});

it('lists a possible cold joint at the last batch of a section, with the other section left for another day', () => {
  const roomReading = readJob(family, NOW).rooms.find(({ room }) => room.id === ROOM);
  if (roomReading === undefined) throw new Error('The job has the family room.');
  const pourPlan = firstPourPlan(roomReading, family);
  const joint = middleJoint(roomReading, pourPlan, 'joint-1');
  if (joint === null) throw new Error('The family room has an outline.');
  const planned = { ...pourPlan, joints: [joint], section: 1 };
  const job = { ...family.job, rooms: family.job.rooms.map((r) => (r.roomId === ROOM ? { ...r, pourPlan: planned } : r)) };
  const pour = nextPour(readJob({ ...family, job }, NOW), 'pour-a', '13');
  const batches = pour.asPoured.layout?.batches ?? [];
  const last = batches.at(-1)?.number ?? 0;
  // Two hours of standstill before the last batch.
  const pourEvents = logOf('pour-a', [
    ...batches.map(({ number, bags }) => ({ ...placed(at('13', number === last ? 180 : number), number), bags })),
    { kind: 'finished', bagsLeft: null, floor: 'partly', instant: at('13', 200) },
  ]);
  const rest = nextPour(readJob({ ...family, job, pours: [pour], pourEvents }, at('14', 0)), 'pour-b', '15');
  const restEvents = logOf('pour-b', [
    ...(rest.asPoured.layout?.batches ?? []).map(({ number, bags }) => ({ ...placed(at('15', number), number), bags })),
    { kind: 'finished', bagsLeft: null, floor: 'whole', instant: at('15', 200) },
  ]);
  const [room] = handoverRooms(readJob({ ...family, job, pours: [pour, rest], pourEvents: [...pourEvents, ...restEvents] }, LATER));
  expect(pour.asPoured.rooms[0]?.later).toHaveLength(1);
  expect(room?.joins.length).toBeGreaterThan(0);
  for (const join of room?.joins ?? []) expect(join.openMin).toBeGreaterThan(100);
});

it('counts the lifts of each room, not those of the room it was poured with', () => {
  const odell = jobOf('sample-job-odell');
  const pourOf = (id: string, day: string, rooms: readonly string[], lift: number): Pour => ({
    ...nextPour(readJob(family, NOW), id, day),
    ...{ jobId: odell.job.id, roomIds: [...rooms], lift, asPoured: barePlan(rooms, lift, 2) },
  });
  const both = pourOf('pour-2', '15', ['sample-hall', 'sample-laundry'], 2);
  const rooms = both.asPoured.rooms.map((room) => (room.roomId === 'sample-laundry' ? { ...room, lift: 1, liftsPlanned: 1 } : room));
  const whole = (id: string, day: string) => logOf(id, [{ kind: 'finished', bagsLeft: 0, floor: 'whole', instant: at(day, 200) }]);
  const reading = readJob(
    {
      ...odell,
      pours: [pourOf('pour-1', '13', ['sample-hall'], 1), { ...both, asPoured: { ...both.asPoured, rooms } }],
      pourEvents: [...whole('pour-1', '13'), ...whole('pour-2', '15')],
    },
    LATER,
  );
  const lifts = handoverRooms(reading).map((one) => [one.room.id, one.lifts, one.schedule.lift]);
  expect(Object.fromEntries(lifts.map(([id, ...rest]) => [id, rest]))).toEqual({ 'sample-hall': [2, 2], 'sample-laundry': [1, 1] });
});

it('gives a long name the width to be read, and leaves it to the other columns where names are short', () => {
  const named = (name: string) => [{ room: { name } }];
  expect(roomShare(named('Hall'), 0.16)).toBe(0.16);
  expect(roomShare(named('Library behind the stairs'), 0.16)).toBeGreaterThan(0.2);
  expect(roomShare(named('Upstairs laundry and mud room beside the stairs'), 0.16)).toBe(0.25);
});
