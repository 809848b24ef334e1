import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { conflicts } from '../../../shared-core/agenda/conflicts.ts';
import { isAt, moveDate } from '../../../shared-core/agenda/move-date.ts';
import { reminderNotice, remindersOf } from '../../../shared-core/agenda/reminders.ts';
import { firstDate, todayList } from '../../../shared-core/agenda/today.ts';
import { BUSINESS, bundle, pour, quote, summary } from './bundle-fixture.ts';
import { threeTests } from '../cure/sheet-fixture.ts';

type Over = Omit<Parameters<typeof bundle>[0], 'id'>;

function read(over: Over) {
  const job = bundle({ id: 'a', ...over });
  return agenda([{ ...job, quotes: [quote(job, 'accepted', '2026-05-01')] }], BUSINESS, null);
}
const entryOf = (whole: ReturnType<typeof read>, kind: string) => {
  const entry = whole.entries.find((one) => one.kind === kind);
  if (entry === undefined) throw new Error(`No ${kind}.`);
  return entry;
};
const DEN = { roomId: 'room-a', name: 'Den', pourAt: '2026-05-15T13:00:00.000Z' };

describe('a pour on hold', () => {
  const why = 'slab moisture. The last test is too old. Test again';
  const held = summary('room-a', { prepOpen: 2, holds: [{ key: 'rh', why, liftsOn: null }] });

  it('begins its note with the hold, in reminders too, on the days before as on the day', () => {
    const whole = read({ rooms: [DEN], summaries: [held] });
    const { note, isUnready } = entryOf(whole, 'pour');
    expect(isUnready).toBe(true);
    expect(note).toMatch(/^On hold: slab moisture\. The last test is too old\. Test again\. 50 bags\. .+ 2 of 8 prep lines not signed\.$/);
    const notice = reminderNotice(remindersOf(whole).slice(0, 1), false, '2026-05-15T12:00:00.000Z', 'en-US');
    expect(notice.body).toContain('\nOn hold: slab moisture.');
  });

  it('names the room where several are poured, and says nothing of a hold that is cleared', () => {
    const both = [DEN, { ...DEN, roomId: 'room-b', name: 'Kitchen' }];
    const two = (first: typeof held) => entryOf(read({ rooms: both, summaries: [summary('room-b'), first] }), 'pour');
    expect(two(held).note).toMatch(/^The den is on hold: slab moisture\./);
    expect(two(summary('room-a'))).toMatchObject({ isUnready: false, note: expect.stringMatching(/^100 bags/) });
  });
});

describe('a pour without a hold', () => {
  it('says which holds were overridden and how many prep lines are open', () => {
    const pourWith = (over: Partial<ReturnType<typeof summary>>) => {
      const { note, isUnready } = entryOf(read({ rooms: [DEN], summaries: [summary('room-a', over)] }), 'pour');
      return [isUnready, note?.replace(/^.*Arrive by [^.]*\./, '')];
    };
    expect(pourWith({})).toEqual([false, '']);
    expect(pourWith({ overridden: 1 })).toEqual([true, ' 1 hold overridden.']);
    expect(pourWith({ prepOpen: 3 })).toEqual([true, ' 3 of 8 prep lines not signed.']);
    expect(pourWith({ overridden: 20, prepOpen: 3 })).toEqual([true, ' 20 holds overridden. 3 of 8 prep lines not signed.']);
  });
});

describe('a prep visit', () => {
  const ends = (prepVisitAt: string) =>
    entryOf(read({ job: { prepVisitAt }, summaries: [summary('room-a', { prepOpen: 3 })] }), 'prep-visit').until;

  it('ends with the working hours, 6 pm here, and after eight hours at most', () => {
    // 1 pm, 7 am and 7 pm on Wednesday in New York.
    expect(ends('2026-05-13T17:00:00.000Z')).toBe('2026-05-13T22:00:00.000Z');
    expect(ends('2026-05-13T11:00:00.000Z')).toBe('2026-05-13T19:00:00.000Z');
    expect(ends('2026-05-13T23:00:00.000Z')).toBe('2026-05-14T07:00:00.000Z');
    const afternoon = read({ job: { prepVisitAt: '2026-05-13T17:00:00.000Z' } });
    expect(conflicts(afternoon, '2026-05-12T11:00:00.000Z', '2026-06-12T11:00:00.000Z')).toEqual([]);
  });
});

