/** The fonts of the documents, embedded as subsets. */
import { join } from 'node:path';
import PDFDocument from 'pdfkit';

export type Pdf = InstanceType<typeof PDFDocument>;
export type Face = { readonly family: 'sans' | 'serif'; readonly weight: 300 | 400 | 600 | 700; readonly italic: boolean };

const FILES: Readonly<Record<string, string>> = {
  'sans-400': 'SourceSans3_400Regular.ttf',
  'sans-400-italic': 'SourceSans3_400Regular_Italic.ttf',
  'sans-600': 'SourceSans3_600SemiBold.ttf',
  'sans-700': 'SourceSans3_700Bold.ttf',
  'serif-300': 'SourceSerif4_300Light.ttf',
  'serif-400': 'SourceSerif4_400Regular.ttf',
  'serif-400-italic': 'SourceSerif4_400Regular_Italic.ttf',
  'serif-600': 'SourceSerif4_600SemiBold.ttf',
};

/** A second document only for measuring, so that measuring leaves no trace in the inked one. */
const measures = new WeakMap<Pdf, Pdf>();
const measuring = new Map<string, Pdf>();

const know = (pdf: Pdf, folder: string): Pdf => {
  for (const [name, file] of Object.entries(FILES)) pdf.registerFont(name, join(folder, file));
  return pdf;
};

/** Registers each font with the document under a name of its own. */
export function registerFonts(pdf: Pdf, folder: string): void {
  const measured = measuring.get(folder) ?? know(new PDFDocument({ autoFirstPage: false }), folder);
  measuring.set(folder, measured);
  measures.set(pdf, measured);
  know(pdf, folder);
}

/** The nearest available font: italics have one weight, and the serif has nothing bolder than 600. */
export function cutOf({ family, weight, italic }: Face): string {
  if (italic) return `${family}-400-italic`;
  if (family === 'serif') return weight === 700 ? 'serif-600' : `serif-${weight}`;
  return weight === 300 ? 'sans-400' : `sans-${weight}`;
}

/** Tabular lining figures. */
const FEATURES = ['tnum', 'lnum', 'kern', 'liga'] as const;

/** Widths at one point by font and text. Shaping is 100 times slower than a lookup, and documents repeat words. */
const widths = new Map<string, number>();
const MOST_WIDTHS = 20_000;
const MEASURED_PT = 1000;

/** Width of a text, points. */
export function widthOf(pdf: Pdf, text: string, face: Face, sizePt: number): number {
  const cut = cutOf(face);
  const key = `${cut}\n${text}`;
  let width = widths.get(key);
  if (width === undefined) {
    if (widths.size >= MOST_WIDTHS) widths.clear();
    const measured = (measures.get(pdf) ?? pdf)
      .font(cut)
      .fontSize(MEASURED_PT)
      .widthOfString(text, { features: [...FEATURES] });
    width = measured / MEASURED_PT;
    widths.set(key, width);
  }
  return width * sizePt;
}

/** Draws one piece of text with its baseline at `y`, without wrapping. */
export function setText(
  pdf: Pdf,
  text: string,
  { x, y }: { readonly x: number; readonly y: number },
  { face, sizePt, color = '#000000' }: { readonly face: Face; readonly sizePt: number; readonly color?: string | undefined },
): void {
  if (text === '') return;
  pdf.font(cutOf(face)).fontSize(sizePt).fillColor(color);
  pdf.text(text, x, y, { lineBreak: false, baseline: 'alphabetic', features: [...FEATURES] });
}
