/** The columns of a logger's table, guessed first and corrected by the user. */
import { type CellTable, isBlankRow, rowWidth } from '../table/cell-table.ts';
import type { Interval } from './clock.ts';
import { isTimeOfDay, readCellNumber, readMoment, type DateOrder } from './log-cells.ts';

/** Hours of the file that are left out: before the pour, or those of another log, by its name. */
export type HoursLeftOut = Interval & { readonly otherLog: string | null };

export type LogChoice = {
  readonly headRows: number;
  readonly dateColumn: number;
  /** The time of day, when it has a column of its own. */
  readonly timeColumn: number | null;
  readonly temperatureColumn: number;
  readonly humidityColumn: number | null;
  readonly unit: 'C' | 'F';
  /** Humidity without a sign of its own: 55 as a percentage, 0.55 as a share of 1. */
  readonly humidityUnit: 'percent' | 'share';
  readonly dateOrder: DateOrder;
  /** The zone the logger's clock was set to. */
  readonly timeZone: string;
  /** How far the logger's clock is ahead; subtracted from every time. */
  readonly clockAheadMin: number;
  /** Join numbers that an unquoted decimal comma has split. */
  readonly joinsDecimals: boolean;
  /** Hours before the pour, or that another logger has. */
  readonly leavesOut: readonly HoursLeftOut[];
};

const LOOK_AT_ROWS = 200;
const TEMPERATURE_WORD = /temp|°\s*[cf]|celsius|fahrenheit/i;
/** Temperatures that are not the air's: a dew point is computed from it, a wet bulb is cooled by evaporation. */
const OTHER_TEMPERATURE = /dew|wet[\s-]*bulb/i;
/** `GMT+00:00`, `UTC-5`: the zone a logger's head gives for its clock. */
const HEAD_ZONE = /\b(?:GMT|UTC)\s*([+\-−])\s*(\d{1,2})(?::?(\d{2}))?/i;
const HUMIDITY_WORD = /humid|\brh\b/i;
/** Percentages and numbers that are not of the air: the logger’s battery and radio, the moisture of a slab or of wood. */
const NOT_AIR = /batt|signal|moist|\bmc\b/i;
const FAHRENHEIT_WORD = /°\s*f|\(f\)|\bf\b|fahrenheit/i;
const CELSIUS_WORD = /°\s*c|\(c\)|\bc\b|celsius/i;

const isMoment = (cell: string): boolean => readMoment(cell, 'mdy') !== null || readMoment(cell, 'dmy') !== null;

function orderOf(cells: readonly string[], fallback: DateOrder): DateOrder {
  if (cells.every((c) => readMoment(c, 'mdy') !== null)) {
    return cells.every((c) => readMoment(c, 'dmy') !== null) ? fallback : 'mdy';
  }
  return cells.some((c) => readMoment(c, 'mdy') === null && readMoment(c, 'dmy') !== null) ? 'dmy' : fallback;
}

/** The fixed zone that a head names; null where it names none, or one that is not on a whole hour. */
export function zoneInHead(head: readonly string[]): string | null {
  const match = head.flatMap((cell) => HEAD_ZONE.exec(cell) ?? []);
  const [, sign, hours, minutes] = match;
  if (sign === undefined || hours === undefined || Number(hours) > 14 || Number(minutes ?? '0') !== 0) return null;
  if (Number(hours) === 0) return 'UTC';
  // The sign of an IANA Etc zone runs the other way.
  return `Etc/GMT${sign === '+' ? '-' : '+'}${Number(hours)}`;
}

/** Columns in which most of the cells read as wanted. */
function columnsWhere(rows: CellTable, width: number, isMatch: (cell: string) => boolean): number[] {
  const columns = Array.from({ length: width }, (_, c) => c);
  return columns.filter((c) => {
    const filled = rows.map((r) => r[c]?.trim() ?? '').filter((cell) => cell !== '');
    return filled.length > 0 && filled.filter(isMatch).length * 2 > filled.length;
  });
}

/**
 * Guesses the columns from the headings and the first rows. @param home defaults of the business: its unit, its order of dates,
 * the property's zone
 * @returns null when no column holds moments or none holds numbers.
 */
export function guessLogChoice(table: CellTable, home: Pick<LogChoice, 'unit' | 'dateOrder' | 'timeZone'>): LogChoice | null {
  const first = table.findIndex((row) => row.some(isMoment) && row.some((cell) => readCellNumber(cell) !== null));
  if (first < 0) return null;
  const headRow = table.slice(0, first).findLastIndex((row) => !isBlankRow(row));
  const head = table[headRow] ?? [];
  const body = table.slice(first, first + LOOK_AT_ROWS).filter((row) => !isBlankRow(row));
  const width = Math.max(...body.map(rowWidth));
  const dateColumn = columnsWhere(body, width, isMoment)[0];
  if (dateColumn === undefined) return null;
  const timeColumn = columnsWhere(body, width, isTimeOfDay)[0] ?? null;
  const numbers = columnsWhere(body, width, (cell) => readCellNumber(cell) !== null).filter((c) => c !== dateColumn);
  const named = (words: RegExp, never: RegExp) => numbers.find((c) => words.test(head[c] ?? '') && !never.test(head[c] ?? ''));
  const humidityColumn = named(HUMIDITY_WORD, OTHER_TEMPERATURE) ?? named(/%/, NOT_AIR) ?? null;
  // A column without a heading that only counts rows is not a temperature.
  const counts = (c: number) => body.every((r, i) => i === 0 || Number(r[c]) - Number(body[i - 1]?.[c]) === 1);
  const isAir = (c: number) => ![OTHER_TEMPERATURE, NOT_AIR].some((words) => words.test(head[c] ?? ''));
  const temperatureColumn =
    named(TEMPERATURE_WORD, OTHER_TEMPERATURE) ?? numbers.find((c) => c !== humidityColumn && isAir(c) && !counts(c));
  if (temperatureColumn === undefined) return null;
  const headText = head[temperatureColumn] ?? '';
  const sign = body.map((r) => readCellNumber(r[temperatureColumn] ?? '')?.unit).find((u) => u === 'C' || u === 'F');
  const worded = FAHRENHEIT_WORD.test(headText) ? 'F' : CELSIUS_WORD.test(headText) ? 'C' : home.unit;
  return {
    headRows: first,
    dateColumn,
    timeColumn: timeColumn === dateColumn ? null : timeColumn,
    temperatureColumn,
    humidityColumn,
    unit: sign === 'C' || sign === 'F' ? sign : worded,
    humidityUnit: 'percent',
    dateOrder: orderOf(
      body.map((r) => r[dateColumn] ?? '').filter((c) => c.trim() !== ''),
      home.dateOrder,
    ),
    timeZone: zoneInHead(head) ?? home.timeZone,
    clockAheadMin: 0,
    joinsDecimals: false,
    leavesOut: [],
  };
}
