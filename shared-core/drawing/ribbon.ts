/** The timeline of Today: one row per room below a datum of days. */
import type { Box } from './ring-clip.ts';
import { datumMarks, dayTicks, scaleX, weekendSpans, type Scale } from './datum.ts';
import { boxMark, groupMark, lineMark } from './ink.ts';
import { breakAtBoxes, reserve, startSheet, uprightBox, type LabelSheet } from './labels.ts';
import { letters, placeText } from './lettering.ts';
import type { Drawing, Mark } from './marks.ts';
import { breakLine, dryingBar, hatchedBar, letterBox, notAgreedBar, slashedLine, stateShape, type StateShape } from './shapes.ts';
import { fitText, SANS, SANS_BOLD, SERIF_ITALIC, textWidthPx } from './type-metrics.ts';

/** A span of days since the ribbon's first day; fractions are hours. */
export interface Days {
  readonly from: number;
  readonly to: number;
}

/** A room on the ribbon. Unknown or unwanted spans are null. */
export interface RibbonRoom {
  readonly id: string;
  readonly name: string;
  readonly state: StateShape;
  /** Its letter in the list above; null when the room needs nothing. */
  readonly letter: string | null;
  readonly isAgreed: boolean;
  readonly prep: Days | null;
  readonly pours: readonly Days[];
  /** From the pour to the likely date; dots are thinnest at `to`. */
  readonly drying: Days | null;
  /** Ready between the earliest and the latest date. */
  readonly ready: Days | null;
  /** A hold, up to the day it may be cleared. */
  readonly held: Days | null;
  readonly note: string;
  readonly isNoteLate: boolean;
  /** Text for screen readers. */
  readonly label: string;
}

/** A job's rooms under the customer's name. */
export interface RibbonJob {
  readonly id: string;
  readonly name: string;
  readonly place: string;
  readonly rooms: readonly RibbonRoom[];
}

/** The ribbon's data. `today` in days since `fromDay`, with its fraction; null when today is outside the ribbon. */
export interface RibbonInput {
  readonly widthPx: number;
  readonly fromDay: string;
  readonly days: number;
  readonly today: number | null;
  readonly locale: string;
  readonly jobs: readonly RibbonJob[];
  /** Left and right ends of the days on the drawing. */
  readonly x0: number;
  readonly x1: number;
  readonly datumY: number;
  /** On small screens, names and notes have their own line above the bars. */
  readonly isNarrow?: boolean;
}

const ROW_PX = 34;
const BAR_PX = 17;
/** Left edge of the names, inside the frame's margin. */
const NAMES_X = 36;
/** Distance from the rooms' shapes to the days. */
const ROOMS_PX = 164;
const NAMES_CLEAR_PX = 16;
/** Height of the rule between two jobs above the next job's first row, clear of the place under the name before it. */
const RULE_PX = 15;
/** Height of a line of words on a small screen, and of the bars below it. */
const NARROW_LINE_PX = 24;
const NARROW_BARS_PX = 22;
/** A note with less width than this is left out, since so few words say nothing. */
const SHORTEST_NOTE_PX = 70;

const hasBars = ({ held, prep, pours, drying, ready }: RibbonRoom): boolean =>
  pours.length > 0 || [held, prep, drying, ready].some((d) => d !== null);
const rowHeightPx = (room: RibbonRoom, isNarrow: boolean): number =>
  isNarrow ? NARROW_LINE_PX + (hasBars(room) ? NARROW_BARS_PX : 0) : ROW_PX;
const rowsHeightPx = ({ rooms }: RibbonJob, isNarrow: boolean): number =>
  rooms.length === 0 ? (isNarrow ? NARROW_LINE_PX : ROW_PX) : rooms.reduce((sum, room) => sum + rowHeightPx(room, isNarrow), 0);

