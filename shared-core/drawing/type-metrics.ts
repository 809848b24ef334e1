/** How wide a piece of text will be, from the bundled faces' own advance widths, so that labels are placed without a screen. */
import { shapedFractions } from './drawn-fraction.ts';
import { FACE_WIDTHS, WIDTH_GLYPHS } from './type-widths.ts';

/** A cut of the two families, as a text mark names it. */
export interface Face {
  readonly family: 'sans' | 'serif';
  readonly weight: 300 | 400 | 600 | 700;
  readonly italic: boolean;
}

/** The plain measuring face. */
export const SANS: Face = { family: 'sans', weight: 400, italic: false };
/** The measuring face for names and for what is set. */
export const SANS_BOLD: Face = { family: 'sans', weight: 600, italic: false };
/** The speaking face. */
export const SERIF: Face = { family: 'serif', weight: 400, italic: false };
/** Captions. */
export const SERIF_ITALIC: Face = { family: 'serif', weight: 400, italic: true };

/** Share of the size that stands above the baseline (figures and capitals with a little air). */
export const RISE = 0.72;
/** Share of the size that hangs below the baseline. */
export const FALL = 0.21;

interface FaceTable {
  readonly widths: ReadonlyMap<string, number>;
  /** Texts measured before, in ems: a level dragged up and down asks for the same ones again and again. */
  readonly known: Map<string, number>;
}

const tables = new Map<string, FaceTable>();

function widthsOf(face: Face): FaceTable {
  const weights = face.family === 'sans' ? [face.weight === 300 ? 400 : face.weight] : [face.weight === 700 ? 600 : face.weight];
  const name = `${face.family}-${String(weights[0])}${face.italic ? '-italic' : ''}`;
  const known = tables.get(name);
  if (known) return known;
  // A slanting cut that is not bundled is as wide as the upright one, within two hundredths.
  const row = FACE_WIDTHS[name] ?? FACE_WIDTHS[name.replace('-italic', '')] ?? FACE_WIDTHS['sans-400'] ?? '';
  const numbers = row.split(' ');
  const metrics = {
    widths: new Map([...WIDTH_GLYPHS].map((glyph, i) => [glyph, Number(numbers[i] ?? 0) / 1000])),
    known: new Map<string, number>(),
  };
  tables.set(name, metrics);
  return metrics;
}

/** Width of a line of text in sheet units; a glyph not in the table counts as six tenths of an em. Kerning is left out. */
export function textWidthPx(text: string, sizePx: number, face: Face = SANS): number {
  const { widths, known } = widthsOf(face);
  const before = known.get(text);
  if (before !== undefined) return before * sizePx;
  let ems = 0;
  // Figures about a fraction slash are set as numerator and denominator, as wide as raised figures.
  const shaped = shapedFractions(text.normalize('NFC')).replace(/\d+⁄\d+/g, (f) => f.replace(/\d/g, '⁴'));
  for (const glyph of shaped) ems += widths.get(glyph) ?? 0.6;
  if (known.size > 4000) known.clear();
  known.set(text, ems);
  return ems * sizePx;
}

/** Breaks words into lines no wider than given; a single word wider than that stands alone. */
export function wrapText(text: string, widthPx: number, sizePx: number, face: Face = SANS): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidthPx(longer, sizePx, face) > widthPx) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** Shortens a line to fit, ending in an ellipsis; the whole text when it fits. */
export function fitText(text: string, widthPx: number, sizePx: number, face: Face = SANS): string {
  if (textWidthPx(text, sizePx, face) <= widthPx) return text;
  const glyphs = [...text];
  while (glyphs.length > 1 && textWidthPx(`${glyphs.join('').trimEnd()}…`, sizePx, face) > widthPx) glyphs.pop();
  return `${glyphs.join('').trimEnd()}…`;
}
