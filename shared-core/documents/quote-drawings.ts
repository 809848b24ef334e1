/** The drawings of a quote: plan, section, and its dates along a line. */
import { dayNumberAt, dayNumberOf } from '../standing/local-days.ts';
import type { Frozen } from '../book/quote.ts';
import { datumMarks, dayTicks, scaleX, type Scale } from '../drawing/datum.ts';
import { groupMark, textMark } from '../drawing/ink.ts';
import type { Drawing, Mark } from '../drawing/marks.ts';
import { planDrawing } from '../drawing/plan.ts';
import type { PlanInput, PlanSpot } from '../drawing/plan-input.ts';
import { roomPlan, usualSection } from '../drawing/room-plan.ts';
import { roomSection } from '../drawing/room-section.ts';
import { sectionDrawing } from '../drawing/section.ts';
import { peg, rangeMark } from '../drawing/shapes.ts';
import { textWidthPx } from '../drawing/type-metrics.ts';
import { addDaysToDay, daysBetween } from '../measure/day.ts';
import { formatDepth } from '../measure/length-format.ts';
import { workCalendar } from '../cure/stated-date.ts';
import { joined } from '../measure/list.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { quotedDepths } from '../price/quoted-price.ts';
import type { QuotedDates } from './quote-dates.ts';
import { drawingBlock } from './blocks.ts';
import type { Block } from './tree.ts';
import { theRoom, theRooms } from '../standing/names.ts';
import { statedDateWords } from '../standing/time-words.ts';

/** Width of the page between its margins, in drawing units; A4 is a little narrower. */
export const MEASURE_PX = 696;
/** Depths printed on a customer's plan: few enough to read. */
const FEW_SPOTS = 6;
const SPARE_PX = 14;

/** A few of the readings, far apart, the deepest first. */
function fewSpots(spots: readonly PlanSpot[], deepest: { readonly xM: number; readonly yM: number }): PlanSpot[] {
  const distance = (spot: PlanSpot, p: { readonly xM: number; readonly yM: number }): number => Math.hypot(spot.xM - p.xM, spot.yM - p.yM);
  const others = [...spots];
  const taken: PlanSpot[] = [];
  while (taken.length < FEW_SPOTS && others.length > 0) {
    const measure = (spot: PlanSpot): number =>
      taken.length === 0 ? -distance(spot, deepest) : Math.min(...taken.map((other) => distance(spot, other)));
    const next = others.reduce((best, spot) => (measure(spot) > measure(best) ? spot : best));
    others.splice(others.indexOf(next), 1);
    taken.push(next);
  }
  return taken;
}

/** The plan of a room with the pour depth; null while it is not drawn. */
export function planBlock(
  frozen: Frozen,
  room: RoomEstimate,
  of: Pick<PlanInput, 'widthPx' | 'heightPx' | 'mayTurn' | 'hasKey'>,
): Block | null {
  const record = frozen.rooms.find((r) => r.id === room.roomId);
  if (record === undefined || record.plan.outline.length < 3) return null;
  const { units, locale } = frozen.business;
  const cut = usualSection(record, room.survey);
  const { survey, level } = room;
  // Ground areas are filled to the minimum thickness again: one depth, shown by the hatch.
  const groundToM =
    survey.state === 'surveyed' && survey.level.highSpotsAreGround && level.mode === 'level'
      ? survey.level.levelM - level.leastThicknessM
      : Infinity;
  const input = roomPlan({
    room: record,
    survey: room.survey,
    // As in `quotedDepths`.
    level: { ...level, textureM: 0 },
    shows: 'depth',
    widthPx: of.widthPx,
    heightPx: of.heightPx,
    section: cut === null ? null : [...cut],
    isSparse: false,
    units,
    locale,
  });
  const drawing = planDrawing({
    ...input,
    ...(input.spots === undefined || survey.state !== 'surveyed'
      ? {}
      : {
          spots: fewSpots(
            input.spots.filter((_, i) => (survey.floor.spots[i]?.zM ?? 0) <= groundToM),
            survey.floor.lowestAt,
          ),
        }),
    // Dams and steps are for the crew; a customer knows the openings by name.
    openingWords: (opening) => [joined([opening.name, opening.adjoiningFlooring])].filter((w) => w !== ''),
    hasKey: of.hasKey ?? false,
    mayTurn: of.mayTurn ?? false,
    marginPx: { left: 52, top: 38, right: of.hasKey === true ? 92 : 66, bottom: 52 },
  });
  const depths = quotedDepths(room);
  return drawingBlock(
    drawing,
    `Plan of ${theRoom(room.name)} with the pour depth${depths === null ? '' : `, ${formatDepth(depths.mostM, units)} at the deepest`}`,
    { gives: true },
  );
}

