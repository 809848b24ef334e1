/** Title, key of the depths and scale bar, placed in the largest empty corner of the drawing without a panel. */
import { boxRing, type Box } from './ring-clip.ts';
import { boxMark, groupMark, hatchMark, lineMark, ringMark, stippleMark, textMark } from './ink.ts';
import type { Mark } from './marks.ts';
import { bandCount, type ContourSteps, tintOfBand } from './plan-floor.ts';
import type { PlanInput } from './plan-input.ts';
import type { PlanFit } from './plan-walls.ts';
import { scaleBar } from './shapes.ts';
import { gapForDepthPx, stippleDots } from './stipple.ts';
import { fitText, SERIF, textWidthPx, wrapText } from './type-metrics.ts';

type KeyInput = Pick<PlanInput, 'shows' | 'title' | 'hasKey' | 'corner' | 'contours' | 'scale' | 'grindNote'>;

const TITLE_PX = 62;
const BANDS_PX = 62;
const SCALE_PX = 46;
/** The hatch with its words on one line, and on two as in a narrow key, because a narrow plan has no room for a leader. */
export const HATCH_PX = 26;
const HATCH_LONG_PX = 44;
/** Width of the hatched box before the words, px. */
const SWATCH_PX = 30;

/** Width of a key beside a narrow plan. */
export const NARROW_KEY_PX = 132;

/** Minimum distance between two depths written below the key. */
const LABELS_APART_PX = 36;

/** From this width on, the scale bar is beside the depths instead of below them. */
const BESIDE_PX = 480;

/** Height the corner needs at this width. */
export function keyHeightPx(input: KeyInput, widthPx: number): number {
  const isBeside = hasBands(input) && widthPx >= BESIDE_PX;
  return (
    (input.corner?.heightPx ?? 0) +
    (input.title ? TITLE_PX : 0) +
    (hasBands(input) ? BANDS_PX : 0) +
    (input.scale && !isBeside ? SCALE_PX : 0) +
    (hasBands(input) && input.grindNote !== undefined && widthPx <= NARROW_KEY_PX ? HATCH_LONG_PX : 0) +
    8
  );
}

function hasBands(input: KeyInput): boolean {
  return input.hasKey === true && input.shows === 'depth' && input.contours !== undefined;
}

/**
 * Title, key and scale bar as marks in their corner.
 * @param hatched what the cross-hatch means, where no leader says it; null where one does
 */
export function planKey(input: KeyInput, box: Box, fit: PlanFit, deepestM: number | null, hatched: string | null): Mark[] {
  const marks: Mark[] = [];
  let y = box.y + (input.corner?.heightPx ?? 0);
  if (input.title) {
    marks.push(textMark(box.x, y + 24, fitText(input.title.text, box.width, 26, SERIF), { face: SERIF, sizePx: 26 }));
    const lines = wrapText(input.title.caption, box.width, 15);
    lines.slice(0, 2).forEach((line, i) => marks.push(textMark(box.x, y + 48 + i * 19, line)));
    y += TITLE_PX + (lines.length > 1 ? 19 : 0);
  }
  const barPx = (input.scale?.lengthM ?? 0) * fit.pxPerM;
  const hasBar = barPx > 24 && barPx + 7 + textWidthPx(input.scale?.text ?? '', 15) / 2 <= box.width;
  let barX = box.x + 5;
  if (hasBands(input) && input.contours && deepestM !== null && deepestM > 0) {
    const isBeside = hasBar && box.width >= BESIDE_PX;
    const width = Math.min(box.width - 24 - (isBeside ? barPx + 64 : 0), 470);
    marks.push(...depthKey(input.contours, deepestM, { x: box.x + 1, y: y + 4, width, height: 26 }));
    if (isBeside) barX += width + 40;
    else y += BANDS_PX;
  }
  if (input.scale && hasBar) {
    marks.push(...scaleBar(barX, y + 10, barPx, input.scale.text));
    if (barX === box.x + 5) y += SCALE_PX;
  }
  return hatched === null ? marks : [...marks, ...hatchKey(hatched, { ...box, y: y + 4, height: box.y + box.height - y - 4 })];
}

/** A hatched box and what it means: all the words, those before the colon, or nothing, as they fit. */
function hatchKey(words: string, box: Box): Mark[] {
  const widthPx = box.width - SWATCH_PX - 8;
  const lines = [words, words.split(':')[0] ?? words]
    .map((text) => wrapText(text, widthPx, 15))
    .find((all) => all.length * 19 <= box.height && all.every((line) => textWidthPx(line, 15) <= widthPx));
  if (lines === undefined) return [];
  const ring = boxRing({ x: box.x + 1, y: box.y, width: SWATCH_PX, height: 18 });
  return [
    groupMark('key-hatch', words, [
      hatchMark([ring], 'grind'),
      ringMark(ring, { pen: 'thin', dash: 'ground-off' }),
      ...lines.map((line, i) => textMark(box.x + SWATCH_PX + 8, box.y + 14 + i * 19, line)),
    ]),
  ];
}

/** The depths from zero to the maximum: each band with its tint and dots, and values where bands meet. */
export function depthKey(steps: ContourSteps, deepestM: number, box: Box): Mark[] {
  const bands = bandCount(deepestM, steps.everyM);
  const top = bands * steps.everyM;
  const band = box.width / bands;
  const marks: Mark[] = [];
  for (let k = 0; k < bands; k += 1) {
    marks.push(boxMark({ x: box.x + k * band, y: box.y, width: band, height: box.height }, { pen: null, fill: tintOfBand(k, bands) }));
  }
  marks.push(
    stippleMark(stippleDots({ rings: [boxRing(box)], gapAt: (x) => gapForDepthPx((Math.floor((x - box.x) / band) + 0.5) * steps.everyM) })),
  );
  // The maximum depth is always labeled; the others only where there is room.
  const apartPx = Math.max(
    LABELS_APART_PX,
    ...Array.from({ length: bands + 1 }, (_, k) => textWidthPx(steps.text(k * steps.everyM), 15) + 6),
  );
  let lastLabel = -Infinity;
  for (let k = 0; k <= bands; k += 1) {
    const x = box.x + k * band;
    const value = k * steps.everyM;
    const isHeavy = k > 0 && Math.abs(value / steps.heavyEveryM - Math.round(value / steps.heavyEveryM)) < 1e-6;
    if (k > 0 && k < bands) marks.push(lineMark([x, box.y, x, box.y + box.height], { pen: isHeavy ? 'seen' : 'witness' }));
    if (k === bands || (x - lastLabel >= apartPx && box.x + box.width - x >= apartPx)) {
      marks.push(textMark(x, box.y + box.height + 18, steps.text(value), { anchor: 'middle' }));
      lastLabel = x;
    }
  }
  marks.push(boxMark(box, { pen: 'thin' }));
  return [groupMark('key', `Pour depth from 0 to ${steps.text(top)}: denser dots, deeper pour`, marks)];
}
