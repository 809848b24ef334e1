/** The floor from the top down to the structure, and the tests made on it. */
import { z } from 'zod';
import { daySchema, finite, idSchema, instantSchema, longText, notNegative, pointSchema, positive, share, shortText } from './fields.ts';

export const layerMaterialSchema = z.enum([
  'sheet-flooring',
  'resilient-tile',
  'floating-plank',
  'carpet',
  'ceramic-tile',
  'stone-tile',
  'terrazzo',
  'wood-flooring',
  'adhesive-cutback',
  'adhesive-other',
  'adhesive-unknown',
  'thinset',
  'underlay-felt',
  'foam-pad',
  'paint-or-sealer',
  'old-leveling',
  'screed',
  'gypsum',
  'boards',
  'plywood',
  'particleboard',
  'osb',
  'membrane',
  'concrete-on-ground',
  'concrete-suspended',
  'joists',
  'metal',
  'radiant-heating',
  'gravel',
  'earth',
  'unknown',
]);
export type LayerMaterial = z.infer<typeof layerMaterialSchema>;

export const layerSchema = z.strictObject({
  id: idSchema,
  material: layerMaterialSchema,
  /** Null when it could not be measured. */
  thicknessM: positive.max(3, 'A layer over 10 ft (3 m) thick looks like a typo. Check the unit.').nullable(),
  /** Year it was laid; null is "not known": then the year of the building decides, and with neither it counts as old. */
  yearInstalled: z.int().min(1500).max(2200).nullable(),
  sound: z.enum(['sound', 'loose', 'weak', 'unknown']),
  fate: z.enum(['keep', 'remove']),
  /** Laid new for the pour, before or after the floor was read; absent for a layer that was there. */
  laid: z.enum(['before-readings', 'after-readings']).optional(),
  /** Null for the whole room, otherwise the area of the room it covers. */
  area: z.array(pointSchema).min(3).max(60).nullable(),
  note: shortText,
});
export type Layer = z.infer<typeof layerSchema>;

const testStamps = { id: idSchema, takenAt: instantSchema, by: shortText, point: pointSchema.nullable(), note: shortText };

export const moistureDishSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('moisture-dish'),
  massBeforeG: positive,
  massAfterG: positive,
  dishAreaM2: notNegative,
  domeAreaM2: positive,
  hours: positive,
  overLayerId: idSchema.nullable(),
});
export const slabHumiditySchema = z.strictObject({
  ...testStamps,
  kind: z.literal('slab-humidity'),
  relativeHumidity: share,
  depthM: positive,
  slabThicknessM: positive.nullable(),
  dryingSides: z.union([z.literal(1), z.literal(2)]),
  settledHours: notNegative,
  slabTempC: finite.nullable(),
});
export const woodMoistureSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('wood-moisture'),
  part: z.enum(['boards', 'structure', 'flooring']),
  /** By mass, 0.105 is 10.5 %. */
  readings: z.array(finite.min(0).max(1.5)).min(1, 'Enter at least one reading.').max(200),
});
export const dropSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('drop-absorption'),
  /** Null when the drop stayed until the end. */ seconds: notNegative.nullable(),
  watchedSeconds: positive,
});
export const phSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('surface-ph'),
  ph: finite.min(0, 'Enter a pH from 0 to 14.').max(14, 'Enter a pH from 0 to 14.'),
});
export const pullOffSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('pull-off'),
  stressPa: notNegative,
  failedIn: z.enum(['substrate', 'glue', 'between', 'unknown']),
});
export const scratchSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('scratch'),
  result: z.enum(['firm', 'scores', 'dusts', 'crumbles']),
});
const AIR_RANGE = 'Enter an air temperature from −40 to 140 °F (−40 to 60 °C). Check the unit.';
const FLOOR_RANGE = 'Enter a floor temperature from −40 to 176 °F (−40 to 80 °C). Check the unit.';

