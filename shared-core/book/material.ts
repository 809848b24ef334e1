/**
 * A data sheet. Every figure has its source: `bag` (read off the bag or
 * leaflet), `typical` (until someone enters another) or `measured` (weighed by this business).
 */
import { z } from 'zod';
import { flooringSchema } from './flooring.ts';
import { count, daySchema, finite, longText, moneyMinor, nameText, notNegative, positive, share, shortText, stamps } from './fields.ts';

export const sourceSchema = z.enum(['bag', 'typical', 'measured']);
export type FigureSource = z.infer<typeof sourceSchema>;

const figure = <T extends z.ZodType>(value: T) => z.strictObject({ value, source: sourceSchema });
/** A figure that the data sheet may not give. */
const maybe = <T extends z.ZodType>(value: T) => figure(value).nullable();
const span = (least: z.ZodNumber, figureName: string) =>
  z.strictObject({ least, most: finite }).refine((s) => s.least <= s.most, `${figureName}: the minimum is greater than the maximum.`);

export const materialKindSchema = z.enum([
  'cement-underlayment',
  'cement-topping',
  'calcium-sulfate',
  'deep-fill',
  'primer',
  'moisture-barrier',
  'reinforcement',
  'perimeter-strip',
  'dam',
  'crack-filler',
  'sealer',
  'aggregate',
  'tool',
]);
export type MaterialKind = z.infer<typeof materialKindSchema>;

export const milestoneKindSchema = z.enum(['walk-on', 'cart', 'next-lift', 'furniture', 'full', 'cover']);
export type MilestoneKind = z.infer<typeof milestoneKindSchema>;

export const milestoneSchema = z
  .strictObject({
    kind: milestoneKindSchema,
    /** Only for `cover`: which flooring. */
    flooring: flooringSchema.nullable(),
    /** Strength milestones: hours at the reference temperature. Drying milestones: hours for `thicknessM`. */
    hoursLeast: notNegative,
    hoursMost: notNegative,
    /** Drying grows with thickness; null for strength. */
    thicknessM: positive.nullable(),
    by: z.enum(['strength', 'drying']),
    source: sourceSchema,
  })
  .refine((m) => m.hoursLeast <= m.hoursMost, 'The minimum hours are greater than the maximum hours.');
export type Milestone = z.infer<typeof milestoneSchema>;

export const primerUseSchema = z.strictObject({
  substrate: z.enum(['porous', 'non-porous', 'wood', 'metal', 'tile']),
  coats: count.min(1, 'Enter at least 1 coat.').max(5),
  /** Square meters a liter of what is spread, a coat. */
  coverageM2PerL: positive,
  /** Parts of water per part of primer; 0 is undiluted. */
  waterParts: notNegative,
  dryHoursLeast: notNegative,
  dryHoursMost: positive,
  /** Source of the figures; absent in older records, which use the sheet's `typical`. */
  source: sourceSchema.optional(),
});
export type PrimerUse = z.infer<typeof primerUseSchema>;

export const powderSheetSchema = z.strictObject({
  bagKg: figure(positive),
  /** Mixed volume per bag, without aggregate. */
  yieldM3: figure(positive),
  /** Which yield estimates calculate with. `sheet`: as stated; `mass`: bag and water over fresh density; `measured`. */
  yieldBasis: z.enum(['sheet', 'mass', 'measured']),
  measuredYieldM3: positive.nullable(),
  waterL: figure(span(positive, 'Mix water per bag')),
  mixMinutes: maybe(span(positive, 'Mixing time')),
  workingTimeMin: maybe(span(positive, 'Working time')),
  healingMin: maybe(span(positive, 'Healing time')),
  liftM: figure(span(positive, 'Lift thickness')),
  liftExtendedM: maybe(span(positive, 'Extended lift thickness')),
  /** Maximum kilograms of aggregate per kilogram of powder; null when none is allowed. */
  aggregateShare: maybe(positive),
  densityFreshKgM3: maybe(positive),
  densityHardKgM3: maybe(positive),
  roomTempC: figure(span(finite, 'Room temperature')),
  referenceTempC: figure(finite),
  waterTempC: maybe(span(finite, 'Water temperature')),
  /** Below this temperature curing pauses. */
  leastCureTempC: figure(finite),
  strengthPa: maybe(positive),
  enDesignation: shortText.nullable(),
  /** Absent in older records, which use the sheet's `typical`. */
  enDesignationSource: sourceSchema.optional(),
  profileCsp: maybe(span(finite, 'Surface profile')),
  bondsTo: z
    .array(z.enum(['concrete', 'plywood', 'osb', 'planks', 'tile', 'gypsum', 'metal', 'old-leveling', 'adhesive', 'resilient-tile']))
    .max(10),
  /** The underlayment's own moisture limits and its minimums over wood and heat; absent or null where the data sheet gives none. */
  slabHumidityMost: maybe(share).optional(),
  emissionMostLb: maybe(positive).optional(),
  overWoodLeastM: maybe(positive).optional(),
  overHeatLeastM: maybe(positive).optional(),
  pullOffLeastPa: maybe(positive).optional(),
  /** Diameter a flow ring test passes at, meters; absent or null where the data sheet gives none. */
  flowRingM: maybe(span(positive, 'Flow ring diameter')).optional(),
  lossShare: figure(share),
  shelfMonths: maybe(positive),
  milestones: z.array(milestoneSchema).max(40),
  wearsBare: z.boolean(),
});
export type PowderSheet = z.infer<typeof powderSheetSchema>;

const containerSchema = z.strictObject({
  name: shortText,
  unit: z.enum(['kg', 'L', 'm', 'm2', 'piece']),
  /** Kilograms, liters for liquids, meters or square meters for rolls. */
  holds: positive,
});
/** How a material is sold: a bag, a jug, a roll. */
export type Container = z.infer<typeof containerSchema>;

export const priceSchema = z.strictObject({ from: daySchema, minor: moneyMinor.min(0), note: shortText });

export const materialSchema = z
  .strictObject({
    ...stamps,
    kind: materialKindSchema,
    /** A generic name, never a manufacturer's. */
    name: nameText,
    /** Typical sheet to start from, or one read off a bag. */
    typical: z.boolean(),
    sheetFrom: shortText,
    /** Null for a powder: its bag is in `powder`. `containerOf` reads both. */
    container: containerSchema.nullable(),
    /** Where it is bought; empty while that is not known. */
    supplier: shortText,
    prices: z.array(priceSchema).max(200),
    powder: powderSheetSchema.nullable(),
    primer: z.array(primerUseSchema).max(10),
    /** Coverage of one container of sealer, filler and the like, in m or m2. */
    goes: z.strictObject({ unit: z.enum(['m', 'm2', 'L']), perContainer: positive }).nullable(),
    silica: z.boolean(),
    /** From the sheet; shown beside the usual cautions. */
    cautions: longText,
    notes: longText,
  })
  .refine((m) => (m.container === null) === (m.powder !== null), 'Enter the bag of a powder, or the container of another material.');
export type Material = z.infer<typeof materialSchema>;
