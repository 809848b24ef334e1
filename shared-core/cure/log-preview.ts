/** Preview of a logger's table before it is imported. */
import type { CureReading } from '../book/cure-record.ts';
import { parseTimeZone, zoneOffsetMs } from '../measure/moment.ts';
import { isBlankRow, joinDecimals, looksSplit, rowWidth, type SeparatedTable } from '../table/cell-table.ts';
import { openQuestion } from '../table/import-check.ts';
import type { Found } from '../measure/parsed.ts';
import { celsiusFromFahrenheit } from '../measure/temperature.ts';
import { readCellNumber, readMoment } from './log-cells.ts';
import type { HoursLeftOut, LogChoice } from './log-choice.ts';
import { keptReadings } from './log-means.ts';
import { logQuestions, type LogQuestion } from './log-questions.ts';
import type { Interval } from './clock.ts';
import { GAP_HOURS, HOUR_MS } from './temperature-history.ts';
import { zoneClock, type ZoneClock } from './zone-clock.ts';

/** Maximum readings per file. */
export const MOST_READINGS = 500_000;
/** Rows between progress reports. */
const ROWS_A_WORD = 10_000;
/** Maximum number of unreadable rows listed. */
const ROWS_LISTED = 50;

/** Why a row is left out. */
export type RowProblem =
  | { readonly kind: 'no-time' | 'no-temperature' }
  | { readonly kind: 'not-a-time' | 'not-a-temperature' | 'not-in-a-room'; readonly cell: string }
  | { readonly kind: 'humidity'; readonly percent: number }
  | { readonly kind: 'wide'; readonly cells: number; readonly headings: number }
  | { readonly kind: 'hours'; readonly hours: HoursLeftOut };

/** A row that is left out, by its row number in the file. */
export type LogRowLeftOut = { readonly row: number; readonly problem: RowProblem };

/** Why nothing can be read; `first` is the first row left out. */
export type LogProblem =
  | { readonly kind: 'zone'; readonly message: string }
  | { readonly kind: 'all-excluded'; readonly hours: readonly HoursLeftOut[] }
  | { readonly kind: 'no-rows'; readonly first: LogRowLeftOut | null }
  | { readonly kind: 'too-many'; readonly readings: number; readonly most: number };

export type LogPreview = {
  /** The readings to store: as read, or averages where there are very many. */
  readonly readings: readonly CureReading[];
  /** How many were read, repeats left out. */
  readonly read: number;
  /** Minutes that each kept reading is the mean of; null where all are kept as read. */
  readonly everyMin: number | null;
  readonly rows: number;
  readonly leftOut: readonly LogRowLeftOut[];
  readonly leftOutCount: number;
  /** Rows that repeat an instant with the same temperature: dropped. */
  readonly repeated: number;
  /** Rows with another temperature for the same instant: the first is used. */
  readonly differing: number;
  readonly gaps: readonly Interval[];
  readonly fromAt: string;
  readonly toAt: string;
  readonly leastC: number;
  readonly mostC: number;
  /** Usual time between two readings, minutes; null for a single one. */
  readonly stepMin: number | null;
  /** Questions to answer before the import. */
  readonly questions: readonly LogQuestion[];
};

type Read = { readonly atMs: number; readonly tempC: number; readonly humidity: number | null; readonly skipped: boolean };

/** Of two instants the same wall-clock hour can mean, the one that does not run backwards. */
function instantOf(wallMs: number, clock: ZoneClock, beforeMs: number): { ms: number; skipped: boolean } {
  const instants = clock.instants(wallMs);
  const forward = instants.find((ms) => ms > beforeMs) ?? instants[0];
  if (forward !== undefined) return { ms: forward, skipped: false };
  // A local time skipped by daylight saving is read one hour later.
  const later = clock.instants(wallMs + HOUR_MS)[0] ?? wallMs;
  return { ms: later, skipped: true };
}

