/** Draws the schedule of a job's curing rooms on a scale of days, and places the text beside it. */
import { roomAir } from '../../../shared-core/climate/room-air.ts';
import { dayNumberAt, dayOfNumber } from '../../../shared-core/standing/local-days.ts';
import { cureKey, cureRoomMarks } from '../../../shared-core/drawing/cure-bars.ts';
import { datumMarks, dayTicks, type Scale, scaleX, weekendSpans } from '../../../shared-core/drawing/datum.ts';
import { houseDrawing } from '../../../shared-core/drawing/house.ts';
import { lineMark, textMark } from '../../../shared-core/drawing/ink.ts';
import { startSheet } from '../../../shared-core/drawing/labels.ts';
import { placeText } from '../../../shared-core/drawing/lettering.ts';
import type { Promised } from '../../../shared-core/book/cure-record.ts';
import type { Drawing, Mark } from '../../../shared-core/drawing/marks.ts';
import { gapForDryingPx } from '../../../shared-core/drawing/stipple.ts';
import { SANS, SANS_BOLD, SERIF_ITALIC, textWidthPx, wrapText } from '../../../shared-core/drawing/type-metrics.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { milestoneName } from '../../../shared-core/standing/cure-words.ts';
import { type CuringRoom, isDone, isFor, isPromiseLate, type Saying, verdictWords } from './cure-room.ts';

/** Text at the left of the schedule: all four dates, the two most important, or one beside its name. */
export type CureTier = 'wide' | 'mid' | 'narrow';

export const DATUM_Y = 34;
const ROW_PX = 24;
const LOG_PX = 48;
const GAP_PX = 12;
/** The room's name takes as many lines as it needs. On a phone two lines of verdict are between it and the rows; else the pour's time is below. */
const NAME_LINE_PX = 22;
const UNDER_NAME_PX = { narrow: 40, beside: 64 } as const;
/** The name's size, as in the style sheet. */
const NAME_PX = 17;
/** A verdict without space at today's line goes below the log. */
const VERDICT_PX = 28;

/** Left edges of the text columns and of the days, from the screen's edge. */
type Columns = {
  readonly name: number;
  readonly milestone: number;
  readonly earliest?: number;
  readonly likely: number;
  readonly latest?: number;
  readonly promised?: number;
  readonly days: number;
  readonly edge: number;
};
export type CureColumn = 'milestone' | 'earliest' | 'likely' | 'latest' | 'promised';
export const COLUMNS: Readonly<Record<CureTier, Columns>> = {
  wide: { name: 36, milestone: 148, earliest: 258, likely: 358, latest: 464, promised: 556, days: 650, edge: 44 },
  mid: { name: 36, milestone: 146, likely: 262, promised: 356, days: 456, edge: 40 },
  narrow: { name: 18, milestone: 18, likely: 138, days: 226, edge: 18 },
};

export function tierOf(widthPx: number): CureTier {
  return widthPx >= 1200 ? 'wide' : widthPx >= 800 ? 'mid' : 'narrow';
}

/** Heights of a room on the screen: top, rows, log, foot. */
export type CureBlock = { readonly top: number; readonly rowsTop: number; readonly logTop: number; readonly bottom: number };

function blockAt(room: CuringRoom, top: number, tier: CureTier, widthPx: number): CureBlock {
  const { name, milestone } = COLUMNS[tier];
  const nameWidthPx = tier === 'narrow' ? widthPx - 2 * name : milestone - name;
  const namePx = wrapText(room.room.name, nameWidthPx, NAME_PX, SANS_BOLD).length * NAME_LINE_PX;
  const rowsTop = top + (tier === 'narrow' ? namePx + UNDER_NAME_PX.narrow : 0);
  const logTop = rowsTop + room.rows.length * ROW_PX;
  const besideName = tier === 'narrow' ? 0 : top + namePx + UNDER_NAME_PX.beside;
  return { top, rowsTop, logTop, bottom: Math.max(logTop + LOG_PX, besideName) };
}

/** Maps days to positions. */
function daysScale(
  rooms: readonly CuringRoom[],
  say: Saying,
  widthPx: number,
  tier: CureTier,
): { scale: Scale; first: number; days: number } {
  const day = (instant: string): number => dayNumberAt(instant, say.zone);
  const known = rooms.flatMap((r) => [
    r.schedule.placedAt,
    ...r.rows.flatMap((m) => [m.latestAt ?? m.likelyAt ?? r.schedule.placedAt]),
    ...r.promises.map((p) => p.promisedFor),
  ]);
  const first = Math.floor(Math.min(day(say.now), ...known.map(day)));
  const days = Math.max(7, Math.ceil(Math.max(day(say.now), ...known.map(day))) + 1 - first);
  return { scale: { from: 0, to: days, x0: COLUMNS[tier].days, x1: widthPx - COLUMNS[tier].edge, isLog: false }, first, days };
}

