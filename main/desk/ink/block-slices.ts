/** Converts blocks of a document to slices. */
import type { Block, Run } from '../../../shared-core/documents/tree.ts';
import type { Pdf } from './fonts.ts';
import { BODY, breakLines, CAPTION, checkBox, FIGURE, LARGE, LARGER, type Setting, rule, setLines, SPEECH, STRONG } from './lines.ts';
import { drawingSize, inkDrawing } from './ink-marks.ts';
import { type Slice, type Tag, tag } from './slices.ts';
import { tableSlices } from './table.ts';

const GAP = 6;
const COLUMN_GAP = 18;
const plain = { withNext: false, repeat: null, newPage: false } as const;

/** Heading 1 is large, 2 is bold, 3 is an italic caption. */
const HEADINGS: Readonly<Record<1 | 2 | 3, { setting: Setting; before: number }>> = {
  1: { setting: SPEECH, before: 18 },
  2: { setting: STRONG, before: 14 },
  3: { setting: CAPTION, before: 10 },
};

const headingSlice = (pdf: Pdf, text: string, level: 1 | 2 | 3, measure: number, parent: Tag | null): Slice => {
  const { setting, before } = HEADINGS[level];
  const lines = breakLines(pdf, [{ text }], setting, measure);
  const node = tag(`H${level}`, parent);
  return {
    ...plain,
    withNext: true,
    before,
    height: lines.length * setting.leadPt,
    draw: (p, x, y, tags) => {
      tags.bookmark(text, level);
      tags.in(node, () => setLines(p, lines, { x, y, measure }, setting));
    },
  };
};

/** Type, width, and the space before a paragraph. */
type ParagraphSetting = {
  readonly setting: Setting;
  readonly measure: number;
  readonly before: number;
};

/** A paragraph breaks between lines, with at least two on either side. */
const paragraphSlices = (pdf: Pdf, runs: readonly Run[], { setting, measure, before }: ParagraphSetting, parent: Tag | null): Slice[] => {
  const lines = breakLines(pdf, runs, setting, measure);
  const node = tag('P', parent);
  const bites: (typeof lines)[] = [];
  if (lines.length <= 4) bites.push(lines);
  else {
    bites.push(lines.slice(0, 2), ...lines.slice(2, -2).map((line) => [line]), lines.slice(-2));
  }
  return bites.map((bite, i) => ({
    ...plain,
    before: i === 0 ? before : 0,
    height: bite.length * setting.leadPt,
    draw: (p, x, y, tags) => tags.in(node, () => setLines(p, bite, { x, y, measure }, setting)),
  }));
};

const listSlices = (pdf: Pdf, block: Extract<Block, { kind: 'list' }>, measure: number, parent: Tag | null): Slice[] => {
  const indent = block.marker === 'none' ? 10 : 18;
  const setting = block.isLarge === true ? LARGE : BODY;
  const node = tag('L', parent);
  return block.items.map((runs, i) => {
    const lines = breakLines(pdf, runs, setting, measure - indent);
    const item = tag('LI', node);
    const label = tag('Lbl', item);
    const body = tag('LBody', item);
    const draw: Slice['draw'] = (p, x, y, tags) => {
      tags.in(label, () => {
        if (block.marker === 'number') setLines(p, breakLines(p, [{ text: `${i + 1}` }], BODY, indent), { x, y, measure: indent }, BODY);
        else if (block.marker === 'box') checkBox(p, x, y);
        else rule(p, x, y + setting.leadPt * 0.55, 5);
      });
      tags.in(body, () => setLines(p, lines, { x: x + indent, y, measure: measure - indent }, setting));
    };
    // The last item does not stand alone on a page.
    const withNext = i === block.items.length - 2;
    return { ...plain, withNext, before: i === 0 ? GAP : 3, height: lines.length * setting.leadPt, draw };
  });
};

/** The size and style of a block's text. */
export type Within = {
  readonly measure: number;
  readonly parent: Tag | null;
  /** Maximum height of a slice, and the space left on the first page. */
  readonly most: number;
  readonly first: number;
  /** Maximum distance of a wide drawing past the margins. */
  readonly overPt: number;
  /** Scale of drawings, reduced to fit a page. */
  readonly shrink: number;
};

const drawingSlice = (pdf: Pdf, block: Extract<Block, { kind: 'drawing' }>, within: Within): Slice => {
  const { measure, parent, most, shrink } = within;
  // A datum extends past the margins to the ends of the frame's lines, except within a column.
  const over = block.wide === true ? within.overPt : 0;
  const natural = drawingSize(block.drawing, measure + 2 * over);
  const captionLines = block.caption === '' ? [] : breakLines(pdf, [{ text: block.caption }], CAPTION, measure);
  const room = most - captionLines.length * CAPTION.leadPt - 4;
  const scale = Math.min(block.gives === true ? shrink : 1, room / natural.height);
  const [width, height] = [natural.width * scale, natural.height * scale];
  const figure = tag('Figure', parent, { alt: block.alt });
  const caption = tag('P', parent);
  return {
    ...plain,
    before: 10,
    height: height + (captionLines.length === 0 ? 0 : 4 + captionLines.length * CAPTION.leadPt),
    draw: (p, x, y, tags) => {
      const inset = block.gives === true ? (natural.width - width) / 2 : 0;
      tags.in(figure, () => inkDrawing(p, block.drawing, x - over + inset, y, width));
      if (captionLines.length > 0) tags.in(caption, () => setLines(p, captionLines, { x, y: y + height + 4, measure }, CAPTION));
    },
  };
};

