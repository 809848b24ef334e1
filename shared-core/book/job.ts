/** A job: some rooms of one property, each moving through the stages on its own. */
import { z } from 'zod';
import { flooringSchema } from './flooring.ts';
import {
  count,
  daySchema,
  finite,
  idSchema,
  instantSchema,
  longText,
  moneyMinor,
  nameText,
  notNegative,
  pointSchema,
  positive,
  share,
  shortText,
  stamps,
} from './fields.ts';
import { taskTimeFields } from './task-times.ts';

/** How the finished level is decided. */
export const levelSchema = z.strictObject({
  mode: z.enum(['level', 'follow', 'ramp']),
  /** Height of the plane on the readings' scale; null takes the lowest permitted. */
  levelM: finite.nullable(),
  leastThicknessM: notNegative,
  /** For `follow`: the constant thickness; plus an allowance for texture. */
  followThicknessM: positive,
  textureM: notNegative,
  /** How much may be ground off the high spots, at most. */
  grindMostM: notNegative,
  /** For `ramp`: what the plane is to pass through: heights on the readings' scale, and doorways where it meets the floor beyond. */
  rampThrough: z.array(z.union([z.strictObject({ point: pointSchema, heightM: finite }), z.strictObject({ openingId: idSchema })])).max(3),
  /** The scale (`survey/scale.ts`) on which `levelM` and the heights of `rampThrough` were set; absent while none is set, and in older records. */
  scale: shortText.optional(),
});
export type LevelChoice = z.infer<typeof levelSchema>;

/** The manufacturer's own figure where the flooring manufacturer states one; it overrides the published limit and says so. */
export const flooringLimitsSchema = z.strictObject({
  slabHumidity: share.nullable(),
  emissionLb: positive.nullable(),
  woodMoisture: share.nullable(),
  /** Limit of a test without holes that the manufacturer accepts, for a floor that must not be drilled. */
  withoutHoles: share.nullable(),
  flatnessGapM: positive.nullable(),
  flatnessSpanM: positive.nullable(),
  statedIn: shortText,
});
export type FlooringLimits = z.infer<typeof flooringLimitsSchema>;

/** Containers of one material that a signed line used. */
export const usedMaterialSchema = z.strictObject({ materialId: idSchema, containers: finite.positive() });
export type UsedMaterial = z.infer<typeof usedMaterialSchema>;

/** A signature on one line of the prep checklist. `itemKey` is the line's stable key. */
export const signedItemSchema = z.strictObject({
  itemKey: z.string().min(1).max(120),
  doneAt: instantSchema,
  initials: z.string().trim().min(1, 'Enter your initials.').max(8),
  note: shortText,
  /** Text of the line when it was signed, because the line may change. */
  signedText: shortText,
  photoIds: z.array(idSchema).max(40),
  /** What the line used, as estimated when it was signed; absent where it uses nothing that is bought. */
  used: z.array(usedMaterialSchema).max(20).optional(),
  /** When it was voided; the signature stays on record. */
  withdrawnAt: instantSchema.nullable(),
});
export type SignedItem = z.infer<typeof signedItemSchema>;

/** A document that clears a hold on asbestos, lead, load or structure: who issued it, its number, its date. */
export const holdDocumentSchema = z.strictObject({
  kind: z.enum(['clearance', 'lead-firm', 'engineer-letter']),
  issuedBy: z.string().trim().min(1, 'Enter who issued the document.').max(200),
  number: z.string().trim().min(1, 'Enter the document number.').max(80),
  datedOn: daySchema,
  /**
   * The load the pour added to a suspended floor when the letter was recorded, pascals; null while it was not known, absent where
   * load does not matter.
   */
  loadPa: finite.nullable().optional(),
});
export type HoldDocument = z.infer<typeof holdDocumentSchema>;

/** Letters of a hold that an override stores. */
export const MOST_HOLD = 2000;

/** An overridden hold with the reason. `overridePapers` says where it is printed. */
export const overrideSchema = z.strictObject({
  key: z.string().min(1).max(120),
  /** The hold as it read then; absent in a row stored without it. */
  hold: z.string().max(MOST_HOLD).optional(),
  why: z.string().trim().min(10, 'Enter the reason as a sentence. It stays on the record.').max(2000),
  instant: instantSchema,
  initials: z.string().trim().min(1, 'Enter your initials.').max(8),
  /** The document that clears the hold; absent where a reason is enough. */
  document: holdDocumentSchema.optional(),
});
export type Override = z.infer<typeof overrideSchema>;

