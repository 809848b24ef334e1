import { boxMark, groupMark, hatchMark, lineMark, pathMark, ringMark, stippleMark, textMark } from '../../shared-core/drawing/ink.ts';
import type { Drawing, Mark } from '../../shared-core/drawing/marks.ts';
import { dimension, pointer, scaleBar } from '../../shared-core/drawing/shapes.ts';
import { SERIF_ITALIC } from '../../shared-core/drawing/type-metrics.ts';
import { stippleDots } from '../../shared-core/drawing/stipple.ts';

const ROOM = [94, 60, 308, 60, 308, 324, 770, 324, 770, 510, 94, 510];
const WALL = [81, 47, 321, 47, 321, 311, 783, 311, 783, 523, 81, 523];

/** An invented hall: its outline, the fill over it, and readings one can press. */
export function madeUpPlan(): Drawing {
  const readings: readonly (readonly [number, number, string])[] = [
    [120, 100, '¹³⁄₁₆'],
    [240, 100, '⅝'],
    [120, 200, '⅞'],
    [230, 200, '¾'],
    [130, 330, '1¹⁄₁₆'],
    [210, 420, '1½'],
    [350, 440, '¾'],
    [520, 400, '⅜'],
    [640, 470, '¹³⁄₁₆'],
    [720, 370, '¼'],
  ];
  const spots: Mark[] = readings.map(([x, y, text], i) =>
    groupMark(`reading:${i}`, `reading ${i + 1}: ${text} inches deep`, [
      lineMark([x - 5, y, x + 5, y], { pen: 'thin' }),
      lineMark([x, y - 5, x, y + 5], { pen: 'thin' }),
      textMark(x + 9, y + 5, text, { sizePx: 16, clear: 'd1' }),
    ]),
  );
  return {
    width: 870,
    height: 590,
    marks: [
      hatchMark([WALL, ROOM], 'wall'),
      ringMark(WALL, { pen: 'thin' }),
      ringMark(ROOM, { pen: 'cut', fill: 'd1' }),
      stippleMark(stippleDots({ rings: [ROOM], gapAt: (x: number) => 3.6 + x / 180 })),
      hatchMark([[440, 360, 520, 380, 510, 450, 440, 470, 400, 420]], 'grind', 'ink2'),
      pathMark([[440, 360, 520, 380, 510, 450, 440, 470, 400, 420]], true, { pen: 'thin', dash: 'ground-off' }),
      ...dimension(94, 560, 770, 560, '20′ 6″'),
      ...dimension(54, 510, 54, 60, '13′ 8″'),
      ...scaleBar(600, 240, 150, '5 ft'),
      ...spots,
    ],
  };
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

/** An invented section with the datum in it. */
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
      ...(small
        ? []
        : [...pointer(48, line), textMark(64, line - 8, 'new floor', { face: SERIF_ITALIC, ink: 'ink2', sizePx: 17 })]),
    ],
  };
}
