import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agenda, isSettled } from '../../../shared-core/agenda/agenda.ts';
import { whatBecame } from '../../../shared-core/agenda/became.ts';
import { calendarFeed, type CalendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import type { Promised } from '../../../shared-core/book/cure-record.ts';
import type { JobBundle } from '../../../shared-core/standing/job-bundle.ts';
import { dayNumberAt, dayNumberOf, dayOfNumber, weekdayOfNumber } from '../../../shared-core/standing/local-days.ts';
import { calendarEntrySchema, type CalendarEntry } from '../../../shared-core/book/papers.ts';
import { customerWords } from '../../../shared-core/standing/names.ts';
import { invoice, payment } from '../ledger/entries.ts';
import { BUSINESS, bundle, pour, promised, quote, summary, visit } from './bundle-fixture.ts';

const NOW = '2026-05-12T11:05:00.000Z';
const pouring = (pourAt: string | null): JobBundle => bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt }] });
const entriesOf = (...b: JobBundle[]) => agenda(b, BUSINESS, null).entries;
const feed = (b: JobBundle, known: readonly CalendarEntry[] = []): CalendarFeed =>
  calendarFeed(entriesOf(b), known, (entry) => whatBecame(b, BUSINESS, entry, NOW), NOW);
const eventOf = (f: CalendarFeed, kind: string) => f.events.find((e) => e.uid.includes(`:${kind}:`));
const pourEvent = (f: CalendarFeed) => eventOf(f, 'pour');