export const crewSchema = z.strictObject({
  mixers: count.min(1, 'Enter at least 1 mixing station.').max(12),
  carriers: count.max(12),
  /** 0 where whoever carries a batch by hand spreads it, such as an owner alone. */
  spreaders: count.max(12),
  bagsPerBatch: positive.max(20),
  carry: z.enum(['by-hand', 'cart']),
  cartBatches: count.min(1).max(40),
  /** Liters the cart or hopper holds, and how its outlet closes; absent before, null while not known. */
  cartHoldsL: positive.nullable().optional(),
  outlet: z.enum(['cap', 'gate', 'valve']).nullable().optional(),
  /** Who stands where, by the names of those on site; absent for nobody named. */
  stations: z
    .array(z.strictObject({ name: nameText, station: z.enum(['mixing', 'carrying', 'spreading']) }))
    .max(12)
    .optional(),
  ...taskTimeFields,
});
export type Crew = z.infer<typeof crewSchema>;

export const pourPlanSchema = z.strictObject({
  laneWidthM: positive,
  angleDeg: finite,
  pattern: z.enum(['back-and-forth', 'one-way']),
  /** Strips run from the far end toward this opening; null takes the first way out. */
  wayOutId: idSchema.nullable(),
  /** Lines across the room where a dammed joint splits it into bays. */
  joints: z.array(z.strictObject({ id: idSchema, from: pointSchema, to: pointSchema })).max(12),
  /** The section between joints that is poured next, from 1 in pouring order; null or absent pours all of them together. */
  section: count.min(1).nullable().optional(),
  crew: crewSchema,
  /** Likely minutes of the pour as last simulated, kept so that an estimate and its frozen quote calculate alike; absent before. */
  likelyMinutes: notNegative.nullable().optional(),
  /** Volume on the floor in those minutes: one lift of several, or several rooms in one go; absent for the whole fill of this room. */
  likelyVolumeM3: positive.nullable().optional(),
  /** Rooms of the same pour, in order: after this one, or including it where it is listed; absent for none. */
  withRoomIds: z.array(idSchema).max(20).optional(),
  /** Doorways of the pour without a dam: an opening of one room and the opening it meets in the other; absent for none. */
  openDoorways: z
    .array(z.strictObject({ roomId: idSchema, openingId: idSchema, toRoomId: idSchema, toOpeningId: idSchema }))
    .max(40)
    .optional(),
});
export type PourPlan = z.infer<typeof pourPlanSchema>;

export const jobRoomSchema = z.strictObject({
  roomId: idSchema,
  flooring: flooringSchema.nullable(),
  flooringLimits: flooringLimitsSchema.nullable(),
  /** Thickness of the new flooring with adhesive or mortar, for the steps at the doorways; absent before, null while not known. */
  flooringThicknessM: notNegative.nullable().optional(),
  level: levelSchema,
  materialId: idSchema.nullable(),
  /** Whether deep fill is extended with aggregate; absent for no. */
  withAggregate: z.boolean().optional(),
  primerId: idSchema.nullable(),
  /** Moisture mitigation system under the primer; absent or null for none. */
  moistureSystemId: idSchema.nullable().optional(),
  primedAt: instantSchema.nullable(),
  primerCoatsDone: count.max(5),
  signed: z.array(signedItemSchema).max(400),
  /** Lines checked on the pre-pour checklist. */
  /** Each with the line as it read when it was checked. */
  lastMinutes: z
    .array(z.strictObject({ itemKey: z.string().max(120), text: shortText, instant: instantSchema, initials: z.string().max(8) }))
    .max(60),
  overrides: z.array(overrideSchema).max(60),
  pourPlan: pourPlanSchema.nullable(),
  pourAt: instantSchema.nullable(),
  /** The air expected in the room from `enteredAt` on; null until someone enters it. A newer ambient test replaces it. */
  expectedAir: z.strictObject({ tempC: finite.min(-40).max(60), relativeHumidity: share, enteredAt: instantSchema }).nullable(),
  handedOverAt: instantSchema.nullable(),
  /** Who received it and signed; absent before. */
  handedOverTo: shortText.optional(),
  /** The day the flooring went down, or the floor was sealed; absent or null while it is not known. */
  flooringLaidOn: daySchema.nullable().optional(),
});
export type JobRoom = z.infer<typeof jobRoomSchema>;

