/** Text widths from the advance widths of the bundled faces, so that labels can be placed without a browser. */
import { shapedFractions } from './drawn-fraction.ts';
import { withNoBreaks } from './no-breaks.ts';
import { FACE_WIDTHS, WIDTH_GLYPHS } from './type-widths.ts';

/** A weight and style of one of the two families, as a text mark names it. */
export interface Face {
  readonly family: 'sans' | 'serif';
  readonly weight: 300 | 400 | 600 | 700;
  readonly italic: boolean;
}

/** Default face for measurements. */
export const SANS: Face = { family: 'sans', weight: 400, italic: false };
/** Face for names and for set values. */
export const SANS_BOLD: Face = { family: 'sans', weight: 600, italic: false };
/** Face for sentences. */
export const SERIF: Face = { family: 'serif', weight: 400, italic: false };
/** Face for captions. */
export const SERIF_ITALIC: Face = { family: 'serif', weight: 400, italic: true };

/** Height above the baseline, as a share of the font size (figures and capitals, with a little air). */
export const RISE = 0.72;
/** Depth below the baseline, as a share of the font size. */
export const FALL = 0.21;

interface FaceTable {
  readonly widths: ReadonlyMap<string, number>;
  /** Widths already measured, in ems: dragging the finish elevation measures the same texts again and again. */
  readonly known: Map<string, number>;
}

const tables = new Map<string, FaceTable>();

function widthsOf(face: Face): FaceTable {
  const weights = face.family === 'sans' ? [face.weight === 300 ? 400 : face.weight] : [face.weight === 700 ? 600 : face.weight];
  const name = `${face.family}-${String(weights[0])}${face.italic ? '-italic' : ''}`;
  const known = tables.get(name);
  if (known) return known;
  // If an italic face is not bundled, use the upright widths; the two differ by at most 2%.
  const row = FACE_WIDTHS[name] ?? FACE_WIDTHS[name.replace('-italic', '')] ?? FACE_WIDTHS['sans-400'] ?? '';
  const numbers = row.split(' ');
  const metrics = {
    widths: new Map([...WIDTH_GLYPHS].map((glyph, i) => [glyph, Number(numbers[i] ?? 0) / 1000])),
    known: new Map<string, number>(),
  };
  tables.set(name, metrics);
  return metrics;
}

/** Width of a line of text in drawing units, without kerning. A glyph that is not in the table counts as 0.6 em. */
export function textWidthPx(text: string, sizePx: number, face: Face = SANS): number {
  const { widths, known } = widthsOf(face);
  const before = known.get(text);
  if (before !== undefined) return before * sizePx;
  let ems = 0;
  // Digits around a fraction slash are drawn as numerator and denominator, which are as wide as superscript digits.
  const shaped = shapedFractions(text.normalize('NFC')).replace(/\d+⁄\d+/g, (f) => f.replace(/\d/g, '⁴'));
  for (const glyph of shaped) ems += widths.get(glyph) ?? 0.6;
  if (known.size > 4000) known.clear();
  known.set(text, ems);
  return ems * sizePx;
}

/** Breaks text into lines of at most the given width; a single wider word, or a figure with its unit, gets its own line. */
export function wrapText(text: string, widthPx: number, sizePx: number, face: Face = SANS): string[] {
  const lines: string[] = [];
  let line = '';
  for (const held of withNoBreaks(text).split(/[ \t\n]+/)) {
    const word = held.replaceAll('\u00a0', ' ');
    if (word === '') continue;
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidthPx(longer, sizePx, face) > widthPx) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** Shortens a line to fit and ends it with an ellipsis; returns the whole text when it fits. */
export function fitText(text: string, widthPx: number, sizePx: number, face: Face = SANS): string {
  if (textWidthPx(text, sizePx, face) <= widthPx) return text;
  const glyphs = [...text];
  while (glyphs.length > 1 && textWidthPx(`${glyphs.join('').trimEnd()}…`, sizePx, face) > widthPx) glyphs.pop();
  return `${glyphs.join('').trimEnd()}…`;
}

/** Space between a room's name and its walls, px, and the least letters of a name that is cut. */
const [NAME_CLEAR_PX, LEAST_LETTERS] = [16, 10];

/** A room's name in bold, cut to lengths of its floor; without those that would tell too little. */
export function cutNames(name: string, lengthsPx: readonly number[]): string[] {
  const cut = lengthsPx.map((lengthPx) => fitText(name, lengthPx - NAME_CLEAR_PX, 15, SANS_BOLD));
  return [...new Set(cut)].filter((shown) => shown !== name && [...shown].length > LEAST_LETTERS);
}