/** Photos in a row, each with its caption below. */
const PHOTO = { leastPt: 114, heightPt: 92, gap: 9, largePt: 172 } as const;

const photoSlices = (pdf: Pdf, block: Extract<Block, { kind: 'photos' }>, measure: number, parent: Tag | null): Slice[] => {
  // Four across a page, two in half of it.
  const perRow = block.isLarge === true ? 1 : Math.max(1, Math.floor((measure + PHOTO.gap) / (PHOTO.leastPt + PHOTO.gap)));
  const heightPt = block.isLarge === true ? PHOTO.largePt : PHOTO.heightPt;
  const width = (measure - PHOTO.gap * (perRow - 1)) / perRow;
  const rows = Array.from({ length: Math.ceil(block.photos.length / perRow) }, (_, row) =>
    block.photos.slice(row * perRow, (row + 1) * perRow),
  );
  return rows.map((photos) => {
    const set = photos.map((photo) => ({
      photo,
      lines: photo.caption === '' ? [] : breakLines(pdf, [{ text: photo.caption }], CAPTION, width),
      figure: tag('Figure', parent, { alt: photo.caption === '' ? 'A photo without a caption' : photo.caption }),
      under: tag('P', parent),
    }));
    const most = Math.max(...set.map(({ lines }) => lines.length));
    return {
      ...plain,
      before: 9,
      height: heightPt + 3 + most * CAPTION.leadPt,
      draw: (p, x, y, tags) =>
        set.forEach(({ photo, lines, figure, under }, i) => {
          const leftX = x + i * (width + PHOTO.gap);
          tags.in(figure, () => void p.image(photo.picture, leftX, y, { fit: [width, heightPt], valign: 'bottom' }));
          if (lines.length > 0) tags.in(under, () => setLines(p, lines, { x: leftX, y: y + heightPt + 3, measure: width }, CAPTION));
        }),
    };
  });
};

const figureSlice = (pdf: Pdf, block: Extract<Block, { kind: 'figure' }>, measure: number, parent: Tag | null): Slice => {
  const figure = breakLines(pdf, [{ text: block.figure }], FIGURE, measure);
  const node = tag('P', parent);
  return {
    ...plain,
    before: 6,
    height: FIGURE.leadPt,
    draw: (p, x, y, tags) => {
      tags.in(node, () => {
        setLines(
          p,
          breakLines(p, [{ text: block.label, bold: true }], LARGER, measure / 2),
          { x, y: y + FIGURE.leadPt - LARGER.leadPt - 5, measure: measure / 2 },
          LARGER,
        );
        setLines(p, figure, { x, y, measure, align: 'end' }, FIGURE);
      });
    },
  };
};

/** Space above a field's label, beside the rules between fields and below the last line, and of a drawn signature. */
const FIELD = { abovePt: 4, gap: 9, belowPt: 2, drawnPt: 24 } as const;

/** Labels and values keep all their lines. A field without a value keeps a line to write on. */
const fieldsSlice = (pdf: Pdf, block: Extract<Block, { kind: 'fields' }>, measure: number, parent: Tag | null): Slice => {
  const node = tag('P', parent);
  let nextX = 0;
  const fields = block.fields.map(({ label, share, value, picture }, i) => {
    const isLast = i === block.fields.length - 1;
    const insetX = i === 0 ? 0 : FIELD.gap;
    const leftX = nextX + insetX;
    const width = share * measure - insetX - (isLast ? 0 : FIELD.gap);
    nextX += share * measure;
    const labelLines = breakLines(pdf, [{ text: label }], CAPTION, width);
    const valueLines = value === undefined ? [] : breakLines(pdf, [{ text: value }], BODY, width);
    const valueY = FIELD.abovePt + labelLines.length * CAPTION.leadPt;
    const endY = valueY + Math.max(1, valueLines.length) * BODY.leadPt + FIELD.belowPt;
    return { label, picture, leftX, width, labelLines, valueLines, valueY, endY, ruleX: isLast ? null : nextX };
  });
  const height = Math.max(...fields.map(({ endY }) => endY));
  return {
    ...plain,
    before: 10,
    height,
    draw: (p, x, y, tags) => {
      tags.artifact(() => {
        p.lineWidth(0.75)
          .moveTo(x, y)
          .lineTo(x + measure, y);
        for (const { ruleX } of fields) if (ruleX !== null) p.moveTo(x + ruleX, y).lineTo(x + ruleX, y + height);
        p.stroke('#000000');
      });
      for (const { label, picture, leftX, width, labelLines, valueLines, valueY, endY } of fields) {
        const column = { x: x + leftX, measure: width };
        tags.in(node, () => {
          setLines(p, labelLines, { ...column, y: y + FIELD.abovePt }, CAPTION);
          setLines(p, valueLines, { ...column, y: y + valueY }, BODY);
        });
        if (picture !== undefined)
          tags.in(
            tag('Figure', node, { alt: `${label}: signed` }),
            () => void p.image(picture, column.x, y + endY - FIELD.drawnPt, { fit: [width, FIELD.drawnPt] }),
          );
      }
    },
  };
};

