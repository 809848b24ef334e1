import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { whatBecame } from '../../../shared-core/agenda/became.ts';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { dayList } from '../../../shared-core/agenda/day-list.ts';
import { remindersDue, remindersOf } from '../../../shared-core/agenda/reminders.ts';
import { ribbonView, todayList } from '../../../shared-core/agenda/today.ts';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import { BUSINESS, bundle, pour, quote } from './bundle-fixture.ts';

/** Friday, May 15, 9 am in New York, with an estimate of 275 minutes: over at 1:35 pm. */
const PLANNED_AT = '2026-05-15T13:00:00.000Z';
const [BEFORE, AFTER] = ['2026-05-15T17:34:00.000Z', '2026-05-15T17:36:00.000Z'];

function planned(pours: readonly Pour[] = []) {
  const job = bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: PLANNED_AT }], pours });
  return { ...job, quotes: [quote(job, 'accepted', '2026-05-01')] };
}

function seen(of: ReturnType<typeof planned>, now: string) {
  const all = agenda([of], BUSINESS, null);
  const list = dayList(all, now, 60, 100).groups.flatMap(({ lines }) => lines.map(({ entry }) => entry.kind));
  const row = ribbonView(all, todayList(all, now), now, BUSINESS.timeZone, 42).rows[0];
  const events = calendarFeed(all.entries, [], () => null, now).events.map(({ uid }) => uid.split(':')[1]);
  return { list, strips: row?.lanes.map(({ kind }) => kind), label: row?.label, events };
}

/** Kinds that ever ring, looked for each hour over the weeks after the plan. */
function rung(of: ReturnType<typeof planned>) {
  const reminders = remindersOf(agenda([of], BUSINESS, null));
  const hours = Array.from({ length: 24 * 40 }, (_, i) => new Date(Date.parse(PLANNED_AT) + i * 3_600_000).toISOString());
  return new Set(hours.flatMap((now) => remindersDue(reminders, BEFORE, now, new Set()).map(({ entry }) => entry.kind)));
}

describe('a planned pour', () => {
  it('has expected dates until it is over', () => {
    const { list, strips, label, events } = seen(planned(), BEFORE);
    expect(list).toEqual(['pour', 'walk-on', 'cover']);
    expect(strips).toEqual(['pour', 'drying', 'ready']);
    expect(label).toMatch(/^foot traffic .+, glued wood /);
    expect(events).toEqual(['pour', 'walk-on', 'cover']);
  });

  it('that was not poured has no expected dates once it should be over, and is late once its day is', () => {
    expect(seen(planned(), AFTER)).toEqual({ list: ['pour'], strips: [], label: 'pour not started', events: ['pour'] });
    // A minute before and after midnight in New York.
    expect(['2026-05-16T03:59:00.000Z', '2026-05-16T04:01:00.000Z'].map((now) => seen(planned(), now).label)).toEqual([
      'pour not started',
      'pour is late',
    ]);
  });

  it('takes its expected dates out of a calendar that has them', () => {
    const of = planned();
    const { entries } = agenda([of], BUSINESS, null);
    const sent = calendarFeed(entries, [], () => null, BEFORE).records;
    const events = calendarFeed(entries, sent, (asked) => whatBecame(of, BUSINESS, asked, AFTER), AFTER).events;
    expect(events.map(({ uid, status }) => `${uid.split(':')[1]} ${status}`)).toEqual([
      'pour CONFIRMED',
      'walk-on CANCELLED',
      'cover CANCELLED',
    ]);
  });

  it('rings for foot traffic only once it is poured', () => {
    expect(rung(planned()).has('walk-on')).toBe(false);
    // Still running when its foot traffic was planned for.
    expect(rung(planned([pour('pour0001', ['room-a'], PLANNED_AT, null)])).has('walk-on')).toBe(false);
    expect(rung(planned([pour('pour0001', ['room-a'], PLANNED_AT, '2026-05-15T17:00:00.000Z')])).has('walk-on')).toBe(true);
  });

  it('that started late is drawn where it runs, and is not late', () => {
    const { strips, label } = seen(planned([pour('pour0001', ['room-a'], '2026-05-18T13:00:00.000Z', null)]), '2026-05-18T14:00:00.000Z');
    expect(strips?.[0]).toBe('pour');
    expect(label).not.toContain('late');
  });

  it('of a second lift leaves the dates of the first', () => {
    const lift = pour('pour0001', ['room-a'], '2026-05-14T13:00:00.000Z', '2026-05-14T17:00:00.000Z', 1, 2);
    // Half of the estimate's minutes: over at 11:17:30 am.
    const [before, after] = ['2026-05-15T15:17:00.000Z', '2026-05-15T15:18:00.000Z'].map((now) => seen(planned([lift]), now));
    expect([before?.strips, after?.strips]).toEqual([['pour', 'pour'], ['pour']]);
    expect(after?.label).toBe('pour not started');
    expect(after?.list).toContain('pour');
  });
});
