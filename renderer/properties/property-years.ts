/** The work done at a property on a line of years. */
import { type Scale, scaleX, yearTicks } from '../../shared-core/drawing/datum.ts';
import type { Drawing } from '../../shared-core/drawing/marks.ts';
import { timeline, type TimelineFloor, type TimelineMoment, type TimelineRow } from '../../shared-core/drawing/timeline.ts';
import { fitText, SANS, SANS_BOLD, textWidthPx } from '../../shared-core/drawing/type-metrics.ts';
import type { Visit } from '../../shared-core/book/cure-record.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Pour } from '../../shared-core/book/pour-record.ts';
import type { Quote } from '../../shared-core/book/quote.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { daysBetween, formatDay } from '../../shared-core/measure/day.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { joined } from '../../shared-core/measure/list.ts';

export interface PropertyYears {
  readonly jobs: readonly Job[];
  readonly rooms: readonly Room[];
  readonly pours: readonly Pour[];
  readonly visits: readonly Visit[];
  readonly quotes: readonly Quote[];
  readonly zone: string;
  readonly locale: string;
  readonly now: string;
}

/** The screen's margin on a desk and on a phone, px. */
const [EDGE_PX, NARROW_EDGE_PX] = [36, 18];
export const YEARS_DATUM_Y = 34;
const ROW_PX = 30;
/** Space between the names and the years, px. */
const NAMES_CLEAR_PX = 24;
/** Maximum share of the width for names, on a desk and on a phone. */
const [MOST_NAMES, NARROW_MOST_NAMES] = [0.45, 0.5];
/** Space before the first event and after the last, and the minimum span, years. */
const [BEFORE_YEARS, AFTER_YEARS, LEAST_YEARS] = [0.25, 0.35, 1.5];

/** An instant in years: 2026.5 is the middle of 2026. */
function yearOf(instant: string, zone: string): number {
  const day = dayOfInstant(instant, zone);
  const year = Number(day.slice(0, 4));
  return year + daysBetween(`${year}-01-01`, day) / daysBetween(`${year}-01-01`, `${year + 1}-01-01`);
}

/** A job's row, with the names it stands for. */
type YearRow = TimelineRow & { readonly names: readonly string[] };

/** Each job's rooms as text, its pours as floors, and its other events. */
function rowOf(job: Job, of: PropertyYears): YearRow {
  const yearAt = (instant: string): number => yearOf(instant, of.zone);
  const day = (instant: string): string => formatDay(dayOfInstant(instant, of.zone), 'short', of.locale);
  const names = job.rooms.flatMap((r) => of.rooms.find((room) => room.id === r.roomId)?.name ?? []);
  const pours = of.pours.filter((p) => p.jobId === job.id);
  const moments: TimelineMoment[] = [];
  const say = (id: string, instant: string, state: TimelineMoment['state'], lead: string, text: string): void => {
    moments.push({ id, year: yearAt(instant), state, lead, text, isLate: false });
  };
  const handed = job.rooms.flatMap((r) => r.handedOverAt ?? []).sort();
  const last = handed.at(-1);
  if (last !== undefined && handed.length === job.rooms.length) say(`${job.id}-over`, last, 'done', '', `handed over ${day(last)}`);
  const quote = of.quotes
    .filter((q) => q.jobId === job.id && q.state !== 'superseded')
    .sort((a, b) => a.revision - b.revision)
    .at(-1);
  if (quote !== undefined && pours.length === 0) {
    const accepted = quote.history.find((h) => h.state === 'accepted')?.instant;
    if (accepted !== undefined) say(`${job.id}-quote`, accepted, 'done', '', `quote accepted ${day(accepted)}`);
    else say(`${job.id}-quote`, quote.issuedAt, 'under-way', '', `quote ${quote.state} ${day(quote.issuedAt)}`);
  }
  if (quote === undefined && pours.length === 0) say(`${job.id}-begun`, job.createdAt, 'under-way', '', `started ${day(job.createdAt)}`);
  const visits = of.visits.filter((v) => v.jobId === job.id && v.cancelledAt === null);
  visits
    .filter((v) => v.kind === 'callback')
    .sort((a, b) => a.instant.localeCompare(b.instant))
    .forEach((v, i) => say(v.id, v.doneAt ?? v.instant, v.doneAt === null ? 'waiting' : 'done', String(i + 1), `callback: ${v.title}`));
  for (const v of visits) if (v.kind !== 'callback' && v.doneAt !== null) say(v.id, v.doneAt, 'done', '', v.title);
  const floors: TimelineFloor[] = pours.flatMap((p) =>
    p.startedAt === null ? [] : [{ from: yearAt(p.startedAt), to: yearAt(p.finishedAt ?? of.now), isAgreed: true }],
  );
  const poured = new Set(pours.flatMap((p) => p.roomIds));
  for (const room of job.rooms)
    if (room.pourAt !== null && !poured.has(room.roomId))
      floors.push({ from: yearAt(room.pourAt), to: yearAt(room.pourAt), isAgreed: false });
  const firstPour = pours.flatMap((p) => p.startedAt ?? []).sort()[0];
  if (firstPour !== undefined && last === undefined) say(`${job.id}-pour`, firstPour, 'done', '', `poured ${day(firstPour)}`);
  return { id: job.id, name: names.join(', '), names, note: job.number, ranges: [], moments, floors };
}