describe('a late date moved on', () => {
  /** The new moment of a pour planned for Friday, May 15, 9 am in New York. */
  const movedAt = (now: string) => {
    const whole = read({ rooms: [DEN] });
    const moved = moveDate(whole, entryOf(whole, 'pour'), now);
    return moved?.instant;
  };

  it('comes to a working day that is not past', () => {
    // Wednesday, 8 am and 10 am.
    expect(movedAt('2026-05-20T12:00:00.000Z')).toBe('2026-05-20T13:00:00.000Z');
    expect(movedAt('2026-05-20T14:00:00.000Z')).toBe('2026-05-21T13:00:00.000Z');
    // Saturday, and Memorial Day, May 25, 2026 (5 U.S.C. 6103).
    expect(movedAt('2026-05-16T14:00:00.000Z')).toBe('2026-05-18T13:00:00.000Z');
    expect(movedAt('2026-05-23T14:00:00.000Z')).toBe('2026-05-26T13:00:00.000Z');
    // One that is not late goes to the next working day.
    expect(movedAt('2026-05-12T14:00:00.000Z')).toBe('2026-05-18T13:00:00.000Z');
  });

  it('for a whole day comes to today at the earliest', () => {
    const job = bundle({ id: 'a', job: { quotePromisedOn: '2026-05-15' } });
    const whole = agenda([job], BUSINESS, null);
    // 8 pm on Wednesday.
    expect(moveDate(whole, entryOf(whole, 'finish-quote'), '2026-05-21T00:00:00.000Z')?.dates).toEqual({
      quotePromisedOn: '2026-05-20',
    });
  });

  it('is where it was moved to until that is undone', () => {
    const whole = read({ rooms: [DEN] });
    const moved = moveDate(whole, entryOf(whole, 'pour'), '2026-05-20T12:00:00.000Z');
    if (moved === null) throw new Error('It can be moved.');
    const to = { ...entryOf(whole, 'pour'), instant: moved.instant };
    expect([isAt(moved.after, to), isAt(whole, to)]).toEqual([true, false]);
  });

  it('is where it was moved to as one pour with another of its job', () => {
    // Monday and Tuesday, May 18 and 19, 9 am in New York.
    const den = { ...DEN, pourAt: '2026-05-18T13:00:00.000Z' };
    const hall = { roomId: 'room-b', name: 'Hall', pourAt: '2026-05-19T13:00:00.000Z' };
    const whole = read({ rooms: [den, hall] });
    const moved = moveDate(whole, entryOf(whole, 'pour'), '2026-05-15T12:00:00.000Z');
    if (moved === null) throw new Error('It can be moved.');
    expect(moved.after.entries.filter(({ kind }) => kind === 'pour')).toMatchObject([{ roomIds: ['room-a', 'room-b'] }]);
    const to = { ...entryOf(whole, 'pour'), instant: moved.instant };
    expect(to.roomIds).toEqual(['room-a']);
    expect([isAt(moved.after, to), isAt(whole, to)]).toEqual([true, false]);
    expect(isAt(moved.after, { ...to, roomIds: ['room-c'] })).toBe(false);
  });
});

describe('the date beside the first line', () => {
  const dateOf = (over: Over, now: string) => todayList(read(over), now).slice(0, 1).map(firstDate);

  it('is the hour of work that does not have it in its sentence', () => {
    const prep = { job: { prepVisitAt: '2026-05-13T17:00:00.000Z' }, summaries: [summary('room-a', { prepOpen: 3 })], rooms: [DEN] };
    expect(dateOf(prep, '2026-05-13T12:00:00.000Z')).toEqual(['1 pm']);
    expect(dateOf(prep, '2026-05-12T12:00:00.000Z')).toEqual(['tomorrow']);
    expect(dateOf({ rooms: [DEN] }, '2026-05-15T12:00:00.000Z')).toEqual([null]);
    expect(dateOf({ rooms: [DEN] }, '2026-05-16T12:00:00.000Z')).toEqual(['late, due Friday']);
    // The visit from 1 pm was over at 6 pm, and may be going on: it is late the day after.
    expect(dateOf(prep, '2026-05-13T22:30:00.000Z')).toEqual(['1 pm']);
    expect(dateOf(prep, '2026-05-14T04:01:00.000Z')).toEqual(['late, due Wednesday']);
  });
});