function readRow(row: readonly string[], choice: LogChoice, clock: ZoneClock, beforeMs: number): Found<Read, RowProblem> {
  const date = row[choice.dateColumn] ?? '';
  const text = choice.timeColumn === null ? date : `${date.trim()} ${(row[choice.timeColumn] ?? '').trim()}`;
  const moment = readMoment(text, choice.dateOrder);
  if (moment === null)
    return { ok: false, problem: text.trim() === '' ? { kind: 'no-time' } : { kind: 'not-a-time', cell: text.trim().slice(0, 40) } };
  const cell = (row[choice.temperatureColumn] ?? '').trim();
  const temp = readCellNumber(cell);
  if (temp === null || temp.unit === '%') {
    return { ok: false, problem: cell === '' ? { kind: 'no-temperature' } : { kind: 'not-a-temperature', cell: cell.slice(0, 40) } };
  }
  const tempC = (temp.unit ?? choice.unit) === 'F' ? celsiusFromFahrenheit(temp.value) : temp.value;
  if (tempC < -60 || tempC > 90) return { ok: false, problem: { kind: 'not-in-a-room', cell } };
  const humidityCell = choice.humidityColumn === null ? null : readCellNumber(row[choice.humidityColumn] ?? '');
  const whole = choice.humidityUnit === 'share' && humidityCell?.unit !== '%' ? 1 : 100;
  const humidity = humidityCell === null ? null : humidityCell.value / whole;
  if (humidity !== null && (humidity < 0 || humidity > 1)) return { ok: false, problem: { kind: 'humidity', percent: humidity * 100 } };
  const clockAheadMs = choice.clockAheadMin * 60_000;
  const read = moment.kind === 'instant' ? { ms: moment.ms, skipped: false } : instantOf(moment.ms, clock, beforeMs + clockAheadMs);
  return { ok: true, value: { atMs: read.ms - clockAheadMs, tempC, humidity, skipped: read.skipped } };
}

function median(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] ?? null;
}

/** A logger that is silent for three of its own steps has missed something; within the hour that matters to no floor. Common practice. */
function gapOf(stepMs: number | null): number {
  const long = GAP_HOURS * HOUR_MS;
  return stepMs === null ? long : Math.min(long, Math.max(HOUR_MS, 3 * stepMs));
}

/** Existing records: when the room was placed, and its other logs. */
export type LogKnown = {
  readonly placedAtMs: number | null;
  readonly logs: readonly { readonly name: string; readonly fromMs: number; readonly toMs: number }[];
};
export const NOTHING_KNOWN: LogKnown = { placedAtMs: null, logs: [] };

/** Wide rows of a table with commas, joined where the user chose so. Null for a row that is left out. */
function rowReader({ table, delimiter }: SeparatedTable, choice: LogChoice) {
  const head = table.slice(0, choice.headRows).findLast((row) => !isBlankRow(row)) ?? [];
  const headWidth = rowWidth(head);
  const numbers = [choice.temperatureColumn, choice.humidityColumn].filter((column) => column !== null).sort((a, b) => a - b);
  const seen = { wide: 0, canJoin: true };
  const read = (row: readonly string[]): readonly string[] | null => {
    if (delimiter !== ',' || headWidth === 0 || rowWidth(row) <= headWidth) return row;
    const joined = joinDecimals(row, headWidth, numbers);
    if (joined !== null && choice.joinsDecimals) return joined;
    if (!looksSplit(row, numbers)) return row;
    seen.wide += 1;
    seen.canJoin &&= joined !== null;
    return null;
  };
  return { seen, read, headWidth };
}

/**
 * Reads a table with the chosen columns. Nothing is stored.
 * @param known what the book has, so that hours before the pour and of another logger are asked about
 * @param nowMs now, so that readings from the future are asked about
 * @param onShare called now and then with the share of the rows that is read, 0 to 1
 * @returns the preview, or why nothing can be read
 */
