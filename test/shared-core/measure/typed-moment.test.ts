import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayStyleFrom, formatMoment, parseMoment } from '../../../shared-core/measure/typed-moment.ts';

const NOW = '2026-03-13T16:00:00.000Z';
const ZONE = 'America/New_York';
const read = (text: string) => parseMoment(text, NOW, ZONE, 'en-US');

describe('a day and a time in one line', () => {
  it.each([
    ['9:40 am', '2026-03-13T13:40:00.000Z'],
    ['March 14 9:40 am', '2026-03-14T13:40:00.000Z'],
    ['March 14, noon', '2026-03-14T16:00:00.000Z'],
    ['11:59 pm', '2026-03-14T03:59:00.000Z'],
    ['end of March 13', '2026-03-14T04:00:00.000Z'],
    ['the end of today', '2026-03-14T04:00:00.000Z'],
    ['March 14 12:00 am', '2026-03-14T04:00:00.000Z'],
    // The day the clocks go forward has 23 hours.
    ['end of March 8', '2026-03-09T04:00:00.000Z'],
  ])('reads %s', (text, instant) => {
    expect(read(text)).toEqual({ ok: true, value: instant });
  });

  // March 13, 2026 is a Friday.
  it.each([
    ['mon 8 am', 'coming', '2026-03-16T12:00:00.000Z'],
    ['mon 8 am', 'past', '2026-03-09T12:00:00.000Z'],
    ['Friday 8 am', 'coming', '2026-03-13T12:00:00.000Z'],
    ['fri, 8 am', 'past', '2026-03-13T12:00:00.000Z'],
    ['end of thu', 'past', '2026-03-13T04:00:00.000Z'],
  ] as const)('reads %s, %s', (text, side, instant) => {
    expect(parseMoment(text, NOW, ZONE, 'en-US', side)).toEqual({ ok: true, value: instant });
  });

  it('refuses a bare midnight, which can mean the start or the end of a day', () => {
    for (const text of ['midnight', 'March 14 midnight', 'Midnight March 14'])
      expect(read(text)).toMatchObject({ ok: false, message: expect.stringContaining('end of May 12') });
    expect(read('end of nothing').ok).toBe(false);
    expect(read('whenever').ok).toBe(false);
  });

  it('shows the last minute of a day differently from its end', () => {
    expect(formatMoment('2026-03-15T03:59:00.000Z', NOW, ZONE, 'en-US')).toBe('March 14 11:59 pm');
    expect(formatMoment('2026-03-15T04:00:00.000Z', NOW, ZONE, 'en-US')).toBe('end of March 14');
    expect(formatMoment('2026-03-14T04:00:00.000Z', NOW, ZONE, 'en-US')).toBe('end of March 13');
  });

  it('parses what it shows to the same minute', () => {
    const minutes = fc.integer({ min: Date.UTC(2025, 0, 1) / 60_000, max: Date.UTC(2028, 11, 31) / 60_000 });
    fc.assert(
      fc.property(minutes, fc.constantFrom('en-US', 'en-GB'), (minute, locale) => {
        const instant = new Date(minute * 60_000).toISOString();
        expect(parseMoment(formatMoment(instant, NOW, 'UTC', locale), NOW, 'UTC', locale)).toEqual({ ok: true, value: instant });
      }),
      { numRuns: 200, examples: [[Date.UTC(2026, 2, 14) / 60_000, 'en-GB']] },
    );
  });
});

it('gives the year of a day half a year away and more', () => {
  expect(dayStyleFrom('2026-06-24', '2027-04-08')).toBe('dated');
  expect(dayStyleFrom('2026-06-24', '2026-11-08')).toBe('short');
  expect(dayStyleFrom('2026-06-24', '2025-04-08')).toBe('dated');
});
