/** Headings and dates as loggers and spreadsheets write them; the files are made for the tests. */
import { describe, expect, it } from 'vitest';
import { readMoment } from '../../../shared-core/cure/log-cells.ts';
import { guessLogChoice, zoneInHead } from '../../../shared-core/cure/log-choice.ts';

const HOME = { unit: 'F', dateOrder: 'mdy', timeZone: 'America/New_York' } as const;

describe('the heading of a logger’s file', () => {
  it('identifies the air temperature, not the dew point beside it', () => {
    const table = [
      ['Date-Time', 'Dew Point (°F)', 'RH (%)', 'Temperature (°F)'],
      ['05/12/2026 08:00', '48.1', '51', '66.9'],
      ['05/12/2026 09:00', '48.3', '50', '67.2'],
    ];
    expect(guessLogChoice(table, HOME)).toMatchObject({ temperatureColumn: 3, humidityColumn: 2, unit: 'F' });
    expect(
      guessLogChoice(
        table.map((row) => row.slice(0, 3)),
        HOME,
      ),
    ).toBeNull();
  });

  it('identifies the zone of the logger’s clock', () => {
    expect(zoneInHead(['#', 'Date Time, GMT+00:00', 'Temp, °F'])).toBe('UTC');
    expect(zoneInHead(['Date Time, GMT-05:00'])).toBe('Etc/GMT+5');
    expect(zoneInHead(['Date Time, UTC+2'])).toBe('Etc/GMT-2');
    expect(zoneInHead(['Date Time'])).toBeNull();
    const table = [
      ['#', 'Date Time, GMT+00:00', 'Temp, °F'],
      ['1', '05/12/26 12:00:00 PM', '66.9'],
      ['2', '05/12/26 01:00:00 PM', '67.2'],
    ];
    expect(guessLogChoice(table, HOME)?.timeZone).toBe('UTC');
  });
});

describe('a date in a logger’s file', () => {
  const instantOf = (text: string): string | null => {
    const read = readMoment(text, 'mdy');
    return read === null ? null : new Date(read.ms).toISOString();
  };

  it('can name its month', () => {
    for (const text of ['May 12, 2026 2:05 PM', '12-May-26 14:05', '12 May 2026 14:05:00', 'Tue, May 12, 2026 14:05'])
      expect([text, instantOf(text)]).toEqual([text, '2026-05-12T14:05:00.000Z']);
    expect(instantOf('12 Foo 2026 14:05')).toBeNull();
  });

  it('can be a spreadsheet’s serial date', () => {
    // ECMA-376: 2 is January 1, 1900, counted from 1899-12-30; 46154 is May 12, 2026.
    expect(instantOf('46154.586805556')).toBe('2026-05-12T14:05:00.000Z');
    expect(instantOf('46154')).toBeNull();
  });

  it('can have fractions of a second', () => {
    expect(instantOf('2026-05-12 14:05:30.250')).toBe('2026-05-12T14:05:30.250Z');
  });
});
