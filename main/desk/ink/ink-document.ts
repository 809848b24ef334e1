/** Inks a document tree as tagged PDF/A: grid, frame with crossing corners, embedded fonts. */
import type { Block, DocumentTree } from '../../../shared-core/documents/tree.ts';
import { sliceBlocks } from './block-slices.ts';
import { cutOf, newPdf, type Pdf } from './fonts.ts';
import { BODY, breakLines, type Line, rule, setLines, SPEECH } from './lines.ts';
import { paginate, type Placed, Tagger, tag } from './slices.ts';

const PAPER = { letter: [612, 792], a4: [595.28, 841.89] } as const;
/** Half an inch stays free on every side: the frame's lines end there. */
const QUIET = 36;
const CROSS = 4;
const FRAME = QUIET + CROSS;
const MARGIN = 50;
const HEAD_TOP = 45;
/** The mark, beside the name; the least height of the first page's head, which holds it; the lines on the right leave some width to the left. */
const MARK = { widthPt: 66, heightPt: 34, gap: 9 } as const;
const LEAST_HEAD = 37;
const RIGHT_SHARE = 0.6;
const HEAD_GAP = 12;
/** Between the rule under the head and what follows. */
const UNDER_RULE = 6;
/** Between the last line and the line at the foot. */
const FOOT_ROOM = 15;
const WATERMARK = { sizePt: 150, turnDeg: 50 } as const;

export type Inked = { readonly pdf: Buffer; readonly pages: number };

const drawFrame = (pdf: Pdf, width: number, height: number, foot: string): void => {
  pdf.lineWidth(0.75).strokeColor('#000000');
  const lines: [number, number, number, number][] = [
    [FRAME - CROSS, FRAME, width - FRAME + CROSS, FRAME],
    [FRAME, FRAME - CROSS, FRAME, height - FRAME + CROSS],
    [width - FRAME, FRAME - CROSS, width - FRAME, height - FRAME + CROSS],
  ];
  for (const [x1, y1, x2, y2] of lines) pdf.moveTo(x1, y1).lineTo(x2, y2);
  pdf.stroke();
  const line = breakLines(pdf, [{ text: foot }], BODY, width)[0];
  const gap = foot === '' || line === undefined ? 0 : line.width / 2 + 6;
  const y = height - FRAME;
  pdf
    .moveTo(FRAME - CROSS, y)
    .lineTo(width / 2 - gap, y)
    .moveTo(width / 2 + gap, y)
    .lineTo(width - FRAME + CROSS, y)
    .stroke('#000000');
  if (gap > 0 && line !== undefined) setLines(pdf, [line], { x: width / 2 - line.width / 2, y: y - 8, measure: line.width }, BODY);
};

const withPages = (text: string, page: number, pages: number): string =>
  text.replace('{page}', String(page)).replace('{pages}', String(pages));

/** The head of the first page, or that of the others: its lines, and where the rule below them is. No line of it is cut. */
type Head = {
  readonly isFirst: boolean;
  readonly name: Line[];
  readonly lines: Line[];
  readonly right: readonly string[];
  readonly ruleY: number;
};

/** The right is as wide as its lines; the left has what it leaves. */
const headOf = (pdf: Pdf, { head }: DocumentTree, measure: number, isFirst: boolean): Head => {
  // Identifies each page in case pages get separated.
  const right = isFirst ? head.right : [head.right.find((text) => text.includes('{page}')) ?? head.right[0] ?? ''];
  const rightLines = right.flatMap((text) => breakLines(pdf, [{ text }], BODY, measure * RIGHT_SHARE));
  const markPt = isFirst && head.mark !== null ? MARK.widthPt + MARK.gap : 0;
  const left = measure - markPt - HEAD_GAP - Math.max(0, ...rightLines.map(({ width }) => width));
  const name = breakLines(pdf, [{ text: head.name, bold: !isFirst }], isFirst ? SPEECH : BODY, left);
  const lines = isFirst ? head.lines.flatMap((text) => breakLines(pdf, [{ text }], BODY, left)) : [];
  const leftPt = isFirst ? linesTop(name) + lines.length * BODY.leadPt : name.length * BODY.leadPt;
  const height = Math.max(isFirst ? LEAST_HEAD : 0, leftPt, rightLines.length * BODY.leadPt);
  return { isFirst, name, lines, right, ruleY: HEAD_TOP + height + (isFirst ? 6 : 4) };
};

/** Where the lines under the large name begin, below the top of the head. */
const linesTop = (name: readonly Line[]): number => name.length * SPEECH.leadPt - 2;

/** Where the head is, and on which page. */
type HeadPlace = { readonly measure: number; readonly page: number; readonly pages: number };

