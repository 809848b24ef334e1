/** Tables: the head repeats on each page, rows do not break, figures are right-aligned. */
import type { Block, Run } from '../../../shared-core/documents/tree.ts';
import type { Pdf } from './fonts.ts';
import { BODY, breakLines, checkBox, CAPTION, FIGURE, type Line, rule, setLines, SPEECH } from './lines.ts';
import { type Slice, type Tag, type Tagger, tag } from './slices.ts';

type Table = Extract<Block, { kind: 'table' }>;
const CELL_GAP = 10;
const PAD = 2.5;
const KEPT_ROWS = 4;
/** Distance from the rule above to a large figure, points. */
const FIGURE_AIR = 4;

const widthsOf = (table: Table, measure: number): number[] => {
  const inner = measure - CELL_GAP * (table.columns.length - 1);
  const stated = table.columns.reduce((sum, c) => sum + (c.share ?? 0), 0);
  const open = table.columns.filter((c) => c.share === null).length;
  return table.columns.map((c) => inner * (c.share ?? Math.max(0, 1 - stated) / Math.max(1, open)));
};

/** The half-filled pointer on the head's rule marks the recommended column. */
const pointer = (pdf: Pdf, x: number, y: number): void => {
  pdf
    .lineWidth(0.75)
    .moveTo(x - 5, y - 8)
    .lineTo(x + 5, y - 8)
    .lineTo(x, y)
    .closePath()
    .stroke('#000000');
  pdf
    .moveTo(x, y - 8)
    .lineTo(x + 5, y - 8)
    .lineTo(x, y)
    .closePath()
    .fill('#000000');
};

/** The slices of a table: its head, repeated on every page, and one per row. */
export function tableSlices(pdf: Pdf, table: Table, measure: number, parent: Tag | null): Slice[] {
  const widths = widthsOf(table, measure);
  const columnX = (column: number): number => widths.slice(0, column).reduce((sum, w) => sum + w + CELL_GAP, 0);
  const node = tag('Table', parent);
  const body = tag('TBody', node);

  const cells = (runs: readonly (readonly Run[])[], setting: typeof BODY): Line[][] =>
    table.columns.map((_, i) => breakLines(pdf, runs[i] ?? [], setting, widths[i] ?? measure));
  const drawCells = (
    p: Pdf,
    lines: readonly Line[][],
    { x, y }: { readonly x: number; readonly y: number },
    setting: typeof BODY,
    wrap: (i: number, draw: () => void) => void,
  ): void => {
    lines.forEach((cell, i) =>
      wrap(i, () =>
        setLines(p, cell, { x: x + columnX(i), y, measure: widths[i] ?? measure, align: table.columns[i]?.align ?? 'start' }, setting),
      ),
    );
  };

  const headLines = cells(
    table.columns.map((c, i) => [
      ...(i === table.pointedColumn && table.pointedNote !== '' ? [{ text: `${table.pointedNote}  ` }] : []),
      { text: c.title, ...(i === table.pointedColumn ? { bold: true, italic: false } : {}) },
    ]),
    CAPTION,
  );
  const hasHead = table.columns.some((c) => c.title !== '');
  const headHeight = hasHead
    ? Math.max(...headLines.map((l) => l.length)) * CAPTION.leadPt + PAD + (table.pointedColumn === null ? 1 : 7)
    : 1;
  const drawHead = (tags: Tagger, p: Pdf, x: number, y: number, isRepeat: boolean): void => {
    const row = tag('TR', tag('THead', node));
    const draw = (): void =>
      drawCells(p, headLines, { x, y }, CAPTION, (_i, set) => (isRepeat ? set() : tags.in(tag('TH', row, { scope: 'Column' }), set)));
    if (hasHead) {
      if (isRepeat) tags.artifact(draw);
      else draw();
    }
    tags.artifact(() => {
      rule(p, x, y + headHeight - 1, measure, 0.9);
      if (table.pointedColumn !== null)
        pointer(p, x + columnX(table.pointedColumn) + (widths[table.pointedColumn] ?? 0) - 18, y + headHeight - 1);
    });
  };
  const headSlice = (isRepeat: boolean): Slice => ({
    height: headHeight,
    before: 12,
    withNext: true,
    repeat: null,
    newPage: false,
    draw: (p, x, y, tags) => drawHead(tags, p, x, y, isRepeat),
  });
  const again = headSlice(true);

  /** One cell is large and the others align to its foot; a figure wider than its column shrinks. */
  const figureRow = (runs: readonly Run[][], lines: readonly Line[][], tr: Tag): Slice => {
    const column = table.pointedColumn ?? table.columns.length - 1;
    const width = widths[column] ?? measure;
    const fits = breakLines(pdf, runs[column] ?? [], FIGURE, measure).every((line) => line.width <= width);
    const setting = fits ? FIGURE : SPEECH;
    const large = breakLines(pdf, runs[column] ?? [], setting, width);
    const height = Math.max(1, large.length) * setting.leadPt + FIGURE_AIR + 1;
    return {
      height,
      before: 0,
      withNext: false,
      repeat: again,
      newPage: false,
      draw: (p, x, y, tags) =>
        lines.forEach((cell, i) =>
          tags.in(tag(i === 0 ? 'TH' : 'TD', tr, i === 0 ? { scope: 'Row' } : {}), () => {
            const isLarge = i === column;
            const top = isLarge ? y + FIGURE_AIR : y + height - BODY.leadPt - (fits ? 8 : 4);
            setLines(
              p,
              isLarge ? large : cell,
              { x: x + columnX(i), y: top, measure: widths[i] ?? measure, align: table.columns[i]?.align ?? 'start' },
              isLarge ? setting : BODY,
            );
          }),
        ),
    };
  };

  const rows = table.rows.map((row, index): Slice => {
    // The totals at the end of a long table stay together.
    const isSum = table.rows.length > 2 * KEPT_ROWS && index >= table.rows.length - KEPT_ROWS && index < table.rows.length - 1;
    // The last row is not alone on a page.
    const isNextToLast = index === table.rows.length - 2;
    // At least three rows follow a head, or all of them.
    const isOpening = index < Math.min(2, table.rows.length - 1);
    const runs = row.strong === true ? row.cells.map((cell) => cell.map((run) => ({ ...run, bold: true }))) : row.cells;
    const pointed = table.pointedColumn;
    const lines = cells(
      runs.map((cell, i) => (i === pointed ? cell.map((run) => ({ ...run, bold: true })) : cell)),
      BODY,
    );
    const height = Math.max(1, ...lines.map((l) => l.length)) * BODY.leadPt + PAD * 2;
    const tr = tag('TR', body);
    if (row.figure === true) return figureRow(row.cells, lines, tr);
    return {
      height,
      before: 0,
      withNext: isSum || isOpening || isNextToLast,
      repeat: again,
      newPage: false,
      draw: (p, x, y, tags) => {
        drawCells(p, lines, { x, y: y + PAD }, BODY, (i, set) =>
          tags.in(tag(i === 0 ? 'TH' : 'TD', tr, i === 0 ? { scope: 'Row' } : {}), set),
        );
        if (row.box === true) tags.artifact(() => checkBox(p, x + columnX(table.columns.length - 1), y + PAD));
        if (row.rule !== false) tags.artifact(() => rule(p, x, y + height, measure, row.strong === true ? 0.9 : 0.5));
      },
    };
  });
  return [headSlice(false), ...rows];
}
