/** Sides of an outline, stored as a draft until they close. */
import { z } from 'zod';
import type { Point } from '../../shared-core/book/fields.ts';
import { SHAPE_TURNS, type Shape, type Side, walkSides } from '../../shared-core/plan/tape.ts';
import { tapeOfOutline, type WalkPlace } from '../../shared-core/plan/tape-room.ts';

const shapeSchema = z.enum(['rectangle', 'l', 't', 'u', 'free']);
const tapeSchema = z.strictObject({
  shape: shapeSchema,
  sides: z.array(z.strictObject({ lengthM: z.number().positive().nullable(), turnDeg: z.number() })).max(400),
  start: z.strictObject({ xM: z.number(), yM: z.number() }),
  headingDeg: z.number(),
});

/** A shape of `tape.ts`, or corner by corner. */
export type TapeShape = z.infer<typeof shapeSchema>;
export type Tape = z.infer<typeof tapeSchema>;
export type TapeSide = Tape['sides'][number];

/** Sides of the example shape shown before any side is entered, m. */
const SKETCHES: Readonly<Record<Shape, readonly number[]>> = {
  rectangle: [5, 4, 5, 4],
  l: [5, 2.4, 2.5, 1.8, 2.5, 4.2],
  t: [6, 2, 2, 2.4, 2, 2.4, 2, 2],
  u: [2, 2, 2, 2, 2, 4, 6, 4],
};

/** The sides of a shape, none measured yet. */
export function blankTape(shape: TapeShape, place: WalkPlace): Tape {
  const turns = shape === 'free' ? [] : SHAPE_TURNS[shape];
  return { shape, sides: turns.map((turnDeg) => ({ lengthM: null, turnDeg })), start: place.start, headingDeg: place.headingDeg };
}

/** The sides of a drawn room, or a blank rectangle. */
export function tapeOf(outline: readonly Point[]): Tape {
  const { sides, place } = tapeOfOutline(outline);
  if (sides.length === 0) return blankTape('rectangle', { start: { xM: 0, yM: 0 }, headingDeg: 0 });
  const turns = sides.map((side) => side.turnDeg);
  // The same turns in the same order are the same shape, whichever corner is first.
  const isShape = (name: Shape) => turns.some((_, i) => [...turns.slice(i), ...turns.slice(0, i)].join() === SHAPE_TURNS[name].join());
  const shape = (Object.keys(SHAPE_TURNS) as Shape[]).find(isShape);
  return { shape: shape ?? 'free', sides: [...sides], start: place.start, headingDeg: place.headingDeg };
}

/** Parses a stored draft; null when it cannot be read, such as one from another version. */
export function readTape(text: string | null | undefined): Tape | null {
  if (text === null || text === undefined) return null;
  try {
    const read = tapeSchema.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

const isKnown = (side: TapeSide): side is Side => side.lengthM !== null;

/** The sides when all are measured; null while one is missing. */
export function knownSides(tape: Tape): readonly Side[] | null {
  return tape.sides.length > 0 && tape.sides.every(isKnown) ? tape.sides.filter(isKnown) : null;
}

/** The sides when they make a room: at least three, and closed. */
export function closedSides(tape: Tape): readonly Side[] | null {
  const sides = knownSides(tape);
  return sides !== null && sides.length >= 3 && walkSides(sides).closes ? sides : null;
}

/** Unmeasured sides are drawn in the sketch's proportion to the measured ones. */
export function sketchedSides(tape: Tape): readonly Side[] {
  if (tape.shape === 'free') return tape.sides.map((side) => ({ ...side, lengthM: side.lengthM ?? 1 }));
  const sketch = SKETCHES[tape.shape];
  const read = tape.sides.flatMap((side, i) => (side.lengthM === null ? [] : [{ is: side.lengthM, drawn: sketch[i] ?? 1 }]));
  const scale = read.length === 0 ? 1 : read.reduce((sum, r) => sum + r.is, 0) / read.reduce((sum, r) => sum + r.drawn, 0);
  return tape.sides.map((side, i) => ({ ...side, lengthM: side.lengthM ?? (sketch[i] ?? 1) * scale }));
}