export function previewLog(
  from: SeparatedTable,
  choice: LogChoice,
  known: LogKnown,
  nowMs: number,
  onShare?: (share: number) => void,
): Found<LogPreview, LogProblem> {
  const { table } = from;
  const zone = parseTimeZone(choice.timeZone);
  if (!zone.ok) return { ok: false, problem: { kind: 'zone', message: zone.message } };
  const clock = zoneClock(choice.timeZone);
  const byInstant = new Map<number, Read>();
  const leftOut: LogRowLeftOut[] = [];
  let leftOutCount = 0;
  let repeated = 0;
  let differing = 0;
  let rows = 0;
  let beforeMs = -Infinity;
  const reader = rowReader(from, choice);
  let hoursLeftOut = 0;
  for (let i = choice.headRows; i < table.length; i++) {
    const row = table[i];
    if (i % ROWS_A_WORD === 0) onShare?.(i / table.length);
    if (row === undefined || isBlankRow(row)) continue;
    rows++;
    const leave = (problem: RowProblem): void => {
      leftOutCount++;
      if (leftOut.length < ROWS_LISTED) leftOut.push({ row: i + 1, problem });
    };
    const whole = reader.read(row);
    if (whole === null) {
      leave({ kind: 'wide', cells: rowWidth(row), headings: reader.headWidth });
      continue;
    }
    const read = readRow(whole, choice, clock, beforeMs);
    if (!read.ok) {
      leave(read.problem);
      continue;
    }
    const { atMs } = read.value;
    const hours = choice.leavesOut.find((h) => atMs >= h.fromMs && atMs <= h.toMs);
    if (hours !== undefined) {
      hoursLeftOut++;
      beforeMs = atMs;
      leave({ kind: 'hours', hours });
      continue;
    }
    const earlier = byInstant.get(read.value.atMs);
    if (earlier === undefined) byInstant.set(read.value.atMs, read.value);
    else if (earlier.tempC === read.value.tempC) repeated++;
    else differing++;
    beforeMs = read.value.atMs;
  }
  const reads = [...byInstant.values()].sort((a, b) => a.atMs - b.atMs);
  const first = reads[0];
  const last = reads.at(-1);
  if (first === undefined || last === undefined) {
    const problem: LogProblem =
      hoursLeftOut > 0 && hoursLeftOut === rows
        ? { kind: 'all-excluded', hours: choice.leavesOut }
        : { kind: 'no-rows', first: leftOut[0] ?? null };
    return { ok: false, problem };
  }
  if (reads.length > MOST_READINGS) return { ok: false, problem: { kind: 'too-many', readings: reads.length, most: MOST_READINGS } };
  const steps = reads.slice(1).map((r, i) => r.atMs - (reads[i]?.atMs ?? r.atMs));
  const stepMs = median(steps);
  const silentMs = gapOf(stepMs);
  const gaps = reads.slice(1).flatMap((r, i) => {
    const fromMs = reads[i]?.atMs ?? r.atMs;
    return r.atMs - fromMs > silentMs ? [{ fromMs, toMs: r.atMs }] : [];
  });
  let leastC = Infinity;
  let mostC = -Infinity;
  for (const r of reads) {
    leastC = Math.min(leastC, r.tempC);
    mostC = Math.max(mostC, r.tempC);
  }
  const skipped = reads.filter((r) => r.skipped);
  const firstSkipped = skipped[0];
  const questions = logQuestions({
    choice,
    leastC,
    mostC,
    mostHumidity: reads.reduce<number | null>((most, { humidity }) => (humidity === null ? most : Math.max(most ?? 0, humidity)), null),
    lastMs: last.atMs,
    nowMs,
    skipped: skipped.length,
    winterOffsetMs: firstSkipped === undefined ? null : zoneOffsetMs(firstSkipped.atMs - 3 * HOUR_MS, choice.timeZone),
    rows,
    leftOutCount: leftOutCount - hoursLeftOut,
    differing,
    ...reader.seen,
    ...knownHours(reads, known),
    firstDates: table.slice(choice.headRows).map((r) => r[choice.dateColumn] ?? ''),
  });
  return {
    ok: true,
    value: {
      ...keptReadings(reads),
      read: reads.length,
      rows,
      leftOut,
      leftOutCount,
      repeated,
      differing,
      gaps,
      fromAt: new Date(first.atMs).toISOString(),
      toAt: new Date(last.atMs).toISOString(),
      leastC,
      mostC,
      stepMin: stepMs === null ? null : stepMs / 60_000,
      questions,
    },
  };
}

/** Readings of hours that other logs have. */
function knownHours(reads: readonly Read[], { placedAtMs, logs }: LogKnown) {
  const count = (fromMs: number, toMs: number): number => reads.filter(({ atMs }) => atMs >= fromMs && atMs <= toMs).length;
  const pourHours: HoursLeftOut | null =
    placedAtMs === null ? null : { fromMs: Number.MIN_SAFE_INTEGER, toMs: placedAtMs - 1, otherLog: null };
  return {
    pourHours,
    beforePour: pourHours === null ? 0 : count(pourHours.fromMs, pourHours.toMs),
    overlapping: logs
      .map(({ name, fromMs, toMs }) => ({ name, count: count(fromMs, toMs), hours: { fromMs, toMs, otherLog: name } }))
      .filter((log) => log.count > 0),
  };
}

/**
 * The readings of a preview, once every question has been answered; else the first open one.
 * @param answered the kinds of question the user has looked at and let stand
 */
export function takeLog(preview: LogPreview, answered: readonly LogQuestion['kind'][]): Found<readonly CureReading[], LogQuestion> {
  const open = openQuestion(preview.questions, answered);
  return open === null ? { ok: true, value: preview.readings } : { ok: false, problem: open };
}
