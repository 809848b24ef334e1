import { describe, expect, it } from 'vitest';
import { readCellNumber, readMoment } from '../../../shared-core/cure/log-cells.ts';
import { guessLogChoice, type LogChoice } from '../../../shared-core/cure/log-choice.ts';
import { type LogPreview, NOTHING_KNOWN, previewLog, takeLog } from '../../../shared-core/cure/log-preview.ts';
import { parseTable } from '../../../shared-core/table/cell-table.ts';
import { zoneClock } from '../../../shared-core/cure/zone-clock.ts';

const HOME = { unit: 'F' as const, dateOrder: 'mdy' as const, timeZone: 'America/New_York' };
const NOW = Date.parse('2026-12-01T00:00:00Z');
const table = (text: string) => parseTable(text).table;

function preview(text: string, over: Partial<LogChoice> = {}, now = NOW): LogPreview {
  const from = parseTable(text);
  const choice = guessLogChoice(from.table, HOME);
  if (choice === null) throw new Error('no columns found');
  const found = previewLog(from, { ...choice, ...over }, NOTHING_KNOWN, now);
  if (!found.ok) throw new Error(found.problem.kind);
  return found.value;
}

describe('cells of a logger', () => {
  it('are dates and times in the ways they are written', () => {
    const noon = Date.UTC(2026, 4, 12, 14, 5);
    expect(readMoment('2026-05-12 14:05', 'mdy')).toEqual({ kind: 'wall', ms: noon });
    expect(readMoment('5/12/2026 2:05 PM', 'mdy')).toEqual({ kind: 'wall', ms: noon });
    expect(readMoment('12.05.2026 14:05:00', 'dmy')).toEqual({ kind: 'wall', ms: noon });
    expect(readMoment('5/12/26, 2:05:00 p.m.', 'mdy')).toEqual({ kind: 'wall', ms: noon });
    expect(readMoment('2026-05-12T14:05:00Z', 'mdy')).toEqual({ kind: 'instant', ms: noon });
    expect(readMoment('2026-05-12T14:05:00-04:00', 'mdy')).toEqual({ kind: 'instant', ms: noon + 4 * 3_600_000 });
    expect(readMoment(String(noon / 1000), 'mdy')).toEqual({ kind: 'instant', ms: noon });
  });

  it('are no times when no such day or hour exists', () => {
    for (const text of ['2026-02-30 10:00', '13/13/2026 10:00', '2026-05-12 25:00', '5/12/2026 13:00 PM', 'hall', '']) {
      expect(readMoment(text, 'mdy')).toBeNull();
    }
    expect(readMoment('2028-02-29 10:00', 'ymd')).not.toBeNull();
  });

  it('are numbers with point or comma and their own unit', () => {
    expect(readCellNumber('64.5 °F')).toEqual({ value: 64.5, unit: 'F' });
    expect(readCellNumber('18,2')).toEqual({ value: 18.2, unit: null });
    expect(readCellNumber('−3')).toEqual({ value: -3, unit: null });
    expect(readCellNumber('warm')).toBeNull();
  });
});

describe('guessing the columns', () => {
  it('finds time, temperature and humidity by their headings and skips a counter', () => {
    const rows = table('Logger 12,,,\n#,Time,Humidity %,Temp °C\n1,2026-05-12 14:00,55,18\n2,2026-05-12 15:00,56,18.5\n');
    expect(guessLogChoice(rows, HOME)).toMatchObject({ headRows: 2, dateColumn: 1, temperatureColumn: 3, humidityColumn: 2, unit: 'C' });
  });

  it('finds a time of day in a column of its own, without headings, past a counter', () => {
    const rows = table('1\t5/12/2026\t2:00 PM\t64.5\n2\t5/12/2026\t3:00 PM\t65\n');
    expect(guessLogChoice(rows, HOME)).toMatchObject({ headRows: 0, dateColumn: 1, timeColumn: 2, temperatureColumn: 3, unit: 'F' });
  });

  it('finds nothing in a table without times', () => {
    expect(guessLogChoice(table('a,b\n1,2\n'), HOME)).toBeNull();
  });
});

