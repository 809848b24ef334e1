/** Breaks text into lines. */
import type { Run } from '../../../shared-core/documents/tree.ts';
import { withNoBreaks } from '../../../shared-core/drawing/no-breaks.ts';
import type { Face } from '../../../shared-core/drawing/type-metrics.ts';
import { type Pdf, setText, widthOf } from './fonts.ts';

export type Piece = { readonly text: string; readonly face: Face; readonly width: number };
export type Line = { readonly pieces: readonly Piece[]; readonly width: number };
export type Setting = Face & { readonly sizePt: number; readonly leadPt: number };

/** Sizes 15, 17, 26 and 52 of the look in points, with line heights. */
export const BODY: Setting = { sizePt: 11.25, leadPt: 15, family: 'sans', weight: 400, italic: false };
export const CAPTION: Setting = { ...BODY, family: 'serif', italic: true };
export const STRONG: Setting = { ...BODY, weight: 700 };
export const LARGER: Setting = { ...BODY, sizePt: 12.75, leadPt: 17 };
/** Legible from across the room. */
export const LARGE: Setting = { ...BODY, sizePt: 22.5, leadPt: 28 };
export const SPEECH: Setting = { sizePt: 19.5, leadPt: 24, family: 'serif', weight: 400, italic: false };
export const FIGURE: Setting = { sizePt: 39, leadPt: 42, family: 'serif', weight: 400, italic: false };

const faceOf = (run: Run, setting: Setting): Face => ({
  family: run.serif === true || (run.italic === true && setting.family === 'sans') ? 'serif' : setting.family,
  weight: run.bold === true ? (setting.family === 'serif' ? 600 : 700) : setting.weight,
  italic: run.italic ?? setting.italic,
});

type Word = { readonly text: string; readonly face: Face; readonly width: number; readonly space: number; readonly breakAfter: boolean };

/** Words include the space before them; a line feed ends the line. */
const wordsOf = (pdf: Pdf, runs: readonly Run[], setting: Setting): Word[] => {
  const words: Word[] = [];
  let spacePending = false;
  for (const run of runs) {
    const face = faceOf(run, setting);
    const space = widthOf(pdf, ' ', face, setting.sizePt);
    for (const part of withNoBreaks(run.text).split(/([ \t\n]+)/)) {
      if (part === '') continue;
      if (/^[ \t\n]+$/.test(part)) {
        const last = words.at(-1);
        if (part.includes('\n') && last !== undefined) words[words.length - 1] = { ...last, breakAfter: true };
        spacePending = true;
        continue;
      }
      words.push({ text: part, face, width: widthOf(pdf, part, face, setting.sizePt), space: spacePending ? space : 0, breakAfter: false });
      spacePending = false;
    }
  }
  return words;
};

/** A word wider than the line is broken: at a no-break space, else after a hyphen, where it has one. */
const cutLong = (pdf: Pdf, word: Word, measure: number, sizePt: number): Word[] => {
  if (word.width <= measure) return [word];
  const cut: Word[] = [];
  let rest = word.text;
  while (rest !== '') {
    let n = 1;
    for (let step = rest.length; step >= 1; step = Math.floor(step / 2)) {
      while (n + step <= rest.length && widthOf(pdf, rest.slice(0, n + step), word.face, sizePt) <= measure) n += step;
    }
    if (n < rest.length) n = rest.lastIndexOf('\u00a0', n - 1) + 1 || rest.lastIndexOf('-', n - 1) + 1 || n;
    const text = rest.slice(0, n);
    rest = rest.slice(n);
    cut.push({
      ...word,
      text,
      width: widthOf(pdf, text, word.face, sizePt),
      space: cut.length === 0 ? word.space : 0,
      breakAfter: rest !== '' || word.breakAfter,
    });
  }
  return cut;
};

/** Breaks runs into lines of at most `measure` points. Empty text is one empty line. */
export function breakLines(pdf: Pdf, runs: readonly Run[], setting: Setting, measure: number): Line[] {
  const lines: Line[] = [];
  let pieces: Piece[] = [];
  let width = 0;
  const close = (): void => {
    lines.push({ pieces, width });
    pieces = [];
    width = 0;
  };
  for (const word of wordsOf(pdf, runs, setting).flatMap((w) => cutLong(pdf, w, measure, setting.sizePt))) {
    // Without a space, as in a comma after bold, a piece stays with the one before it.
    if (pieces.length > 0 && word.space > 0 && width + word.space + word.width > measure) close();
    const space = pieces.length === 0 ? 0 : word.space;
    const last = pieces.at(-1);
    if (
      last !== undefined &&
      last.face.family === word.face.family &&
      last.face.weight === word.face.weight &&
      last.face.italic === word.face.italic
    ) {
      const text = `${last.text}${space > 0 ? ' ' : ''}${word.text}`;
      pieces[pieces.length - 1] = { text, face: last.face, width: last.width + space + word.width };
    } else {
      pieces.push({ text: `${space > 0 ? ' ' : ''}${word.text}`, face: word.face, width: space + word.width });
    }
    width += space + word.width;
    if (word.breakAfter) close();
  }
  if (pieces.length > 0 || lines.length === 0) close();
  return lines;
}

/** The left edge, top and width of lines. */
export type Column = {
  readonly x: number;
  readonly y: number;
  readonly measure: number;
  readonly align?: 'start' | 'end' | undefined;
};

/** Draws lines from the top `y`; `align` end aligns them right. */
export function setLines(pdf: Pdf, lines: readonly Line[], { x, y, measure, align = 'start' }: Column, setting: Setting): void {
  let baseline = y + setting.leadPt * 0.76;
  for (const [i, line] of lines.entries()) {
    let startX = align === 'end' ? x + measure - line.width : x;
    for (const [k, piece] of line.pieces.entries()) {
      // A space at the end of a line separates words when the text is extracted.
      const endsLine = i < lines.length - 1 && k === line.pieces.length - 1;
      setText(pdf, endsLine ? `${piece.text} ` : piece.text, { x: startX, y: baseline }, { face: piece.face, sizePt: setting.sizePt });
      startX += piece.width;
    }
    baseline += setting.leadPt;
  }
}

/** A level line, points. */
export function rule(pdf: Pdf, x: number, y: number, measure: number, widthPt = 0.75): void {
  pdf
    .lineWidth(widthPt)
    .moveTo(x, y)
    .lineTo(x + measure, y)
    .stroke('#000000');
}

/** A box to check, on a line of text that starts at `y`. */
export function checkBox(pdf: Pdf, x: number, y: number): void {
  pdf
    .lineWidth(0.75)
    .rect(x + 0.5, y + 3, 8.5, 8.5)
    .stroke('#000000');
}
