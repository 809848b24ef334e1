/** Inks a drawing's marks. Every pen is black: tints are left out, hatches become clipped lines. */
import {
  DASHES,
  type Drawing,
  type HatchMark,
  type Ink,
  type Mark,
  PEN_WIDTH,
  type PathMark,
  type Ring,
  type StippleMark,
  type TextMark,
} from '../../../shared-core/drawing/marks.ts';
import { hatchLines } from '../../../shared-core/drawing/hatch.ts';
import { type Pdf, setText, widthOf } from './fonts.ts';

const PT = 0.75;
/** Black pens, so that a cheap printer prints them; white backgrounds; no tints, because the stipple replaces them. */
const PAPER: Readonly<Record<Ink, string | null>> = {
  ink: '#000000',
  ink2: '#000000',
  line: '#000000',
  faint: '#000000',
  chalk: '#000000',
  'on-chalk': '#ffffff',
  paper: '#ffffff',
  tracing: '#ffffff',
  dot: '#000000',
  d0: null,
  d1: null,
  d2: null,
  d3: null,
  d4: null,
  d5: null,
  d6: null,
  d7: null,
};

const trace = (pdf: Pdf, rings: readonly Ring[]): void => {
  for (const { xy, closed } of rings) {
    for (let i = 0; i + 1 < xy.length; i += 2) {
      const [x, y] = [xy[i] ?? 0, xy[i + 1] ?? 0];
      if (i === 0) pdf.moveTo(x, y);
      else pdf.lineTo(x, y);
    }
    if (closed) pdf.closePath();
  }
};

const inkPath = (pdf: Pdf, mark: PathMark): void => {
  const fill = mark.fill === null ? null : PAPER[mark.fill];
  const stroke = mark.pen === null ? null : PAPER[mark.ink];
  if (mark.rings.length === 0 || (fill === null && stroke === null)) return;
  pdf.save();
  if (stroke !== null && mark.pen !== null) {
    pdf
      .lineWidth(PEN_WIDTH[mark.pen])
      .strokeColor(stroke)
      .lineJoin('miter')
      .lineCap(mark.dash === 'dots' ? 'round' : 'butt');
    if (mark.dash !== null) pdf.dash(DASHES[mark.dash][0] ?? 1, { space: DASHES[mark.dash][1] ?? 1 });
    if (mark.dash === 'cut') pdf.addContent(`[${DASHES.cut.join(' ')}] 0 d`);
  }
  if (fill !== null) pdf.fillColor(fill);
  trace(pdf, mark.rings);
  if (fill !== null && stroke !== null) pdf.fillAndStroke(fill, stroke, 'even-odd');
  else if (fill !== null) pdf.fill(fill, 'even-odd');
  else pdf.stroke();
  pdf.restore();
};

const inkStipple = (pdf: Pdf, mark: StippleMark): void => {
  if (mark.xy.length === 0) return;
  // One path of zero-length strokes with round caps draws all dots, which makes a small file.
  pdf.save().lineWidth(mark.sizePx).lineCap('round').strokeColor('#000000');
  for (let i = 0; i + 1 < mark.xy.length; i += 2) {
    const [x, y] = [mark.xy[i] ?? 0, mark.xy[i + 1] ?? 0];
    pdf.moveTo(x, y).lineTo(x + 0.001, y);
  }
  pdf.stroke().restore();
};

const inkText = (pdf: Pdf, mark: TextMark): void => {
  const face = { family: mark.family, weight: mark.weight, italic: mark.italic };
  const width = widthOf(pdf, mark.text, face, mark.sizePx);
  const shift = mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? -width / 2 : -width;
  pdf.save();
  if (mark.turnDeg !== 0) pdf.rotate(mark.turnDeg, { origin: [mark.x, mark.y] });
  if (mark.clear !== null) pdf.rect(mark.x + shift - 2, mark.y - mark.sizePx * 0.82, width + 4, mark.sizePx * 1.08).fill('#ffffff');
  setText(pdf, mark.text, { x: mark.x + shift, y: mark.y }, { face, sizePt: mark.sizePx, color: PAPER[mark.ink] ?? '#000000' });
  pdf.restore();
};

const inkHatch = (pdf: Pdf, mark: HatchMark): void => {
  const { lines, widthPx, grains, grainPx } = hatchLines(mark);
  const color = PAPER[mark.ink] ?? '#000000';
  pdf.save().strokeColor(color);
  if (lines.length > 0) {
    pdf.lineWidth(widthPx);
    trace(
      pdf,
      lines.map((xy) => ({ xy: [...xy], closed: false })),
    );
    pdf.stroke();
  }
  pdf.restore();
  if (grains.length > 0) inkStipple(pdf, { kind: 'stipple', xy: [...grains], sizePx: grainPx, ink: mark.ink });
};

const inkMark = (pdf: Pdf, mark: Mark): void => {
  switch (mark.kind) {
    case 'path':
      return inkPath(pdf, mark);
    case 'stipple':
      return inkStipple(pdf, mark);
    case 'text':
      return inkText(pdf, mark);
    case 'hatch':
      return inkHatch(pdf, mark);
    case 'group':
      for (const inner of mark.marks) inkMark(pdf, inner);
  }
};

/** Inks a drawing with its top left at x, y points, scaled to `width` points. */
export function inkDrawing(pdf: Pdf, drawing: Drawing, x: number, y: number, width: number): void {
  const scale = width / drawing.width;
  pdf.save().translate(x, y).scale(scale);
  for (const mark of drawing.marks) inkMark(pdf, mark);
  pdf.restore();
}

/** Height in points of a drawing at most `measure` points wide. */
export function drawingSize(drawing: Drawing, measure: number): { width: number; height: number } {
  const width = Math.min(measure, drawing.width * PT);
  return { width, height: (width / drawing.width) * drawing.height };
}
