/** The drawings of the handover: the rooms with their dates, and the days of each floor along one line. */
import { dayNumberAt, dayNumberOf } from '../standing/local-days.ts';
import { datumMarks, dayTicks, type Scale, scaleX, weekendSpans } from '../drawing/datum.ts';
import { hasFailedTest } from '../cure/cure-schedule.ts';
import { houseDrawing } from '../drawing/house.ts';
import { boxMark, groupMark, lineMark, textMark } from '../drawing/ink.ts';
import type { Drawing, Mark } from '../drawing/marks.ts';
import { dryingBar, slashedLine } from '../drawing/shapes.ts';
import { gapForDryingPx } from '../drawing/stipple.ts';
import { SANS_BOLD, SERIF_ITALIC, textWidthPx, wrapText } from '../drawing/type-metrics.ts';
import { addDaysToDay, daysBetween, formatDay } from '../measure/day.ts';
import { formatLength } from '../measure/length-format.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { isHonored } from '../plan/honored-marks.ts';
import type { HandoverRoom } from './handover-rooms.ts';
import { listed } from '../standing/names.ts';
import { flooringReady, type HandoverPlace, isAllSealed, laidWord, placedDays, statedAt, statedWords } from './handover-tables.ts';

/** The lines in a room on the plan: its name, then what it may be used for and from when. */
function roomLines(handoverRoom: HandoverRoom, place: HandoverPlace): string[] {
  const { schedule } = handoverRoom;
  const milestone = (kind: string) => schedule.milestones.find((m) => m.kind === kind);
  const [walk, furniture] = [milestone('walk-on'), milestone('furniture')];
  const furnitureAt = statedAt(furniture);
  return [
    handoverRoom.room.name,
    ...(statedAt(walk) === null ? [] : [`foot traffic: ${lower(statedWords(walk, place))}`]),
    ...(furnitureAt === null || furnitureAt <= place.now ? [] : [`furniture: ${statedWords(furniture, place)}`]),
    ...flooringLine(handoverRoom, place),
  ];
}

const lower = (text: string): string => (text === 'Now' ? 'now' : text);

function flooringLine(handoverRoom: HandoverRoom, place: HandoverPlace): string[] {
  const ready = flooringReady(handoverRoom, place);
  switch (ready.kind) {
    case 'none':
      return [];
    case 'repair':
      return [`${ready.name}: after ${ready.wait}`];
    case 'laid':
      return [`${ready.name}: ${laidWord(handoverRoom)} ${formatDay(ready.day, 'short', place.locale)}`];
    case 'cleared':
      return [`${ready.name}: cleared`];
    case 'failed':
      return [`${ready.name}: not yet, test again`];
    case 'cold':
      return [`${ready.name}: too cold to say`];
    case 'test':
      return [`${ready.name}: after its test`];
    case 'from':
      return [`${ready.name}: ${formatDay(ready.day, 'short', place.locale)} or later`];
  }
}

/** The placed rooms to one scale. Dots thin out as a floor dries; letters mark possible cold joints. */
export function handoverPlan(
  rooms: readonly HandoverRoom[],
  place: HandoverPlace,
  widthPx: number,
  heightPx: number,
  mayTurn = false,
): Drawing {
  return houseDrawing({
    widthPx,
    heightPx,
    rooms: rooms.map((handoverRoom) => {
      const { room, schedule } = handoverRoom;
      const placed = Date.parse(schedule.placedAt);
      const dry = schedule.cover?.likelyAt ?? schedule.milestones.find((m) => m.kind === 'full')?.likelyAt ?? null;
      const share = dry === null ? 0 : (Date.parse(place.now) - placed) / Math.max(1, Date.parse(dry) - placed);
      const lines = roomLines(handoverRoom, place);
      return {
        id: room.id,
        plan: room.plan,
        joints: handoverRoom.joints,
        honored: room.marks.filter(isHonored).map(({ points }) => points),
        look: 'ours' as const,
        hatch: null,
        gapPx: gapForDryingPx(Math.min(0.75, share)),
        lines,
        label: lines.join(', '),
      };
    }),
    notes: rooms.flatMap((handoverRoom) =>
      handoverRoom.joins.map((join) => ({
        id: `join-${join.letter}`,
        roomId: join.roomId,
        xM: join.point.xM,
        yM: join.point.yM,
        letter: join.letter,
        text: '',
      })),
    ),
    hasDimensions: true,
    mayTurn,
    dimensions: 'chain',
    lengthText: (lengthM) => formatLength(lengthM, place.units, place.locale),
    scale: null,
    key: null,
  });
}

const ROW_PX = 30;
const DATUM_Y = 30;
/** Of the words over a row. */
const LINE_PX = 22;
const NO_WAIT = { name: '', day: '' };
/** Space between a name and its day. */
const SPACE_PX = 5;
/** Foot traffic drawn nearer to its pour than this would overlap it. */
const APART_PX = 16;
/** Words beside the line of today. */
const TODAY_PX = 8;