/** Labels that the line of today would cross go beside the name. */
function clearOfNow(row: YearRow, scale: Scale, now: number): YearRow {
  const nowX = scaleX(scale, now);
  const isCrossed = (m: TimelineMoment): boolean => {
    const x = scaleX(scale, m.year);
    return Math.abs(nowX - x) < textWidthPx(`${m.lead} ${m.text}`, 15, SANS_BOLD) + 24;
  };
  const crossed = row.moments.filter(isCrossed).map((m) => `${m.lead} ${m.text}`.trim());
  return {
    ...row,
    note: joined([row.note, ...crossed]),
    moments: row.moments.map((m) => (isCrossed(m) ? { ...m, lead: '', text: '' } : m)),
  };
}

/** The row with as many of its names as fit before the years, and how many more there are; its job number is never cut. */
function fitted(row: YearRow, widthPx: number, isNarrow: boolean): TimelineRow {
  if (isNarrow) return { ...row, note: fitText(row.note, widthPx + 1 - textWidthPx(`${row.name} `, 15, SANS_BOLD), 15, SANS) };
  const { names } = row;
  const forNames = widthPx - textWidthPx(row.note, 15, SANS);
  const shorter = names.slice(1).map((_, k) => {
    const more = k + 1;
    return `${names.slice(0, -more).join(', ')} and ${more} more ${more === 1 ? 'room' : 'rooms'}`;
  });
  const widthOf = (name: string): number => textWidthPx(`${name} `, 15, SANS_BOLD);
  // The years may begin just where these names end, so a sum that is off in its last digit cuts nothing.
  const isFitting = (name: string): boolean => widthOf(name) <= forNames + 0.5;
  const shortest = [row.name, ...shorter].reduce((a, b) => (widthOf(b) < widthOf(a) ? b : a));
  const name = [row.name, ...shorter].find(isFitting) ?? fitText(shortest, forNames - 4, 15, SANS_BOLD);
  return { ...row, name };
}

/** Draws the years for a width; a narrow screen names rows by job number. */
export function propertyYears(of: PropertyYears, widthPx: number, isNarrow: boolean): Drawing {
  const rows = [...of.jobs]
    .sort((a, b) => a.createdAt.localeCompare(b.createdAt))
    .map((job) => rowOf(job, of))
    .map((row) => (isNarrow ? { ...row, name: row.note, names: [row.note], note: '' } : row));
  const now = yearOf(of.now, of.zone);
  const times = [now, ...rows.flatMap((r) => [...r.moments.map((m) => m.year), ...r.floors.flatMap((f) => [f.from, f.to])])];
  const to = Math.max(...times) + AFTER_YEARS;
  const from = Math.min(Math.min(...times) - BEFORE_YEARS, to - LEAST_YEARS);
  const inset = isNarrow ? NARROW_EDGE_PX : EDGE_PX;
  const scaleFor = (named: readonly TimelineRow[]): Scale => {
    const nameRight = Math.max(0, ...named.map((r) => textWidthPx(`${r.name} `, 15, SANS_BOLD) + textWidthPx(r.note, 15, SANS)));
    const x0 =
      named.length === 0 ? inset : Math.min(widthPx * (isNarrow ? NARROW_MOST_NAMES : MOST_NAMES), inset + nameRight + NAMES_CLEAR_PX);
    return { from, to, x0, x1: widthPx - inset, isLog: false };
  };
  const clear = rows.map((row) => clearOfNow(row, scaleFor(rows), now));
  const scale = scaleFor(clear);
  return timeline({
    widthPx,
    datumY: YEARS_DATUM_Y,
    scale,
    ticks: yearTicks(from, to),
    rows: clear.map((row) => fitted(row, scale.x0 - NAMES_CLEAR_PX - inset, isNarrow)),
    rowPx: ROW_PX,
    now,
    lineWords: '',
    nameX: inset,
  });
}

/** The years as a sentence for screen readers. */
export function yearsInWords(of: PropertyYears): string {
  const rows = of.jobs.map((job) => rowOf(job, of));
  const sentences = rows.map(
    (r) => `${r.name} ${r.note}: ${r.moments.map((m) => `${m.lead} ${m.text}`.trim()).join(', ') || 'no dates yet'}`,
  );
  return `Work at this property by year. ${sentences.length === 0 ? 'No jobs yet.' : `${sentences.join('. ')}.`}`;
}
