/**
 * Tables as data loggers and spreadsheets write them, made for the tests by the formats' rules: RFC 4180 for separated values, ISO 8601 and
 * RFC 3339 for instants, ECMA-376 (18.17.4.1) for serial dates, IANA `etcetera` for zones of a fixed offset.
 */
import type { LogQuestion } from '../../shared-core/cure/log-questions.ts';

export type LoggerFile = {
  readonly name: string;
  readonly text: string;
  /** The expected first reading: instant, °C, humidity; null where nothing may be read. */
  readonly first: readonly [at: string, tempC: number, humidity: number | null] | null;
  readonly count?: number;
  readonly asks?: readonly LogQuestion['kind'][];
};

/** 2 pm on May 12, 2026, in New York. */
const TWO = '2026-05-12T18:00:00.000Z';
const rows = (head: string, ...lines: string[]): string => [head, ...lines].join('\n');

export const LOGGER_FILES: readonly LoggerFile[] = [
  {
    name: 'ISO dates',
    text: rows('Time,Temp °F,RH %', '2026-05-12 14:00,68,50', '2026-05-12 15:00,68,50'),
    first: [TWO, 20, 0.5],
    count: 2,
  },
  { name: 'instants in UTC', text: rows('Time,Temp °C', '2026-05-12T18:00:00Z,20'), first: [TWO, 20, null] },
  { name: 'instants with an offset', text: rows('Time,Temp °C', '2026-05-12T14:00:00-04:00,20'), first: [TWO, 20, null] },
  {
    name: 'US dates with AM and PM',
    text: rows('Date Time,Temperature (°F)', '5/13/2026 2:00 PM,68'),
    first: ['2026-05-13T18:00:00.000Z', 20, null],
  },
  {
    name: 'two-digit years with seconds',
    text: rows('#,Date Time,"Temp, °F"', '1,05/13/26 02:00:00 PM,68'),
    first: ['2026-05-13T18:00:00.000Z', 20, null],
  },
  {
    name: 'points in dates, day first',
    text: rows('Zeit;Temp °C', '13.05.2026 14:00;20,5', '13.05.2026 15:00;20,5'),
    first: ['2026-05-13T18:00:00.000Z', 20.5, null],
    count: 2,
  },
  { name: 'month names', text: rows('Time,Temp °F', '"May 12, 2026 2:00 PM",68'), first: [TWO, 20, null] },
  { name: 'day, month name, short year', text: rows('Time,Temp °F', '12-May-26 14:00,68'), first: [TWO, 20, null] },
  { name: 'serial dates', text: rows('Time,Temp °F', '46154.583333333,68'), first: [TWO, 20, null] },
  { name: 'fractions of a second', text: rows('Time,Temp °F', '2026-05-12 14:00:00.000,68'), first: [TWO, 20, null] },
  { name: 'seconds since 1970', text: rows('Epoch,Temp °C', '1778608800,20'), first: [TWO, 20, null] },
  {
    name: 'the time of day in its own column',
    text: rows('Date,Time,Temp °F', '5/13/2026,2:00 PM,68'),
    first: ['2026-05-13T18:00:00.000Z', 20, null],
  },
  { name: 'zones by name', text: rows('Time,Temp °F', '05/13/2026 12:00 PM MDT,68'), first: ['2026-05-13T18:00:00.000Z', 20, null] },
  { name: 'offsets of two digits', text: rows('Time,Temp °F', '2026-05-12 12:00:00-06,68'), first: [TWO, 20, null] },
  {
    name: 'the time of day and its zone in their own column',
    text: rows('Date,Time,Temp °F', '5/13/2026,12:00 PM MDT,68'),
    first: ['2026-05-13T18:00:00.000Z', 20, null],
  },
  { name: 'tabs', text: rows('Time\tTemp °F', '2026-05-12 14:00\t68'), first: [TWO, 20, null] },
  {
    name: 'battery level before humidity',
    text: rows('Time,Battery (%),Temp (F),RH (%)', '2026-05-12 14:00,97,68,50'),
    first: [TWO, 20, 0.5],
  },
  {
    name: 'humidity as a bare percent, beside battery and signal',
    text: rows('Time,Battery %,Signal %,Air %,°F', '2026-05-12 14:00,97,80,50,68'),
    first: [TWO, 20, 0.5],
  },
  {
    name: 'moisture of wood, and no humidity',
    text: rows('Time,Wood moisture (%),Battery,Air', '2026-05-12 14:00,9,97,68', '2026-05-12 15:00,9,97,68'),
    first: [TWO, 20, null],
  },
  {
    name: 'dew point before temperature',
    text: rows('Time,Dew Point (°F),RH (%),Temperature (°F)', '2026-05-12 14:00,48,50,68'),
    first: [TWO, 20, 0.5],
  },
  { name: 'wet bulb before temperature', text: rows('Time,Wet Bulb °F,Temp °F', '2026-05-12 14:00,58,68'), first: [TWO, 20, null] },
  { name: 'only a dew point', text: rows('Time,Dew Point (°F)', '2026-05-12 14:00,48'), first: null },
  {
    name: 'GMT+00:00 in the head',
    text: rows('#,"Date Time, GMT+00:00","Temp, °F"', '1,05/13/26 06:00:00 PM,68'),
    first: ['2026-05-13T18:00:00.000Z', 20, null],
  },
  {
    name: 'GMT-05:00 in the head',
    text: rows('#,"Date Time, GMT-05:00","Temp, °F"', '1,05/13/26 01:00:00 PM,68'),
    first: ['2026-05-13T18:00:00.000Z', 20, null],
  },
  { name: 'units in the cells', text: rows('Time,Temp,Humidity', '2026-05-12 14:00,68 °F,50 %'), first: [TWO, 20, 0.5] },
  {
    name: 'a counter before the time',
    text: rows('No.,Time,Celsius(°C),Humidity(%rh)', '1,2026-05-12 14:00,20.0,50.0'),
    first: [TWO, 20, 0.5],
  },
  {
    name: 'lines about the device above the head',
    text: rows('Logger 12\nSerial,4711\n\nTime,Temp °F', '2026-05-12 14:00,68'),
    first: [TWO, 20, null],
  },
  {
    name: 'blank lines between',
    text: rows('Time,Temp °F', '2026-05-12 14:00,68', '', '2026-05-12 15:00,68'),
    first: [TWO, 20, null],
    count: 2,
  },
  {
    name: 'a decimal comma unquoted in a comma file',
    text: rows('Time,Temp °C', '2026-05-12 14:00,18,9', '2026-05-12 15:00,19,1'),
    first: null,
  },
  {
    name: 'decimal commas unquoted among whole numbers',
    text: rows('Time,Temp °C', '2026-05-12 14:00,20', '2026-05-12 15:00,19,1'),
    first: [TWO, 20, null],
    count: 1,
    asks: ['wide'],
  },
  { name: 'a decimal comma in quotes', text: rows('Time,Temp °C', '2026-05-12 14:00,"18,9"'), first: [TWO, 18.9, null] },
  { name: 'a wider row that is no split number', text: rows('Time,Temp °C', '2026-05-12 14:00,18.9,Logged'), first: [TWO, 18.9, null] },
  {
    name: 'Fahrenheit headed as Celsius',
    text: rows('Time,Temp °C', '2026-05-12 14:00,66', '2026-05-12 15:00,67'),
    first: [TWO, 66, null],
    asks: ['unit'],
  },
  { name: 'Celsius headed as Fahrenheit', text: rows('Time,Temp °F', '2026-05-12 14:00,20'), first: [TWO, -6.667, null], asks: ['unit'] },
  {
    name: 'dates of either order',
    text: rows('Time,Temp °F', '5/6/2026 14:00,68'),
    first: ['2026-05-06T18:00:00.000Z', 20, null],
    asks: ['date-order'],
  },
  {
    name: 'rows before the pour',
    text: rows('Time,Temp °F', '2026-05-09 14:00,68', '2026-05-12 14:00,68'),
    first: ['2026-05-09T18:00:00.000Z', 20, null],
    asks: ['before-pour'],
  },
  {
    name: 'hours that another logger has',
    text: rows('Time,Temp °F', '2026-05-14 14:00,68'),
    first: ['2026-05-14T18:00:00.000Z', 20, null],
    asks: ['overlap'],
  },
  {
    name: 'two temperatures for one time',
    text: rows('Time,Temp °F', '2026-05-12 14:00,68', '2026-05-12 14:00,70'),
    first: [TWO, 20, null],
    asks: ['differing'],
  },
  {
    name: 'a clock ahead of now',
    text: rows('Time,Temp °F', '2026-05-20 14:30,68'),
    first: ['2026-05-20T18:30:00.000Z', 20, null],
    asks: ['clock'],
  },
  // 0.55 is 55%: ISO 80000-1, 7.3.2 (from memory), has the percent as 0.01.
  {
    name: 'humidity as a share of 1',
    text: rows('Time,Temp °F,RH', '2026-05-12 14:00,68,0.5', '2026-05-12 15:00,68,0.55'),
    first: [TWO, 20, 0.005],
    asks: ['humidity-unit'],
  },
  {
    name: 'humidity without a sensor',
    text: rows('Time,Temp °F,RH %', '2026-05-12 14:00,68,0', '2026-05-12 15:00,68,0'),
    first: [TWO, 20, 0],
    asks: ['humidity-unit'],
  },
  { name: 'a very dry room', text: rows('Time,Temp °F,RH %', '2026-05-12 14:00,68,1', '2026-05-12 15:00,68,4'), first: [TWO, 20, 0.01] },
  {
    name: 'a humidity over 100%',
    text: rows('Time,Temp °F,RH %', '2026-05-12 14:00,68,50', '2026-05-12 15:00,68,150'),
    first: [TWO, 20, 0.5],
    count: 1,
    asks: ['unreadable'],
  },
  { name: 'no date', text: rows('Temp °F', '68'), first: null },
  { name: 'a letter', text: 'Dear customer,\nno readings today.', first: null },
];