/** What a floor waits for and, in bold, from which day: its flooring, or foot traffic where none is chosen. */
function waitsFor(handoverRoom: HandoverRoom, place: HandoverPlace): { readonly name: string; readonly day: string } {
  const ready = flooringReady(handoverRoom, place);
  switch (ready.kind) {
    case 'none': {
      const walk = handoverRoom.schedule.milestones.find((m) => m.kind === 'walk-on');
      return { name: 'foot traffic', day: statedAt(walk) === null ? '' : statedWords(walk, place) };
    }
    case 'repair':
      return { name: `${ready.name}, after ${ready.wait}`, day: '' };
    case 'laid':
      return { name: `${ready.name}, ${laidWord(handoverRoom)}`, day: formatDay(ready.day, 'short', place.locale) };
    case 'cleared':
      return { name: `${ready.name}, cleared`, day: '' };
    case 'failed':
      return { name: `${ready.name}, test again`, day: '' };
    case 'cold':
      return { name: ready.name, day: '' };
    case 'test':
      return { name: `${ready.name}, after its test`, day: '' };
    case 'from':
      return { name: ready.name, day: formatDay(ready.day, 'short', place.locale) };
  }
}

/** Words over a row of a narrow drawing: on one line where they fit; else what it waits for, and its date, begin a line of their own. */
function linesOver(room: string, waits: { readonly name: string; readonly day: string }, widthPx: number): string[] {
  const whole = `${room}: ${waits.name}`;
  const dayPx = waits.day === '' ? 0 : SPACE_PX + textWidthPx(waits.day, 15, SANS_BOLD);
  if (textWidthPx(whole, 15) + dayPx <= widthPx) return [whole];
  return [...wrapText(`${room}:`, widthPx, 15), ...wrapText(waits.name, widthPx - dayPx, 15)];
}

/** How the days are laid out: width, margins, and whether a key follows the rows. */
export type DaysLayout = { readonly widthPx: number; readonly insetPx: number; readonly hasKey: boolean; readonly isNarrow: boolean };