describe('a cleared room without a handover date', () => {
  const hall = { roomId: 'room-a', name: 'Hall' };
  const pours = [pour('pour0001', ['room-a'], '2026-05-01T13:00:00.000Z', '2026-05-01T16:00:00.000Z')];
  type Passed = { readonly roomId: string; readonly takenAt: string };
  const asked = (over: Over, passedAt: string | readonly Passed[] | null, now: string, each = 3) => {
    const job = bundle({ id: 'a', rooms: [hall], pours, ...over });
    const passed = typeof passedAt === 'string' ? [{ roomId: 'room-a', takenAt: passedAt }] : (passedAt ?? []);
    const clearanceTests = passed.flatMap((of) =>
      threeTests({ jobId: job.job.id, id: `test-${of.roomId}${of.takenAt}`, ...of }).slice(0, each),
    );
    const whole = agenda([{ ...job, clearanceTests, quotes: [quote(job, 'accepted', '2026-05-01')] }], BUSINESS, null);
    return todayList(whole, now).flatMap(({ entry, when }) =>
      entry.kind === 'handover-date' ? [`${entry.verb} ${entry.rest} [${when}]`] : [],
    );
  };
  const PASSED = '2026-06-01T14:00:00.000Z';

  it('asks for one from the day it is cleared, until it is set or the room handed over', () => {
    expect(asked({}, PASSED, '2026-06-03T14:00:00.000Z')).toEqual(['Set a handover date for the Lindqvists’ hall. [since Monday]']);
    expect(asked({}, null, '2026-06-03T14:00:00.000Z')).toEqual([]);
    expect(asked({ job: { handoverAt: '2026-06-09T14:00:00.000Z' } }, PASSED, '2026-06-03T14:00:00.000Z')).toEqual([]);
    expect(asked({ rooms: [{ ...hall, handedOverAt: '2026-06-02T14:00:00.000Z' }] }, PASSED, '2026-06-03T14:00:00.000Z')).toEqual([]);
  });

  // ASTM F2170 counts its tests over the slab (second-hand): here two rooms with three between them.
  it('takes the tests of the rooms of one pour together, and each pour by itself', () => {
    const rooms = ['Hall', 'Den'].map((name, i) => ({ roomId: `room-${'ab'[i]}`, name }));
    const passed = [
      { roomId: 'room-a', takenAt: PASSED },
      { roomId: 'room-b', takenAt: '2026-06-02T14:00:00.000Z' },
      { roomId: 'room-b', takenAt: '2026-06-02T15:00:00.000Z' },
    ];
    const at = ['2026-05-01T13:00:00.000Z', '2026-05-01T16:00:00.000Z'] as const;
    const [together, apart] = [
      [pour('pour0001', ['room-a', 'room-b'], ...at)],
      [pour('pour0001', ['room-a'], ...at), pour('pour0002', ['room-b'], ...at)],
    ];
    expect(asked({ rooms, pours: together }, passed, '2026-06-03T14:00:00.000Z', 1)).toEqual([
      'Set a handover date for the Lindqvists’ hall and den. [since Tuesday]',
    ]);
    expect(asked({ rooms, pours: together }, passed.slice(0, 2), '2026-06-03T14:00:00.000Z', 1)).toEqual([]);
    expect(asked({ rooms, pours: apart }, passed, '2026-06-03T14:00:00.000Z', 1)).toEqual([]);
  });

  it('asks once for a job, over its cleared rooms, from the day the first is cleared', () => {
    const poured = [pour('pour0001', ['room-a', 'room-b', 'room-c'], '2026-05-01T13:00:00.000Z', '2026-05-01T16:00:00.000Z')];
    const rooms = ['Hall', 'Den', 'Kitchen'].map((name, i) => ({ roomId: `room-${'abc'[i]}`, name }));
    const passed = [
      { roomId: 'room-a', takenAt: '2026-06-02T14:00:00.000Z' },
      { roomId: 'room-b', takenAt: PASSED },
    ];
    expect(asked({ rooms, pours: poured }, passed, '2026-06-03T14:00:00.000Z')).toEqual([
      'Set a handover date for the Lindqvists’ hall and den. [since Monday]',
    ]);
  });
});
