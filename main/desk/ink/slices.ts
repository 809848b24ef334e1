/**
 * A document as slices: pieces that never break, each with its height and how to draw it. All slices get their page before anything is
 * drawn, so page numbers are known.
 */
import type { Pdf } from './fonts.ts';

/** A node of the tag tree. Children are created when first drawn, and a slice on the next page continues the same node. */
export type Tag = { readonly type: string; readonly alt?: string; readonly scope?: 'Column' | 'Row'; readonly parent: Tag | null };

export type Draw = (pdf: Pdf, x: number, y: number, tags: Tagger) => void;
export type Slice = {
  readonly height: number;
  /** Space above, left out at the top of a page. */
  readonly before: number;
  /** Stays on the page of the next slice (a heading, the head of a table). */
  readonly withNext: boolean;
  readonly draw: Draw;
  /** Repeated at the top of a page that its table continues on. */
  readonly repeat: Slice | null;
  /** Starts a new page. */
  readonly newPage: boolean;
};
export type Placed = { readonly slice: Slice; readonly page: number; readonly y: number };

type Element = ReturnType<Pdf['struct']>;

/** An outline entry, which may contain others. */
type Bookmark = { readonly addItem: (title: string, options: { readonly expanded: boolean }) => Bookmark };

/** Creates tag nodes when needed and adds content to them. */
export class Tagger {
  private readonly pdf: Pdf;
  private readonly root: Element;
  private readonly elements = new Map<Tag, Element>();
  /** The last bookmark of each heading level, outermost first. */
  private readonly bookmarks: Bookmark[] = [];

  constructor(pdf: Pdf) {
    this.pdf = pdf;
    this.root = pdf.struct('Document');
    pdf.addStructure(this.root);
  }

  private element(tag: Tag): Element {
    const found = this.elements.get(tag);
    if (found !== undefined) return found;
    const options = { ...(tag.alt === undefined ? {} : { alt: tag.alt }), ...(tag.scope === undefined ? {} : { scope: tag.scope }) };
    const element = this.pdf.struct(tag.type, options);
    (tag.parent === null ? this.root : this.element(tag.parent)).add(element);
    this.elements.set(tag, element);
    return element;
  }

  /** Draws inside a tag. */
  in(tag: Tag, draw: () => void): void {
    this.element(tag).add(draw);
  }

  /** Bookmarks a heading on the present page, under the last heading of a higher level. */
  bookmark(text: string, level: 1 | 2 | 3): void {
    this.bookmarks.length = Math.min(this.bookmarks.length, level - 1);
    const under = this.bookmarks.at(-1) ?? this.pdf.outline;
    this.bookmarks.push(under.addItem(text, { expanded: level === 1 }));
  }

  /** Draws what screen readers skip: rules, frames. */
  artifact(draw: () => void): void {
    this.pdf.markContent('Artifact', { type: 'Layout' });
    draw();
    this.pdf.endMarkedContent();
  }

  end(): void {
    this.root.end();
  }
}

/** A tag under a parent; null is the document. */
export function tag(type: string, parent: Tag | null, more: { alt?: string; scope?: 'Column' | 'Row' } = {}): Tag {
  return { type, parent, ...more };
}

/** Less than this does not stand alone on the last page, and no more than this is carried to it, points. */
const SPARSE_PT = { least: 150, most: 300 } as const;

/** The slice from which a last page with a row or two is filled up; null where it is full enough, or begins with a page break. */
function carriedFrom(slices: readonly Slice[], placed: readonly Placed[], nextTop: number): number | null {
  const last = placed.at(-1);
  if (last === undefined || last.page === 0 || last.y + last.slice.height - nextTop >= SPARSE_PT.least) return null;
  const onLast = new Set(placed.filter(({ page }) => page === last.page).map(({ slice }) => slice));
  const first = slices.findIndex((slice) => onLast.has(slice));
  let carriedPt = 0;
  for (let i = first - 1; i > 0 && slices[i]?.newPage === false && slices[first]?.newPage === false; i -= 1) {
    carriedPt += (slices[i]?.height ?? 0) + (slices[i]?.before ?? 0);
    if (carriedPt > SPARSE_PT.most) return null;
    if (carriedPt >= SPARSE_PT.least && slices[i - 1]?.withNext === false) return i;
  }
  return null;
}

/**
 * Stacks slices on pages.
 * @param top top of the content on the first page, and on the others
 * @param bottom bottom of the content
 */
export function paginate(all: readonly Slice[], firstTop: number, nextTop: number, bottom: number): Placed[] {
  // A page break at the end opens no page.
  const slices = all.slice(0, all.findLastIndex((slice) => !slice.newPage || slice.height > 0) + 1);
  const placed = stacked(slices, firstTop, nextTop, bottom);
  const from = carriedFrom(slices, placed, nextTop);
  if (from === null) return placed;
  return stacked(
    slices.map((slice, i) => (i === from ? { ...slice, newPage: true } : slice)),
    firstTop,
    nextTop,
    bottom,
  );
}

function stacked(slices: readonly Slice[], firstTop: number, nextTop: number, bottom: number): Placed[] {
  const placed: Placed[] = [];
  let page = 0;
  let y = firstTop;
  let isTop = true;
  const turn = (): void => {
    page += 1;
    y = nextTop;
    isTop = true;
  };
  let i = 0;
  while (i < slices.length) {
    // Slices that stay together: each with the next, up to the first that may break.
    let end = i;
    while (slices[end]?.withNext === true && end + 1 < slices.length) end += 1;
    const run = slices.slice(i, end + 1);
    const needed = run.reduce((sum, s, k) => sum + s.height + (k === 0 && isTop ? 0 : s.before), 0);
    if ((run[0]?.newPage === true && !isTop) || (y + needed > bottom && !isTop)) turn();
    for (const slice of run) {
      if (!isTop && y + slice.before + slice.height > bottom) turn();
      if (isTop && slice.repeat !== null) {
        placed.push({ slice: slice.repeat, page, y });
        y += slice.repeat.height;
        isTop = false;
      }
      if (!isTop) y += slice.before;
      placed.push({ slice, page, y });
      y += slice.height;
      // A page break has no height, so what follows is still at the top.
      isTop &&= slice.height === 0;
    }
    i = end + 1;
  }
  return placed;
}