const stacked = (slices: readonly Slice[]): number => slices.reduce((sum, s, i) => sum + s.height + (i === 0 ? 0 : s.before), 0);
const drawStack =
  (slices: readonly Slice[]): Slice['draw'] =>
  (p, x, y, tags) => {
    let nextY = y;
    slices.forEach((slice, i) => {
      if (i > 0) nextY += slice.before;
      slice.draw(p, x, nextY, tags);
      nextY += slice.height;
    });
  };

const columnsSlice = (pdf: Pdf, block: Extract<Block, { kind: 'columns' }>, within: Within): Slice => {
  const { measure } = within;
  const inner = measure - COLUMN_GAP * (block.columns.length - 1);
  // A drawing narrower than its column leaves the rest to the text beside it.
  const gives = (column: readonly Block[]): boolean => column.every((b) => b.kind === 'drawing' && b.gives === true);
  const shares = block.columns.map((column, i) => (block.shares[i] ?? 0) * (gives(column) ? within.shrink : 1));
  const total = shares.reduce((a, b) => a + b, 0);
  const widths = shares.map((share) => (inner * share) / total);
  const columns = block.columns.map((blocks, i) =>
    sliceBlocks(pdf, blocks, { ...within, measure: widths[i] ?? inner, overPt: 0, shrink: 1 }),
  );
  return {
    ...plain,
    before: columns[0]?.[0]?.before ?? GAP,
    height: Math.max(0, ...columns.map(stacked)),
    draw: (p, x, y, tags) => {
      let nextX = x;
      columns.forEach((slices, i) => {
        drawStack(slices)(p, nextX, y, tags);
        nextX += (widths[i] ?? 0) + COLUMN_GAP;
      });
    },
  };
};

/** Drawings shrink for what has to be beside them, down to 70%, below which their labels are too small. */
const SHRINKS = [1, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7] as const;

/** Goes on one page, with the rest on the next; if it is too long, everything flows on, its drawings small. */
const coverSlices = (pdf: Pdf, blocks: readonly Block[], within: Within): Slice[] => {
  for (const shrink of SHRINKS) {
    const slices = sliceBlocks(pdf, blocks, { ...within, shrink });
    if (stacked(slices) <= within.first) return [...slices, { ...plain, before: 0, height: 0, newPage: true, draw: () => undefined }];
  }
  return sliceBlocks(pdf, blocks, { ...within, shrink: SHRINKS.at(-1) ?? 1 });
};

const sliceBlock = (pdf: Pdf, block: Block, within: Within): Slice[] => {
  const { measure, parent, most } = within;
  switch (block.kind) {
    case 'heading':
      return [headingSlice(pdf, block.text, block.level, measure, parent)];
    case 'paragraph':
      return paragraphSlices(pdf, block.runs, { setting: BODY, measure, before: block.small === true ? 3 : GAP }, parent);
    case 'list':
      return listSlices(pdf, block, measure, parent);
    case 'table':
      return tableSlices(pdf, block, measure, parent);
    case 'figure':
      return [figureSlice(pdf, block, measure, parent)];
    case 'drawing':
      return [drawingSlice(pdf, block, within)];
    case 'photos':
      return photoSlices(pdf, block, measure, parent);
    case 'columns':
      return [columnsSlice(pdf, block, within)];
    case 'fields':
      return [fieldsSlice(pdf, block, measure, parent)];
    case 'together': {
      const slices = sliceBlocks(pdf, block.blocks, within);
      // Taller than any page, so it breaks.
      if (stacked(slices) > most) return slices;
      return [{ ...plain, before: slices[0]?.before ?? 0, height: stacked(slices), draw: drawStack(slices) }];
    }
    case 'cover':
      return coverSlices(pdf, block.blocks, within);
    case 'rule':
      return [{ ...plain, before: 9, height: 1, draw: (p, x, y, tags) => tags.artifact(() => rule(p, x, y, measure)) }];
    case 'page':
      return [{ ...plain, before: 0, height: 0, newPage: true, draw: () => undefined }];
  }
};

export function sliceBlocks(pdf: Pdf, blocks: readonly Block[], within: Within): Slice[] {
  return blocks.flatMap((block, i) => {
    // Only the first block of a document stands under the letterhead.
    const slices = sliceBlock(pdf, block, i === 0 ? within : { ...within, first: within.most });
    // A table stands close to its heading.
    const isHeaded = block.kind === 'table' && blocks[i - 1]?.kind === 'heading';
    return isHeaded ? slices.map((slice, k) => (k === 0 ? { ...slice, before: GAP } : slice)) : slices;
  });
}
