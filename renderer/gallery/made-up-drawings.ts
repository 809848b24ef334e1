import type { Point } from '../../shared-core/book/fields.ts';
import { floorField } from '../../shared-core/drawing/floor-field.ts';
import { boxMark, groupMark, hatchMark, lineMark, pathMark, ringMark, stippleMark, textMark } from '../../shared-core/drawing/ink.ts';
import type { Drawing, Mark } from '../../shared-core/drawing/marks.ts';
import { planDrawing } from '../../shared-core/drawing/plan.ts';
import { pointer } from '../../shared-core/drawing/shapes.ts';
import { SERIF_ITALIC } from '../../shared-core/drawing/type-metrics.ts';
import { stippleDots } from '../../shared-core/drawing/stipple.ts';
import { formatParts } from '../../shared-core/measure/fraction.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';

const HALL: readonly Point[] = [
  { xM: 0, yM: 0 },
  { xM: 1.98, yM: 0 },
  { xM: 1.98, yM: 2.44 },
  { xM: 6.25, yM: 2.44 },
  { xM: 6.25, yM: 4.17 },
  { xM: 0, yM: 4.17 },
];

const SPOTS: readonly (readonly [number, number])[] = [
  [0.2, 0.3],
  [1.7, 0.3],
  [0.2, 1.2],
  [1.6, 1.2],
  [0.3, 2.3],
  [1.2, 3.1],
  [0.3, 3.8],
  [2.4, 2.8],
  [2.4, 3.8],
  [4.2, 2.9],
  [4.2, 3.8],
  [5.9, 2.8],
  [5.9, 3.9],
];

function heightAt(xM: number, yM: number): number {
  const hollow = -0.034 * Math.exp(-((xM - 0.9) ** 2 + (yM - 3.2) ** 2) / 1.6);
  const hump = 0.022 * Math.exp(-((xM - 2.9) ** 2 + (yM - 3.2) ** 2) / 0.5);
  return -0.012 + hollow + hump + 0.001 * xM;
}

/** An invented hall with readings that can be pressed. */
export function madeUpPlan(room: { readonly widthPx: number; readonly heightPx: number; readonly small: boolean }): Drawing {
  return planDrawing({
    plan: { outline: HALL.map((p) => ({ ...p })), holes: [], openings: [] },
    widthPx: room.widthPx,
    heightPx: room.heightPx,
    shows: 'depth',
    lengthText: (lengthM) => formatLength(lengthM, 'us'),
    spots: SPOTS.map(([xM, yM], i) => ({
      id: String(i),
      xM,
      yM,
      text: sixteenths(-heightAt(xM, yM)),
      label: `reading ${i + 1}: ${sixteenths(-heightAt(xM, yM))} inches deep`,
    })),
    isSparse: room.small,
    floor: floorField(HALL, heightAt),
    newFloor: 0,
    contours: { everyM: 0.00635, heavyEveryM: 0.0254, text: sixteenths },
    hasDimensions: !room.small,
    hasKey: true,
    scale: { lengthM: 1.524, text: '5 ft' },
  });
}

function sixteenths(depthM: number): string {
  return formatParts(Math.max(0, Math.round((depthM / 0.0254) * 16)), 16);
}

export function madeUpKeyPlan(): Drawing {
  const hall = [2, 2, 42, 2, 42, 48, 124, 48, 124, 84, 2, 84];
  return {
    width: 130,
    height: 88,
    marks: [
      groupMark('room:hall', 'Dining hall', [hatchMark([hall], 'wall'), ringMark(hall, { pen: 'cut' })]),
      groupMark('room:scullery', 'Scullery', [boxMark({ x: 47, y: 2, width: 38, height: 42 }, { pen: 'thin' })]),
      groupMark('room:porch', 'Porch', [boxMark({ x: 89, y: 14, width: 35, height: 30 }, { pen: 'thin' })]),
    ],
  };
}

/** An invented section with its datum. */
export function madeUpSection(widthPx: number): Drawing {
  const small = widthPx < 800;
  const line = small ? 34 : 40;
  const from = small ? 18 : 164;
  const to = small ? widthPx - 18 : widthPx - 122;
  const floor: number[] = [];
  for (let i = 0; i <= 60; i += 1) {
    const x = from + ((to - from) * i) / 60;
    floor.push(x, line + 6 + (small ? 14 : 26) * (1 - Math.cos((i / 60) * Math.PI * 4)) * Math.exp(-i / 50) * 0.9);
  }
  const under = [...floor, to, line + 62, from, line + 62];
  const fill = [from, line, ...floor, to, line];
  const ticks: Mark[] = [];
  for (let foot = 0; foot <= 28; foot += 1) {
    const x = from + ((to - from) * foot) / 28;
    ticks.push(lineMark([x, line, x, line - (foot % 5 === 0 ? 9 : 5)], { pen: 'thin' }));
    if (foot % 5 === 0 && foot > 0) ticks.push(textMark(x, line - 14, foot === 5 ? '5 ft' : String(foot), { anchor: 'middle' }));
  }
  return {
    width: widthPx,
    height: small ? 86 : 112,
    marks: [
      hatchMark([under], 'cut'),
      pathMark([[from, line + 62, to, line + 62, to, line + 46, from, line + 46]], true, { pen: null, fill: null }),
      stippleMark(stippleDots({ rings: [fill], gapAt: () => 4.4 })),
      lineMark(floor, { pen: 'seen' }),
      lineMark([0, line, widthPx, line], { pen: 'datum' }),
      ...ticks,
      ...(small ? [] : [...pointer(48, line), textMark(64, line - 8, 'new floor', { face: SERIF_ITALIC, ink: 'ink2', sizePx: 17 })]),
    ],
  };
}
