/** The floor assembly in section: layers below the level, each with its hatch, with thicknesses adjusted to be legible. */
import { datumMarks, lengthTicks, type Scale } from './datum.ts';
import { boxMark, groupMark, hatchMark, lineMark, pathMark, ringMark } from './ink.ts';
import { isApart, isLeaderFree, reserve, reserveLeader, startSheet, uprightBox, type LabelSheet } from './labels.ts';
import { placeText } from './lettering.ts';
import type { Drawing, Hatch, Mark } from './marks.ts';
import { pointer, slash } from './shapes.ts';
import { fitText, SANS, SANS_BOLD, SERIF_ITALIC, textWidthPx } from './type-metrics.ts';
import { heightAt, LEADER_CLEAR_PX, type SectionFrame } from './section.ts';

/** A layer of the floor assembly, listed from the top down. */
export interface SectionLayer {
  readonly id: string;
  readonly words: string;
  /** How the layer is drawn: `adhesive` a solid black line, `membrane` a long dash, `joists` framing crossed with loops between. */
  readonly look: Hatch | 'adhesive' | 'membrane' | 'joists' | 'plain';
  /** Null for unknown: drawn at the minimum legible thickness. */
  readonly thicknessM: number | null;
  readonly isHeld: boolean;
  readonly isRemoved: boolean;
}

/** A part of the floor along the cut with the same floor assembly. */
export interface LayerPart {
  readonly fromM: number;
  readonly toM: number;
  readonly layers: readonly SectionLayer[];
}

/** A test's place: the depth below the surface where it was made, null for the surface. */
export interface SectionProbe {
  readonly id: string;
  readonly alongM: number;
  readonly layerIndex: number;
  readonly label: string;
}

/** Input of `layersSection`; sizes in px unless named otherwise. */
export interface LayersInput extends SectionFrame {
  readonly lengthM: number;
  readonly units: 'us' | 'metric';
  readonly parts: readonly LayerPart[];
  /** The surface below the level, in meters, by distance along the cut; at least two points. */
  readonly surface: readonly { readonly alongM: number; readonly belowM: number }[];
  /** Depths labeled at the level. */
  readonly depths: readonly { readonly alongM: number; readonly text: string }[];
  readonly probes: readonly SectionProbe[];
  readonly lineWords: string;
  /** Top of the leader list; its lines are 23 px apart. */
  readonly listY: number;
  /** y at which the probes' lines end. */
  readonly probeToY: number;
}

/** Drawn thickness: thin layers grow to be visible, thick ones shrink to leave room. From 5 to 84 px. */
export function readThicknessPx(thicknessM: number | null, look: SectionLayer['look']): number {
  if (look === 'membrane') return 4;
  if (look === 'adhesive') return 6;
  if (look === 'joists') return 100;
  if (thicknessM === null) return 9;
  return Math.max(5, Math.min(84, 9 + 300 * Math.min(thicknessM, 0.03) + 560 * Math.max(0, Math.min(thicknessM, 0.2) - 0.03)));
}