/** Each floor along the days: the pour, the drying, and when flooring can be expected; null before anything is placed. */
export function handoverDays(rooms: readonly HandoverRoom[], place: HandoverPlace, layout: DaysLayout): Drawing | null {
  if (rooms.length === 0) return null;
  const { zone, locale } = place;
  const { widthPx, insetPx, hasKey, isNarrow } = layout;
  const last = (handoverRoom: HandoverRoom): string => {
    const { schedule } = handoverRoom;
    const ends = schedule.cover === null ? schedule.milestones.map((m) => m.likelyAt) : [schedule.cover.latestAt, schedule.cover.likelyAt];
    return ends.reduce<string>((latest, end) => (end !== null && end > latest ? end : latest), schedule.placedAt);
  };
  const known = [place.now, ...rooms.flatMap((handoverRoom) => [handoverRoom.schedule.placedAt, last(handoverRoom)])].sort();
  const from = addDaysToDay(dayOfInstant(known[0] ?? place.now, zone), 0);
  const days = Math.max(7, daysBetween(from, dayOfInstant(known.at(-1) ?? place.now, zone)) + 2);
  const names = Math.max(...rooms.map((handoverRoom) => textWidthPx(handoverRoom.room.name, 15)));
  const waits = rooms.map((handoverRoom) => waitsFor(handoverRoom, place));
  // On a narrow drawing they go beside the room's name, over its row.
  const ends = isNarrow ? 0 : Math.max(...waits.map(({ name, day }) => textWidthPx(name, 15) + SPACE_PX + textWidthPx(day, 15, SANS_BOLD)));
  const scale: Scale = {
    from: 0,
    to: days,
    x0: insetPx + (isNarrow ? 8 : Math.max(96, names + 28)),
    x1: widthPx - insetPx - ends - (isNarrow ? 4 : 16),
    isLog: false,
  };
  const x = (instant: string): number => scaleX(scale, dayNumberAt(instant, zone) - dayNumberOf(from));
  const marks: Mark[] = [];
  const lines = rooms.map(({ room }, i) => (isNarrow ? linesOver(room.name, waits[i] ?? NO_WAIT, widthPx - 2 * insetPx) : []));
  let y = DATUM_Y + (isNarrow ? 24 - ROW_PX : 28 - ROW_PX);
  let walks = false;
  const nowX = x(place.now);
  rooms.forEach((handoverRoom, i) => {
    const over = lines[i] ?? [];
    y += ROW_PX + over.length * LINE_PX;
    const { schedule } = handoverRoom;
    const start = x(schedule.placedAt);
    const { cover } = schedule;
    const { name, day } = waits[i] ?? NO_WAIT;
    const parts: Mark[] = [boxMark({ x: start - 4, y: y - 8, width: 12, height: 16 }, { fill: 'ink' })];
    let endX = start + 8;
    if (cover?.likelyAt != null) {
      const likely = x(cover.likelyAt);
      const latest = x(cover.latestAt ?? cover.likelyAt);
      if (likely - start > 12) parts.push(...dryingBar({ x: start + 8, y: y - 8, width: likely - start - 8, height: 16 }));
      const earliest = x(cover.earliestAt ?? cover.likelyAt);
      if (latest - earliest >= 8 && !hasFailedTest(schedule)) parts.push(...slashedLine(earliest, y, latest));
      endX = Math.max(latest, endX);
    }
    const walk = schedule.milestones.find((m) => m.kind === 'walk-on')?.likelyAt ?? null;
    if (walk !== null && x(walk) - start >= APART_PX) {
      walks = true;
      parts.push(lineMark([x(walk), y - 12, x(walk), y + 12], { pen: 'cut' }));
      endX = Math.max(x(walk), endX);
    }
    const before = over.at(-1) ?? name;
    const endsX = endX + 14 + textWidthPx(name, 15) + SPACE_PX + textWidthPx(day, 15, SANS_BOLD);
    // Words that the line of today would cross begin after it.
    const besideX = endX + 14 <= nowX && nowX <= endsX ? nowX + TODAY_PX : endX + 14;
    const [nameX, nameY] = isNarrow ? [insetPx, y - 15] : [besideX, y + 5];
    if (!isNarrow) parts.push(textMark(insetPx, y + 5, handoverRoom.room.name));
    over
      .slice(0, -1)
      .forEach((line, k) => parts.push(textMark(insetPx, nameY - (over.length - 1 - k) * LINE_PX, line, { clear: 'paper' })));
    parts.push(textMark(nameX, nameY, before, { clear: 'paper' }));
    if (day !== '') parts.push(textMark(nameX + textWidthPx(before, 15) + SPACE_PX, nameY, day, { face: SANS_BOLD, clear: 'paper' }));
    marks.push(groupMark(`days:${handoverRoom.room.id}`, `${handoverRoom.room.name}: ${daysInWords(handoverRoom, place)}`, parts));
  });
  const belowY = y + 22;
  const isLeft = nowX + TODAY_PX + textWidthPx('today', 15, SERIF_ITALIC) > widthPx - insetPx;
  marks.unshift(lineMark([nowX, DATUM_Y, nowX, belowY - 2], { pen: 'thin', ink: 'ink2' }));
  marks.push(
    textMark(nowX + (isLeft ? -TODAY_PX : TODAY_PX), belowY + 4, 'today', {
      face: SERIF_ITALIC,
      ink: 'ink2',
      anchor: isLeft ? 'end' : 'start',
    }),
    ...datumMarks({
      y: DATUM_Y,
      fromX: 0,
      toX: widthPx,
      scale,
      ticks: dayTicks(from, days, locale, (scale.x1 - scale.x0) / days),
      hatched: weekendSpans(from, days),
      pointerAt: dayNumberAt(place.now, zone) - dayNumberOf(from),
    }),
  );
  if (hasKey)
    marks.push(
      ...keyMarks(
        insetPx,
        belowY + 24,
        walks,
        `${isAllSealed(rooms) ? 'sealer' : 'flooring'} between these days${rooms.some(({ schedule }) => schedule.clearance?.requirement.byHours === false) ? ', after its test' : ''}`,
      ),
    );
  return { width: widthPx, height: belowY + (hasKey ? 38 : 12), marks };
}

/** The days of a floor as a sentence part, for the alternative text. */
export function daysInWords(handoverRoom: HandoverRoom, place: HandoverPlace): string {
  const placed = `placed ${listed(placedDays(handoverRoom, place))}`;
  const ready = flooringReady(handoverRoom, place);
  switch (ready.kind) {
    case 'none':
      return placed;
    case 'repair':
      return `${placed}, ready for ${ready.name} after ${ready.wait}`;
    case 'laid':
      return `${placed}, ${ready.name} ${laidWord(handoverRoom)} ${formatDay(ready.day, 'short', place.locale)}`;
    case 'cleared':
      return `${placed}, cleared for ${ready.name}`;
    case 'failed':
      return `${placed}, not ready for ${ready.name}: its test did not pass`;
    case 'cold':
      return `${placed}, too cold to say when it is ready for ${ready.name}`;
    case 'test':
      return `${placed}, ready for ${ready.name} after its test`;
    case 'from':
      return `${placed}, ready for ${ready.name} ${formatDay(ready.day, 'short', place.locale)} or later${ready.needsTest ? ', after its test' : ''}`;
  }
}

/** What the shapes mean, in a row. */
function keyMarks(x: number, y: number, walks: boolean, coverWords: string): Mark[] {
  return [
    boxMark({ x, y: y - 7, width: 22, height: 13 }, { fill: 'ink' }),
    textMark(x + 30, y + 5, 'placed'),
    ...dryingBar({ x: x + 106, y: y - 7, width: 57, height: 13 }),
    textMark(x + 170, y + 5, 'drying'),
    ...slashedLine(x + 246, y, x + 292),
    textMark(x + 308, y + 5, coverWords),
    ...(walks ? [lineMark([x + 576, y - 10, x + 576, y + 10], { pen: 'cut' }), textMark(x + 586, y + 5, 'foot traffic')] : []),
  ];
}