/** The peg of a promised day is at noon, that of a promised hour at the hour. */
function pegDay(promise: Promised, zone: string): number {
  const promisedDay = dayNumberAt(promise.promisedFor, zone);
  return promise.milestone === 'cover' ? Math.floor(promisedDay) + 0.5 : promisedDay;
}

/** Start of a line of HTML text over the drawing. */
export type PlacedWord = { readonly x: number; readonly y: number };

export type CureSheet = {
  readonly drawing: Drawing;
  readonly blocks: readonly CureBlock[];
  /** The row of each room's verdict: at today's line where there is space, else below its log; null above its rows, on a phone. */
  readonly verdicts: readonly (PlacedWord | null)[];
};

/** Rooms below each other on one scale. */
export function cureSheet(rooms: readonly CuringRoom[], say: Saying, widthPx: number): CureSheet {
  const tier = tierOf(widthPx);
  const columns = COLUMNS[tier];
  const { scale, first, days } = daysScale(rooms, say, widthPx, tier);
  const day = (instant: string): number => dayNumberAt(instant, say.zone) - first;
  const now = day(say.now);
  const nowX = scaleX(scale, now);
  const blocks: CureBlock[] = [];
  const verdicts: (PlacedWord | null)[] = [];
  const marks: Mark[] = [];
  let top = DATUM_Y + 14;
  rooms.forEach((room, i) => {
    const block = blockAt(room, top, tier, widthPx);
    if (i > 0)
      marks.push(lineMark([columns.name, top - GAP_PX / 2, widthPx - columns.name, top - GAP_PX / 2], { pen: 'witness', ink: 'line' }));
    marks.push(...roomMarks(room, block, { widthPx, scale, day, days, now, first }, say));
    for (let k = 1; k <= room.rows.length; k += 1) {
      const y = block.rowsTop + k * ROW_PX - 1;
      marks.push(lineMark([columns.milestone, y, columns.days - 22, y], { pen: 'witness', ink: 'line', dash: 'dots' }));
    }
    const atToday = tier === 'narrow' ? null : verdictPlace(room, block, { scale, day, nowX, widthPx }, say);
    const isUnder = tier !== 'narrow' && atToday === null;
    blocks.push(block);
    verdicts.push(isUnder ? { x: columns.milestone, y: block.bottom + 2 } : atToday);
    top = block.bottom + (isUnder ? VERDICT_PX : 0) + GAP_PX;
  });
  const bottom = top - GAP_PX + 4;
  marks.unshift(lineMark([nowX, DATUM_Y, nowX, bottom - 4], { pen: 'thin', ink: 'ink2' }));
  const sheet = startSheet({ x: 0, y: 0, width: widthPx, height: bottom });
  for (const caption of ['earliest', 'likely', 'latest', 'promised'] as const) {
    const x = columns[caption];
    const words = x === undefined ? null : placeText(sheet, [{ x, y: DATUM_Y - 10, text: caption, face: SERIF_ITALIC, ink: 'ink2' }]);
    if (words !== null) marks.push(words);
  }
  marks.push(
    ...datumMarks(
      {
        y: DATUM_Y,
        fromX: 0,
        toX: widthPx,
        scale,
        ticks: dayTicks(dayOfNumber(first), days, say.locale),
        hatched: weekendSpans(dayOfNumber(first), days),
        pointerAt: now,
      },
      sheet,
    ),
  );
  return { drawing: { width: widthPx, height: bottom, marks }, blocks, verdicts };
}

type DayScale = {
  readonly widthPx: number;
  readonly scale: Scale;
  readonly day: (instant: string) => number;
  readonly days: number;
  readonly now: number;
  readonly first: number;
};

/** More points would not be visible; cold points are never left out. */
const MOST_LOG_POINTS = 240;

function thinned(readings: CuringRoom['readings'], leastC: number): CuringRoom['readings'] {
  const step = Math.max(1, Math.ceil(readings.length / MOST_LOG_POINTS));
  return readings.filter((r, k) => k % step === 0 || (r.tempC < leastC && k % Math.ceil(step / 4) === 0));
}