/** Draws the section as marks. A layer on hold has a bar before its words in the list. */
export function layersSection(input: LayersInput): Drawing {
  const scale: Scale = { from: 0, to: input.lengthM, x0: input.x0, x1: input.x1, isLog: false };
  const pxPerM = (input.x1 - input.x0) / input.lengthM;
  const toX = (m: number): number => input.x0 + m * pxPerM;
  const deepestM = Math.max(0.004, ...input.surface.map((s) => s.belowM));
  const yPxPerM = Math.min(46 / deepestM, 1600);
  const gap = 10;
  const surface: number[] = [];
  for (let k = 0; k <= 80; k += 1) {
    const m = (input.lengthM * k) / 80;
    surface.push(toX(m), input.datumY + gap + belowAt(input.surface, m) * yPxPerM);
  }
  const marks: Mark[] = [];
  const sheet = startSheet({ x: 0, y: 0, width: input.widthPx, height: input.heightPx });
  sheet.lines.push(surface, [0, input.datumY, input.widthPx, input.datumY]);
  const top = (x: number): number => heightAt(surface, x);
  const probes = input.probes.flatMap((probe) => probeLine(probe, input, { x: toX(probe.alongM), topAt: top }));
  for (const { line } of probes) reserveLeader(sheet, line);
  let maxDepthPx = 0;
  for (const [p, part] of input.parts.entries()) {
    const a = toX(part.fromM);
    const b = toX(part.toM);
    let down = 0;
    const names = fittingThicknesses(part.layers, input.heightPx - input.datumY - 70);
    part.layers.forEach((layer, i) => {
      const t = names[i] ?? 6;
      const from = down;
      down += t;
      marks.push(groupMark(`layer:${p}:${layer.id}`, layer.words, layerMarks(layer, { a, b, topAt: (x) => top(x) + from, t }, i === 0)));
    });
    maxDepthPx = Math.max(maxDepthPx, down);
    marks.push(...leaderList(input, part, { a, b }, { topAt: top, thicknessesPx: names, sheet }));
  }
  // Walls at both ends, with break lines above.
  for (const [x, dir] of [
    [input.x0, -1],
    [input.x1, 1],
  ] as const) {
    const breakX = x + dir * 15;
    const y0 = input.datumY - 58;
    const y1 = top(x) + maxDepthPx + 6;
    const l = Math.min(x, breakX);
    const r = Math.max(x, breakX);
    reserve(sheet, uprightBox({ x: l - 5, y: y0 - 5, width: r - l + 10, height: y1 - y0 + 5 }));
    marks.push(
      hatchMark([[l, y0, r, y0, r, y1, l, y1]], 'wall'),
      lineMark([x, y0, x, y1], { pen: 'seen' }),
      lineMark([breakX, y0, breakX, y1], { pen: 'thin' }),
    );
    const m = (l + r) / 2;
    marks.push(lineMark([l - 5, y0, m - 4, y0, m - 1, y0 - 5, m + 2, y0 + 5, m + 4, y0, r + 5, y0], { pen: 'thin' }));
  }
  input.parts.slice(1).forEach((part) => {
    const x = toX(part.fromM);
    const ring = [x - 3, top(x) + 14, x + 3, top(x) + 14, x + 3, top(x) + maxDepthPx, x - 3, top(x) + maxDepthPx];
    marks.push(hatchMark([ring], 'wall', 'ink'), ringMark(ring, { pen: 'thin', fill: null }));
  });
  marks.push(lineMark(surface, { pen: 'cut' }));
  for (const d of input.depths) {
    const x = toX(d.alongM);
    const y = top(x);
    const line = [x, input.datumY - 16, x, y];
    const textY = y - input.datumY > 26 ? (input.datumY + y) / 2 + 6 : input.datumY - 12;
    const words = isLeaderFree(sheet, line, LEADER_CLEAR_PX)
      ? placeText(sheet, [
          { x: x + 7, y: textY, text: d.text },
          { x: x - 7, y: textY, text: d.text, anchor: 'end' },
        ])
      : null;
    if (words === null) continue;
    reserveLeader(sheet, line);
    marks.push(lineMark(line, { pen: 'thin' }), slash(x, input.datumY, 8), slash(x, y, 8), words);
  }
  marks.push(...probes.map(({ mark }) => mark));
  const width = textWidthPx(input.lineWords, 16, SERIF_ITALIC);
  const lineWords = placeText(sheet, [
    { x: Math.max(24, input.x0 - width - 30), y: input.datumY - 9, text: input.lineWords, face: SERIF_ITALIC, sizePx: 16, ink: 'ink2' },
  ]);
  if (lineWords !== null) marks.push(...pointer(lineWords.x - 14, input.datumY, 15), lineWords);
  const ticks = lengthTicks(input.lengthM, pxPerM, input.units);
  marks.push(...datumMarks({ y: input.datumY, fromX: 0, toX: input.widthPx, scale, ticks }, sheet));
  return { width: input.widthPx, height: input.heightPx, marks };
}

/** A test's line down to its words, from the layer where it was made; none outside the parts. */
function probeLine(
  probe: SectionProbe,
  input: LayersInput,
  { x, topAt }: { readonly x: number; readonly topAt: (x: number) => number },
): { readonly line: number[]; readonly mark: Mark }[] {
  const part = input.parts.find((p) => probe.alongM >= p.fromM && probe.alongM <= p.toM);
  if (!part) return [];
  const t = fittingThicknesses(part.layers, input.heightPx - input.datumY - 70);
  const above = t.slice(0, Math.max(0, probe.layerIndex)).reduce((p, q) => p + q, 0);
  const y = topAt(x) + above + Math.min(20, (t[probe.layerIndex] ?? 8) / 2);
  const line = [x, y, x, input.probeToY];
  const marks = [lineMark(line, { pen: 'thin' }), ringMark(ringOf(x, y, 4.5), { pen: 'seen', fill: 'paper' })];
  return [{ line, mark: groupMark(`test:${probe.id}`, probe.label, marks) }];
}

function fittingThicknesses(layers: readonly SectionLayer[], roomPx: number): number[] {
  const thicknesses = layers.map((l) => readThicknessPx(l.thicknessM, l.look));
  const sum = thicknesses.reduce((a, b) => a + b, 0);
  return sum <= roomPx ? thicknesses : thicknesses.map((t) => Math.max(4, (t * roomPx) / sum));
}

function belowAt(surface: LayersInput['surface'], m: number): number {
  const sorted = surface;
  const first = sorted[0];
  if (!first) return 0.01;
  if (m <= first.alongM) return first.belowM;
  for (let i = 1; i < sorted.length; i += 1) {
    const p = sorted[i - 1];
    const q = sorted[i];
    if (p && q && m <= q.alongM) {
      const t = q.alongM === p.alongM ? 0 : (m - p.alongM) / (q.alongM - p.alongM);
      // Eased, so that the surface looks like a floor and not like a graph.
      const s = t * t * (3 - 2 * t);
      return p.belowM * (1 - s) + q.belowM * s;
    }
  }
  return sorted[sorted.length - 1]?.belowM ?? first.belowM;
}