/** The ribbon's height, which the screen needs for its layout. */
export function ribbonHeightPx(input: Pick<RibbonInput, 'jobs' | 'datumY' | 'isNarrow'>): number {
  const isNarrow = input.isNarrow === true;
  const rowsPx = input.jobs.reduce((sum, job) => sum + rowsHeightPx(job, isNarrow), 0);
  return input.datumY + (isNarrow ? 8 : 40) + rowsPx + input.jobs.length * (isNarrow ? 28 : 14);
}

/** Draws the ribbon as marks. */
export function todayRibbon(input: RibbonInput): Drawing {
  const height = ribbonHeightPx(input);
  const scale: Scale = { from: 0, to: input.days, x0: input.x0, x1: input.x1, isLog: false };
  const marks: Mark[] = [];
  const isNarrow = input.isNarrow === true;
  const namesPx = input.x0 - ROOMS_PX - NAMES_CLEAR_PX - NAMES_X;
  let y = input.datumY + (isNarrow ? 12 : 40);
  const todayX = input.today === null ? null : scaleX(scale, input.today);
  const todayLine = todayX === null ? [] : [todayX, input.datumY, todayX, height - 4];
  // Wide rows keep their notes off today's line; on small screens the line gives way to the words.
  const sheet = startSheet({ x: 0, y: 0, width: input.widthPx, height });
  if (!isNarrow) sheet.lines.push(todayLine);
  input.jobs.forEach((job, j) => {
    const parts: Mark[] = [];
    if (j > 0) {
      const ruleY = isNarrow ? y - 6 : y - RULE_PX;
      parts.push(lineMark([isNarrow ? input.x0 : NAMES_X, ruleY, input.x1, ruleY], { pen: 'witness', ink: 'line' }));
    }
    const nameY = y + (isNarrow ? 12 : 5);
    const nameX = isNarrow ? input.x0 : NAMES_X;
    const widestPx = isNarrow ? input.x1 - input.x0 : namesPx;
    parts.push(
      ...letters(sheet, {
        x: nameX,
        y: nameY,
        text: fitText(job.name, widestPx, 15, SANS_BOLD),
        face: SANS_BOLD,
        clear: isNarrow ? 'paper' : null,
      }),
    );
    if (isNarrow) y += 28;
    else {
      const text = fitText(job.place, namesPx, 16, SERIF_ITALIC);
      parts.push(...letters(sheet, { x: nameX, y: y + 26, text, face: SERIF_ITALIC, sizePx: 16, ink: 'ink2' }));
    }
    let rowY = y;
    for (const room of job.rooms) {
      const roomMarks = isNarrow ? narrowRow(room, rowY, input, scale, sheet) : wideRow(room, rowY, input, scale, sheet);
      parts.push(groupMark(`room:${room.id}`, room.label, roomMarks));
      rowY += rowHeightPx(room, isNarrow);
    }
    y += rowsHeightPx(job, isNarrow) + (isNarrow ? 0 : 14);
    marks.push(groupMark(`job:${job.id}`, `${job.name}, ${job.place}`, parts));
  });
  marks.unshift(...breakAtBoxes(todayLine, isNarrow ? sheet.taken : []).map((piece) => lineMark(piece, { pen: 'thin' })));
  marks.push(
    ...datumMarks({
      y: input.datumY,
      fromX: 0,
      toX: input.widthPx,
      scale,
      ticks: dayTicks(input.fromDay, input.days, input.locale),
      hatched: weekendSpans(input.fromDay, input.days),
      pointerAt: input.today,
    }),
  );
  return { width: input.widthPx, height, marks };
}

const dotted = (from: number, to: number, y: number): Mark[] =>
  to - from > 12 ? [lineMark([from, y, to, y], { pen: 'witness', ink: 'line', dash: 'dots' })] : [];

