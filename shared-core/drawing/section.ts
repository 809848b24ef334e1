/** A section along a line through the room, with exaggerated heights measured from the datum, which is the new floor. */
import { reversed } from './ring-clip.ts';
import { datumMarks, lengthTicks, scaleX, type Scale } from './datum.ts';
import { groupMark, hatchMark, lineMark, stippleMark } from './ink.ts';
import {
  breakAtBoxes,
  isInBox,
  type LabelSheet,
  reserve,
  reserveLeader,
  isLeaderFree,
  startSheet,
  type TurnedBox,
  uprightBox,
} from './labels.ts';
import { placeText, reserveMarks } from './lettering.ts';
import type { Drawing, Hatch, Mark } from './marks.ts';
import { slash } from './shapes.ts';
import { gapForDepthPx, stippleDots } from './stipple.ts';
import { SANS_BOLD, SERIF_ITALIC, textWidthPx } from './type-metrics.ts';

/** The floor at a distance along the cut. All heights are in meters on one scale. */
export interface SectionPoint {
  readonly alongM: number;
  readonly floorM: number;
  readonly newFloorM: number;
  /** Floor height after grinding; undefined where nothing is ground. */
  readonly groundM?: number;
}

/** The area beyond an end of the cut. */
export interface SectionEnd {
  readonly letter: string;
  readonly words: string;
  readonly hatch: Hatch | null;
  /** Finished height beyond the end; null for a wall. */
  readonly heightM: number | null;
}

/** Where a cut is drawn, px. */
export interface SectionFrame {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Height of the datum line on the drawing. */
  readonly datumY: number;
  /** Left and right ends of the cut on the drawing. */
  readonly x0: number;
  readonly x1: number;
}

/** A section's data. */
export interface SectionInput extends SectionFrame {
  /** At least two points, in order along the cut. */
  readonly points: readonly SectionPoint[];
  /** Spans where the cut leaves the floor, such as at a notch or a column; undefined for none. */
  readonly gaps?: readonly { readonly fromM: number; readonly toM: number }[];
  readonly units: 'us' | 'metric';
  /** Height drawn on the datum; the new floor at the first point if undefined. A level finish below a bare spot needs it. */
  readonly hangM?: number;
  /** Vertical exaggeration; null to choose the one that fills the height. */
  readonly exaggeration: number | null;
  readonly start: SectionEnd;
  readonly end: SectionEnd;
  /** Depths to label, by distance along the cut. */
  readonly depths: readonly { readonly alongM: number; readonly text: string }[];
  /** Places to name below the cut: "the corner". */
  readonly places: readonly { readonly alongM: number; readonly text: string }[];
  /** Words for the old floor and for the ground part; empty for none. */
  readonly floorWords: string;
  readonly grindWords: string;
  /** Words to the left of the datum line: "new floor". */
  readonly lineWords: string;
}

/** The section and its vertical exaggeration, which the caption states. */
export interface SectionDrawing extends Drawing {
  readonly exaggeration: number;
}

const BAND_PX = 17;
/** Space beyond an end that its letter needs; in less it stands above the floor, clear of the pointer, px. */
const [END_PX, POINTER_PX] = [62, 16];
/** Least distance between two upright lines with words. */
export const LEADER_CLEAR_PX = 4;
const ITALIC = { face: SERIF_ITALIC, sizePx: 16, ink: 'ink2' } as const;
/** Minimum height for a hump, px: it must clear the datum's labels even when there is little room above them. */
const UNDER_LABELS_PX = 12;

