/** The fonts of the documents, embedded as subsets. */
import { join } from 'node:path';
import type PDFDocument from 'pdfkit';
import type { Face } from '../../../shared-core/drawing/type-metrics.ts';

export type Pdf = InstanceType<typeof PDFDocument>;

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

/** A document with each font under a name of its own. The library is loaded with the first: it takes half of the desk's start. */
export async function newPdf(options: PDFKit.PDFDocumentOptions, folder: string): Promise<Pdf> {
  const { default: Document } = await import('pdfkit');
  const measured = measuring.get(folder) ?? know(new Document({ autoFirstPage: false }), folder);
  measuring.set(folder, measured);
  const pdf = know(new Document(options), folder);
  measures.set(pdf, measured);
  return pdf;
}

/** The nearest available font: italics have one weight, and the serif has nothing bolder than 600. */
export function cutOf({ family, weight, italic }: Face): string {
  if (italic) return `${family}-400-italic`;
  if (family === 'serif') return weight === 700 ? 'serif-600' : `serif-${weight}`;
  return weight === 300 ? 'sans-400' : `sans-${weight}`;
}

/** Tabular lining figures. */
const FEATURES = ['tnum', 'lnum', 'kern', 'liga'] as const;

/** A shaped text, as pdfkit's fonts give it. Its advance is in thousandths of the font's size. */
type Run = { readonly advanceWidth: number };
type Shaper = { layoutRun: (text: string, features?: readonly string[]) => Run };

/** Shaped texts by font and text, shared by all documents: shaping is 100 times slower than a lookup, and documents repeat words. */
const runs = new Map<string, Run>();
const MOST_RUNS = 20_000;
const sharing = new WeakSet<Shaper>();

function shaperOf(pdf: Pdf, cut: string): Shaper {
  pdf.font(cut);
  return (pdf as unknown as { readonly _font: Shaper })._font;
}

function runOf(pdf: Pdf, cut: string, text: string): Run {
  const key = `${cut}\n${text}`;
  let run = runs.get(key);
  if (run === undefined) {
    if (runs.size >= MOST_RUNS) runs.clear();
    run = shaperOf(measures.get(pdf) ?? pdf, cut).layoutRun(text, FEATURES);
    runs.set(key, run);
  }
  return run;
}

/** Width of a text, points. */
export function widthOf(pdf: Pdf, text: string, face: Face, sizePt: number): number {
  return (runOf(pdf, cutOf(face), text).advanceWidth / 1000) * sizePt;
}

/** Selects a font that takes its shaped texts from those shared. */
function selectFont(pdf: Pdf, cut: string): void {
  const shaper = shaperOf(pdf, cut);
  if (sharing.has(shaper)) return;
  sharing.add(shaper);
  shaper.layoutRun = (text) => runOf(pdf, cut, text);
}

/** Draws one piece of text with its baseline at `y`, without wrapping. */
export function setText(
  pdf: Pdf,
  text: string,
  { x, y }: { readonly x: number; readonly y: number },
  { face, sizePt, color = '#000000' }: { readonly face: Face; readonly sizePt: number; readonly color?: string | undefined },
): void {
  if (text === '') return;
  selectFont(pdf, cutOf(face));
  pdf.fontSize(sizePt).fillColor(color);
  pdf.text(text, x, y, { lineBreak: false, baseline: 'alphabetic', features: [...FEATURES] });
}