/** A row for small screens: shape, name and note on one line, the bars below it. */
function narrowRow(room: RibbonRoom, y: number, { x0, x1 }: RibbonInput, scale: Scale, sheet: LabelSheet): Mark[] {
  const face = room.isNoteLate ? SANS_BOLD : SANS;
  const text = fitText([room.name, room.note].filter((t) => t !== '').join(': '), x1 - x0 - 18, 15, face);
  const marks = [
    ...stateShape(room.state, x0 + 6, y, 6),
    ...letters(sheet, { x: x0 + 18, y: y + 5, text, clear: 'paper', face, ...(room.isNoteLate ? { ink: 'chalk' as const } : {}) }),
  ];
  if (!hasBars(room)) return marks;
  const barsY = y + NARROW_BARS_PX;
  const bars = barMarks(room, barsY, scale);
  return [...marks, ...dotted(scale.x0, bars.left - 6, barsY), ...dotted(bars.right + 8, scale.x1, barsY), ...bars.marks];
}

/** A row for wide screens: shape, name and letter before the days; bars and note on the days, without overlap. */
function wideRow(room: RibbonRoom, y: number, input: RibbonInput, scale: Scale, sheet: LabelSheet): Mark[] {
  const marks: Mark[] = [
    ...stateShape(room.state, input.x0 - ROOMS_PX, y),
    ...letters(sheet, { x: input.x0 - 146, y: y + 5, text: fitText(room.name, 106, 16, SANS), sizePx: 16 }),
    ...(room.letter === null ? [] : letterBox(room.letter, input.x0 - 18, y)),
  ];
  const setting = { face: room.isNoteLate ? SANS_BOLD : SANS, ...(room.isNoteLate ? { ink: 'chalk' as const } : {}) };
  const width = room.note === '' ? 0 : textWidthPx(room.note, 15, setting.face) + 8;
  const today = input.today === null ? scale.x0 : scaleX(scale, input.today);
  // A hold may have no end date: its bar is cut off before a note that would not fit after it.
  const mostX = scale.x1 - width - 14;
  const bars = barMarks(room, y, scale, room.held === null || width === 0 ? Infinity : mostX);
  if (bars.right > bars.left)
    reserve(sheet, uprightBox({ x: bars.left - 6, y: y - BAR_PX / 2, width: bars.right - bars.left + 14, height: BAR_PX }));
  const short = fitText(room.note, scale.x1 + 8 - (bars.right + 14), 15, setting.face);
  const isShortEnough = short === room.note || textWidthPx(short, 15, setting.face) >= SHORTEST_NOTE_PX;
  const note = placeText(sheet, [
    ...(bars.left > today || bars.right <= bars.left
      ? [{ x: today + 14, y: y + 5, text: fitText(room.note, scale.x1 + 8 - (today + 14), 15, setting.face), ...setting }]
      : []),
    ...(isShortEnough ? [{ x: bars.right + 14, y: y + 5, text: short, ...setting }] : []),
  ]);
  // A dotted line marks the days with no bar and no note.
  const dots = breakAtBoxes([scale.x0, y, scale.x1, y], sheet.taken).flatMap(([from = 0, , to = 0]) => dotted(from, to, y));
  return [...marks, ...dots, ...bars.marks, ...(note === null ? [] : [note])];
}

/** From the first of a row's bars to the last. */
function around(bars: readonly Box[]): Box {
  const x = Math.min(...bars.map((b) => b.x));
  return { x, y: bars[0]?.y ?? 0, width: Math.max(...bars.map((b) => b.x + b.width)) - x, height: BAR_PX };
}

/** Clear space between a hold and another bar. */
const HOLD_CLEAR_PX = 8;

/** The first stretch of a hold that no other bar of the room covers, up to `mostX`; null where there is none. */
function freeHold(hold: Box, others: readonly Box[], mostX: number): { readonly from: number; readonly to: number } | null {
  let from = hold.x;
  for (const bar of [...others].sort((a, b) => a.x - b.x))
    if (bar.x - HOLD_CLEAR_PX <= from && bar.x + bar.width > from) from = bar.x + bar.width + HOLD_CLEAR_PX;
  const next = Math.min(...others.filter((bar) => bar.x > from).map((bar) => bar.x - HOLD_CLEAR_PX));
  const to = Math.min(hold.x + hold.width, Math.max(from + 24, mostX), next);
  return to > from ? { from, to } : null;
}

