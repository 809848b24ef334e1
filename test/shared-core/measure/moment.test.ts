import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatClockTime, parseClockTime } from '../../../shared-core/measure/clock-time.ts';
import { addDaysToDay, daysBetween, formatDay, parseDay, parseLastDay, weekdayOf } from '../../../shared-core/measure/day.ts';
import {
  addDays,
  dayOfInstant,
  deadlineDay,
  formatEntryTime,
  formatInstant,
  formatInstantBeside,
  instantAt,
  instantNear,
  instantSince,
  minuteOfInstant,
  parseTimeZone,
  secondsBetween,
} from '../../../shared-core/measure/moment.ts';

const NEW_YORK = 'America/New_York';

// A month on a label is good through its last day: common practice, no source. February 2028 has 29 days (Gregorian calendar).
it.each([
  ['05/2027', '2027-05-31'],
  ['5-2027', '2027-05-31'],
  ['2027-05', '2027-05-31'],
  ['May 2027', '2027-05-31'],
  ['sept. 2027', '2027-09-30'],
  ['Feb 2028', '2028-02-29'],
  ['12/2027', '2027-12-31'],
  ['5/12/2027', '2027-05-12'],
  ['May 12, 2027', '2027-05-12'],
  // No label is dated 6 years ahead or in the past: a day of this year.
  ['5/12', '2026-05-12'],
  ['05/25', '2026-05-25'],
  ['May 12', '2026-05-12'],
])('what expires %s expires on %s', (typed, day) => expect(parseLastDay(typed, '2026-04-30')).toEqual({ ok: true, value: day }));

it.each(['05/27', '5-27', '05/26', '5/31', 'May 27'])('%s can be a month of a year and is refused', (typed) => {
  const read = parseLastDay(typed, '2026-04-30');
  expect(read.ok ? '' : read.message).toContain(
    `“${typed}”: this can be a day or a month of 20${typed.slice(-2)}. Enter 5/20${typed.slice(-2)}`,
  );
});

it('no month is refused in words', () => {
  for (const typed of ['13/2027', 'soon 2027', '05/0001', '']) expect(parseLastDay(typed, '2026-04-30').ok, typed).toBe(false);
});

// New York is four hours behind UTC in April and June.
it.each([
  ['2026-04-14T13:01:00.000Z', '9:01 am'],
  ['2026-06-24T13:01:00.000Z', 'June 24, 2026, 9:01 am'],
  ['2026-04-15T04:00:00.000Z', 'April 15, 2026, 12:00 am'],
])('an entry at %s of a log begun on April 14 reads %s', (instant, words) =>
  expect(formatEntryTime(instant, '2026-04-14T12:35:00.000Z', NEW_YORK)).toBe(words),
);

describe('days', () => {
  it('are short, with the weekday, or in full', () => {
    expect(formatDay('2026-05-12')).toBe('May 12');
    expect(formatDay('2026-05-12', 'weekday')).toBe('Tue, May 12');
    expect(formatDay('2026-05-12', 'full')).toBe('Tuesday, May 12, 2026');
    expect(formatDay('2026-05-12', 'long')).toBe('Tuesday, May 12');
    expect(formatDay('never')).toBe('—');
  });

  it.each([['5/12/2026'], ['2026-05-12'], ['May 12'], ['tue, may 12'], ['12 May 2026'], ['5/12/26'], ['5/12']])('reads %s', (text) => {
    expect(parseDay(text, '2026-04-30')).toEqual({ ok: true, value: '2026-05-12' });
  });

  it('puts the day before the month where the locale does', () => {
    expect(parseDay('12.5.2026', '2026-04-30', 'de-DE')).toEqual({ ok: true, value: '2026-05-12' });
  });

  it('are in the nearest year when none is entered', () => {
    expect(parseDay('Jan 4', '2026-12-28')).toEqual({ ok: true, value: '2027-01-04' });
    expect(parseDay('Dec 30', '2027-01-02')).toEqual({ ok: true, value: '2026-12-30' });
    expect(parseDay('tomorrow', '2026-12-31')).toEqual({ ok: true, value: '2027-01-01' });
  });

  it('says why a day does not exist', () => {
    expect(parseDay('2/30/2026', '2026-04-30')).toEqual({ ok: false, message: '“2/30/2026”: February 2026 has 28 days.' });
    for (const text of ['', '13/1/2026', 'soon', '1/1/0001']) expect(parseDay(text, '2026-04-30').ok).toBe(false);
  });

  it('parse to the same day in every format', () => {
    fc.assert(
      fc.property(fc.integer({ min: -150, max: 150 }), (offset) => {
        const day = addDaysToDay('2026-04-30', offset);
        for (const style of ['short', 'weekday', 'long', 'full', 'dated', 'field'] as const) {
          expect(parseDay(formatDay(day, style), '2026-04-30')).toEqual({ ok: true, value: day });
        }
        expect(daysBetween('2026-04-30', day)).toBe(offset);
      }),
    );
    expect(weekdayOf('2026-05-12')).toBe(2);
  });
});