/** Draws the section as marks. */
export function sectionDrawing(input: SectionInput): SectionDrawing {
  const { points, datumY: y0 } = input;
  const first = points[0];
  const last = points[points.length - 1];
  const empty = { width: input.widthPx, height: input.heightPx, marks: [], exaggeration: 1 };
  if (!first || !last || last.alongM <= first.alongM) return empty;
  const pxPerM = (input.x1 - input.x0) / (last.alongM - first.alongM);
  // All heights are measured from one height, so that a ramp looks like a ramp.
  const datumM = input.hangM ?? first.newFloorM;
  const ground = (p: SectionPoint): number => p.groundM ?? p.floorM;
  const deepest = Math.max(0.001, ...points.map((p) => datumM - ground(p)));
  const highest = Math.max(0, ...points.map((p) => Math.max(p.floorM, p.newFloorM) - datumM));
  const bandPx = Math.min(BAND_PX, (input.heightPx - y0) / 3);
  const maxExaggeration = Math.min(
    (input.heightPx - y0 - bandPx - (bandPx < BAND_PX ? 3 : 24)) / (deepest * pxPerM),
    highest > 0 ? Math.max(UNDER_LABELS_PX, y0 - 38) / (highest * pxPerM) : Infinity,
  );
  // Only whole exaggerations that are easy to state in the caption.
  const exaggeration = input.exaggeration ?? [30, 25, 20, 16, 14, 12, 10, 8, 6, 5, 4, 3, 2, 1].find((e) => e <= maxExaggeration) ?? 1;
  const yPxPerM = pxPerM * exaggeration;
  const scale: Scale = { from: first.alongM, to: last.alongM, x0: input.x0, x1: input.x1, isLog: false };
  const toSheet = (p: SectionPoint, heightM: number): [number, number] => [scaleX(scale, p.alongM), y0 + (datumM - heightM) * yPxPerM];
  const floor = points.flatMap((p) => toSheet(p, ground(p)));
  const top = points.flatMap((p) => toSheet(p, p.newFloorM));
  const runs = runsOf(points, input.gaps ?? []).map((run) => ({
    floor: run.flatMap((p) => toSheet(p, ground(p))),
    existing: run.flatMap((p) => toSheet(p, p.floorM)),
    top: run.flatMap((p) => toSheet(p, p.newFloorM)),
  }));
  const marks: Mark[] = [];
  const sheet = startSheet({ x: 0, y: 0, width: input.widthPx, height: input.heightPx });

  marks.push(
    groupMark(
      'old-floor',
      input.floorWords,
      runs.flatMap((run) => cutEdge(run.floor, bandPx)),
    ),
    ...runs.slice(1).flatMap((run, i) => wallBetween(runs[i]?.floor ?? [], run.floor, y0, sheet)),
  );

  sheet.lines.push(...runs.flatMap((run) => [run.floor, run.existing, run.top]), [0, y0, input.widthPx, y0]);
  const levelOf = (e: SectionEnd): number => (e.heightM === null ? y0 - 30 : y0 + (datumM - e.heightM) * yPxPerM);
  const ends = [...endMarks(input, -1, levelOf(input.start), sheet), ...endMarks(input, 1, levelOf(input.end), sheet)];
  // Depth labels reserve their boxes before the dots are placed, because dots avoid labels.
  const depthMarks = input.depths.flatMap((d) => depthMark(d.text, scaleX(scale, d.alongM), { floor, top, x1: input.x1 }, sheet));
  const labelBoxes: TurnedBox[] = [...sheet.taken];
  const dots = stippleDots({
    rings: runs.map((run) => [...run.top, ...reversed(run.floor)]),
    gapAt: (x) => gapForDepthPx(Math.max(0.004, (heightAt(floor, x) - heightAt(top, x)) / yPxPerM)),
    isKeptClear: (x, y) => labelBoxes.some((b) => isInBox(x, y, b)) || heightAt(floor, x) - heightAt(top, x) < 2.5,
  });
  marks.push(groupMark('stipple', 'new underlayment', [stippleMark(dots)]));

  for (const [i, hump] of runs.flatMap((run) => humps(run.existing, run.floor)).entries()) {
    marks.push(
      groupMark(i === 0 ? 'grind' : `grind ${i + 1}`, input.grindWords, [
        hatchMark([[...hump.over, ...reversed(hump.under)]], 'grind'),
        lineMark(hump.over, { pen: 'thin', dash: 'ground-off' }),
      ]),
    );
    if (input.grindWords !== '') {
      const x = ((hump.over[0] ?? 0) + (hump.over[hump.over.length - 2] ?? 0)) / 2;
      const words = placeText(sheet, [{ x, y: heightAt(floor, x) + 44, text: input.grindWords, anchor: 'middle' }]);
      if (words !== null) marks.push(words);
    }
  }
  marks.push(...ends);

  for (const place of input.places) {
    const x = scaleX(scale, place.alongM);
    const ty = heightAt(floor, x) + BAND_PX + 16;
    const line = [x, y0 - 12, x, ty + 6];
    const words = isLeaderFree(sheet, line, LEADER_CLEAR_PX) ? placeText(sheet, [{ x: x + 8, y: ty, text: place.text, ...ITALIC }]) : null;
    if (words === null) continue;
    reserveLeader(sheet, line);
    marks.push(...breakAtBoxes(line, sheet.taken).map((piece) => lineMark(piece, { pen: 'thin', dash: 'cut' })), words);
  }
  marks.push(...floorName(input, floor, sheet));
  const lineWords = placeText(sheet, [{ x: Math.max(4, input.x0 - 38), y: y0 - 9, text: input.lineWords, ...ITALIC, anchor: 'end' }]);
  if (lineWords !== null) marks.push(lineWords);
  marks.push(
    ...depthMarks,
    ...datumMarks(
      {
        y: y0,
        fromX: 0,
        toX: input.widthPx,
        scale,
        ticks: lengthTicks(last.alongM - first.alongM, pxPerM, input.units).map((t) => ({ ...t, value: t.value + first.alongM })),
      },
      sheet,
    ),
  );
  if (Math.max(...points.map((p) => Math.abs(p.newFloorM - datumM))) > 1e-6)
    marks.push(...runs.map((run) => lineMark(run.top, { pen: 'datum' })));
  return { width: input.widthPx, height: input.heightPx, marks, exaggeration };
}

