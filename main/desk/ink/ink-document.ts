/** Inks a document tree as tagged PDF/A: grid, frame with crossing corners, embedded fonts. */
import type { Block, DocumentTree } from '../../../shared-core/documents/tree.ts';
import { sliceBlocks } from './block-slices.ts';
import { cutOf, newPdf, type Pdf } from './fonts.ts';
import { BODY, breakLines, LARGER, setLines, SPEECH } from './lines.ts';
import { paginate, type Placed, Tagger, tag } from './slices.ts';

const PAPER = { letter: [612, 792], a4: [595.28, 841.89] } as const;
/** Half an inch stays free on every side: the frame's lines end there. */
const QUIET = 36;
const CROSS = 4;
const FRAME = QUIET + CROSS;
const MARGIN = 50;
const HEAD_TOP = 45;
const FIRST_TOP = 94;
const NEXT_TOP = 69;
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

const drawHead = (
  pdf: Pdf,
  tree: DocumentTree,
  measure: number,
  { page, pages }: { readonly page: number; readonly pages: number },
  tags: Tagger,
): void => {
  const { head } = tree;
  const right = (): void => {
    head.right.forEach((text, i) => {
      const lines = breakLines(pdf, [{ text: withPages(text, page, pages) }], BODY, measure * 0.6);
      setLines(pdf, lines, { x: MARGIN + measure * 0.4, y: HEAD_TOP + i * BODY.leadPt, measure: measure * 0.6, align: 'end' }, BODY);
    });
  };
  if (page > 1) {
    tags.artifact(() => {
      setLines(
        pdf,
        breakLines(pdf, [{ text: head.name, bold: true }], BODY, measure * 0.5).slice(0, 1),
        { x: MARGIN, y: HEAD_TOP, measure: measure * 0.5 },
        BODY,
      );
      // Identifies each page in case pages get separated.
      const numbered = head.right.find((text) => text.includes('{page}')) ?? head.right[0];
      if (numbered !== undefined)
        setLines(
          pdf,
          breakLines(pdf, [{ text: withPages(numbered, page, pages) }], BODY, measure * 0.5).slice(0, 1),
          { x: MARGIN + measure * 0.5, y: HEAD_TOP, measure: measure * 0.5, align: 'end' },
          BODY,
        );
      pdf
        .lineWidth(0.75)
        .moveTo(MARGIN, HEAD_TOP + 19)
        .lineTo(MARGIN + measure, HEAD_TOP + 19)
        .stroke('#000000');
    });
    return;
  }
  let x = MARGIN;
  if (head.mark !== null) {
    const { mark } = head;
    const width = 66;
    tags.in(tag('Figure', null, { alt: `Logo of ${head.name}` }), () => void pdf.image(mark, x, HEAD_TOP, { fit: [width, 34] }));
    x += width + 9;
  }
  tags.in(tag('P', null), () => {
    setLines(
      pdf,
      breakLines(pdf, [{ text: head.name }], SPEECH, measure * 0.62).slice(0, 1),
      { x, y: HEAD_TOP - 2, measure: measure * 0.6 },
      SPEECH,
    );
    head.lines.forEach((text, i) =>
      setLines(
        pdf,
        breakLines(pdf, [{ text }], BODY, measure * 0.6).slice(0, 1),
        { x, y: HEAD_TOP + 22 + i * BODY.leadPt, measure: measure * 0.6 },
        BODY,
      ),
    );
  });
  tags.in(tag('P', null), right);
  const under = HEAD_TOP + Math.max(22 + head.lines.length * BODY.leadPt, head.right.length * LARGER.leadPt) + 6;
  tags.artifact(() =>
    pdf
      .lineWidth(0.75)
      .moveTo(MARGIN, under)
      .lineTo(MARGIN + measure, under)
      .stroke('#000000'),
  );
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
  const headLines = Math.max(tree.head.lines.length, 1);
  const firstTop = FIRST_TOP + (headLines - 1) * BODY.leadPt;
  const place = (blocks: readonly Block[]) =>
    paginate(
      sliceBlocks(pdf, blocks, {
        measure,
        parent: null,
        most: bottom - NEXT_TOP,
        first: bottom - firstTop,
        overPt: MARGIN - FRAME + CROSS,
        shrink: 1,
      }),
      firstTop,
      NEXT_TOP,
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
    drawHead(pdf, tree, measure, { page: page + 1, pages }, tags);
    for (const { slice, y } of placed.filter((p) => p.page === page)) slice.draw(pdf, MARGIN, y, tags);
  }
  tags.end();
  numberPages(pdf);
  pdf.end();
  return { pdf: await ended, pages };
}
