/**
 * Calendar files read back by three independent readers, ical.js, ts-ics and node-ical, and applied over earlier ones by RFC 5545: UID
 * names the entry (3.8.4.7), a higher SEQUENCE replaces (3.8.7.4), STATUS:CANCELLED removes (3.8.1.11).
 */
import fc from 'fast-check';
import ICAL from 'ical.js';
import nodeIcal from 'node-ical';
import { convertIcsCalendar } from 'ts-ics';
import { describe, expect, it } from 'vitest';
import { writeCalendar } from '../../../main/desk/calendar.ts';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { whatBecame } from '../../../shared-core/agenda/became.ts';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import type { CalendarEntry } from '../../../shared-core/book/papers.ts';
import { BUSINESS, bundle } from '../../shared-core/agenda/bundle-fixture.ts';

type Held = {
  readonly uid: string;
  readonly sequence: number;
  readonly cancelled: boolean;
  readonly summary: string;
  readonly from: string;
  readonly until: string;
};
type Reader = (text: string) => Held[];

const byIcalJs: Reader = (text) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((component) => {
    const event = new ICAL.Event(component);
    const instantOf = (time: ICAL.Time): string => (time.isDate ? `${time.toString()}T00:00:00.000Z` : time.toJSDate().toISOString());
    return {
      uid: event.uid,
      sequence: event.sequence,
      cancelled: component.getFirstPropertyValue('status') === 'CANCELLED',
      summary: event.summary,
      from: instantOf(event.startDate),
      until: instantOf(event.endDate),
    };
  });

const byTsIcs: Reader = (text) =>
  (convertIcsCalendar(undefined, text).events ?? []).map((event) => ({
    uid: event.uid,
    sequence: event.sequence ?? 0,
    cancelled: event.status === 'CANCELLED',
    summary: event.summary,
    from: event.start.date.toISOString(),
    until: event.end?.date.toISOString() ?? '',
  }));

/** It returns whole days as midnight of the computer's own zone. */
const byNodeIcal: Reader = (text) =>
  Object.values(nodeIcal.sync.parseICS(text)).flatMap((event) => {
    if (event === undefined || event.type !== 'VEVENT') return [];
    const startOf = (time: Date & { readonly dateOnly?: true }): string =>
      time.dateOnly === true
        ? new Date(Date.UTC(time.getFullYear(), time.getMonth(), time.getDate())).toISOString()
        : new Date(time.getTime()).toISOString();
    return [
      {
        uid: event.uid,
        sequence: Number(event.sequence),
        cancelled: event.status === 'CANCELLED',
        summary: typeof event.summary === 'string' ? event.summary : event.summary.val,
        from: startOf(event.start),
        until: event.end === undefined ? '' : startOf(event.end),
      },
    ];
  });

const READERS: readonly (readonly [string, Reader])[] = [
  ['ical.js', byIcalJs],
  ['ts-ics', byTsIcs],
  ['node-ical', byNodeIcal],
];

/** What a calendar program has after importing a file over its entries. */
function afterImport(before: ReadonlyMap<string, Held>, events: readonly Held[]): Map<string, Held> {
  const held = new Map(before);
  for (const event of events) {
    const old = held.get(event.uid);
    if (old !== undefined && old.sequence > event.sequence) continue;
    held.set(event.uid, event);
  }
  return held;
}

const NOW = '2026-05-12T11:05:00.000Z';
const file = (pourAt: string | null, known: readonly CalendarEntry[], zone = 'America/New_York') => {
  const bundleOf = bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall; “north”, wing', pourAt }] });
  const job = { ...bundleOf, property: { ...bundleOf.property, timeZone: zone } };
  const { entries } = agenda([job], BUSINESS, null);
  const feed = calendarFeed(entries, known, (entry) => whatBecame(job, BUSINESS, entry, NOW), NOW);
  return { entries, feed, text: writeCalendar({ name: 'Job', events: [...feed.events], sentAt: NOW }) };
};

describe.each(READERS)('a calendar program that reads by way of %s', (_name, read) => {
  it('has exactly the agenda’s entries after any series of moves, cancellations and returns', () => {
    const pour = fc.option(fc.integer({ min: 13, max: 28 }), { nil: null });
    fc.assert(
      fc.property(fc.array(pour, { minLength: 1, maxLength: 7 }), (days) => {
        let held: ReadonlyMap<string, Held> = new Map();
        let known: readonly CalendarEntry[] = [];
        for (const day of days) {
          const { entries, feed, text } = file(day === null ? null : `2026-05-${day}T14:00:00.000Z`, known);
          held = afterImport(held, read(text));
          known = feed.records;
          const current = [...held.values()].filter((event) => !event.cancelled);
          expect(current.map((event) => event.uid).sort()).toEqual(entries.map((entry) => `${entry.key}@straightedge`).sort());
          for (const event of feed.events) {
            const own = held.get(event.uid);
            expect(own?.summary).toBe(event.summary);
            expect(own?.from).toBe(new Date(event.day === null ? event.startAt : `${event.day.from}T00:00:00Z`).toISOString());
            expect(own?.until).toBe(new Date(event.day === null ? event.endAt : `${event.day.until}T00:00:00Z`).toISOString());
          }
        }
      }),
      { numRuns: 20 },
    );
  });

  it('shows the arrival for a pour, 55 minutes before it, in local time on both sides of each clock change, on a leap day and at 23:59', () => {
    // Wall times by the tz database, from Intl: in 2026 clocks change on March 8 and November 1 (New York) and March 29 (Berlin).
    const cases = [
      ['2026-03-07T14:30:00.000Z', 'America/New_York', 'Mar 7, 08:35'],
      ['2026-03-08T13:30:00.000Z', 'America/New_York', 'Mar 8, 08:35'],
      ['2026-10-31T13:30:00.000Z', 'America/New_York', 'Oct 31, 08:35'],
      ['2026-11-01T14:30:00.000Z', 'America/New_York', 'Nov 1, 08:35'],
      ['2026-03-29T07:30:00.000Z', 'Europe/Berlin', 'Mar 29, 08:35'],
      ['2028-02-29T14:30:00.000Z', 'America/New_York', 'Feb 29, 08:35'],
      ['2027-01-01T04:59:00.000Z', 'America/New_York', 'Dec 31, 23:04'],
    ] as const;
    for (const [instant, zone, wall] of cases) {
      const { text } = file(instant, [], zone);
      const event = read(text).find((e) => e.uid.includes(':pour:'));
      const shown = new Date(event?.from ?? '').toLocaleString('en-US', {
        timeZone: zone,
        month: 'short',
        day: 'numeric',
        hour: '2-digit',
        minute: '2-digit',
        hourCycle: 'h23',
      });
      expect(shown).toBe(wall);
    }
  });
});