describe('the wall clock of many instants', () => {
  // Source: the time zone data of the platform's own formatter. The clocks change on 2026-03-08 and 2026-11-01 (15 USC 260a).
  it.each([NEW_YORK, 'America/Phoenix', 'Asia/Kathmandu', 'Australia/Lord_Howe', 'UTC'])('is that of the platform in %s', (zone) => {
    const wall = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'short' });
    for (const date of ['2026-03-07', '2026-03-08', '2026-03-09', '2026-04-04', '2026-07-01', '2026-10-31', '2026-11-01', '2026-12-31'])
      for (let quarter = 0; quarter < 96; quarter++) {
        const instant = new Date(Date.parse(`${date}T00:00:00Z`) + quarter * 900_000).toISOString();
        const shown = wall.format(new Date(instant));
        expect(minuteOfInstant(instant, zone), instant).toBe(shown);
        // Of a clock time that comes twice, one of the two.
        const [day = '', clock = ''] = shown.split(' ');
        const back = (['first', 'second'] as const).map((which) => instantAt(day, clock, zone, which));
        expect(back.map((read) => read.ok && read.value.instant)).toContain(instant);
      }
  });
});

describe('times of day', () => {
  it.each([
    ['9:40 am', '09:40'],
    ['9.40', '09:40'],
    ['0940', '09:40'],
    ['6 pm', '18:00'],
    ['noon', '12:00'],
    ['12 am', '00:00'],
    ['18:00', '18:00'],
  ])('reads %s as %s', (text, clock) => {
    expect(parseClockTime(text)).toEqual({ ok: true, value: clock });
  });

  it('are refused past the hour and the minute', () => {
    for (const text of ['', '25', '13 pm', '9:75', 'late']) expect(parseClockTime(text).ok).toBe(false);
  });

  it('parse to the same time', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1439 }), fc.constantFrom('en-US', 'de-DE'), (minutes, locale) => {
        const clock = `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
        expect(parseClockTime(formatClockTime(clock, locale))).toEqual({ ok: true, value: clock });
      }),
    );
    const clocks = ['18:00', '09:40', '12:00', '00:00'];
    expect(clocks.map((clock) => formatClockTime(clock))).toEqual(['6 pm', '9:40 am', 'noon', 'midnight']);
    expect(clocks.map((clock) => formatClockTime(clock, 'en-US', 'exact'))).toEqual(['6:00 pm', '9:40 am', '12:00 pm', '12:00 am']);
  });
});

describe('instants in the property’s time zone', () => {
  // US clocks in 2026 go forward on March 8 and back on November 1 at 2 am local time: 15 U.S.C. 260a.
  it('refuses a time that the clocks skip, with the two to choose from', () => {
    expect(instantAt('2026-03-08', '02:30', NEW_YORK)).toEqual({
      ok: false,
      message: '2:30 am is skipped on March 8, 2026, when the clocks are set forward. Enter 1:30 am or 3:30 am.',
    });
  });

  it('reports that a time comes twice, and uses the chosen one', () => {
    const first = instantAt('2026-11-01', '01:30', NEW_YORK);
    const second = instantAt('2026-11-01', '01:30', NEW_YORK, 'second');
    expect(first.ok && first.value.instant).toBe('2026-11-01T05:30:00.000Z');
    expect(second.ok && second.value.instant).toBe('2026-11-01T06:30:00.000Z');
    expect(first.ok && first.value.note).toMatch(/comes twice/);
  });

  it('keeps the wall clock when days are added over a change', () => {
    const instant = '2026-03-07T17:00:00.000Z';
    expect(addDays(instant, 1, NEW_YORK)).toBe('2026-03-08T16:00:00.000Z');
    expect(secondsBetween(instant, addDays(instant, 1, NEW_YORK))).toBe(23 * 3600);
  });

  it('has the local day, not the day of UTC', () => {
    expect(dayOfInstant('2026-05-13T02:00:00Z', NEW_YORK)).toBe('2026-05-12');
    expect(formatInstant('2026-05-12T13:40:00Z', NEW_YORK)).toBe('Tue, May 12, 9:40 am');
    expect(formatInstant('soon', NEW_YORK)).toBe('—');
  });

  // "Midnight" with a date is ambiguous (NIST's page of questions on times of day, from memory), so it is never used.
  it.each([
    ['2026-03-14T03:59:00Z', NEW_YORK, 'Fri, March 13, 11:59 pm', '2026-03-13'],
    ['2026-03-14T04:00:00Z', NEW_YORK, 'the end of Fri, March 13', '2026-03-13'],
    ['2026-03-14T04:01:00Z', NEW_YORK, 'Sat, March 14, 12:01 am', '2026-03-14'],
    // The nights the clocks change, a leap day, the end of a year.
    ['2026-03-08T05:00:00Z', NEW_YORK, 'the end of Sat, March 7', '2026-03-07'],
    ['2026-11-01T04:00:00Z', NEW_YORK, 'the end of Sat, Oct 31', '2026-10-31'],
    ['2028-03-01T05:00:00Z', NEW_YORK, 'the end of Tue, Feb 29', '2028-02-29'],
    ['2027-01-01T07:00:00Z', 'America/Denver', 'the end of Thu, Dec 31', '2026-12-31'],
  ])('formats %s in %s in one way only: %s', (instant, zone, text, day) => {
    expect(formatInstant(instant, zone)).toBe(text);
    expect(deadlineDay(instant, zone)).toBe(day);
  });

  it('knows the zones there are', () => {
    expect(parseTimeZone('Mars/Base').ok).toBe(false);
  });

  // By the calendar; New York sets its clocks back from 2 am to 1 am on November 1, 2026 (15 U.S.C. 260a).
  it.each([
    ['23:57', '2026-06-02T04:02:00.000Z', '2026-06-02T03:57:00.000Z'],
    ['00:03', '2026-06-02T03:58:00.000Z', '2026-06-02T04:03:00.000Z'],
    ['00:10', '2026-06-02T04:02:00.000Z', '2026-06-02T04:10:00.000Z'],
    ['09:30', '2026-06-02T13:40:00.000Z', '2026-06-02T13:30:00.000Z'],
    ['01:30', '2026-11-01T05:40:00.000Z', '2026-11-01T05:30:00.000Z'],
    ['01:30', '2026-11-01T06:40:00.000Z', '2026-11-01T06:30:00.000Z'],
  ])('corrects a time to the nearest %s: from %s to %s', (clock, instant, expected) => {
    expect(instantNear(clock, instant, NEW_YORK, '2027-01-01T00:00:00.000Z')).toMatchObject({ ok: true, value: { instant: expected } });
  });

  it('never corrects a time to one that is still to come', () => {
    // Daylight time is four hours behind UTC: 5:29 am logged, 2:00 pm entered at 7:30 am. 2:00 pm is eight and a half hours ahead.
    const [logged, now] = ['2026-05-13T09:29:00.000Z', '2026-05-13T11:30:00.000Z'];
    expect(instantNear('14:00', logged, NEW_YORK, now)).toMatchObject({ ok: true, value: { instant: '2026-05-12T18:00:00.000Z' } });
    expect(instantNear('07:30', logged, NEW_YORK, now)).toMatchObject({ ok: true, value: { instant: now } });
  });

  it('refuses the time that the clocks skip, however near', () => {
    expect(instantNear('02:30', '2026-03-08T07:10:00.000Z', NEW_YORK, '2027-01-01T00:00:00.000Z')).toMatchObject({ ok: false });
  });
});

// By the calendar; New York sets its clocks back from 2 am to 1 am on November 1, 2026 (15 U.S.C. 260a).
describe('a time entered after something began', () => {
  const [began, now] = ['2026-05-12T12:00:37.000Z', '2026-05-13T13:00:00.000Z'];
  it.each([
    ['22:00', began, '2026-05-13T02:00:00.000Z'],
    ['08:00', began, '2026-05-12T12:00:00.000Z'],
    ['07:30', began, '2026-05-13T11:30:00.000Z'],
    ['01:30', '2026-11-01T05:40:00.000Z', '2026-11-01T06:30:00.000Z'],
    ['02:30', '2026-11-01T06:40:00.000Z', '2026-11-01T07:30:00.000Z'],
  ])('is the first one from then on: %s from %s is %s', (clock, start, expected) => {
    const later = start === began ? now : '2026-11-02T12:00:00.000Z';
    expect(instantSince(clock, start, NEW_YORK, later)).toMatchObject({ ok: true, value: { instant: expected } });
  });

  it('is refused where it is still to come', () => {
    expect(instantSince('22:00', began, NEW_YORK, '2026-05-13T01:00:00.000Z')).toMatchObject({
      ok: false,
      message: expect.stringContaining('still to come'),
    });
  });
});

describe('an instant beside another', () => {
  it('has its day where that is another one, on the property’s calendar', () => {
    // 11:30 pm and 12:10 am in New York are one UTC day.
    const [late, past] = ['2026-12-09T04:30:00.000Z', '2026-12-09T05:10:00.000Z'];
    expect(formatEntryTime(late, late, NEW_YORK)).toBe('11:30 pm');
    expect(formatEntryTime(past, late, NEW_YORK)).toBe('December 9, 2026, 12:10 am');
    expect(formatInstantBeside(late, late, NEW_YORK)).toBe('11:30 pm');
    expect(formatInstantBeside(late, past, NEW_YORK)).toBe('Wed, Dec 9, 12:10 am');
  });
});