/** A depth label beside its line; nothing where the label has no room. */
function depthMark(
  text: string,
  x: number,
  cut: { floor: readonly number[]; top: readonly number[]; x1: number },
  sheet: LabelSheet,
): Mark[] {
  const floorY = heightAt(cut.floor, x);
  const topY = heightAt(cut.top, x);
  if (floorY - topY < 4) return [];
  const line = [x, topY, x, floorY];
  if (!isLeaderFree(sheet, line, LEADER_CLEAR_PX)) return [];
  const isRoomy = floorY - topY > 26;
  const ty = isRoomy ? (floorY + topY) / 2 + 5 : floorY + 20;
  const sides = x + textWidthPx(text, 15) + 14 < cut.x1 ? ([1, -1] as const) : ([-1, 1] as const);
  const words = placeText(
    sheet,
    sides.flatMap((side) =>
      [0, 6, 12].map((down) => ({
        x: x + side * 8,
        y: ty + (isRoomy ? 0 : down),
        text,
        anchor: side > 0 ? ('start' as const) : ('end' as const),
        clear: isRoomy ? null : ('paper' as const),
      })),
    ),
  );
  if (words === null) return [];
  reserveLeader(sheet, line);
  return [lineMark(line, { pen: 'thin' }), slash(x, topY, 8), slash(x, floorY, 8), words];
}

/** The area beyond an end of the cut, its finished floor drawn at `level`. */
function endMarks(input: SectionInput, side: -1 | 1, level: number, sheet: LabelSheet): Mark[] {
  const e = side < 0 ? input.start : input.end;
  const y0 = input.datumY;
  const marks: Mark[] = [];
  const x = side < 0 ? input.x0 : input.x1;
  const outerX = side < 0 ? Math.max(0, x - 34) : Math.min(input.widthPx, x + 70);
  const base = Math.min(Math.max(level + 16, y0 + 38), input.heightPx - 2);
  if (e.hatch) {
    const bottom = e.heightM === null || side < 0 ? base : level + 14;
    marks.push(
      hatchMark([[x, level, outerX, level, outerX, bottom, x, bottom]], e.hatch),
      lineMark([x, level, outerX, level], { pen: 'seen' }),
    );
  }
  marks.push(lineMark([x, Math.min(level, y0), x, base], { pen: 'seen' }));
  const letterPx = textWidthPx(e.letter, 15, SANS_BOLD);
  const lx = side < 0 ? outerX - 12 - letterPx : Math.min(outerX + 8, input.widthPx - 4 - letterPx);
  reserveMarks(sheet, marks);
  // Words too long for the space beyond the wall start at the edge of the drawing and continue below the floor.
  const wordsPx = textWidthPx(e.words, ITALIC.sizePx, ITALIC.face);
  const wx = side < 0 ? Math.max(4, x - 6 - wordsPx) : Math.min(x + 8, input.widthPx - 4 - wordsPx);
  const wy = base - (side < 0 ? -18 : 4);
  const letter = placeText(
    sheet,
    (side < 0 ? x : input.widthPx - x) < END_PX
      ? [{ x: side < 0 ? x + POINTER_PX : x - POINTER_PX - letterPx, y: y0 - 13, text: e.letter, face: SANS_BOLD }]
      : [22, 38, -9].map((down) => ({ x: lx, y: y0 + down, text: e.letter, face: SANS_BOLD })),
  );
  const words = placeText(
    sheet,
    [wy, wy + 22, input.heightPx - 5].map((y) => ({ x: wx, y, text: e.words, ...ITALIC })),
  );
  return [...marks, ...[letter, words].filter((m) => m !== null)];
}