/** A layer as drawn: from `a` to `b`, its upper edge, and its thickness. */
type DrawnLayer = {
  readonly a: number;
  readonly b: number;
  readonly topAt: (x: number) => number;
  readonly t: number;
};

function layerMarks(layer: SectionLayer, { a, b, topAt, t }: DrawnLayer, isTop: boolean): Mark[] {
  const upper: number[] = [];
  const n = Math.max(2, Math.ceil((b - a) / 12));
  for (let k = 0; k <= n; k += 1) upper.push(a + ((b - a) * k) / n, topAt(a + ((b - a) * k) / n));
  const lower: number[] = [];
  for (let i = upper.length - 2; i >= 0; i -= 2) lower.push(upper[i] ?? 0, (upper[i + 1] ?? 0) + t);
  const ring = [...upper, ...lower];
  const under = [...lower];
  if (layer.look === 'adhesive') return [ringMark(ring, { pen: null, fill: 'ink' })];
  if (layer.look === 'membrane')
    return [
      lineMark(
        upper.map((v, i) => (i % 2 === 1 ? v + t / 2 : v)),
        { pen: 'cut', dash: 'membrane' },
      ),
    ];
  if (layer.look === 'joists') return joists(a, b, topAt, t);
  const marks: Mark[] = [];
  if (layer.look !== 'plain') marks.push(hatchMark([ring], layer.look));
  // Earth has no lower edge.
  if (layer.look === 'earth') return marks;
  return [...marks, lineMark(under, { pen: 'thin', dash: layer.isRemoved && !isTop ? 'ground-off' : null })];
}

function joists(a: number, b: number, topAt: (x: number) => number, t: number): Mark[] {
  const marks: Mark[] = [];
  const width = 14;
  const count = Math.max(2, Math.round((b - a) / 52));
  const pitch = (b - a - width - 6) / (count - 1);
  for (let k = 0; k < count; k += 1) {
    const x = a + 3 + k * pitch;
    const y = topAt(x + width / 2);
    const ring = [x, y, x + width, y, x + width, y + t, x, y + t];
    marks.push(hatchMark([ring], 'framing', 'ink'), ringMark(ring, { pen: 'seen' }));
  }
  return marks;
}

/** A list with less width than this is left out with its leaders: so few words say nothing. */
const SHORTEST_LIST_PX = 60;

/** The layers' names in a list above, with leaders to each layer. */
function leaderList(
  input: LayersInput,
  part: LayerPart,
  { a, b }: { readonly a: number; readonly b: number },
  {
    topAt,
    thicknessesPx,
    sheet,
  }: { readonly topAt: (x: number) => number; readonly thicknessesPx: readonly number[]; readonly sheet: LabelSheet },
): Mark[] {
  const trunkAt = (x: number): number[] => [x, input.listY - 5, x, input.heightPx];
  const first = a + Math.min(44, (b - a) * 0.15);
  const x = [0, 12, 24, 36, 48].map((aside) => first + aside).find((at) => isApart(sheet, trunkAt(at), LEADER_CLEAR_PX)) ?? first;
  const layers = part.layers.slice(0, 8);
  const width = b - x - 30;
  if (layers.length === 0 || width < SHORTEST_LIST_PX) return [];
  let down = 0;
  const dots = layers.map((_, i): [number, number] => {
    const t = thicknessesPx[i] ?? 6;
    down += t;
    return [x, topAt(x) + down - t + Math.min(t / 2, 26)];
  });
  const yOf = (i: number): number => input.listY + i * 23;
  const rings = layers.map((_, i) => [x, yOf(i) - 5, x + 12, yOf(i) - 5]);
  const trunk = [x, input.listY - 5, x, dots.at(-1)?.[1] ?? input.datumY];
  reserveLeader(sheet, trunk);
  const marks: Mark[] = [pathMark([trunk, ...rings], false, { pen: 'thin' })];
  layers.forEach((layer, i) => {
    const y = yOf(i);
    const face = layer.isHeld ? SANS_BOLD : SANS;
    const indent = layer.isHeld ? 43 : 18;
    if (layer.isHeld) marks.push(boxMark({ x: x + 18, y: y - 8, width: 18, height: 6 }, { pen: null, fill: 'ink' }));
    const words = placeText(sheet, [{ x: x + indent, y, text: fitText(layer.words, width - indent + 18, 15, face), face }]);
    if (words !== null) marks.push(words);
  });
  marks.push(...dots.map(([dx, dy]) => ringMark(ringOf(dx, dy, 3.2), { pen: 'thin', ink: 'paper', fill: 'ink' })));
  return [groupMark('layers', '', marks)];
}

function ringOf(x: number, y: number, r: number): number[] {
  const out: number[] = [];
  for (let k = 0; k < 14; k += 1) out.push(x + r * Math.cos((2 * Math.PI * k) / 14), y + r * Math.sin((2 * Math.PI * k) / 14));
  return out;
}
