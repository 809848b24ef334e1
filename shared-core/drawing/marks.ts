/**
 * A drawing as a list of marks, in drawing units: 1 unit is 1/96 inch, a CSS pixel at normal zoom. x runs right, y down.
 * The screen renders these marks as SVG and documents render them as PDF, so each drawing is written once.
 */
import { z } from 'zod';

const n = z.number();

/** Pens by width in px: 0.75 witness, 1 thin, 1.5 seen, 2.25 cut, 2 datum, 4 pour mode. */
export const penSchema = z.enum(['witness', 'thin', 'seen', 'cut', 'datum', 'pour']);
export type Pen = z.infer<typeof penSchema>;
export const PEN_WIDTH: Readonly<Record<Pen, number>> = { witness: 0.75, thin: 1, seen: 1.5, cut: 2.25, datum: 2, pour: 4 };

/** Color of a stroke, a fill or a letter. `d0` to `d7` is the depth tint, shallow to deep. On paper every pen is black. */
export const inkSchema = z.enum([
  'ink',
  'ink2',
  'line',
  'faint',
  'chalk',
  'on-chalk',
  'paper',
  'tracing',
  'dot',
  'd0',
  'd1',
  'd2',
  'd3',
  'd4',
  'd5',
  'd6',
  'd7',
]);
export type Ink = z.infer<typeof inkSchema>;

/** `not-yet` not agreed or not placed; `ground-off` to be ground; `cut` where a section is cut; `membrane` polyethylene; `dots` leader to a label. */
export const dashSchema = z.enum(['not-yet', 'ground-off', 'cut', 'membrane', 'dots']);
export const DASHES: Readonly<Record<z.infer<typeof dashSchema>, readonly number[]>> = {
  'not-yet': [4, 3],
  'ground-off': [6, 4],
  cut: [16, 4, 3, 4],
  membrane: [14, 3],
  dots: [1, 4],
};
export type Dash = z.infer<typeof dashSchema>;

export const hatchSchema = z.enum([
  'cut',
  'wall',
  'prep',
  'grind',
  'boards',
  'grain',
  'panel',
  'tile',
  'stone',
  'gravel',
  'earth',
  'concrete',
  'wide',
  'framing',
]);
export type Hatch = z.infer<typeof hatchSchema>;

/** Corners as x, y, x, y, …: a ring when `closed`. */
export const ringSchema = z.strictObject({ xy: z.array(n), closed: z.boolean() });
export type Ring = z.infer<typeof ringSchema>;

export const pathMarkSchema = z.strictObject({
  kind: z.literal('path'),
  rings: z.array(ringSchema),
  pen: penSchema.nullable(),
  ink: inkSchema,
  fill: inkSchema.nullable(),
  dash: dashSchema.nullable(),
});
export const hatchMarkSchema = z.strictObject({
  kind: z.literal('hatch'),
  /** Even-odd: a ring within a ring is a hole. */
  rings: z.array(ringSchema),
  hatch: hatchSchema,
  ink: inkSchema,
});
export const stippleMarkSchema = z.strictObject({
  kind: z.literal('stipple'),
  /** Centers x, y, x, y, … */
  xy: z.array(n),
  sizePx: n,
  ink: inkSchema,
});
export const textMarkSchema = z.strictObject({
  kind: z.literal('text'),
  x: n,
  /** The baseline. */
  y: n,
  text: z.string().max(400),
  family: z.enum(['sans', 'serif']),
  sizePx: n,
  weight: z.union([z.literal(300), z.literal(400), z.literal(600), z.literal(700)]),
  italic: z.boolean(),
  ink: inkSchema,
  anchor: z.enum(['start', 'middle', 'end']),
  /** Clockwise, around x, y. */
  turnDeg: n,
  /** Clears the background of the letters, so that text is never on a line. */
  clear: inkSchema.nullable(),
});
export type GroupMark = { kind: 'group'; name: string; label: string; marks: Mark[] };
/** Marks that belong together and can be pointed at: `name` is the handle (`reading:abc`), `label` is for screen readers (empty: decoration). */
export const groupMarkSchema: z.ZodType<GroupMark> = z.strictObject({
  kind: z.literal('group'),
  name: z.string(),
  label: z.string(),
  marks: z.lazy(() => z.array(markSchema)),
});

export type PathMark = z.infer<typeof pathMarkSchema>;
export type HatchMark = z.infer<typeof hatchMarkSchema>;
export type StippleMark = z.infer<typeof stippleMarkSchema>;
export type TextMark = z.infer<typeof textMarkSchema>;
export type Mark = PathMark | HatchMark | StippleMark | TextMark | GroupMark;
export const markSchema: z.ZodType<Mark> = z.union([pathMarkSchema, hatchMarkSchema, stippleMarkSchema, textMarkSchema, groupMarkSchema]);

export const drawingSchema = z.strictObject({
  width: n.positive(),
  height: n.positive(),
  marks: z.array(markSchema),
});
export type Drawing = z.infer<typeof drawingSchema>;
