/** Questions about a logger's file before it is imported. */
import { readMoment } from './log-cells.ts';
import type { HoursLeftOut, LogChoice } from './log-choice.ts';

/** What is odd about a file, and the change that corrects it; empty when only the user can decide. */
export type LogQuestion = { readonly suggest: Partial<LogChoice> } & (
  | { readonly kind: 'unit'; readonly readAs: LogChoice['unit'] }
  /** The highest humidity as read, 0 to 1. */
  | { readonly kind: 'humidity-unit'; readonly most: number }
  /** How far the last reading is in the future; `hoursFast` is null for more than a day. */
  | { readonly kind: 'clock'; readonly minutesAhead: number; readonly hoursFast: number | null }
  | { readonly kind: 'skipped-hour'; readonly readings: number; readonly timeZone: string }
  | { readonly kind: 'date-order'; readonly readAs: Exclude<LogChoice['dateOrder'], 'ymd'> }
  | { readonly kind: 'wide' | 'differing' | 'unreadable'; readonly rows: number; readonly of: number }
  | { readonly kind: 'before-pour'; readonly readings: number }
  | { readonly kind: 'overlap'; readonly logs: LogSeen['overlapping'] }
);

export type LogSeen = {
  readonly choice: LogChoice;
  readonly leastC: number;
  readonly mostC: number;
  /** 0 to 1; null where no humidity was read. */
  readonly mostHumidity: number | null;
  readonly lastMs: number;
  readonly nowMs: number;
  /** Readings in an hour the zone skips, and how far the zone is ahead of UTC just before it. */
  readonly skipped: number;
  readonly winterOffsetMs: number | null;
  readonly rows: number;
  readonly leftOutCount: number;
  readonly differing: number;
  readonly firstDates: readonly string[];
  /** Rows wider than the head, and whether each can be joined again. */
  readonly wide: number;
  readonly canJoin: boolean;
  /** Readings from before the pour, and of hours that other logs of the room have. */
  readonly beforePour: number;
  readonly pourHours: HoursLeftOut | null;
  readonly overlapping: readonly { readonly name: string; readonly count: number; readonly hours: HoursLeftOut }[];
};

/** No heated room is always above this; 45 °F to 90 °F read as Celsius is. Common practice. */
export const HOT_ROOM_C = 45;
/** A lived-in room is not always below this (45 °F); 5 °C to 40 °C read as Fahrenheit is. Common practice. */
const COLD_ROOM_F_AS_C = 7.2;
/** No room is always this dry, so that these are shares of 1: 0.55 for 55%. Common practice, no source. */
const DRY_ROOM_HUMIDITY = 0.01;
/** Minimum clock difference that is asked about. */
const CLOCK_SLACK_MS = 5 * 60_000;
/** Above this share of unreadable rows the wrong column was probably chosen. */
const UNREADABLE_SHARE = 0.02;

function unitQuestion({ choice, leastC, mostC }: LogSeen): LogQuestion[] {
  if (choice.unit === 'C' && leastC > HOT_ROOM_C) return [{ kind: 'unit', readAs: 'C', suggest: { unit: 'F' } }];
  if (choice.unit === 'F' && mostC < COLD_ROOM_F_AS_C) return [{ kind: 'unit', readAs: 'F', suggest: { unit: 'C' } }];
  return [];
}

function humidityQuestion({ choice, mostHumidity }: LogSeen): LogQuestion[] {
  if (choice.humidityUnit === 'share' || mostHumidity === null || mostHumidity > DRY_ROOM_HUMIDITY) return [];
  // A logger without the sensor writes zeros.
  const suggest = mostHumidity === 0 ? { humidityColumn: null } : { humidityUnit: 'share' as const };
  return [{ kind: 'humidity-unit', most: mostHumidity, suggest }];
}

function clockQuestion({ choice, lastMs, nowMs }: LogSeen): LogQuestion[] {
  const aheadMs = lastMs - nowMs;
  if (aheadMs <= CLOCK_SLACK_MS) return [];
  const minutesAhead = Math.round(aheadMs / 60_000);
  const hoursFast = Math.ceil(aheadMs / 3_600_000);
  if (hoursFast > 24) return [{ kind: 'clock', minutesAhead, hoursFast: null, suggest: {} }];
  return [{ kind: 'clock', minutesAhead, hoursFast, suggest: { clockAheadMin: choice.clockAheadMin + hoursFast * 60 } }];
}

