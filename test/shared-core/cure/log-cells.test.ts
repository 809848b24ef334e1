/** Cells of a logger's file. Sources: ISO 8601 and RFC 3339 for instants, RFC 5322 (4.3) for the names of zones, ECMA-376 (18.17.4.1) for serial dates, POSIX for seconds since 1970. */
import { describe, expect, it } from 'vitest';
import { parseTable } from '../../../shared-core/table/cell-table.ts';
import { type DateOrder, readCellNumber, readMoment } from '../../../shared-core/cure/log-cells.ts';
import { type LogChoice, zoneInHead } from '../../../shared-core/cure/log-choice.ts';
import { NOTHING_KNOWN, previewLog } from '../../../shared-core/cure/log-preview.ts';

const read = (text: string, order: DateOrder = 'mdy'): string | null => {
  const moment = readMoment(text, order);
  return moment === null ? null : `${moment.kind} ${new Date(moment.ms).toISOString()}`;
};
const NOON = '2026-05-12T14:05:00.000Z';

describe('a moment in a cell', () => {
  it.each([
    ['2026-05-12 14:05', `wall ${NOON}`],
    ['2026/5/12 14:05', `wall ${NOON}`],
    ['2026.05.12T14:05:00', `wall ${NOON}`],
    ['5/12/2026 2:05 PM', `wall ${NOON}`],
    ['5-12-26, 2:05 p.m.', `wall ${NOON}`],
    ['05.12.2026 02:05:00PM', `wall ${NOON}`],
    ['5/12/2026 12:05 AM', 'wall 2026-05-12T00:05:00.000Z'],
    ['5/12/2026 12:05 PM', 'wall 2026-05-12T12:05:00.000Z'],
    ['5/12/2026', 'wall 2026-05-12T00:00:00.000Z'],
    ['5/12/2026 0:00', 'wall 2026-05-12T00:00:00.000Z'],
    ['5/12/2026 23:59:59', 'wall 2026-05-12T23:59:59.000Z'],
    ['2026-05-12 14:05:30,5', 'wall 2026-05-12T14:05:30.500Z'],
    ['2026-05-12 14:05:30.123456', 'wall 2026-05-12T14:05:30.123Z'],
    ['2026-05-12T14:05:00Z', `instant ${NOON}`],
    ['2026-05-12T14:05:00 Z', `instant ${NOON}`],
    ['2026-05-12T14:05:00+02:00', 'instant 2026-05-12T12:05:00.000Z'],
    ['2026-05-12T14:05:00-0430', 'instant 2026-05-12T18:35:00.000Z'],
    ['5/12/2026 2:05 PM MDT', 'instant 2026-05-12T20:05:00.000Z'],
    ['05/12/2026 2:05 pm (mst)', 'instant 2026-05-12T21:05:00.000Z'],
    ['2026-05-12 14:05:30 PDT', 'instant 2026-05-12T21:05:30.000Z'],
    ['2026-05-12 14:05 AKDT', 'instant 2026-05-12T22:05:00.000Z'],
    ['May 12, 2026 2:05 PM EDT', 'instant 2026-05-12T18:05:00.000Z'],
    ['2026-05-12T14:05:00-06', 'instant 2026-05-12T20:05:00.000Z'],
    ['2026-05-12 14:05 UTC−6', 'instant 2026-05-12T20:05:00.000Z'],
    ['2026-05-12 14:05 GMT-06:30', 'instant 2026-05-12T20:35:00.000Z'],
    ['2026-05-12 14:05 UTC', `instant ${NOON}`],
    ['1778594700', `instant ${NOON}`],
    ['1778594700250', 'instant 2026-05-12T14:05:00.250Z'],
    ['46154.586805556', `wall ${NOON}`],
    ['46154,586805556', `wall ${NOON}`],
    ['May 12, 2026 2:05 PM', `wall ${NOON}`],
    ['Tuesday, May 12th, 2026, 14:05', `wall ${NOON}`],
    ['Tue 12 May 2026 14:05', `wall ${NOON}`],
    ['12th May 2026 14:05', `wall ${NOON}`],
    ['1st-Sep-26 14:05', 'wall 2026-09-01T14:05:00.000Z'],
    ['September/2nd/2026 14:05', 'wall 2026-09-02T14:05:00.000Z'],
    ['Sept. 3rd 2026', 'wall 2026-09-03T00:00:00.000Z'],
    ['12.May.2026 14:05', `wall ${NOON}`],
    ['12/may/26 14:05', `wall ${NOON}`],
  ])('%s is read', (text, moment) => expect(read(text)).toBe(moment));

  it.each([
    '',
    'hall',
    '14:05',
    '2026-05',
    '5/12',
    '2026-13-01',
    '2026-02-29',
    '4/31/2026',
    '5/12/2026 14:05 XYZ',
    '5/12/2026 14:05 -15',
    '5/12/2026 14:05 +05:60',
    '12-10-2026-06',
    '5/12/2026 24:00',
    '5/12/2026 14:60',
    '5/12/2026 14:05:60',
    '5/12/2026 0:05 PM',
    '5/12/2026 13:05 PM',
    '177859470',
    '17785947000',
    '177859470025',
    '46154',
    '96154.5',
    '12 Foo 2026',
    'Mayhem 12',
    '2026-05-12 14:05 noon',
    'x 2026-05-12',
  ])('“%s” is none', (text) => expect(read(text)).toBeNull());

  it('has its day and month in the order chosen, unless the year comes first', () => {
    expect([read('3/4/2026', 'mdy'), read('3/4/2026', 'dmy'), read('26-3-4', 'ymd'), read('2026-03-04', 'dmy')]).toEqual([
      'wall 2026-03-04T00:00:00.000Z',
      'wall 2026-04-03T00:00:00.000Z',
      'wall 2026-03-04T00:00:00.000Z',
      'wall 2026-03-04T00:00:00.000Z',
    ]);
  });
});

