/** A document's content as a plain tree: headings, paragraphs, tables, drawings. The desk decides how it is inked. */
import { z } from 'zod';
import { drawingSchema } from '../drawing/marks.ts';

export const runSchema = z.strictObject({
  text: z.string(),
  bold: z.boolean().optional(),
  italic: z.boolean().optional(),
  serif: z.boolean().optional(),
  /** `{pages}` in the text becomes the number of pages. */ counted: z.boolean().optional(),
});
export type Run = z.infer<typeof runSchema>;

const columnSchema = z.strictObject({
  title: z.string(),
  align: z.enum(['start', 'end']),
  /** Share of the width; columns without one divide what is left. */ share: z.number().nullable(),
});

const fieldSchema = z.strictObject({
  label: z.string(),
  share: z.number(),
  value: z.string().optional(),
  picture: z
    .string()
    .regex(/^data:image\/png;base64,/)
    .optional(),
});
export type DocumentField = z.infer<typeof fieldSchema>;

/** A picture as a data address, or a photo of the job by the SHA-256 of its bytes while the tree is stored. */
export const PICTURE_PATTERN = /^(data:image\/(jpeg|png);base64,|photos\/[0-9a-f]{64}\.(jpg|png)$)/;

type Block =
  | { kind: 'heading'; level: 1 | 2 | 3; text: string }
  | { kind: 'paragraph'; runs: Run[]; small?: boolean | undefined }
  | { kind: 'list'; items: Run[][]; marker: 'none' | 'number' | 'box'; isLarge?: boolean | undefined }
  | {
      kind: 'table';
      caption: string;
      columns: z.infer<typeof columnSchema>[];
      /** `figure` sets the pointed cell (the last one, where none is pointed at) large; `box` draws a box to check in the empty last cell. */
      rows: {
        cells: Run[][];
        strong?: boolean | undefined;
        rule?: boolean | undefined;
        figure?: boolean | undefined;
        box?: boolean | undefined;
      }[];
      pointedColumn: number | null;
      pointedNote: string;
    }
  | { kind: 'figure'; label: string; figure: string }
  | {
      kind: 'drawing';
      drawing: z.infer<typeof drawingSchema>;
      alt: string;
      caption: string /** Runs from edge to edge of the page, as the datum does. */;
      wide?: boolean | undefined;
      /** Drawn smaller, and centered, where a cover would not fit its page otherwise. */
      gives?: boolean | undefined;
    }
  | { kind: 'photos'; photos: { picture: string; caption: string }[]; isLarge?: boolean | undefined }
  | { kind: 'columns'; shares: number[]; columns: Block[][] }
  /** Fields to fill in or sign. A value stands in its field; a picture is a drawn signature; `box` is a box to check before the label. */
  | { kind: 'fields'; fields: z.infer<typeof fieldSchema>[] }
  | { kind: 'together'; blocks: Block[] }
  /** Has a page of its own; its drawings shrink until it fits. Too much for one page, it flows on. */
  | { kind: 'cover'; blocks: Block[] }
  | { kind: 'rule' }
  | { kind: 'page' };

const blocks = z.lazy(() => z.array(blockSchema));
export const blockSchema: z.ZodType<Block> = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('heading'), level: z.union([z.literal(1), z.literal(2), z.literal(3)]), text: z.string() }),
  z.strictObject({ kind: z.literal('paragraph'), runs: z.array(runSchema), small: z.boolean().optional() }),
  z.strictObject({
    kind: z.literal('list'),
    items: z.array(z.array(runSchema)),
    marker: z.enum(['none', 'number', 'box']),
    isLarge: z.boolean().optional(),
  }),
  z.strictObject({
    kind: z.literal('table'),
    caption: z.string(),
    columns: z.array(columnSchema).min(1),
    rows: z.array(
      z.strictObject({
        cells: z.array(z.array(runSchema)),
        strong: z.boolean().optional(),
        rule: z.boolean().optional(),
        figure: z.boolean().optional(),
        box: z.boolean().optional(),
      }),
    ),
    pointedColumn: z.int().nullable(),
    pointedNote: z.string(),
  }),
  z.strictObject({ kind: z.literal('figure'), label: z.string(), figure: z.string() }),
  z.strictObject({
    kind: z.literal('drawing'),
    drawing: drawingSchema,
    alt: z.string(),
    caption: z.string(),
    wide: z.boolean().optional(),
    gives: z.boolean().optional(),
  }),
  z.strictObject({
    kind: z.literal('photos'),
    /** Small and in a row, or as wide as the column; the caption is also the alternative text. */
    photos: z.array(z.strictObject({ picture: z.string().regex(PICTURE_PATTERN), caption: z.string() })),
    isLarge: z.boolean().optional(),
  }),
  z.strictObject({ kind: z.literal('columns'), shares: z.array(z.number()), columns: z.array(blocks) }),
  z.strictObject({ kind: z.literal('fields'), fields: z.array(fieldSchema) }),
  z.strictObject({ kind: z.literal('together'), blocks }),
  z.strictObject({ kind: z.literal('cover'), blocks }),
  z.strictObject({ kind: z.literal('rule') }),
  z.strictObject({ kind: z.literal('page') }),
]);
export type { Block };

export const documentTreeSchema = z.strictObject({
  title: z.string().min(1),
  subject: z.string(),
  author: z.string(),
  language: z.string(),
  paper: z.enum(['letter', 'a4']),
  /** ISO instant written into the file, so that the same content gives the same bytes. */
  madeAt: z.string(),
  /** Top left: the business's name, a line under it, its mark as a data address or null. */
  head: z.strictObject({ name: z.string(), lines: z.array(z.string()), mark: z.string().nullable(), right: z.array(z.string()) }),
  blocks: z.array(blockSchema),
  foot: z.string(),
  /** A word in large outline across each page, such as `Draft`. */
  watermark: z.string().optional(),
});
export type DocumentTree = z.infer<typeof documentTreeSchema>;