/** The name of a zone that never changes its clock; its sign runs the other way (IANA, `etcetera`). */
function fixedZone(offsetMs: number | null): Partial<LogChoice> {
  if (offsetMs === null || offsetMs % 3_600_000 !== 0) return {};
  const hours = offsetMs / 3_600_000;
  return { timeZone: `Etc/GMT${hours <= 0 ? '+' : '-'}${Math.abs(hours)}` };
}

function skippedQuestion({ choice, skipped, winterOffsetMs }: LogSeen): LogQuestion[] {
  if (skipped === 0) return [];
  return [{ kind: 'skipped-hour', readings: skipped, timeZone: choice.timeZone, suggest: fixedZone(winterOffsetMs) }];
}

/** Whether the distinct dates, read one way, follow each other day by day. */
function runsByDay(dates: readonly string[], order: LogChoice['dateOrder']): boolean {
  const days = dates.map((d) => Math.floor((readMoment(d, order)?.ms ?? NaN) / 86_400_000));
  return days.every((day, i) => i === 0 || Math.abs(day - (days[i - 1] ?? NaN)) <= 1);
}

function orderQuestion({ choice, firstDates }: LogSeen): LogQuestion[] {
  if (choice.dateOrder === 'ymd') return [];
  const other = choice.dateOrder === 'mdy' ? 'dmy' : 'mdy';
  const dates = [...new Set(firstDates.map((d) => d.trim().split(/[T ,]/)[0] ?? '').filter((d) => d !== ''))];
  const readable = (d: string) => readMoment(d, other) !== null && readMoment(d, choice.dateOrder) !== null;
  const differs = dates.some((d) => readMoment(d, other)?.ms !== readMoment(d, choice.dateOrder)?.ms);
  if (!differs || !dates.every(readable)) return [];
  if (dates.length > 1 && runsByDay(dates, choice.dateOrder) && !runsByDay(dates, other)) return [];
  return [{ kind: 'date-order', readAs: choice.dateOrder, suggest: { dateOrder: other } }];
}

function wideQuestion({ choice, wide, rows, canJoin }: LogSeen): LogQuestion[] {
  if (wide === 0 || choice.joinsDecimals) return [];
  return [{ kind: 'wide', rows: wide, of: rows, suggest: canJoin ? { joinsDecimals: true } : {} }];
}

/** Hours before the pour, and hours that another logger has. */
function hourQuestions({ choice, beforePour, pourHours, overlapping }: LogSeen): LogQuestion[] {
  const questions: LogQuestion[] = [];
  if (beforePour > 0 && pourHours !== null)
    questions.push({ kind: 'before-pour', readings: beforePour, suggest: { leavesOut: [...choice.leavesOut, pourHours] } });
  if (overlapping.length > 0)
    questions.push({
      kind: 'overlap',
      logs: overlapping,
      suggest: { leavesOut: [...choice.leavesOut, ...overlapping.map(({ hours }) => hours)] },
    });
  return questions;
}

function rowQuestions({ rows, leftOutCount, differing, wide }: LogSeen): LogQuestion[] {
  const questions: LogQuestion[] = [];
  const unreadable = leftOutCount - wide;
  if (unreadable > rows * UNREADABLE_SHARE) questions.push({ kind: 'unreadable', rows: unreadable, of: rows, suggest: {} });
  if (differing > 0) questions.push({ kind: 'differing', rows: differing, of: rows, suggest: {} });
  return questions;
}

/** All questions about a file, the most important first. */
export function logQuestions(seen: LogSeen): readonly LogQuestion[] {
  return [
    ...unitQuestion(seen),
    ...humidityQuestion(seen),
    ...clockQuestion(seen),
    ...skippedQuestion(seen),
    ...orderQuestion(seen),
    ...wideQuestion(seen),
    ...rowQuestions(seen),
    ...hourQuestions(seen),
  ];
}