it.each([
  ['64.5 °F', 64.5, 'F'],
  ['64,5ºf', 64.5, 'F'],
  ['18 deg C', 18, 'C'],
  ['+18', 18, null],
  ['−3.25 C', -3.25, 'C'],
  ['-3', -3, null],
  ['55%', 55, '%'],
  [' 55 % ', 55, '%'],
])('the number %s is read with its unit', (text, value, unit) => expect(readCellNumber(text)).toEqual({ value, unit }));

it.each(['', 'warm', '1.2.3', '18 K', '.5', '5.', 'C', '18 °', '1 8'])('“%s” is no number with a unit of ours', (text) => {
  const found = readCellNumber(text);
  expect(found === null || found.unit === null).toBe(true);
  if (text !== '18 °') expect(found).toBeNull();
});

it.each([
  ['Date Time, GMT-05:00', 'Etc/GMT+5'],
  ['Date Time, UTC +5', 'Etc/GMT-5'],
  ['UTC−5', 'Etc/GMT+5'],
  ['utc+00', 'UTC'],
  ['GMT+14', 'Etc/GMT-14'],
  ['GMT+15', null],
  ['GMT+05:30', null],
  ['GMT', null],
])('the head “%s” names the zone %s', (head, zone) => expect(zoneInHead(['#', head])).toBe(zone));

describe('a file without readings', () => {
  const choice: LogChoice = {
    ...{
      headRows: 1,
      dateColumn: 0,
      timeColumn: null,
      temperatureColumn: 1,
      humidityColumn: null,
      unit: 'F',
      humidityUnit: 'percent',
      dateOrder: 'mdy',
    },
    ...{ timeZone: 'America/New_York', clockAheadMin: 0, joinsDecimals: false, leavesOut: [] },
  };
  const preview = (text: string, over: Partial<LogChoice> = {}) =>
    previewLog(parseTable(text), { ...choice, ...over }, NOTHING_KNOWN, Date.parse(NOON));
  const hours = { fromMs: 0, toMs: Date.parse('2027-01-01T00:00:00Z'), otherLog: 'hall.csv' };

  it('has no rows, or only rows that are left out', () => {
    expect(preview('Time,Temp')).toEqual({ ok: false, problem: { kind: 'no-rows', first: null } });
    expect(preview('Time,Temp\n2026-05-12 08:00,68', { leavesOut: [hours] })).toEqual({
      ok: false,
      problem: { kind: 'all-excluded', hours: [hours] },
    });
    expect(preview('Time,Temp\n2026-05-12 08:00,68\nx,68', { leavesOut: [hours] })).toMatchObject({
      ok: false,
      problem: { kind: 'no-rows', first: { row: 2 } },
    });
  });
});
