/** Byte-level rules of RFC 5545 (September 2009), sections named beside each check; read back by ical.js. */
import ICAL from 'ical.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeCalendar } from '../../../main/desk/calendar.ts';
import type { CalendarEvent } from '../../../shared-core/agenda/calendar-feed.ts';

const event = (more: Partial<CalendarEvent> = {}): CalendarEvent => ({
  uid: 'job-26-031/pour@straightedge.invalid',
  sequence: 2,
  jobId: 'job-26-031',
  status: 'CONFIRMED',
  startAt: '2026-05-27T13:40:00Z',
  endAt: '2026-05-27T16:00:00Z',
  day: null,
  timeZone: 'America/New_York',
  summary: 'Pour; the hall, "wet edge" \\ north',
  description: 'First line, with a comma\nsecond line',
  location: '41 Pennant Hill Road',
  busy: true,
  alarmsMin: [60],
  ...more,
});
const write = (events: CalendarEvent[]): string => writeCalendar({ name: 'Job 26-031', events, sentAt: '2026-05-12T11:00:00Z' });
const octets = (line: string): number => Buffer.byteLength(line, 'utf8');
const read = (text: string) => new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((c) => new ICAL.Event(c));

describe('a calendar file', () => {
  it('ends every line in CRLF, the last one too (3.1, 3.4)', () => {
    const text = write([event()]);
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('names its version and product once (3.6)', () => {
    const text = write([event()]);
    expect(text.match(/^VERSION:2\.0\r$/gm)).toHaveLength(1);
    expect(text.match(/^PRODID:-\/\/[^-].*\r$/gm)).toHaveLength(1);
  });

  it('stamps in UTC and carries UID and SEQUENCE (3.8.7.2, 3.8.4.7, 3.8.7.4)', () => {
    const text = write([event()]);
    expect(text).toMatch(/^DTSTAMP:20260512T110000Z\r$/m);
    expect(text).toMatch(/^UID:job-26-031\/pour@straightedge\.invalid\r$/m);
    expect(text).toMatch(/^SEQUENCE:2\r$/m);
  });

  it('names no time zone that it does not define (3.2.19)', () => {
    const text = write([event()]);
    expect(text).not.toContain('TZID');
    expect(text).toMatch(/^DTSTART:20260527T134000Z\r$/m);
  });

  it('writes an all-day entry as days with an exclusive end (3.6.1)', () => {
    const text = write([event({ day: { from: '2026-05-28', until: '2026-05-29' } })]);
    expect(text).toMatch(/^DTSTART;VALUE=DATE:20260528\r$/m);
    expect(text).toMatch(/^DTEND;VALUE=DATE:20260529\r$/m);
  });

  it('marks canceled entries and sets no alarm for them (3.8.1.11)', () => {
    const text = write([event({ status: 'CANCELLED' })]);
    expect(text).toMatch(/^STATUS:CANCELLED\r$/m);
    expect(text).not.toContain('VALARM');
  });

  it('sets an alarm before the start, and one after the start on the day itself (3.2.14, 3.6.6, 3.8.6.3)', () => {
    const ringsAt = (more: Partial<CalendarEvent>): string[] => {
      const [found] = new ICAL.Component(ICAL.parse(write([event(more)]))).getAllSubcomponents('vevent');
      if (found === undefined) return [];
      return found.getAllSubcomponents('valarm').map((alarm) => {
        const trigger = alarm.getFirstProperty('trigger');
        const from = trigger?.getFirstParameter('related') === 'END' ? 'dtend' : 'dtstart';
        const at = (found.getFirstPropertyValue(from) as ICAL.Time).clone();
        at.isDate = false;
        at.addDuration(trigger?.getFirstValue() as ICAL.Duration);
        return at.toString();
      });
    };
    expect(ringsAt({ alarmsMin: [60, 0] })).toEqual(['2026-05-27T12:40:00Z', '2026-05-27T13:40:00Z']);
    // 8 hours into a day is 8 am.
    expect(ringsAt({ day: { from: '2026-05-28', until: '2026-05-29' }, alarmsMin: [-480] })).toEqual(['2026-05-28T08:00:00']);
    expect(write([event()])).toMatch(/BEGIN:VALARM\r\nACTION:DISPLAY\r\nTRIGGER/);
  });

  it('reads the same in another reader, folded to 75 octets, whatever the text (3.1, 3.3.11)', () => {
    const words = fc
      .string({ unit: 'grapheme', minLength: 1, maxLength: 200 })
      .filter((s) => s.trim() === s && s !== '' && !/[\p{Cc}\u2028\u2029]/u.test(s));
    fc.assert(
      fc.property(words, words, (summary, description) => {
        const text = write([event({ summary, description })]);
        for (const line of text.split('\r\n')) expect(octets(line)).toBeLessThanOrEqual(75);
        const [found] = read(text);
        // A title is one line, with each run of white space as one space.
        expect(found?.summary).toBe(summary.replace(/\s+/g, ' ').trim());
        expect(found?.description).toBe(description);
        expect(found?.startDate.toJSDate().toISOString()).toBe('2026-05-27T13:40:00.000Z');
      }),
      { numRuns: 150 },
    );
  });

  it('keeps an hour in the property’s time zone across a change of daylight saving', () => {
    // 9:40 in New York is 14:40Z on March 7, 2026 and 13:40Z on March 8.
    const [before, after] = read(
      write([
        event({ uid: 'before', startAt: '2026-03-07T14:40:00Z', endAt: '2026-03-07T15:40:00Z' }),
        event({ uid: 'after-it', startAt: '2026-03-08T13:40:00Z', endAt: '2026-03-08T14:40:00Z' }),
      ]),
    );
    const clock = (e: ICAL.Event | undefined) =>
      e?.startDate.toJSDate().toLocaleTimeString('en-US', { timeZone: 'America/New_York', hour: 'numeric', minute: '2-digit' });
    expect([clock(before), clock(after)]).toEqual(['9:40 AM', '9:40 AM']);
  });
});