/** The section through a room under its new floor; null while the floor is not measured. */
export function sectionBlock(frozen: Frozen, room: RoomEstimate): Block | null {
  const record = frozen.rooms.find((r) => r.id === room.roomId);
  if (record === undefined || room.survey.state !== 'surveyed') return null;
  const cut = usualSection(record, room.survey);
  if (cut === null) return null;
  const input = roomSection({
    room: record,
    survey: room.survey,
    level: room.level,
    cut,
    units: frozen.business.units,
    widthPx: MEASURE_PX,
    heightPx: 96,
    datumY: 30,
    x0: 54,
    x1: MEASURE_PX - 66,
  });
  if (input === null) return null;
  const drawing = sectionDrawing({ ...input, lineWords: '', floorWords: '' });
  return drawingBlock(
    // Where nothing is named under its start, the drawing ends with an empty strip that is cut off.
    { ...drawing, height: drawing.height - (input.start.words === '' ? SPARE_PX : 0) },
    `Section through ${theRoom(room.name)} under the new floor`,
    { caption: `Denser dots show a deeper pour. The heavy line is the new floor. Heights are exaggerated ${drawing.exaggeration} times.` },
  );
}

const ROW_PX = 30;

/** Pour, foot traffic and flooring of each room along the days, `insetPx` from both sides; null while no day is set. */
export function datesDrawing(frozen: Frozen, dates: readonly QuotedDates[], widthPx: number, insetPx = 0): Drawing | null {
  const { locale } = frozen.business;
  const zone = frozen.property.timeZone;
  const place = workCalendar(frozen.business, zone);
  const moments = dates
    .flatMap((d) => [d.pourAt, ...(d.walkOnAt === null ? [] : [d.walkOnAt]), ...(d.cover === null ? [] : [d.cover.latestAt])])
    .sort();
  const [first] = moments;
  const last = moments.at(-1);
  if (first === undefined || last === undefined) return null;
  const from = addDaysToDay(dayOfInstant(first, zone), -1);
  const days = Math.max(7, daysBetween(from, dayOfInstant(last, zone)) + 2);
  const coverWords = ({ name, byTest }: NonNullable<QuotedDates['cover']>): string => (byTest ? `${name}, after a test` : name);
  const widest = Math.max(0, ...dates.map((d) => (d.cover === null ? 0 : textWidthPx(coverWords(d.cover), 15))));
  const scale: Scale = { from: 0, to: days, x0: insetPx + 96, x1: widthPx - insetPx - Math.max(130, widest + 14), isLog: false };
  const datumY = 30;
  const xOf = (instant: string): number => scaleX(scale, dayNumberAt(instant, zone) - dayNumberOf(from));
  const marks: Mark[] = datumMarks({
    scale,
    ticks: dayTicks(from, days, locale, (scale.x1 - scale.x0) / days),
    y: datumY,
    fromX: 0,
    toX: widthPx,
  });
  dates.forEach((date, i) => {
    const y = datumY + 22 + i * ROW_PX;
    const pourX = xOf(date.pourAt);
    const parts: Mark[] = [textMark(insetPx, y + 5, date.roomName), peg(pourX, y, false)];
    let right = pourX + 10;
    const write = (x: number, text: string): void => {
      const start = Math.max(right, x);
      parts.push(textMark(start, y + 5, text));
      right = start + textWidthPx(text, 15) + 10;
    };
    const pour = date.lastPourAt === null ? 'pour' : 'first pour';
    write(
      right,
      date.walkOnAt === null ? pour : `${pour}, foot traffic ${statedDateWords('walk-on', date.walkOnAt, place, 'short', locale)}`,
    );
    if (date.cover !== null) {
      const least = Math.max(right, xOf(date.cover.likelyAt));
      const most = xOf(date.cover.latestAt);
      if (most - least > 24) parts.push(...rangeMark(least, least, most, y));
      right = Math.max(right, most + 10);
      write(right, coverWords(date.cover));
    }
    marks.push(groupMark(`dates:${date.roomId}`, `${date.roomName}: dates`, parts));
  });
  return { width: widthPx, height: datumY + 12 + dates.length * ROW_PX + 4, marks };
}

/** The dates as they stand on the quote; null while no day is set. */
export function datesBlock(frozen: Frozen, dates: readonly QuotedDates[]): Block | null {
  const drawing = datesDrawing(frozen, dates, MEASURE_PX);
  return drawing && drawingBlock(drawing, datesInWords(dates));
}

/** What the drawing of the dates shows. */
export const datesInWords = (dates: readonly QuotedDates[]): string => `Dates of ${theRooms(dates.map((d) => d.roomName))}`;