/** A cost line that the user overrode, by the line's key. */
export const lineOverrideSchema = z.strictObject({
  lineKey: z.string().min(1).max(120),
  costMinor: moneyMinor.min(0).nullable(),
  priceMinor: moneyMinor.min(0).nullable(),
  leftOut: z.boolean(),
  note: z.string().trim().min(1, 'Enter why you changed the figure.').max(500),
});

export type LineOverride = z.infer<typeof lineOverrideSchema>;

export const addedLineSchema = z.strictObject({
  id: idSchema,
  name: nameText,
  kind: z.enum(['material', 'labor', 'other']),
  roomId: idSchema.nullable(),
  costMinor: moneyMinor.min(0),
  taxId: z.string().max(40).nullable(),
  /** The data sheet and number of containers for the shopping list; absent for none. */
  bought: z.strictObject({ materialId: idSchema, containers: count.min(1).max(1000) }).optional(),
  /** The pour whose floor the line finishes or repairs; absent for any other line. */
  restOf: idSchema.optional(),
});
export type AddedLine = z.infer<typeof addedLineSchema>;

/** One option of the quote; there are at most three. */
export const optionSchema = z.strictObject({
  id: idSchema,
  name: nameText,
  /** What the option changes, by room; rooms left out keep the job's own choice. */
  rooms: z.array(z.strictObject({ roomId: idSchema, level: levelSchema, materialId: idSchema.nullable() })).max(60),
});

/** When a payment falls due. */
export const dueSchema = z.enum(['on-acceptance', 'before-pour', 'after-pour', 'on-handover', 'thirty-days']);

export const estimateSchema = z.strictObject({
  overrides: z.array(lineOverrideSchema).max(200),
  added: z.array(addedLineSchema).max(100),
  discountMinor: moneyMinor.min(0),
  discountNote: shortText,
  options: z.array(optionSchema).max(2),
  suggestedOptionId: idSchema.nullable(),
  daysOnSite: positive.nullable(),
  /** Days that this job's quote is valid; absent or null for the business's setting. */
  validDays: count.min(1).max(365).nullable().optional(),
  /**
   * Whether this job's quote prints the notice of the right to cancel; absent or null for the business's setting. No record says whether a
   * customer is a business or a property a home, so it is chosen here.
   */
  cancellationNotice: z.boolean().nullable().optional(),
  stages: z.array(z.strictObject({ name: nameText, share, due: dueSchema })).max(8),
});
export type EstimateChoices = z.infer<typeof estimateSchema>;

export const jobSchema = z.strictObject({
  ...stamps,
  customerId: idSchema,
  propertyId: idSchema,
  /** The number the customer sees, `26-031`; never reused. */
  number: z.string().regex(/^[0-9A-Za-z-]{1,20}$/, 'A job number has letters, digits, and hyphens.'),
  title: shortText,
  state: z.enum(['open', 'declined', 'finished', 'set-aside']),
  rooms: z.array(jobRoomSchema).min(1, 'Add at least one room.').max(60),
  /** Rooms withdrawn by a signed change order, as they were; absent for none. */
  withdrawn: z.array(jobRoomSchema).max(60).optional(),
  estimate: estimateSchema,
  crewNames: z.array(nameText).max(12),
  prepVisitAt: instantSchema.nullable(),
  quotePromisedOn: daySchema.nullable(),
  handoverAt: instantSchema.nullable(),
  defectsUntil: daySchema.nullable(),
  /** Lien deadlines that were met or are not needed. */
  lienDone: z.array(z.enum(['lien-notice', 'lien-deadline'])).max(2),
  notes: longText,
});
export type Job = z.infer<typeof jobSchema>;

/** The rooms of a job and those withdrawn from it: for work that was done, whatever became of the room in the contract. */
export function roomsOnRecord({ rooms, withdrawn = [] }: Pick<Job, 'rooms' | 'withdrawn'>): readonly JobRoom[] {
  return [...rooms, ...withdrawn];
}
