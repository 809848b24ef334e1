/** The datum: one ruled line from edge to edge, graduated in the unit of its drawing. */
import { groupMark, hatchMark, lineMark } from './ink.ts';
import { breakAtBoxes, startSheet, type LabelSheet } from './labels.ts';
import { placeText } from './lettering.ts';
import type { Mark } from './marks.ts';
import { pointer } from './shapes.ts';
import { textWidthPx } from './type-metrics.ts';

/** A graduation at a value; major ones are longer and may have a label. */
export interface Tick {
  readonly value: number;
  readonly isMajor: boolean;
  readonly label: string | null;
}

/** Maps values to positions across the drawing, and back. */
export interface Scale {
  readonly from: number;
  readonly to: number;
  readonly x0: number;
  readonly x1: number;
  readonly isLog: boolean;
}

/** The position of a value on the scale; a log scale clamps values below its start. */
export function scaleX(scale: Scale, value: number): number {
  const share = scale.isLog
    ? Math.log(Math.max(value, scale.from) / scale.from) / Math.log(scale.to / scale.from)
    : (value - scale.from) / (scale.to - scale.from);
  return scale.x0 + share * (scale.x1 - scale.x0);
}

/** Minimum clear space between two labels on the line, px. */
export const LABEL_CLEAR_PX = 32;

/** Which ticks keep their label, from the left: each label must be `clearPx` clear of the one before. */
export function clearLabels(ticks: readonly Tick[], scale: Scale, clearPx: number = LABEL_CLEAR_PX): Tick[] {
  const marks = tickLabels(ticks, scale, { y: 0, clearPx }, startSheet({ x: -1e6, y: -1e6, width: 2e6, height: 2e6 }));
  return ticks.map((tick) => (marks.has(tick) ? tick : { ...tick, label: null }));
}

/** The labels of ticks with their baseline at `y`, each within the drawing, free, and `clearPx` clear of the one before; the others are left out. */
export function tickLabels(
  ticks: readonly Tick[],
  scale: Scale,
  { y, clearPx, sizePx = 15 }: { readonly y: number; readonly clearPx: number; readonly sizePx?: number },
  sheet: LabelSheet,
): Map<Tick, Mark> {
  const labels = new Map<Tick, Mark>();
  let right = -Infinity;
  for (const tick of ticks) {
    if (tick.label === null) continue;
    const half = textWidthPx(tick.label, sizePx) / 2;
    const { x: left, width } = sheet.bounds;
    const x = Math.max(left + half + 2, Math.min(left + width - half - 2, scaleX(scale, tick.value)));
    if (x - half < right + clearPx) continue;
    const placed = placeText(sheet, [{ x, y, text: tick.label, anchor: 'middle', sizePx }]);
    if (placed === null) continue;
    right = x + half;
    labels.set(tick, placed);
  }
  return labels;
}

const FOOT_M = 0.3048;

/** Feet (or meters) along a section; the first label includes the unit. Values in meters. */
export function lengthTicks(lengthM: number, pxPerM: number, units: 'us' | 'metric'): Tick[] {
  const unit = units === 'us' ? FOOT_M : 1;
  const perUnit = unit * pxPerM;
  const minors = units === 'us' ? [1, 5, 10, 50] : [0.1, 0.2, 0.5, 1, 5, 10, 50];
  const majors = units === 'us' ? [1, 5, 10, 20, 50, 100, 500] : [0.5, 1, 2, 5, 10, 20, 50, 100, 500];
  const minor = minors.find((s) => s * perUnit >= 7) ?? 100;
  const isWhole = (s: number): boolean => Math.abs(s / minor - Math.round(s / minor)) < 1e-9;
  const major = majors.find((s) => s * perUnit >= 60 && s > minor && isWhole(s)) ?? 500;
  const ticks: Tick[] = [];
  let isFirst = true;
  for (let k = 0; k * minor * unit <= lengthM + 1e-9; k += 1) {
    const value = k * minor;
    const isMajor = k > 0 && Math.abs(value / major - Math.round(value / major)) < 1e-9;
    const text = String(Math.round(value * 10) / 10);
    ticks.push({ value: value * unit, isMajor, label: isMajor ? (isFirst ? `${text} ${units === 'us' ? 'ft' : 'm'}` : text) : null });
    if (isMajor) isFirst = false;
  }
  return ticks;
}