describe('a logger’s file, previewed', () => {
  const hourly = (temps: readonly number[], startHour = 0) =>
    ['Time,Temp'].concat(temps.map((t, i) => `2026-05-12 ${String(startHour + i).padStart(2, '0')}:00,${t}`)).join('\n');

  it('gives readings in UTC and °C from wall-clock time and °F', () => {
    const found = preview(hourly([68, 59]));
    expect(found.readings).toEqual([
      { instant: '2026-05-12T04:00:00.000Z', tempC: 20, relativeHumidity: null },
      { instant: '2026-05-12T05:00:00.000Z', tempC: 15, relativeHumidity: null },
    ]);
    expect(found.stepMin).toBe(60);
    expect(takeLog(found, []).ok).toBe(true);
  });

  it('asks about Fahrenheit labeled Celsius, and imports nothing until answered', () => {
    const found = preview('Time,Temp °C\n2026-05-12 01:00,64\n2026-05-12 02:00,66\n');
    expect(found.questions[0]).toMatchObject({ kind: 'unit', suggest: { unit: 'F' } });
    expect(takeLog(found, []).ok).toBe(false);
    expect(takeLog(found, ['unit']).ok).toBe(true);
    expect(preview('Time,Temp °C\n2026-05-12 01:00,64\n2026-05-12 02:00,45\n').questions).toEqual([]);
  });

  it('asks about Celsius labeled Fahrenheit', () => {
    expect(preview(hourly([18, 19])).questions[0]).toMatchObject({ kind: 'unit', suggest: { unit: 'C' } });
  });

  it('asks about humidity as a share of 1, reads it so if confirmed, and leaves a percentage with its sign alone', () => {
    const text = 'Time,Temp F,RH\n2026-05-12 01:00,66,0.55\n2026-05-12 02:00,66,1\n';
    const found = preview(text);
    expect(found.questions).toMatchObject([{ kind: 'humidity-unit', suggest: { humidityUnit: 'share' } }]);
    expect(takeLog(found, []).ok).toBe(false);
    const corrected = preview(text, found.questions[0]?.suggest);
    expect(corrected.questions).toEqual([]);
    expect(corrected.readings.map((r) => r.relativeHumidity)).toEqual([0.55, 1]);
    const signed = preview('Time,Temp F,RH\n2026-05-12 01:00,66,55%\n2026-05-12 02:00,66,0.5\n', { humidityUnit: 'share' });
    expect(signed.readings.map((r) => r.relativeHumidity)).toEqual([0.55, 0.5]);
  });

  it('suggests no humidity where every one is zero', () => {
    const text = 'Time,Temp F,RH\n2026-05-12 01:00,66,0\n2026-05-12 02:00,66,0\n';
    const corrected = preview(text, preview(text).questions[0]?.suggest);
    expect(corrected.readings.map((r) => r.relativeHumidity)).toEqual([null, null]);
  });

  it('asks about a clock an hour fast, and subtracts the hour if confirmed', () => {
    const now = Date.parse('2026-05-12T05:10:00Z');
    const found = preview(hourly([68, 68, 68]), {}, now);
    expect(found.questions[0]).toMatchObject({ kind: 'clock', suggest: { clockAheadMin: 60 } });
    const shifted = preview(hourly([68, 68, 68]), { clockAheadMin: 60 }, now);
    expect(shifted.questions).toEqual([]);
    expect(shifted.toAt).toBe('2026-05-12T05:00:00.000Z');
  });

  it('lists gaps, drops repeats, and asks when a time has two temperatures', () => {
    const found = preview(
      'Time,Temp\n2026-05-12 01:00,68\n2026-05-12 01:00,68\n2026-05-12 02:00,68\n2026-05-12 02:00,70\n2026-05-13 02:00,68\n',
    );
    expect(found.repeated).toBe(1);
    expect(found.differing).toBe(1);
    expect(found.readings).toHaveLength(3);
    expect(found.gaps).toEqual([{ fromMs: Date.parse('2026-05-12T06:00:00Z'), toMs: Date.parse('2026-05-13T06:00:00Z') }]);
    expect(found.questions.map((q) => q.kind)).toContain('differing');
  });

  it('says which rows could not be read and why', () => {
    const found = preview('Time,Temp\n2026-05-12 01:00,68\nsometime,68\n2026-05-12 03:00,\n2026-05-12 04:00,999\n');
    expect(found.leftOut.map((l) => l.row)).toEqual([3, 4, 5]);
    expect(found.leftOut[0]?.problem).toEqual({ kind: 'not-a-time', cell: 'sometime' });
    expect(found.questions.map((q) => q.kind)).toContain('unreadable');
  });

  it('refuses a wrong column and an unknown zone', () => {
    const columns = { headRows: 1, dateColumn: 0, timeColumn: null, temperatureColumn: 1, humidityColumn: null };
    const choice = { ...HOME, ...columns, humidityUnit: 'percent' as const, clockAheadMin: 0, joinsDecimals: false, leavesOut: [] };
    const read = (change: Partial<LogChoice>) =>
      previewLog(parseTable('Time,Temp,Room\n2026-05-12 01:00,68,hall\n'), { ...choice, ...change }, NOTHING_KNOWN, NOW);
    expect(read({})).toMatchObject({ ok: true });
    expect(read({ temperatureColumn: 2 })).toMatchObject({ ok: false, problem: { kind: 'no-rows' } });
    expect(read({ timeZone: 'Mars/Olympus' })).toMatchObject({ ok: false, problem: { kind: 'zone' } });
  });

  it('asks about the order of day and month only where both are possible', () => {
    expect(preview('Time,Temp\n5/6/2026 1:00,68\n5/6/2026 2:00,68\n').questions[0]?.kind).toBe('date-order');
    expect(preview('Time,Temp\n5/6/2026 1:00,68\n5/7/2026 2:00,68\n').questions).toEqual([]);
    expect(preview('Time,Temp\n5/13/2026 1:00,68\n').questions).toEqual([]);
  });

  it('continues through the hour repeated in autumn', () => {
    const found = preview('Time,Temp\n2026-11-01 00:30,68\n2026-11-01 01:30,68\n2026-11-01 01:30,67\n2026-11-01 02:30,68\n');
    expect(found.readings.map((r) => r.instant.slice(11, 16))).toEqual(['04:30', '05:30', '06:30', '07:30']);
    expect(found.differing).toBe(0);
  });

  it('detects a logger left on winter time and suggests the zone that fits', () => {
    const text = 'Time,Temp\n2026-03-08 01:30,68\n2026-03-08 02:30,68\n2026-03-08 03:30,68\n';
    const found = preview(text);
    expect(found.questions[0]).toMatchObject({ kind: 'skipped-hour', suggest: { timeZone: 'Etc/GMT+5' } });
    expect(preview(text, { timeZone: 'Etc/GMT+5' }).readings.map((r) => r.instant.slice(11, 16))).toEqual(['06:30', '07:30', '08:30']);
  });

  it('reads half a million rows and refuses more', () => {
    const rows = [['Time', 'Temp']];
    const start = Date.UTC(2025, 9, 1);
    for (let i = 0; i < 500_000; i++)
      rows.push([new Date(start + i * 60_000).toISOString().slice(0, 16).replace('T', ' '), String(60 + (i % 20))]);
    const choice = guessLogChoice(rows, HOME);
    if (choice === null) throw new Error('no columns found');
    const shares: number[] = [];
    const found = previewLog({ table: rows, delimiter: ',' }, choice, NOTHING_KNOWN, NOW, (share) => shares.push(share));
    expect(found.ok && found.value.rows).toBe(500_000);
    // Progress is reported throughout and only rises.
    expect(shares.length).toBeGreaterThan(40);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.every((share) => share >= 0 && share <= 1)).toBe(true);
    // A reading per minute for 347 days is stored as averages per hour; the hour that the zone skips falls on the next.
    expect(found.ok && [found.value.everyMin, found.value.readings.length]).toEqual([60, 8333]);
    // The 60 readings of the skipped hour fall on the hour after it; a hundred more are too many.
    const later = Array.from({ length: 100 }, (_, i) => [`2026-11-20 01:${String(i % 60).padStart(2, '0')}:${i < 60 ? '00' : '30'}`, '60']);
    const more = previewLog({ table: [...rows, ...later], delimiter: ',' }, choice, NOTHING_KNOWN, NOW);
    expect(more).toMatchObject({ ok: false, problem: { kind: 'too-many', most: 500_000 } });
  });
});