/**
 * The bars of a room, and where they begin and end.
 * @param mostX maximum x of a hold's bar, where it is cut off
 */
function barMarks(room: RibbonRoom, y: number, scale: Scale, mostX = Infinity): { marks: Mark[]; left: number; right: number } {
  const marks: Mark[] = [];
  let left = Infinity;
  let right = -Infinity;
  let cutLeft = false;
  let cutRight = false;
  const boxOf = (d: Days | null): Box | null => {
    if (d === null || d.to <= scale.from || d.from >= scale.to) return null;
    const [a, b] = [scaleX(scale, Math.max(scale.from, d.from)), scaleX(scale, Math.min(scale.to, d.to))];
    return { x: a, y: y - BAR_PX / 2, width: Math.max(2, b - a), height: BAR_PX };
  };
  const span = (d: Days | null): Box | null => {
    const box = boxOf(d);
    if (d === null || box === null) return null;
    cutLeft ||= d.from < scale.from;
    cutRight ||= d.to > scale.to;
    left = Math.min(left, box.x);
    right = Math.max(right, box.x + box.width);
    return box;
  };
  const prep = span(room.prep);
  const pours = room.pours.map(span).filter((b): b is Box => b !== null);
  const drying = span(room.drying);
  const hold = boxOf(room.held);
  const work = [prep, ...pours, drying].filter((b): b is Box => b !== null);
  const ready = boxOf(room.ready);
  // What is not agreed is one bar from the first work to the last.
  const others = [...(room.isAgreed || work.length === 0 ? work : [around(work)]), ...(ready === null ? [] : [ready])];
  const free = hold === null ? null : freeHold(hold, others, mostX);
  if (hold !== null && free !== null) {
    const goesOn = free.to < hold.x + hold.width || (room.held?.to ?? 0) > scale.to;
    marks.push(boxMark({ x: free.from, y: y - 3, width: free.to - free.from, height: 6 }, { pen: null, fill: 'ink' }));
    if (goesOn) marks.push(...breakLine(free.to, y - BAR_PX / 2, y + BAR_PX / 2));
    left = Math.min(left, free.from);
    right = Math.max(right, free.to);
  }
  if (room.isAgreed) {
    if (prep) marks.push(...hatchedBar(prep, 'prep'));
    if (drying && room.drying) {
      const { from, to } = room.drying;
      const share = (d: number): number => (d - from) / Math.max(1e-9, to - from);
      marks.push(...dryingBar(drying, { fromShare: share(Math.max(scale.from, from)), toShare: share(Math.min(scale.to, to)) }));
    }
    marks.push(...pours.map((pour) => boxMark(pour, { pen: 'thin', fill: 'ink' })));
    // oxlint-disable-next-line typescript/no-unnecessary-condition -- changed within the calls above
    if (cutLeft && Number.isFinite(left)) marks.push(...breakLine(left, y - BAR_PX / 2, y + BAR_PX / 2));
    // oxlint-disable-next-line typescript/no-unnecessary-condition -- changed within the calls above
    if (cutRight && right >= scale.x1 - 1) marks.push(...breakLine(right, y - BAR_PX / 2, y + BAR_PX / 2));
  } else if (work.length > 0) {
    const [pour] = pours;
    marks.push(...notAgreedBar(around(work), pour?.x ?? null, pour ? pour.x + pour.width : null));
  }
  if (room.ready && room.ready.from < scale.to && room.ready.to > scale.from) {
    const a = scaleX(scale, Math.max(scale.from, room.ready.from));
    const b = scaleX(scale, Math.min(scale.to, room.ready.to));
    marks.push(...slashedLine(a, y, b, { over: 5 }));
    left = Math.min(left, a);
    right = Math.max(right, b + 5);
  }
  return Number.isFinite(left) ? { marks, left, right } : { marks, left: scale.x0 + 10, right: scale.x0 };
}