const DAY_MS = 86_400_000;
/** Days at least this wide have room for a label each. */
const EACH_DAY_PX = 50;

function utcDay(day: string): number {
  const [y = 1970, m = 1, d = 1] = day.split('-').map(Number);
  return Date.UTC(y, m - 1, d);
}

/**
 * Days from a given day: every day a tick, each Monday (and the first day) a label, with the month's name where it changes.
 * Values are days since `fromDay` ("2026-05-11").
 * @param pxPerDay width of a day: wide days get a label each, narrow ones only where the labels fit, so that none is dropped later
 * together with its month name
 */
export function dayTicks(fromDay: string, days: number, locale: string, pxPerDay = Infinity): Tick[] {
  const full = new Intl.DateTimeFormat(locale, { month: 'short', day: 'numeric', timeZone: 'UTC' });
  const start = utcDay(fromDay);
  const ticks: Tick[] = [];
  const neededPx = textWidthPx(full.format(new Date(start)), 15) + LABEL_CLEAR_PX;
  const isWide = Number.isFinite(pxPerDay) && pxPerDay >= EACH_DAY_PX;
  let month = -1;
  let labeledDay = -Infinity;
  for (let k = 0; k <= days; k += 1) {
    const date = new Date(start + k * DAY_MS);
    const isMajor = date.getUTCDay() === 1;
    let label: string | null = null;
    if (k === 0 || isWide || (isMajor && (k - labeledDay) * pxPerDay >= neededPx)) {
      labeledDay = k;
      label = date.getUTCMonth() === month ? String(date.getUTCDate()) : full.format(date);
      month = date.getUTCMonth();
    }
    ticks.push({ value: k, isMajor: isMajor || k === 0, label });
  }
  return ticks;
}

/** Saturdays and Sundays as spans of days since `fromDay`. */
export function weekendSpans(fromDay: string, days: number): [number, number][] {
  const start = utcDay(fromDay);
  const spans: [number, number][] = [];
  for (let k = -1; k < days; k += 1) {
    if (new Date(start + k * DAY_MS).getUTCDay() === 6) spans.push([Math.max(0, k), Math.min(days, k + 2)]);
  }
  return spans;
}

/** Hours of a day, with half hours as minor ticks: "7 am", "8", "noon". Values in hours since midnight, past 24 into the next day. */
export function hourTicks(fromHour: number, toHour: number, clock: '12' | '24'): Tick[] {
  const ticks: Tick[] = [];
  let isFirst = true;
  for (let k = Math.ceil(fromHour * 4); k <= toHour * 4; k += 1) {
    const value = k / 4;
    const isMajor = k % 4 === 0;
    const h = ((value % 24) + 24) % 24;
    let label: string | null = null;
    if (isMajor) {
      if (clock === '24') label = `${String(h).padStart(2, '0')}:00`;
      else if (h === 12) label = 'noon';
      else if (h === 0) label = 'midnight';
      else label = `${String(h % 12)}${isFirst ? (h < 12 ? ' am' : ' pm') : ''}`;
      isFirst = false;
    }
    ticks.push({ value, isMajor, label });
  }
  return ticks;
}

/** Minutes from zero: a tick each minute, a label every fifth (or fewer for a long range). */
export function minuteTicks(mostMinutes: number): Tick[] {
  const every = mostMinutes <= 30 ? 5 : mostMinutes <= 90 ? 15 : 30;
  return Array.from({ length: Math.floor(mostMinutes) + 1 }, (_, k) => ({
    value: k,
    isMajor: k % every === 0,
    label: k % every === 0 ? String(k) : null,
  }));
}

/** Years with a tick for each month and a label at each January. Values in years. */
export function yearTicks(fromYear: number, toYear: number): Tick[] {
  const ticks: Tick[] = [];
  const every = toYear - fromYear > 8 ? 12 : 1;
  for (let k = Math.ceil(fromYear * 12 - 1e-9); k <= toYear * 12 + 1e-9; k += every) {
    ticks.push({ value: k / 12, isMajor: k % 12 === 0, label: k % 12 === 0 ? String(k / 12) : null });
  }
  return ticks;
}

