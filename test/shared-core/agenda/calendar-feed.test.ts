import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { calendarFeed, type CalendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import type { JobBundle } from '../../../shared-core/agenda/job-bundle.ts';
import { dayNumberAt, dayNumberOf, dayOfNumber, weekdayOfNumber } from '../../../shared-core/agenda/local-days.ts';
import { calendarEntrySchema, type CalendarEntry } from '../../../shared-core/book/papers.ts';
import { BUSINESS, bundle, quote } from './bundle-fixture.ts';

const NOW = '2026-05-12T11:05:00.000Z';
const pouring = (pourAt: string | null): JobBundle => bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt }] });
const entriesOf = (...b: JobBundle[]) => agenda(b, BUSINESS, null).entries;
const feed = (b: JobBundle, known: readonly CalendarEntry[] = []): CalendarFeed => calendarFeed(entriesOf(b), known, NOW);
const pourEvent = (f: CalendarFeed) => f.events.find((e) => e.uid.includes(':pour:'));

describe('a calendar feed', () => {
  it('gives each entry one UID for life and starts at SEQUENCE 0', () => {
    const first = feed(pouring('2026-05-13T14:00:00.000Z'));
    expect(new Set(first.events.map((e) => e.uid)).size).toBe(first.events.length);
    expect(pourEvent(first)).toMatchObject({ sequence: 0, status: 'TENTATIVE', startAt: '2026-05-13T14:00:00.000Z', day: null });
    expect(pourEvent(first)?.alarmsMin).toEqual([720, 60]);
    for (const record of first.records) expect(calendarEntrySchema.safeParse(record).error?.issues ?? []).toEqual([]);
  });

  it('raises SEQUENCE when an entry changes and leaves it when nothing did', () => {
    const first = feed(pouring('2026-05-13T14:00:00.000Z'));
    expect(pourEvent(feed(pouring('2026-05-13T14:00:00.000Z'), first.records))?.sequence).toBe(0);
    const moved = feed(pouring('2026-05-14T14:00:00.000Z'), first.records);
    expect(pourEvent(moved)).toMatchObject({ sequence: 1, uid: pourEvent(first)?.uid });
  });

  it('sends what is gone as cancelled, as it stood, one number higher, and takes it back as a later number', () => {
    const first = feed(pouring('2026-05-13T14:00:00.000Z'));
    const gone = feed(pouring(null), first.records);
    expect(pourEvent(gone)).toMatchObject({ status: 'CANCELLED', sequence: 1, startAt: '2026-05-13T14:00:00.000Z' });
    const still = feed(pouring(null), gone.records);
    expect(pourEvent(still)).toMatchObject({ status: 'CANCELLED', sequence: 1 });
    expect(pourEvent(feed(pouring('2026-05-13T14:00:00.000Z'), still.records))).toMatchObject({ status: 'TENTATIVE', sequence: 2 });
  });

  it('never lets a SEQUENCE fall, and leaves exactly the current entries uncancelled, over any run of changes', () => {
    fc.assert(
      fc.property(fc.array(fc.option(fc.integer({ min: 10, max: 28 }), { nil: null }), { minLength: 1, maxLength: 8 }), (days) => {
        let known: readonly CalendarEntry[] = [];
        for (const day of days) {
          const b = pouring(day === null ? null : `2026-05-${day}T14:00:00.000Z`);
          const next = feed(b, known);
          for (const k of known) expect(next.events.find((e) => e.uid === k.uid)?.sequence).toBeGreaterThanOrEqual(k.sequence);
          expect(next.events.filter((e) => e.status !== 'CANCELLED').map((e) => e.uid)).toEqual(
            entriesOf(b).map((e) => `${e.key}@straightedge`),
          );
          known = next.records;
        }
      }),
      { numRuns: 50 },
    );
  });

  it('gives a day its date and the exclusive day after, over a leap day and the year’s end', () => {
    for (const [day, until] of [
      ['2028-02-28', '2028-02-29'],
      ['2028-02-29', '2028-03-01'],
      ['2026-12-31', '2027-01-01'],
    ] as const) {
      const b = pouring(null);
      const out = { ...b, quotes: [quote(b, 'issued', day)] };
      expect(feed(out).events.find((e) => e.uid.includes('quote-lapses'))?.day).toEqual({ from: day, until });
    }
  });
});

describe('days in the property’s zone', () => {
  it('agree with Intl for pours across both changes of the clocks, in other zones, on a leap day, at 23:59', () => {
    const moments = [
      '2026-03-08T06:59:00.000Z',
      '2026-03-08T07:00:00.000Z',
      '2026-03-09T03:59:00.000Z',
      '2026-11-01T05:30:00.000Z',
      '2026-11-01T06:30:00.000Z',
      '2028-02-29T23:59:00.000Z',
      '2028-03-01T04:59:00.000Z',
      '2026-12-31T23:59:00.000Z',
    ];
    for (const zone of ['America/New_York', 'America/Los_Angeles', 'Europe/Berlin', 'Asia/Kathmandu', 'Pacific/Auckland']) {
      const format = new Intl.DateTimeFormat('en-CA', {
        timeZone: zone,
        year: 'numeric',
        month: '2-digit',
        day: '2-digit',
        hour: '2-digit',
        minute: '2-digit',
        hourCycle: 'h23',
      });
      const weekday = new Intl.DateTimeFormat('en-US', { timeZone: zone, weekday: 'short' });
      for (const at of moments) {
        const part = new Map(format.formatToParts(new Date(at)).map((p) => [p.type, p.value]));
        const number = dayNumberAt(at, zone);
        expect(dayOfNumber(number)).toBe(`${part.get('year')}-${part.get('month')}-${part.get('day')}`);
        expect(Math.round((number % 1) * 1440)).toBe(Number(part.get('hour')) * 60 + Number(part.get('minute')));
        expect(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'][weekdayOfNumber(number) - 1]).toBe(weekday.format(new Date(at)));
        expect(dayNumberOf(dayOfNumber(number))).toBe(Math.floor(number));
      }
    }
  });
});