describe('a calendar feed', () => {
  it('gives each entry one UID for life and starts at SEQUENCE 0', () => {
    const first = feed(pouring('2026-05-13T14:00:00.000Z'));
    expect(new Set(first.events.map((e) => e.uid)).size).toBe(first.events.length);
    expect(pourEvent(first)).toMatchObject({ sequence: 0, status: 'TENTATIVE', startAt: '2026-05-13T13:05:00.000Z', day: null });
    expect(pourEvent(first)?.alarmsMin).toEqual([785, 60]);
    for (const record of first.records) expect(calendarEntrySchema.safeParse(record).error?.issues ?? []).toEqual([]);
  });

  it('has the hour of foot traffic in the title, because a whole day would open the floor while it is wet', () => {
    // The pour ends at 11 am. The sheet allows foot traffic at most 6 hours later, and the room may be colder than the sheet has it.
    const poured = { ...pouring(null), pours: [pour('pour-1', ['room-a'], '2026-05-12T13:00:00.000Z', '2026-05-12T15:00:00.000Z')] };
    const early: Promised = { ...promised('promise-a', 'room-a', '2026-05-12T16:00:00.000Z'), milestone: 'walk-on', flooring: null };
    const sent = feed({ ...poured, promises: [early] });
    expect(eventOf(sent, 'walk-on')).toMatchObject({ summary: 'Hall, Lindqvist: foot traffic from 6 pm', day: { from: '2026-05-12' } });
    expect(eventOf(sent, 'promise')).toMatchObject({ summary: 'Hall, Lindqvist: promised noon, late', day: { from: '2026-05-12' } });
  });

  it('has the limit of a primer on its own day with its hour, and an alarm only while no pour is planned in time', () => {
    // Primed at 11 am; the sheet of the fixture gives 2 to 24 hours.
    const primed = (pourAt: string | null) =>
      bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', primedAt: '2026-05-12T15:00:00.000Z', pourAt }] });
    const limit = eventOf(feed(primed(null)), 'primer-window');
    expect(limit).toMatchObject({ summary: 'Hall, Lindqvist: primer limit 11 am', day: { from: '2026-05-13', until: '2026-05-14' } });
    // Four hours before, counted from midnight in New York: 7 am.
    expect(limit?.alarmsMin).toEqual([-7 * 60]);
    expect(eventOf(feed(primed('2026-05-13T13:00:00.000Z')), 'primer-window')).toMatchObject({
      alarmsMin: [],
      day: { from: '2026-05-13' },
    });
  });

  it('announces a primer limit of the early morning on the evening before', () => {
    const primed = bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', primedAt: '2026-05-12T11:00:07.000Z' }] });
    // The limit is 7 am on May 13: 8 pm is 4 hours before that midnight.
    expect(eventOf(feed(primed), 'primer-window')?.alarmsMin).toEqual([4 * 60]);
  });

  it('raises SEQUENCE when an entry changes and leaves it when nothing did', () => {
    const first = feed(pouring('2026-05-13T14:00:00.000Z'));
    expect(pourEvent(feed(pouring('2026-05-13T14:00:00.000Z'), first.records))?.sequence).toBe(0);
    const moved = feed(pouring('2026-05-14T14:00:00.000Z'), first.records);
    expect(pourEvent(moved)).toMatchObject({ sequence: 1, uid: pourEvent(first)?.uid });
  });

  it('sends dropped entries as canceled, unchanged, one number higher, and restores them with a later number', () => {
    const first = feed(pouring('2026-05-13T14:00:00.000Z'));
    const dropped = feed(pouring(null), first.records);
    expect(pourEvent(dropped)).toMatchObject({ status: 'CANCELLED', sequence: 1, startAt: '2026-05-13T13:05:00.000Z' });
    const still = feed(pouring(null), dropped.records);
    expect(pourEvent(still)).toMatchObject({ status: 'CANCELLED', sequence: 1 });
    expect(pourEvent(feed(pouring('2026-05-13T14:00:00.000Z'), still.records))).toMatchObject({ status: 'TENTATIVE', sequence: 2 });
  });

  it('never lets a SEQUENCE fall, and has exactly the current entries not canceled, after any series of changes', () => {
    fc.assert(
      fc.property(fc.array(fc.option(fc.integer({ min: 10, max: 28 }), { nil: null }), { minLength: 1, maxLength: 8 }), (days) => {
        let known: readonly CalendarEntry[] = [];
        for (const day of days) {
          const b = pouring(day === null ? null : `2026-05-${day}T14:00:00.000Z`);
          const next = feed(b, known);
          for (const k of known) expect(next.events.find((e) => e.uid === k.uid)?.sequence).toBeGreaterThanOrEqual(k.sequence);
          expect(next.events.filter((e) => e.status !== 'CANCELLED').map((e) => e.uid)).toEqual(
            entriesOf(b).flatMap((e) => (isSettled(e, NOW) ? [] : [`${e.key}@straightedge`])),
          );
          known = next.records;
        }
      }),
      { numRuns: 50 },
    );
  });

  it('keeps a completed visit with its time, and reverts it when it is reopened', () => {
    const b = pouring(null);
    const to = visit('visit-a', 'thirty-days', '2026-05-14T13:00:00.000Z', ['room-a']);
    const sent = feed({ ...b, visits: [to] });
    const done = { ...b, visits: [{ ...to, doneAt: '2026-05-15T13:30:00.000Z' }] };
    const confirmed = feed(done, sent.records);
    const earlier = eventOf(sent, 'visit');
    expect(eventOf(confirmed, 'visit')).toEqual({
      ...earlier,
      sequence: 1,
      status: 'CONFIRMED',
      description: 'Done Friday, May 15, 2026, 9:30 am.',
      alarmsMin: [],
    });
    // Sent again it is unchanged; reopened it is to do again with the next sequence number; canceled it is removed.
    expect(feed(done, confirmed.records).events).toEqual(confirmed.events);
    const reopened = feed({ ...b, visits: [to] }, confirmed.records);
    expect(eventOf(reopened, 'visit')).toEqual({ ...earlier, sequence: 2 });
    const off = feed({ ...b, visits: [{ ...to, cancelledAt: NOW }] }, reopened.records);
    expect(eventOf(off, 'visit')).toMatchObject({ status: 'CANCELLED', sequence: 3, summary: earlier?.summary });
    // Done and then archived with its job it is removed; without its job's records it stays unchanged.
    expect(eventOf(feed({ ...done, job: { ...done.job, deletedAt: NOW } }, confirmed.records), 'visit')).toMatchObject({
      status: 'CANCELLED',
    });
    expect(calendarFeed([], confirmed.records, () => null, NOW).events).toEqual(confirmed.events);
  });

  it('keeps a completed pour at its time, and a second lift beside the first', () => {
    const planned = pouring('2026-05-13T14:00:00.000Z');
    const first = pour('pour-1', ['room-a'], '2026-05-13T14:10:00.000Z', '2026-05-13T17:40:00.000Z', 1, 2);
    const confirmed = feed({ ...planned, pours: [first] }, feed(planned).records);
    expect(pourEvent(confirmed)).toMatchObject({
      status: 'CONFIRMED',
      sequence: 1,
      startAt: '2026-05-13T14:10:00.000Z',
      endAt: '2026-05-13T17:40:00.000Z',
      description: 'Poured Wednesday, May 13, 2026, 10:10 am.',
    });
    const twoLifts = { ...pouring('2026-05-20T14:00:00.000Z'), summaries: [summary('room-a', { lifts: 2 })] };
    const second = feed({ ...twoLifts, pours: [first] }, confirmed.records);
    const pours = second.events.filter((e) => e.uid.includes(':pour:')).map((e) => [e.startAt, e.status, e.sequence]);
    expect(pours.sort()).toEqual([
      ['2026-05-13T14:10:00.000Z', 'CONFIRMED', 1],
      ['2026-05-20T13:05:00.000Z', 'TENTATIVE', 0],
    ]);
  });

  it('keeps a pour of part of a floor on its day when the rest is planned and poured, and both days stay', () => {
    const daysOf = (f: CalendarFeed, kind: string) =>
      f.events
        .filter((e) => e.uid.includes(`:${kind}:`) && e.status !== 'CANCELLED')
        .map((e) => [e.startAt.slice(0, 10), e.status])
        .sort();
    const end = (pourId: string, floor: 'whole' | 'partly'): JobBundle['pourEvents'][number] =>
      pourEventSchema.parse({
        ...{ id: `end-${pourId}`, pourId, seq: 2, instant: '2026-05-12T17:40:00.000Z', estimated: false },
        ...{ kind: 'finished', bagsLeft: 0, floor },
      });
    const batch = pourEventSchema.parse({
      ...{ id: 'batch-1', pourId: 'pour-b', seq: 1, instant: '2026-05-12T14:30:00.000Z', estimated: false },
      ...{ kind: 'placed', batch: 1, roomId: 'room-a', lane: null, bags: 10 },
    });
    const first = pour('pour-b', ['room-a'], '2026-05-12T14:10:00.000Z', '2026-05-12T17:40:00.000Z');
    const planned = feed(pouring('2026-05-12T14:00:00.000Z'));
    const partly = { ...pouring('2026-05-12T14:00:00.000Z'), pours: [first], pourEvents: [batch, end('pour-b', 'partly')] };
    const placed = feed(partly, planned.records);
    expect(daysOf(placed, 'pour')).toEqual([['2026-05-12', 'CONFIRMED']]);
    expect(daysOf(placed, 'next-lift')).toHaveLength(1);
    // Flooring waits for the whole floor.
    expect([daysOf(planned, 'cover').length, daysOf(placed, 'cover').length]).toEqual([1, 0]);
    const restPlanned = { ...partly, job: pouring('2026-05-14T14:00:00.000Z').job };
    const both = feed(restPlanned, placed.records);
    expect(daysOf(both, 'pour')).toEqual([
      ['2026-05-12', 'CONFIRMED'],
      ['2026-05-14', 'TENTATIVE'],
    ]);
    expect(both.events.find((e) => e.uid.includes(':pour:') && e.status === 'CONFIRMED')?.description).toBe(
      'Poured Tuesday, May 12, 2026, 10:10 am.',
    );
    // The rest, as a record that sorts before the first one.
    const second = pour('pour-a', ['room-a'], '2026-05-14T14:05:00.000Z', '2026-05-14T16:00:00.000Z');
    const rest = { ...second, asPoured: { ...second.asPoured, rooms: second.asPoured.rooms.map((r) => ({ ...r, isRest: true })) } };
    const whole = { ...restPlanned, pours: [rest, first], pourEvents: [batch, end('pour-b', 'partly'), end('pour-a', 'whole')] };
    const done = feed(whole, both.records);
    expect(daysOf(done, 'pour')).toEqual([
      ['2026-05-12', 'CONFIRMED'],
      ['2026-05-14', 'CONFIRMED'],
    ]);
    expect(daysOf(done, 'cover')).toHaveLength(1);
    // Foot traffic on the part placed first had passed before the rest was placed: its date stays beside the new one.
    const opened = daysOf(done, 'walk-on').map(([day]) => day);
    expect(opened).toHaveLength(2);
    expect(opened[0]).toBe(daysOf(placed, 'walk-on')[0]?.[0]);
  });

  it('keeps the dates of a finished job, done or past, and completed ones of an archived job', () => {
    const base = pouring('2026-05-01T12:00:00.000Z');
    const open = {
      ...base,
      job: { ...base.job, handoverAt: '2026-05-11T14:00:00.000Z' },
      pours: [pour('pour-1', ['room-a'], '2026-05-01T12:00:00.000Z', '2026-05-01T15:00:00.000Z')],
      visits: [visit('visit-a', 'own', '2026-05-30T13:00:00.000Z', ['room-a'])],
    };
    const sent = feed(open);
    const rooms = open.job.rooms.map((r) => ({ ...r, handedOverAt: '2026-05-11T14:30:00.000Z' }));
    const finished = feed({ ...open, job: { ...open.job, state: 'finished', rooms } }, sent.records);
    const earlier = (kind: string) => eventOf(finished, kind);
    expect(earlier('handover')).toMatchObject({ status: 'CONFIRMED', description: 'Handed over Monday, May 11, 2026, 10:30 am.' });
    expect(earlier('walk-on')).toMatchObject({ status: 'CONFIRMED', summary: eventOf(sent, 'walk-on')?.summary });
    expect(earlier('cover')).toMatchObject({ status: 'CONFIRMED', startAt: eventOf(sent, 'cover')?.startAt });
    // Nobody tested, so the test was dropped, not done.
    expect(earlier('clearance-test')).toMatchObject({ status: 'CANCELLED' });
    expect(earlier('visit')).toMatchObject({ status: 'TENTATIVE' });
    const aside = feed({ ...open, job: { ...open.job, state: 'set-aside' } }, sent.records);
    expect(eventOf(aside, 'visit')).toMatchObject({ status: 'CANCELLED' });
    expect(eventOf(aside, 'walk-on')).toMatchObject({ status: 'CONFIRMED' });
  });

  it('keeps unpaid invoices and lien deadlines of a job that was canceled or archived', () => {
    const b = bundle({ id: 'a', job: { handoverAt: '2026-05-30T14:00:00.000Z' } });
    const open: JobBundle = {
      ...b,
      quotes: [quote(b, 'accepted', '2026-05-20')],
      pours: [pour('pour-1', ['room-a'], '2026-05-01T12:00:00.000Z', '2026-05-01T15:00:00.000Z')],
      ledger: [invoice('inv-1', 1, 150_000, { dueOn: '2026-05-20' })],
    };
    const business = { ...BUSINESS, lienRules: [{ state: 'ny', noticeDays: 20, lienDays: 90 }] };
    const datesOf = (of: JobBundle) => agenda([of], business, null).entries;
    const sent = calendarFeed(datesOf(open), [], () => null, NOW);
    for (const state of ['declined', 'set-aside'] as const) {
      const canceled: JobBundle = { ...open, job: { ...b.job, state }, quotes: [quote(b, 'declined', '2026-05-20')] };
      const entries = datesOf(canceled);
      // 20 and 90 days after May 1 are May 21 and July 30, by the calendar.
      expect(entries.map(({ kind, instant }) => [kind, instant.slice(0, 10)])).toEqual([
        ['payment-due', '2026-05-20'],
        ['lien-notice', '2026-05-21'],
        ['lien-deadline', '2026-07-30'],
      ]);
      const { line } = b.property.address;
      expect(entries[1]?.rest).toContain(`the lien notice for ${line} (${customerWords(b.customer.name)}) by the day you entered for `);
      expect(entries[2]?.rest).toContain(`the lien on ${line} (${customerWords(b.customer.name)}) by the day you entered for `);
      expect(entries[2]?.rest).toContain('$1,500.00 is not paid.');
      const later = calendarFeed(entries, sent.records, (asked) => whatBecame(canceled, business, asked, NOW), NOW);
      expect(eventOf(later, 'payment-due')).toMatchObject({ status: 'CONFIRMED' });
      expect(eventOf(later, 'lien-deadline')).toMatchObject({ status: 'CONFIRMED' });
      expect(eventOf(later, 'handover')).toMatchObject({ status: 'CANCELLED' });
      const paid: JobBundle = { ...canceled, ledger: [...canceled.ledger, payment('pay-1', 150_000)] };
      expect(datesOf(paid)).toEqual([]);
    }
    // Without that quote, the contract was accepted and canceled since: what was received is certain to be settled.
    const accepted = quote(b, 'accepted', '2026-05-20');
    const since = { state: 'declined' as const, instant: NOW, by: '', note: '' };
    const settling: JobBundle = {
      ...open,
      job: { ...b.job, state: 'declined' },
      quotes: [{ ...accepted, state: 'declined', history: [{ ...since, state: 'accepted' }, since] }],
      ledger: [...open.ledger, payment('pay-1', 150_000)],
    };
    expect(eventOf(feed(settling), 'refund-due')).toMatchObject({ status: 'CONFIRMED' });
  });

  it('removes a day’s task once it is done', () => {
    const b = pouring(null);
    const issued = { ...b, quotes: [quote(b, 'issued', '2026-05-20')] };
    const answered: JobBundle = {
      ...b,
      quotes: [
        { ...quote(b, 'accepted', '2026-05-20'), history: [{ state: 'accepted', instant: '2026-05-14T16:00:00.000Z', by: '', note: '' }] },
      ],
    };
    expect(eventOf(feed(answered, feed(issued).records), 'quote-expires')).toMatchObject({
      status: 'CANCELLED',
    });
    const withdrawn = feed(b, feed(issued).records);
    expect(eventOf(withdrawn, 'quote-expires')).toMatchObject({ status: 'CANCELLED' });
    const late = {
      ...pouring('2026-05-01T12:00:00.000Z'),
      pours: [pour('pour-1', ['room-a'], '2026-05-01T12:00:00.000Z', '2026-05-01T15:00:00.000Z')],
      promises: [promised('prom-a', 'room-a', '2026-05-02T16:00:00.000Z')],
    };
    const sent = feed(late);
    expect(eventOf(sent, 'promise')).toMatchObject({ status: 'TENTATIVE' });
    const later = { ...promised('prom-b', 'room-a', '2027-05-02T16:00:00.000Z'), madeAt: '2026-05-12T10:00:00.000Z' };
    expect(eventOf(feed({ ...late, promises: [...late.promises, later] }, sent.records), 'promise')).toMatchObject({
      status: 'CANCELLED',
    });
  });

  it('puts a date promised for an hour at that hour, and others on their day', () => {
    const base = pouring('2026-05-15T12:00:00.000Z');
    const poured = [pour('pour-1', ['room-a'], '2026-05-15T12:00:00.000Z', '2026-05-15T15:00:00.000Z')];
    const onDay = (promisedFor: string) => {
      const sent: JobBundle = {
        ...base,
        pours: poured,
        promises: [{ ...promised('prom-a', 'room-a', promisedFor), milestone: 'walk-on', flooring: null }],
      };
      return entriesOf(sent).find((e) => e.kind === 'promise');
    };
    // Friday, May 15, 2026 in New York, 4 pm. The pour ends at 11 am, so foot traffic at 4 pm would be at risk or late.
    for (const [instant, day, start] of [['2026-05-15T15:30:00.000Z', '2026-05-15', '2026-05-15T15:30:00.000Z']] as const) {
      const entry = onDay(instant);
      expect([dayOfNumber(entry?.day ?? 0), entry?.instant]).toEqual([day, start]);
    }
  });

  it('gives a day its date and the exclusive day after, over a leap day and the year’s end', () => {
    for (const [day, until] of [
      ['2028-02-28', '2028-02-29'],
      ['2028-02-29', '2028-03-01'],
      ['2026-12-31', '2027-01-01'],
    ] as const) {
      const b = pouring(null);
      const out = { ...b, quotes: [quote(b, 'issued', day)] };
      expect(feed(out).events.find((e) => e.uid.includes('quote-expires'))?.day).toEqual({ from: day, until });
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
      for (const instant of moments) {
        const part = new Map(format.formatToParts(new Date(instant)).map((p) => [p.type, p.value]));
        const number = dayNumberAt(instant, zone);
        expect(dayOfNumber(number)).toBe(`${part.get('year')}-${part.get('month')}-${part.get('day')}`);
        expect(Math.round((number % 1) * 1440)).toBe(Number(part.get('hour')) * 60 + Number(part.get('minute')));
        expect(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'][weekdayOfNumber(number) - 1]).toBe(weekday.format(new Date(instant)));
        expect(dayNumberOf(dayOfNumber(number))).toBe(Math.floor(number));
      }
    }
  });
});