describe('a wall clock', () => {
  it('agrees with Intl about every quarter hour around both changes of the year, in three zones', () => {
    for (const timeZone of ['America/New_York', 'Europe/Berlin', 'Australia/Lord_Howe']) {
      const clock = zoneClock(timeZone);
      const format = new Intl.DateTimeFormat('en-CA', {
        timeZone,
        hourCycle: 'h23',
        year: 'numeric',
        month: '2-digit',
        day: '2-digit',
        hour: '2-digit',
        minute: '2-digit',
      });
      for (const day of ['2026-03-08', '2026-03-29', '2026-04-05', '2026-10-04', '2026-10-25', '2026-11-01', '2028-02-29']) {
        const from = Date.parse(`${day}T00:00:00Z`) - 20 * 3_600_000;
        for (let ms = from; ms < from + 64 * 3_600_000; ms += 15 * 60_000) {
          const part = new Map(format.formatToParts(ms).map((p) => [p.type, p.value]));
          const wall = Date.parse(
            `${part.get('year')}-${part.get('month')}-${part.get('day')}T${part.get('hour')}:${part.get('minute')}:00Z`,
          );
          expect(clock.instants(wall)).toContain(ms);
        }
      }
    }
  });

  it('has no instant for the hour skipped and two for the hour repeated', () => {
    const clock = zoneClock('America/New_York');
    expect(clock.instants(Date.parse('2026-03-08T02:30:00Z'))).toEqual([]);
    expect(clock.instants(Date.parse('2026-11-01T01:30:00Z'))).toHaveLength(2);
    expect(clock.instants(Date.parse('2026-12-31T23:59:00Z'))).toEqual([Date.parse('2027-01-01T04:59:00Z')]);
  });
});