function roomMarks(room: CuringRoom, block: CureBlock, { scale, day, days, now, first }: DayScale, say: Saying): Mark[] {
  const { schedule } = room;
  const expectedC = roomAir(room.room, room.jobRoom).tempC;
  const ends = room.rows.map((m) => (m.likelyAt === null ? 0 : day(m.latestAt ?? m.likelyAt)));
  return cureRoomMarks(
    {
      id: room.id,
      pouredAt: day(schedule.placedAt),
      milestones: room.rows.map((m) => {
        const likely = m.likelyAt === null ? days : day(m.likelyAt);
        return {
          id: m.key,
          earliest: m.earliestAt === null ? likely : day(m.earliestAt),
          likely,
          latest: m.latestAt === null ? days : day(m.latestAt),
          promised: room.promises.filter((p) => isFor(p, m, room.jobRoom.flooring)).map((p) => pegDay(p, say.zone) - first),
          isDone: isDone(room, m, say.now),
          isLate: isPromiseLate(room, m, say.now),
          isDrying: m.by === 'drying',
          label: `${room.room.name}: ${milestoneName(m)}`,
        };
      }),
      log: {
        readings: thinned(room.readings, schedule.leastCureTempC).map((r) => ({ day: day(r.instant), tempC: r.tempC })),
        assumedC: expectedC,
        assumedTo: Math.min(days, Math.max(now + 2, ...ends)),
        assumedText: `${formatTemperature(expectedC, say.units, say.locale)} assumed`,
        leastC: schedule.leastCureTempC,
        leastText: formatTemperature(schedule.leastCureTempC, say.units, say.locale),
        stoodStill: schedule.log.stoodStill.map((s) => ({
          from: day(new Date(s.fromMs).toISOString()),
          to: day(new Date(s.toMs).toISOString()),
        })),
      },
    },
    { topY: block.rowsTop, rowPx: ROW_PX, scale, now },
  );
}

/** The first row with nothing drawn after today's line; null when there is none. */
function verdictPlace(
  room: CuringRoom,
  block: CureBlock,
  frame: { readonly scale: Scale; readonly day: (instant: string) => number; readonly nowX: number; readonly widthPx: number },
  say: Saying,
): PlacedWord | null {
  const verdict = verdictWords(room, say);
  const width = textWidthPx(`${verdict.verdict} `, 16, SANS_BOLD) + textWidthPx(verdict.rest, 16, SANS);
  for (const [k, m] of room.rows.entries()) {
    const ends = [m.latestAt ?? m.likelyAt, ...room.promises.filter((p) => isFor(p, m, room.jobRoom.flooring)).map((p) => p.promisedFor)];
    // A milestone without a date extends to the end.
    if (m.likelyAt === null) continue;
    const right = Math.max(frame.nowX, ...ends.flatMap((e) => (e === null ? [] : [scaleX(frame.scale, frame.day(e))]))) + 14;
    // Space for the next row's peg.
    const below = room.rows[k + 1];
    const pegs =
      below === undefined
        ? []
        : room.promises.filter((p) => isFor(p, below, room.jobRoom.flooring)).map((p) => scaleX(frame.scale, frame.day(p.promisedFor)));
    if (pegs.some((x) => x > right - 8 && x < right + width + 8)) continue;
    if (right + width < frame.widthPx - 30) return { x: right, y: block.rowsTop + k * ROW_PX };
  }
  return null;
}

/** The rooms in small, with fewer dots as each dries; the current one outlined. */
export function curePlan(rooms: readonly CuringRoom[], roomId: string, now: string, widthPx: number, heightPx: number): Drawing {
  return houseDrawing({
    widthPx,
    heightPx,
    rooms: rooms.map(({ room, schedule, placed: rings }) => {
      const placed = Date.parse(schedule.placedAt);
      const dry = schedule.cover?.likelyAt ?? schedule.milestones.find((m) => m.kind === 'full')?.likelyAt ?? null;
      const share = dry === null ? 0 : (Date.parse(now) - placed) / Math.max(1, Date.parse(dry) - placed);
      return {
        id: room.id,
        plan: room.plan,
        look: 'ours' as const,
        hatch: null,
        gapPx: gapForDryingPx(Math.min(0.8, share)),
        lines: [room.name],
        isPicked: room.id === roomId,
        ...(rings === null ? {} : { placed: rings }),
        label: room.name,
      };
    }),
    notes: [],
    hasDimensions: false,
    lengthText: () => '',
    scale: null,
    key: null,
  });
}

/** The legend of the schedule. */
export function cureKeyDrawing(leastC: number, units: UnitSystem, locale: string): Drawing {
  const rows = [0, 1, 2, 3].map((k) => 16 + k * 34);
  const key = rows.map((y) => cureKey(26, y));
  const under = `below ${formatTemperature(leastC, units, locale)}: curing paused`;
  const words = ['poured', 'earliest, likely, latest', 'promised, filled if late', under];
  const marks = [key[0]?.poured, key[1]?.range, key[2]?.promise, key[3]?.stoodStill].flatMap((m) => m ?? []);
  return {
    width: 68 + Math.max(...words.map((w) => textWidthPx(w, 16))) + 4,
    height: 134,
    marks: [...marks, ...words.map((word, k) => textMark(68, (rows[k] ?? 0) + 5, word, { sizePx: 16 }))],
  };
}
