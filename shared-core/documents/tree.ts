/** What a document says, as a plain tree: headings, paragraphs, tables, drawings. How it is inked is the desk's business. */
import { z } from 'zod';
import { drawingSchema } from '../drawing/marks.ts';

export const runSchema = z.strictObject({
  text: z.string(),
  bold: z.boolean().optional(),
  italic: z.boolean().optional(),
  serif: z.boolean().optional(),
});
export type Run = z.infer<typeof runSchema>;

const columnSchema = z.strictObject({
  title: z.string(),
  align: z.enum(['start', 'end']),
  /** Share of the width; columns without one divide what is left. */ share: z.number().nullable(),
});

type Block =
  | { kind: 'heading'; level: 1 | 2 | 3; text: string }
  | { kind: 'paragraph'; runs: Run[]; small?: boolean | undefined }
  | { kind: 'list'; items: Run[][]; marker: 'none' | 'number' | 'box' }
  | {
      kind: 'table';
      caption: string;
      columns: z.infer<typeof columnSchema>[];
      /** A row with `figure` says its pointed cell (the last one, where none is pointed at) large. */
      rows: { cells: Run[][]; strong?: boolean | undefined; rule?: boolean | undefined; figure?: boolean | undefined }[];
      pointedColumn: number | null;
      pointedNote: string;
    }
  | { kind: 'figure'; label: string; figure: string }
  | {
      kind: 'drawing';
      drawing: z.infer<typeof drawingSchema>;
      alt: string;
      caption: string /** Runs from edge to edge of the sheet, as the datum does. */;
      wide?: boolean | undefined;
      /** Is drawn smaller, and in the middle, where a cover would not fit its page otherwise. */
      gives?: boolean | undefined;
    }
  | { kind: 'photos'; photos: { picture: string; caption: string }[] }
  | { kind: 'columns'; shares: number[]; columns: Block[][] }
  | { kind: 'fields'; fields: { label: string; share: number }[] }
  | { kind: 'together'; blocks: Block[] }
  /** Stands on the first page alone; its drawings give way until it does. Too much for one page, it flows on. */
  | { kind: 'cover'; blocks: Block[] }
  | { kind: 'rule' }
  | { kind: 'page' };

const blocks = z.lazy(() => z.array(blockSchema));
export const blockSchema: z.ZodType<Block> = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('heading'), level: z.union([z.literal(1), z.literal(2), z.literal(3)]), text: z.string() }),
  z.strictObject({ kind: z.literal('paragraph'), runs: z.array(runSchema), small: z.boolean().optional() }),
  z.strictObject({ kind: z.literal('list'), items: z.array(z.array(runSchema)), marker: z.enum(['none', 'number', 'box']) }),
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
    /** Each as a data address, small and in a row; the caption is what a screen reader says. */
    photos: z.array(z.strictObject({ picture: z.string().regex(/^data:image\/(jpeg|png);base64,/), caption: z.string() })),
  }),
  z.strictObject({ kind: z.literal('columns'), shares: z.array(z.number()), columns: z.array(blocks) }),
  z.strictObject({ kind: z.literal('fields'), fields: z.array(z.strictObject({ label: z.string(), share: z.number() })) }),
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
});
export type DocumentTree = z.infer<typeof documentTreeSchema>;