const LOG_LABELS: readonly (readonly [number, string])[] = [
  [1, '1 min'],
  [2, '2'],
  [5, '5'],
  [10, '10 min'],
  [20, '20'],
  [30, '30'],
  [60, '1 h'],
  [120, '2'],
  [180, '3'],
  [360, '6'],
  [720, '12'],
  [1440, '1 day'],
  [2880, '2'],
  [4320, '3'],
  [10080, '7'],
  [20160, '14'],
  [40320, '28'],
  [60480, '42'],
  [129600, '90'],
];
const LOG_MINOR: readonly number[] = [3, 4, 15, 40, 50, 90, 240, 300, 480, 600, 1080, 5760, 7200, 8640, 14400, 30240, 86400];

/** Ticks for a log scale of time, from ten minutes to six weeks on one line. Values in minutes. */
export function logTimeTicks(fromMinutes: number, toMinutes: number): Tick[] {
  const within = (v: number): boolean => v >= fromMinutes && v <= toMinutes;
  const ticks: Tick[] = [
    ...LOG_LABELS.filter(([v]) => within(v)).map(([value, label]) => ({ value, isMajor: true, label })),
    ...LOG_MINOR.filter(within).map((value) => ({ value, isMajor: false, label: null })),
  ];
  return ticks.sort((a, b) => a.value - b.value);
}

/** Position and contents of the datum. */
export interface DatumInput {
  readonly y: number;
  /** Ends of the line, usually the edges of the drawing. */
  readonly fromX: number;
  readonly toX: number;
  readonly scale: Scale;
  readonly ticks: readonly Tick[];
  /** Spans of values hatched just below the line: weekends. */
  readonly hatched?: readonly (readonly [number, number])[];
  /** The current time, or a set value. */
  readonly pointerAt?: number | null;
  /** y at which the pointer's line ends. */
  readonly pointerToY?: number;
  /** Minimum distance between labels, for two rows of ticks that share one line. */
  readonly clearPx?: number;
}

/** The line, its graduations above it, and above those the labels that are free on `sheet`. The pointer's line gives way to lettering. */
export function datumMarks(input: DatumInput, sheet: LabelSheet = datumSheet(input)): Mark[] {
  const { y, scale } = input;
  const marks: Mark[] = [lineMark([input.fromX, y, input.toX, y], { pen: 'datum' })];
  for (const [from, to] of input.hatched ?? []) {
    const a = Math.max(scale.x0, scaleX(scale, from));
    const b = Math.min(scale.x1, scaleX(scale, to));
    if (b > a) marks.push(hatchMark([[a, y + 1, b, y + 1, b, y + 7, a, y + 7]], 'wall', 'faint'));
  }
  const ticks = input.ticks.filter(({ value }) => {
    const x = scaleX(scale, value);
    return x >= input.fromX - 0.01 && x <= input.toX + 0.01;
  });
  const labels = tickLabels(ticks, scale, { y: y - 15, clearPx: input.clearPx ?? LABEL_CLEAR_PX }, sheet);
  for (const tick of ticks) {
    const x = scaleX(scale, tick.value);
    marks.push(lineMark([x, y, x, y - (tick.isMajor ? 10 : 5)], { pen: 'thin' }));
  }
  marks.push(...labels.values());
  if (input.pointerAt !== null && input.pointerAt !== undefined) {
    const x = scaleX(scale, input.pointerAt);
    marks.push(...pointer(x, y, 15));
    if (input.pointerToY !== undefined)
      marks.push(...breakAtBoxes([x, y, x, input.pointerToY], sheet.taken).map((piece) => lineMark(piece, { pen: 'thin' })));
  }
  return [groupMark('datum', '', marks)];
}

const datumSheet = ({ fromX, toX, y }: DatumInput): LabelSheet => startSheet({ x: fromX, y: y - 60, width: toX - fromX, height: 60 });
