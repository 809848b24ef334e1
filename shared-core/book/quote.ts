/** A quote as issued: what was priced, the total, the dates and holds it states, and the records it came from. Only its state changes later. */
import { z } from 'zod';
import { businessSchema } from './business.ts';
import { customerSchema } from './customer.ts';
import { count, daySchema, idSchema, instantSchema, moneyMinor, nameText, notNegative, shortText, stamps, zoneSchema } from './fields.ts';
import { flooringSchema } from './flooring.ts';
import { dueSchema, jobSchema } from './job.ts';
import { materialSchema } from './material.ts';
import { propertySchema } from './property.ts';
import { roomSchema } from './room.ts';

export const quoteStateSchema = z.enum(['issued', 'accepted', 'declined', 'expired', 'superseded']);
export type QuoteState = z.infer<typeof quoteStateSchema>;

/** Everything a quote is computed from, as it was on the day. */
export const frozenSchema = z.strictObject({
  /** The version of the records within. They stay as issued, whatever the records of today look like. */
  version: z.int().min(1),
  business: businessSchema,
  customer: customerSchema,
  property: propertySchema,
  rooms: z.array(roomSchema),
  job: jobSchema,
  materials: z.array(materialSchema),
});
export type Frozen = z.infer<typeof frozenSchema>;

const storedRecord = z.looseObject({ id: idSchema });
/**
 * The same as stored: only that the records are there is checked, so that a quote issued under another version stays readable.
 * `current-parts.ts` reads them by the schemas of their own version.
 */
const storedFrozenSchema = z.looseObject({
  version: z.int().min(1),
  business: storedRecord,
  customer: storedRecord,
  property: storedRecord,
  rooms: z.array(storedRecord),
  job: storedRecord,
  materials: z.array(storedRecord),
}) as unknown as z.ZodType<Frozen, Frozen>;

/** One room of an option as it was priced. Lengths in meters, money in minor units. */
const quotedRoomSchema = z.strictObject({
  roomId: idSchema,
  name: nameText,
  mode: z.enum(['level', 'follow', 'ramp']),
  grindMaxM: notNegative,
  material: shortText,
  areaM2: notNegative,
  volumeM3: notNegative.nullable(),
  meanDepthM: notNegative.nullable(),
  maxDepthM: notNegative.nullable(),
  bags: count,
  lifts: count,
  /** Its own lines with its share of travel and contingency; the rooms add up to the subtotal. */
  priceMinor: moneyMinor,
});
export type QuotedRoom = z.infer<typeof quotedRoomSchema>;

/** One option as it was priced. */
const quotedOptionSchema = z.strictObject({
  id: idSchema,
  name: nameText,
  days: notNegative,
  bags: count,
  /** Largest gap to expect under a 10 ft straightedge once placed; null where the floor was not measured. */
  gapM: notNegative.nullable(),
  meetsFlooring: z.boolean().nullable(),
  rooms: z.array(quotedRoomSchema).max(60),
  lines: z
    .array(
      z.strictObject({
        key: z.string().min(1).max(120),
        name: shortText,
        roomId: idSchema.nullable(),
        quantity: shortText,
        priceMinor: moneyMinor,
      }),
    )
    .max(2000),
  discountMinor: moneyMinor,
  netMinor: moneyMinor,
  taxes: z
    .array(z.strictObject({ taxId: z.string().max(40), name: nameText, rate: notNegative, baseMinor: moneyMinor, taxMinor: moneyMinor }))
    .max(12),
  taxMinor: moneyMinor,
  totalMinor: moneyMinor,
  stages: z.array(z.strictObject({ name: nameText, share: notNegative, due: dueSchema, amountMinor: moneyMinor })).max(8),
  depositMinor: moneyMinor,
  /** What the estimate expected it to take. Never printed. */
  planned: z.strictObject({
    costMinor: moneyMinor,
    hours: z.array(z.strictObject({ task: z.string().max(40), name: shortText, ownHours: notNegative, helperHours: notNegative })).max(60),
  }),
});
export type QuotedOption = z.infer<typeof quotedOptionSchema>;

export const quotedPriceSchema = z.strictObject({ suggestedId: idSchema, options: z.array(quotedOptionSchema).min(1).max(3) });
/** Every option with its lines and totals, as they were on the day. */
export type QuotedPrice = z.infer<typeof quotedPriceSchema>;

const signedMinor = z.int();

/** A change to an accepted quote: priced, signed and kept beside it. The quote itself stays as it was accepted. */
export const changeOrderSchema = z.strictObject({
  id: idSchema,
  /** Serial within the job, printed on the document. */
  number: count.min(1),
  issuedAt: instantSchema,
  issuedBy: shortText,
  /** Why the contract changes, and what is done, as printed. */
  reason: z.string().trim().min(1, 'Enter the reason for the change.').max(1000),
  work: z.string().max(2000),
  /** Rooms it touches: they are on hold until it is signed, declined or voided. */
  roomIds: z.array(idSchema).max(60),
  /** Rooms that leave the contract when it is signed; part of `roomIds`. */
  withdrawnIds: z.array(idSchema).max(60),
  photoIds: z.array(idSchema).max(6),
  /** What it adds to the contract; negative where it takes off. */
  netMinor: signedMinor,
  taxes: z
    .array(z.strictObject({ taxId: z.string().max(40), name: nameText, rate: notNegative, baseMinor: signedMinor, taxMinor: signedMinor }))
    .max(12),
  totalMinor: signedMinor,
  /** Days on site it adds; negative where it saves. */
  addedDays: z.int().min(-365).max(365),
  /** The whole job at the contract's rates once it is signed: the next change is counted from here. */
  priced: quotedOptionSchema,
  state: z.enum(['issued', 'signed', 'declined', 'voided']),
  /** When it was signed, declined or voided, and by which person. */
  decidedAt: instantSchema.nullable(),
  decidedBy: shortText,
});
export type ChangeOrder = z.infer<typeof changeOrderSchema>;

/** A date the quote states, by option: it becomes a promised date when that option is accepted. */
export const quotedDateSchema = z.strictObject({
  optionId: idSchema,
  roomId: idSchema,
  milestone: z.literal('walk-on'),
  flooring: flooringSchema.nullable(),
  promisedFor: instantSchema,
});

export const quoteSchema = z.strictObject({
  ...stamps,
  jobId: idSchema,
  revision: count.min(1),
  issuedAt: instantSchema,
  validUntil: daySchema,
  state: quoteStateSchema,
  /** Each change of state, oldest first. */
  history: z.array(z.strictObject({ state: quoteStateSchema, instant: instantSchema, by: shortText, note: shortText })).max(50),
  acceptedOptionId: idSchema.nullable(),
  totalMinor: moneyMinor,
  currency: z.string().length(3),
  /** The business's time zone on the day of issue: validity ends at midnight there. */
  timeZone: zoneSchema,
  priced: quotedPriceSchema,
  dates: z.array(quotedDateSchema).max(180),
  /** Holds open on the day of issue, as printed in it. */
  holds: z.array(z.strictObject({ roomId: idSchema, text: z.string().max(2000) })).max(200),
  /** Change orders to it, in order; none before it is accepted. */
  orders: z.array(changeOrderSchema).max(60),
  frozen: storedFrozenSchema,
});
export type Quote = z.infer<typeof quoteSchema>;
