/** Places batch numbers: at the roomiest point of a stretch of floor, turned or moved where it is narrow, or beside the room with a leader where it is too small. */
import { boundsOf, distanceToEdge, isInside, type Rings } from './ring-clip.ts';
import { groupMark, textMark, type Setting } from './ink.ts';
import { boxCorners, isFree, uprightBox, type LabelSheet, type TurnedBox } from './labels.ts';
import { placeBeside } from './lettering.ts';
import type { Mark } from './marks.ts';
import { coverBoxes } from './plan-walls.ts';
import { roomiestPoint } from './region-reaching.ts';
import { RISE, textWidthPx } from './type-metrics.ts';

interface PlacedNumber {
  readonly x: number;
  readonly y: number;
  readonly turnDeg: number;
  readonly box: TurnedBox;
}

/** Distance between figures and a line, px: enough that a heavy wall does not touch them. */
const CLEAR_PX = 2;
const STEPS = 12;

/** The box of figures around their center. Figures have no descenders, so it is shorter than a line of text. */
function figureBox(x: number, y: number, text: string, setting: Setting & { readonly sizePx: number }, turnDeg: number): TurnedBox {
  return {
    x,
    y,
    halfWidth: textWidthPx(text, setting.sizePx, setting.face) / 2 + CLEAR_PX,
    halfHeight: (RISE * setting.sizePx) / 2 + CLEAR_PX,
    turn: (turnDeg * Math.PI) / 180,
  };
}

/** True when the whole box, edges included, is inside the area. */
function isWhollyIn(box: TurnedBox, rings: Rings): boolean {
  const corners = boxCorners(box);
  if (!isInside(box.x, box.y, rings)) return false;
  // Most boxes that do not fit have a corner outside.
  for (let i = 0; i < 8; i += 2) if (!isInside(corners[i] ?? 0, corners[i + 1] ?? 0, rings)) return false;
  for (let i = 0; i < 8; i += 2) {
    const ax = corners[i] ?? 0;
    const ay = corners[i + 1] ?? 0;
    const bx = corners[(i + 2) % 8] ?? 0;
    const by = corners[(i + 3) % 8] ?? 0;
    const steps = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / 3));
    for (let k = 1; k < steps; k += 1) if (!isInside(ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps, rings)) return false;
  }
  return true;
}

const baseline = (x: number, y: number, sizePx: number, turnDeg: number): { x: number; y: number } => {
  const down = (RISE * sizePx) / 2;
  return turnDeg === 0 ? { x, y: y + down } : { x: x + down, y };
};

/** A place for a number in its stretch: upright first, roomiest first; null where it fits nowhere. */
export function placeWithin(
  ring: readonly number[],
  text: string,
  setting: Setting & { readonly sizePx: number },
  room: Rings,
  sheet: LabelSheet,
): PlacedNumber | null {
  const b = boundsOf([ring]);
  const places: { x: number; y: number; clear: number }[] = [];
  for (let j = 0; j <= STEPS; j += 1)
    for (let i = 0; i <= STEPS; i += 1) {
      const x = b.x + (b.width * i) / STEPS;
      const y = b.y + (b.height * j) / STEPS;
      if (!isInside(x, y, [ring]) || !isInside(x, y, room)) continue;
      // The distance to the center breaks ties between equally roomy places, so that the result is always the same.
      places.push({ x, y, clear: distanceToEdge(x, y, [ring]) - 1e-4 * Math.hypot(x - b.x - b.width / 2, y - b.y - b.height / 2) });
    }
  places.unshift(roomiestPoint([ring], (x, y) => isInside(x, y, [ring]) && isInside(x, y, room), 16));
  places.sort((p, q) => q.clear - p.clear);
  for (const turnDeg of [0, -90])
    for (const { x, y } of places) {
      const box = figureBox(x, y, text, setting, turnDeg);
      if (!isWhollyIn(box, [ring]) || !room.slice(1).every((hole) => !isOver(box, hole)) || !isFree(sheet, box)) continue;
      return { ...baseline(x, y, setting.sizePx, turnDeg), turnDeg, box };
    }
  return null;
}

/** True when a box and a hole overlap. */
function isOver(box: TurnedBox, hole: readonly number[]): boolean {
  const corners = boxCorners(box);
  for (let i = 0; i < 8; i += 2) if (isInside(corners[i] ?? 0, corners[i + 1] ?? 0, [hole])) return true;
  for (let i = 0; i + 1 < hole.length; i += 2) if (isInside(hole[i] ?? 0, hole[i + 1] ?? 0, [corners])) return true;
  return false;
}

/** A number beside the room, with a leader that ends in a dot on its stretch; nothing where the drawing has no room for it. */
export function numberBeside(
  ring: readonly number[],
  text: string,
  setting: Setting & { readonly sizePx: number },
  room: Rings,
  sheet: LabelSheet,
): Mark[] {
  const spot = roomiestPoint([ring], (x, y) => isInside(x, y, [ring]) && isInside(x, y, room), 16);
  const walls = coverBoxes([room[0] ?? []], 14).map((cover) => uprightBox(cover));
  const open: LabelSheet = { ...sheet, taken: [...sheet.taken, ...walls] };
  const best = placeBeside(sheet, spot, (x, y) => figureBox(x, y, text, setting, 0), open);
  if (best === null) return [];
  const position = baseline(best.box.x, best.box.y, setting.sizePx, 0);
  return [
    groupMark(`beside:${text}`, `batch ${text}`, [
      ...best.leader,
      textMark(position.x, position.y, text, { ...setting, anchor: 'middle' }),
    ]),
  ];
}
