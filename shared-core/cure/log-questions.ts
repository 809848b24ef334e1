/** Questions about a logger's file before it is imported. */
import { formatNumber } from '../measure/number.ts';
import { readMoment } from './log-cells.ts';
import type { ImportQuestion } from '../table/import-check.ts';
import type { HoursLeftOut, LogChoice } from './log-choice.ts';

export type LogQuestion = ImportQuestion<
  'unit' | 'clock' | 'skipped-hour' | 'date-order' | 'wide' | 'unreadable' | 'differing' | 'before-pour' | 'overlap',
  LogChoice
>;

export type LogSeen = {
  readonly choice: LogChoice;
  readonly leastC: number;
  readonly mostC: number;
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
const HOT_ROOM_C = 45;
/** A lived-in room is not always below this (45 °F); 5 °C to 40 °C read as Fahrenheit is. Common practice. */
const COLD_ROOM_F_AS_C = 7.2;
/** Minimum clock difference that is asked about. */
const CLOCK_SLACK_MS = 5 * 60_000;
/** Above this share of unreadable rows the wrong column was probably chosen. */
const UNREADABLE_SHARE = 0.02;

const inWords = (n: number): string => formatNumber(n, { most: 0 });

function unitQuestion({ choice, leastC, mostC }: LogSeen): LogQuestion[] {
  if (choice.unit === 'C' && leastC > HOT_ROOM_C) {
    const message = `Every temperature is above ${HOT_ROOM_C} °C. Are these degrees Fahrenheit? Choose °F.`;
    return [{ kind: 'unit', message, suggest: { unit: 'F' } }];
  }
  if (choice.unit === 'F' && mostC < COLD_ROOM_F_AS_C) {
    const message = 'Every temperature is below 45 °F. In a heated room these are degrees Celsius. Choose °C.';
    return [{ kind: 'unit', message, suggest: { unit: 'C' } }];
  }
  return [];
}

function clockQuestion({ choice, lastMs, nowMs }: LogSeen): LogQuestion[] {
  const aheadMs = lastMs - nowMs;
  if (aheadMs <= CLOCK_SLACK_MS) return [];
  const hours = Math.ceil(aheadMs / 3_600_000);
  if (hours > 24)
    return [
      { kind: 'clock', message: 'The last reading is more than a day in the future. Check the order of day and month.', suggest: {} },
    ];
  const aheadText = hours === 1 ? '1 hour' : `${hours} hours`;
  return [
    {
      kind: 'clock',
      message: `The last reading is ${Math.round(aheadMs / 60_000)} minutes in the future. The logger’s clock seems ${aheadText} fast. Subtract ${aheadText}, or choose the time zone it was set to.`,
      suggest: { clockAheadMin: choice.clockAheadMin + hours * 60 },
    },
  ];
}

/** The name of a zone that never changes its clock; its sign runs the other way (IANA, `etcetera`). */
function fixedZone(offsetMs: number | null): Partial<LogChoice> {
  if (offsetMs === null || offsetMs % 3_600_000 !== 0) return {};
  const hours = offsetMs / 3_600_000;
  return { timeZone: `Etc/GMT${hours <= 0 ? '+' : '-'}${Math.abs(hours)}` };
}

function skippedQuestion({ choice, skipped, winterOffsetMs }: LogSeen): LogQuestion[] {
  if (skipped === 0) return [];
  const message = `${skipped === 1 ? '1 reading falls' : `${inWords(skipped)} readings fall`} in the hour that ${choice.timeZone} skips when daylight saving time begins. The logger stayed on standard time, so its clock is 1 hour slow from then on. Choose the zone without daylight saving time.`;
  return [{ kind: 'skipped-hour', message, suggest: fixedZone(winterOffsetMs) }];
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
  const words = choice.dateOrder === 'mdy' ? 'month first' : 'day first';
  const message = `Every date can be read day first or month first. It is read ${words}. Is that right?`;
  return [{ kind: 'date-order', message, suggest: { dateOrder: other } }];
}

function wideQuestion({ choice, wide, canJoin }: LogSeen): LogQuestion[] {
  if (wide === 0 || choice.joinsDecimals) return [];
  const message = `${inWords(wide)} ${wide === 1 ? 'row has' : 'rows have'} more cells than the headings and ${wide === 1 ? 'is' : 'are'} left out. A decimal comma, as in 18,9, may have split a number.`;
  return [{ kind: 'wide', message, suggest: canJoin ? { joinsDecimals: true } : {} }];
}

/** Hours before the pour, and hours that another logger has. */
function hourQuestions({ choice, beforePour, pourHours, overlapping }: LogSeen): LogQuestion[] {
  const questions: LogQuestion[] = [];
  if (beforePour > 0 && pourHours !== null)
    questions.push({
      kind: 'before-pour',
      message: `${beforePour === 1 ? '1 reading is' : `${inWords(beforePour)} readings are`} from before the pour. Leave them out, or check the logger’s time zone.`,
      suggest: { leavesOut: [...choice.leavesOut, pourHours] },
    });
  if (overlapping.length > 0) {
    const names = overlapping.map(({ name, count }) => `“${name}” (${inWords(count)})`).join(', ');
    questions.push({
      kind: 'overlap',
      message: `Readings of the same hours are already imported: ${names}. Keep both if this is a second logger in the room. Otherwise leave these hours out.`,
      suggest: { leavesOut: [...choice.leavesOut, ...overlapping.map(({ hours }) => hours)] },
    });
  }
  return questions;
}

function rowQuestions({ rows, leftOutCount, differing, wide }: LogSeen): LogQuestion[] {
  const questions: LogQuestion[] = [];
  const unreadable = leftOutCount - wide;
  if (unreadable > rows * UNREADABLE_SHARE) {
    const message = `${inWords(unreadable)} of ${inWords(rows)} rows could not be read and would be left out. Is the column of temperatures the right one?`;
    questions.push({ kind: 'unreadable', message, suggest: {} });
  }
  if (differing > 0) {
    const message = `${differing === 1 ? '1 row gives' : `${inWords(differing)} rows give`} a different temperature for a time already read. The first one is used. Does the file have two rooms?`;
    questions.push({ kind: 'differing', message, suggest: {} });
  }
  return questions;
}

/** All questions about a file, the most important first. */
export function logQuestions(seen: LogSeen): readonly LogQuestion[] {
  return [
    ...unitQuestion(seen),
    ...clockQuestion(seen),
    ...skippedQuestion(seen),
    ...orderQuestion(seen),
    ...wideQuestion(seen),
    ...rowQuestions(seen),
    ...hourQuestions(seen),
  ];
}