const drawHead = (
  pdf: Pdf,
  of: DocumentTree['head'],
  { isFirst, name, lines, right, ruleY }: Head,
  place: HeadPlace,
  tags: Tagger,
): void => {
  const { measure, page, pages } = place;
  const { mark } = of;
  const drawRight = (): void => {
    const column = { x: MARGIN + measure * (1 - RIGHT_SHARE), measure: measure * RIGHT_SHARE, align: 'end' } as const;
    const numbered = right.flatMap((text) => breakLines(pdf, [{ text: withPages(text, page, pages) }], BODY, column.measure));
    setLines(pdf, numbered, { ...column, y: HEAD_TOP }, BODY);
  };
  const drawRule = (): void => rule(pdf, MARGIN, ruleY, measure);
  if (!isFirst) {
    tags.artifact(() => {
      setLines(pdf, name, { x: MARGIN, y: HEAD_TOP, measure }, BODY);
      drawRight();
      drawRule();
    });
    return;
  }
  const x = MARGIN + (mark === null ? 0 : MARK.widthPt + MARK.gap);
  if (mark !== null)
    tags.in(
      tag('Figure', null, { alt: `Logo of ${of.name}` }),
      () => void pdf.image(mark, MARGIN, HEAD_TOP, { fit: [MARK.widthPt, MARK.heightPt] }),
    );
  tags.in(tag('P', null), () => {
    setLines(pdf, name, { x, y: HEAD_TOP - 2, measure }, SPEECH);
    setLines(pdf, lines, { x, y: HEAD_TOP + linesTop(name), measure }, BODY);
  });
  tags.in(tag('P', null), drawRight);
  tags.artifact(drawRule);
};

/** A word in outline across the page, toward its upper right corner. */
const drawWatermark = (pdf: Pdf, text: string, width: number, height: number): void => {
  pdf.save();
  pdf.rotate(-WATERMARK.turnDeg, { origin: [width / 2, height / 2] });
  pdf
    .font(cutOf({ family: 'sans', weight: 700, italic: false }))
    .fontSize(WATERMARK.sizePt)
    .lineWidth(0.5)
    .strokeColor('#000000');
  const half = pdf.widthOfString(text) / 2;
  pdf.text(text, width / 2 - half, height / 2 - WATERMARK.sizePt / 2, { lineBreak: false, stroke: true, fill: false });
  pdf.restore();
  pdf.fillColor('#000000');
};

/** The text of runs marked `counted`, with the number of pages inserted. */
const withPageCount = (blocks: readonly Block[], pages: number): Block[] =>
  blocks.map((block): Block => {
    if (block.kind === 'paragraph')
      return {
        ...block,
        runs: block.runs.map((run) => (run.counted === true ? { ...run, text: run.text.replaceAll('{pages}', String(pages)) } : run)),
      };
    if (block.kind === 'together' || block.kind === 'cover') return { ...block, blocks: withPageCount(block.blocks, pages) };
    if (block.kind === 'columns') return { ...block, columns: block.columns.map((column) => withPageCount(column, pages)) };
    return block;
  });

/** Page labels 1, 2, 3, as printed at the head of each page (ISO 32000-1, 12.4.2). */
function numberPages(pdf: Pdf): void {
  const { _root: root } = pdf as unknown as { readonly _root: { readonly data: Record<string, unknown> } };
  root.data['PageLabels'] = { Nums: [0, { S: 'D' }] };
}

/** Inks `tree`; the same tree gives the same bytes. */
export async function inkDocument(tree: DocumentTree, fontsFolder: string): Promise<Inked> {
  const [width, height] = PAPER[tree.paper];
  const madeAt = new Date(tree.madeAt);
  const pdf = await newPdf(
    {
      size: [width, height],
      margin: 0,
      autoFirstPage: false,
      pdfVersion: '1.7',
      subset: 'PDF/A-2a',
      tagged: true,
      lang: tree.language,
      displayTitle: true,
      info: {
        Title: tree.title,
        Subject: tree.subject,
        Author: tree.author,
        Creator: 'Straightedge',
        Producer: 'Straightedge',
        CreationDate: madeAt,
        ModDate: madeAt,
      },
    },
    fontsFolder,
  );
  const parts: Buffer[] = [];
  const ended = new Promise<Buffer>((resolve, reject) => {
    pdf.on('data', (part: Buffer) => parts.push(part));
    pdf.on('end', () => resolve(Buffer.concat(parts)));
    pdf.on('error', reject);
  });
  const measure = width - MARGIN * 2;
  const bottom = height - FRAME - FOOT_ROOM;
  const [firstHead, nextHead] = [headOf(pdf, tree, measure, true), headOf(pdf, tree, measure, false)];
  const firstTop = firstHead.ruleY + UNDER_RULE;
  const nextTop = nextHead.ruleY + UNDER_RULE - 1;
  const place = (blocks: readonly Block[]) =>
    paginate(
      sliceBlocks(pdf, blocks, {
        measure,
        parent: null,
        most: bottom - nextTop,
        first: bottom - firstTop,
        overPt: MARGIN - FRAME + CROSS,
        shrink: 1,
      }),
      firstTop,
      nextTop,
      bottom,
    );
  const pagesOf = (placed: readonly Placed[]): number => 1 + Math.max(0, ...placed.map((p) => p.page));
  // The page count is not wider than its placeholder, so the second layout has as many pages as the first.
  const placed = place(withPageCount(tree.blocks, pagesOf(place(tree.blocks))));
  const pages = pagesOf(placed);
  const tags = new Tagger(pdf);
  for (let page = 0; page < pages; page += 1) {
    pdf.addPage({ size: [width, height], margin: 0 });
    tags.artifact(() => {
      if (tree.watermark !== undefined) drawWatermark(pdf, tree.watermark, width, height);
      drawFrame(pdf, width, height, tree.foot);
    });
    drawHead(pdf, tree.head, page === 0 ? firstHead : nextHead, { measure, page: page + 1, pages }, tags);
    for (const { slice, y } of placed.filter((p) => p.page === page)) slice.draw(pdf, MARGIN, y, tags);
  }
  tags.end();
  numberPages(pdf);
  pdf.end();
  return { pdf: await ended, pages };
}
