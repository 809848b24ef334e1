/** A room's stored plan. `plan` checks that it is closed and does not cross itself. */
import { z } from 'zod';
import { finite, idSchema, notNegative, pointSchema, positive, shortText } from './fields.ts';

export const holeSchema = z.strictObject({
  id: idSchema,
  kind: z.enum(['column', 'hearth', 'island', 'stair', 'drain', 'other']),
  name: shortText,
  corners: z.array(pointSchema).min(3, 'A cutout has at least three corners.').max(60),
});
export type Hole = z.infer<typeof holeSchema>;

export const openingSchema = z.strictObject({
  id: idSchema,
  kind: z.enum(['doorway', 'exterior-door', 'sliding-door', 'open-side']),
  name: shortText,
  /** Index of its wall: wall i runs from corner i to corner i + 1. */
  wall: z.int().min(0),
  /** From corner i to the opening's near side. */
  fromM: notNegative,
  widthM: positive,
  /** Height of the finished floor on the other side, on the same scale as the readings' heights; null when not read. */
  adjoiningM: finite.nullable(),
  adjoiningFlooring: shortText,
  edge: z.enum(['dam', 'feather', 'stop']),
  isWayOut: z.boolean(),
});
export type Opening = z.infer<typeof openingSchema>;

export const planSchema = z.strictObject({
  /** Corners in order, either way round; the last joins the first. Empty while nothing is drawn. */
  outline: z.array(pointSchema).max(400),
  holes: z.array(holeSchema).max(40),
  openings: z.array(openingSchema).max(40),
  /** Position of the room at the property, so that rooms can be drawn together. */
  placedAt: z.strictObject({ xM: finite, yM: finite, turnDeg: finite }),
  /** A diagonal measured to check the corners: from corner, to corner, as read. */
  diagonals: z.array(z.strictObject({ from: z.int().min(0), to: z.int().min(0), lengthM: positive })).max(20),
});
export type Plan = z.infer<typeof planSchema>;

/** A laser reading, stored as entered: an elevation, or a distance down from the laser's plane. */
export const readingSchema = z.strictObject({
  id: idSchema,
  xM: finite,
  yM: finite,
  valueM: finite,
  /** Null when taken with the rest; a text such as `low spot` when added on purpose. */
  note: shortText.nullable(),
  /** Checked on site although it departs from the readings around it. Cleared when its value or place changes. */
  confirmed: z.boolean(),
});
export type Reading = z.infer<typeof readingSchema>;

/** A run of readings without a laser, along a straight line at even steps. */
export const levelRunSchema = z.strictObject({
  id: idSchema,
  /**
   * `level` is carried end over end, each value the rise from one end to the other; `level-gaps` are gaps under a level held
   * level; `straightedge` are gaps under one lying on the floor; `water-level` are distances from the water down to the floor.
   */
  tool: z.enum(['level', 'level-gaps', 'straightedge', 'water-level']),
  from: pointSchema,
  /** 0 runs across to the right, 90 down the plan. */
  angleDeg: finite,
  stepM: positive,
  valuesM: z.array(finite).max(200),
  /** The first point read again at the end; null when it was not. */
  againM: finite.nullable(),
});
export type LevelRun = z.infer<typeof levelRunSchema>;

export const surveySchema = z.strictObject({
  method: z.enum(['height', 'distance-down']),
  takenAt: z.iso.datetime().nullable(),
  /** Whether it was read on the old flooring or after its removal. Absent while not recorded: read on the substrate. */
  over: z.enum(['as-found', 'once-out']).optional(),
  readings: z.array(readingSchema).max(20_000),
  /** Runs that the readings are calculated from; absent for laser readings. */
  runs: z.array(levelRunSchema).max(60).optional(),
  /**
   * One standard deviation of a reading, meters; typical 1.5 mm. An error that all readings share cancels where the same laser
   * sets the plane.
   */
  readingErrorM: positive,
});
export type Survey = z.infer<typeof surveySchema>;

/** A mark on the plan: a crack, a joint, a hollow area, a spot of adhesive. */
export const markSchema = z.strictObject({
  id: idSchema,
  /** `joint` is a control or construction joint; `expansion-joint` is an expansion or isolation joint. */
  kind: z.enum(['crack', 'joint', 'expansion-joint', 'hollow', 'contaminated', 'loose', 'pipe', 'drain', 'gap']),
  moves: z.enum(['still', 'moving', 'unknown']),
  shape: z.enum(['line', 'area', 'spot']),
  points: z.array(pointSchema).min(1).max(200),
  widthM: notNegative.nullable(),
  note: shortText,
});
export type Mark = z.infer<typeof markSchema>;
