/** Columns of the Assess screen, px, so that the drawing and the text line up. */

/** Bounds of the section, and of the fields below it. */
export type SectionFrame = {
  readonly x0: number;
  readonly x1: number;
  readonly columns: number;
  /** Center of each column. */
  readonly middles: readonly number[];
};

// The same values as in the CSS: frame, inset, title block, gap.
const MARGIN_PX = 16;
const INSET_PX = 36;
const SMALL_INSET_PX = 18;
const RIGHT_AIR_PX = 32;
const block = (widthPx: number): number => Math.max(400, Math.min(496, widthPx * 0.3334 - 16));

const GAP_PX = 24;
const LEAST_COLUMN_PX = 124;
const MOST_COLUMNS = 5;
/** Left of the wall, for the pointer and the word “level”. */
const WORD_PX = 96;
const WALL_PX = 15;
/** Below this the section takes the full width and drops its label. */
const TIGHT_PX = 640;

/** The frame for a window width and a number of fields. */
export function sectionFrame(widthPx: number, small: boolean, fields: number): SectionFrame {
  const insetPx = small ? SMALL_INSET_PX : INSET_PX;
  const right = small ? widthPx - SMALL_INSET_PX : widthPx - MARGIN_PX - block(widthPx) - RIGHT_AIR_PX;
  const breadth = right - insetPx;
  const columns = Math.max(1, Math.min(MOST_COLUMNS, Math.max(fields, 3), Math.floor((breadth + GAP_PX) / (LEAST_COLUMN_PX + GAP_PX))));
  const column = (breadth - GAP_PX * (columns - 1)) / columns;
  const tight = breadth < TIGHT_PX;
  return {
    x0: insetPx + (tight ? WALL_PX : WORD_PX),
    x1: right - WALL_PX,
    columns,
    middles: Array.from({ length: columns }, (_, i) => insetPx + i * (column + GAP_PX) + column / 2),
  };
}
