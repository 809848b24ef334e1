/**
 * The floor, lanes, batches and product of a pour, stored when it starts. Later changes to a wall, a yield or a healing time do
 * not affect it.
 */
import { z } from 'zod';
import { count, finite, idSchema, nameText, notNegative, pointSchema, positive } from './fields.ts';
import { materialSchema } from './material.ts';
import { holeSchema, openingSchema } from './plan-fields.ts';

/** A piece of floor: one outline and its cutouts, meters on the room's own axes. */
const regionSchema = z.strictObject({ outline: z.array(pointSchema).max(2000), holes: z.array(z.array(pointSchema).max(2000)).max(60) });

export const pouredLaneSchema = z.strictObject({
  number: count.min(1),
  bay: count,
  roomId: idSchema,
  inRoom: count.min(1),
  pieces: z.array(regionSchema).max(200),
  areaM2: notNegative,
  volumeM3: notNegative,
  /** Planned depth at its shallowest place, m. */
  leastDepthM: notNegative,
  startM3: notNegative,
  forward: z.boolean(),
  /** Unit vector along the lane. */
  axes: z.strictObject({ ux: finite, uy: finite }),
});

const pouredBatchSchema = z.strictObject({
  number: count.min(1),
  roomId: idSchema,
  lane: count.min(1),
  volumeM3: notNegative,
  bags: notNegative,
  areaM2: notNegative,
  pieces: z
    .array(
      z.strictObject({
        lane: count.min(1),
        floor: z.array(regionSchema).max(200),
        areaM2: notNegative,
        volumeM3: notNegative,
        fromM: finite,
        toM: finite,
      }),
    )
    .max(200),
  meets: z.array(count).max(200),
});

const pouredJoinSchema = z.strictObject({
  kind: z.enum(['lane', 'batch', 'doorway']),
  newer: count,
  older: count,
  from: pointSchema,
  to: pointSchema,
  lengthM: notNegative,
  points: z.array(z.strictObject({ point: pointSchema, newer: count, older: count, newerPart: finite, olderPart: finite })).max(20_000),
  /** Of a doorway: the same line on the older room's axes. */
  olderSide: z.strictObject({ from: pointSchema, to: pointSchema }).optional(),
});

export const pouredLayoutSchema = z.strictObject({
  lanes: z.array(pouredLaneSchema).max(600),
  batches: z.array(pouredBatchSchema).max(2000),
  joins: z.array(pouredJoinSchema).max(4000),
  batchM3: positive,
  bagsPerBatch: positive,
  areaM2: positive,
  volumeM3: positive,
  pattern: z.enum(['back-and-forth', 'one-way']),
});

export const pouredRoomSchema = z.strictObject({
  roomId: idSchema,
  name: nameText,
  /** Which lift of this room it is, from 1, and how many the room was planned in. Rooms of one pour may differ. */
  lift: count.min(1),
  liftsPlanned: count.min(1),
  plan: z.strictObject({
    outline: z.array(pointSchema).max(400),
    holes: z.array(holeSchema).max(40),
    openings: z.array(openingSchema).max(40),
  }),
  /** Pour depth over all lifts as estimated at the start, m; null while it was unknown. */
  depth: z.strictObject({ meanM: notNegative, deepestM: notNegative }).nullable(),
  /** True when only the floor an earlier pour of this lift left open was to be placed. */
  isRest: z.boolean(),
  /** Sections of the room left for another day when the pour started; absent where it was to place all that was open. */
  later: z.array(regionSchema).max(200).optional(),
  /** Name of the moisture mitigation system chosen for the room when the pour started; absent for none. */
  moistureSystem: nameText.optional(),
  /** Name of the primer the pour went on; absent for none. */
  primer: nameText.optional(),
});

export const pouredPlanSchema = z.strictObject({
  rooms: z.array(pouredRoomSchema).min(1).max(20),
  /** Null when the pour was started without a layout. */
  layout: pouredLayoutSchema.nullable(),
  /** The product as its data sheet stood. */
  material: materialSchema,
  /** What is mixed into each bag, in containers of its data sheet; absent for none. */
  aggregate: z.strictObject({ materialId: idSchema, containersPerBag: positive }).optional(),
  /** Placed volume per bag, m3: the yield less waste. */
  bagYieldM3: positive,
  /** Waste factor in `bagYieldM3`, as a share. */
  lossShare: notNegative,
  /** Minimum thickness of the pour by its data sheet, the greater one over wood or radiant heat included, m. */
  minThicknessM: notNegative,
  /** Temperature the plan was made for, used until one is read on site. */
  plannedTempC: finite,
});
/** What a pour is read against, as it stood when the pour started. */
export type PouredPlan = z.infer<typeof pouredPlanSchema>;
export type PouredPlanRoom = z.infer<typeof pouredRoomSchema>;