/** Words for the old floor, below it, at the first place where they fit. */
function floorName({ floorWords, x0, x1, heightPx }: SectionInput, floor: readonly number[], sheet: LabelSheet): Mark[] {
  const width = textWidthPx(floorWords, ITALIC.sizePx, ITALIC.face);
  const places: { x: number; y: number; text: string }[] = [];
  for (let x = x0 + 8; x + width < x1; x += 24) {
    const lowest = Math.max(...[0, 0.25, 0.5, 0.75, 1].map((t) => heightAt(floor, x + t * width)));
    if (lowest + BAND_PX + 16 <= heightPx - 3) places.push({ x, y: lowest + BAND_PX + 16, text: floorWords });
  }
  const placed = placeText(
    sheet,
    places.map((place) => ({ ...place, ...ITALIC })),
  );
  return placed === null ? [] : [placed];
}

/** Splits the points into the runs between gaps. */
function runsOf(points: readonly SectionPoint[], gaps: NonNullable<SectionInput['gaps']>): readonly (readonly SectionPoint[])[] {
  const starts = gaps.map((gap) =>
    points.findIndex((p, i) => i > 0 && p.alongM >= gap.toM - 1e-9 && (points[i - 1]?.alongM ?? 0) <= gap.fromM + 1e-9),
  );
  const cuts = [0, ...starts.filter((i) => i > 0), points.length];
  return cuts.slice(1).map((to, i) => points.slice(cuts[i], to));
}

/** The section of a wall, column, or island between two runs of floor. */
function wallBetween(before: readonly number[], after: readonly number[], y0: number, sheet: LabelSheet): Mark[] {
  const [x0, low0] = [before.at(-2) ?? 0, before.at(-1) ?? y0];
  const [x1, low1] = [after[0] ?? x0, after[1] ?? y0];
  if (x1 - x0 < 1) return [];
  const base = Math.max(low0, low1) + BAND_PX;
  // The top stays below the words of the scale.
  const head = y0 - 9;
  reserve(sheet, uprightBox({ x: x0, y: head, width: x1 - x0, height: base - head }));
  return [
    hatchMark([[x0, head, x1, head, x1, base, x0, base]], 'cut'),
    lineMark([x0, base, x0, head, x1, head, x1, base], { pen: 'seen' }),
  ];
}

/** The line's y at x, interpolated between its points. */
export function heightAt(xy: readonly number[], x: number): number {
  if (x <= (xy[0] ?? 0)) return xy[1] ?? 0;
  let low = 0;
  let high = xy.length / 2 - 1;
  if (x >= (xy[2 * high] ?? 0)) return xy[2 * high + 1] ?? 0;
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if ((xy[2 * mid] ?? 0) <= x) low = mid;
    else high = mid;
  }
  const ax = xy[2 * low] ?? 0;
  const bx = xy[2 * high] ?? 0;
  const t = bx === ax ? 0 : (x - ax) / (bx - ax);
  return (xy[2 * low + 1] ?? 0) * (1 - t) + (xy[2 * high + 1] ?? 0) * t;
}

/** Stretches where the existing floor is higher than the floor after grinding. */
function humps(existing: readonly number[], ground: readonly number[]): { over: number[]; under: number[] }[] {
  const out: { over: number[]; under: number[] }[] = [];
  let hump: { over: number[]; under: number[] } | null = null;
  for (let i = 0; i + 1 < existing.length; i += 2) {
    const x = existing[i] ?? 0;
    const isUp = (existing[i + 1] ?? 0) < (ground[i + 1] ?? 0) - 1e-6;
    const px = existing[i - 2] ?? x;
    if (isUp) {
      if (!hump) {
        hump = { over: i > 0 ? [px, existing[i - 1] ?? 0] : [], under: i > 0 ? [px, ground[i - 1] ?? 0] : [] };
        out.push(hump);
      }
      hump.over.push(x, existing[i + 1] ?? 0);
      hump.under.push(x, ground[i + 1] ?? 0);
    } else if (hump) {
      hump.over.push(x, existing[i + 1] ?? 0);
      hump.under.push(x, ground[i + 1] ?? 0);
      hump = null;
    }
  }
  return out;
}

/** A stretch of old floor below a line, hatched along its cut edge; for small pictures. */
export function cutEdge(xy: readonly number[], bandPx: number): Mark[] {
  return [hatchMark([[...xy, ...reversed(xy.map((v, i) => (i % 2 === 1 ? v + bandPx : v)))]], 'cut'), lineMark(xy, { pen: 'seen' })];
}