export const airSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('air'),
  airTempC: finite.min(-40, AIR_RANGE).max(60, AIR_RANGE),
  relativeHumidity: share,
  surfaceTempC: finite.min(-40, FLOOR_RANGE).max(80, FLOOR_RANGE).nullable(),
  airSpeedMPerS: notNegative.max(40, 'That is too fast for air in a building. Check the unit.').nullable(),
});
export const deflectionSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('floor-deflection'),
  spanM: positive,
  joistWidthM: positive,
  joistDepthM: positive,
  spacingM: positive,
  modulusPa: positive,
  liveLoadPa: positive,
  deadLoadPa: notNegative,
});
export const surfaceSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('surface-look'),
  is: z.array(z.enum(['dusty', 'glossy', 'oily', 'waxed', 'painted', 'curing-compound', 'efflorescence', 'rough', 'sound-clean'])).max(9),
});
/** A lab's or certified inspector's result for a layer, the paint on the trim, or a coating. */
export const labResultSchema = z.strictObject({
  ...testStamps,
  kind: z.literal('lab'),
  question: z.enum(['asbestos', 'lead-paint']),
  layerId: idSchema.nullable(),
  state: z.enum(['sent', 'none-found', 'found']),
  lab: shortText,
  sample: shortText,
  resultOn: daySchema.nullable(),
  dueOn: daySchema.nullable(),
});

export const testSchema = z.discriminatedUnion('kind', [
  moistureDishSchema,
  slabHumiditySchema,
  woodMoistureSchema,
  dropSchema,
  phSchema,
  pullOffSchema,
  scratchSchema,
  airSchema,
  deflectionSchema,
  surfaceSchema,
  labResultSchema,
]);
export type FloorTest = z.infer<typeof testSchema>;
export type FloorTestKind = FloorTest['kind'];

/** Signs of structural trouble visible without an instrument. */
export const structureSignSchema = z.enum(['cut-joist', 'rot', 'sag', 'stepped-crack', 'heave', 'heavy-fixture']);
export type StructureSign = z.infer<typeof structureSignSchema>;

/** Things on the floor whose height or clearance the pour changes. Doorways come from the plan. */
export const fixtureSchema = z.enum([
  'dishwasher',
  'range',
  'refrigerator',
  'base-cabinets',
  'toilet',
  'tub-or-shower',
  'floor-drain',
  'floor-register',
  'floor-outlet',
  'hatch',
  'cleanout',
  'hearth',
  'sliding-door',
  'garage-door',
]);
export type Fixture = z.infer<typeof fixtureSchema>;

/** Site conditions. `null` is "not checked". */
export const circumstancesSchema = z.strictObject({
  paintedTrim: z.enum(['none', 'stays-untouched', 'to-be-disturbed']).nullable(),
  /** Height of the baseboard that comes off, meters; with the walls' length it gives the painted area removed. */
  baseboardHeightM: notNegative.nullable(),
  /** Heat in the floor as it is, or heat that the pour will cover. */
  radiantHeat: z.enum(['none', 'in-floor', 'electric-in-pour', 'hydronic-in-pour', 'unknown']).nullable(),
  belowGrade: z.boolean().nullable(),
  vaporRetarder: z.enum(['present', 'absent', 'unknown']).nullable(),
  slopeToDrain: z.boolean().nullable(),
  /** Outdoors, or where water often stands or runs: a balcony, a shower floor, a wash bay. */
  outdoorsOrWet: z.boolean().nullable(),
  allowedExtraLoadPa: notNegative.nullable(),
  /** Who stated the allowance and in which document: an engineer's letter, the plans. */
  loadStatedBy: shortText,
  texturedCoating: z.boolean().nullable(),
  /** Signs of trouble in the structure; empty when checked and none seen. */
  structureSigns: z.array(structureSignSchema).max(6).nullable(),
  /** A pilot light, an unvented heater, or a gas appliance standing on the floor. */
  gasAppliance: z.boolean().nullable(),
  fixtures: z.array(fixtureSchema).max(14),
  notes: longText,
});
export type Circumstances = z.infer<typeof circumstancesSchema>;
