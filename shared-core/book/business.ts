/** The business itself: one record, id `business`. */
import { z } from 'zod';
import {
  clockSchema,
  count,
  idSchema,
  instantSchema,
  longText,
  moneyMinor,
  nameText,
  notNegative,
  positive,
  share,
  shortText,
  stamps,
  zoneSchema,
} from './fields.ts';
import { contractTermsSchema } from './contract-terms.ts';
import { taskTimesSchema } from './task-times.ts';

export const unitSystemSchema = z.enum(['us', 'metric']);
export type UnitSystem = z.infer<typeof unitSystemSchema>;

export const addressSchema = z.strictObject({
  line: shortText,
  city: shortText,
  region: shortText,
  zip: shortText,
  country: z.string().regex(/^[A-Z]{2}$/, 'Enter the country as two capital letters, such as US.'),
});
export type Address = z.infer<typeof addressSchema>;

export const taxRateSchema = z.strictObject({
  id: z.string().min(1).max(40),
  name: nameText,
  /** 0.0825 is 8.25 %. */
  rate: z.number().min(0, 'Enter a tax rate of 0% or more.').max(0.6, 'A tax rate over 60% looks like a typo. Enter 8.25 for 8.25%.'),
});
export type TaxRate = z.infer<typeof taxRateSchema>;

/** Costs before markup. Typical until the owner enters others. */
export const costsSchema = z.strictObject({
  ownHourMinor: moneyMinor.min(0),
  helperHourMinor: moneyMinor.min(0),
  grindM2Minor: moneyMinor.min(0),
  /** Wear and disposal per cubic meter of floor ground off. */
  grindM3Minor: moneyMinor.min(0),
  abradeM2Minor: moneyMinor.min(0),
  disposalKgMinor: moneyMinor.min(0),
  /** A price per mile is not a whole number of minor units per kilometer. */
  travelKmMinor: notNegative,
  perimeterStripMMinor: moneyMinor.min(0),
  damMMinor: moneyMinor.min(0),
  crackFillerMMinor: moneyMinor.min(0),
  reinforcementM2Minor: moneyMinor.min(0),
  sealerM2Minor: moneyMinor.min(0),
});
export type Costs = z.infer<typeof costsSchema>;

export const pricingSchema = z.strictObject({
  /** `markup` adds a share of the cost; `margin` is a share of the price. */
  method: z.enum(['markup', 'margin']),
  share: z.number().min(0, 'Enter a markup or margin of 0% or more.').max(5, 'Enter 500% or less.'),
  contingencyShare: share,
  minimumChargeMinor: moneyMinor.min(0),
  depositShare: share,
  /**
   * What is rounded to the cent: prices and tax on each line (`line`); prices on each line, tax once on the taxable total of a rate
   * (`rate`); or both once on the total (`total`, which a stored book or quote can have).
   */
  rounding: z.enum(['line', 'rate', 'total']),
  materialTaxId: z.string().max(40).nullable(),
  laborTaxId: z.string().max(40).nullable(),
});
export type Pricing = z.infer<typeof pricingSchema>;

/** Deadlines of one state. The owner enters them; the program states no law. */
export const lienRuleSchema = z.strictObject({
  /** Two letters, as in the property's address. */
  state: shortText,
  /** Days from the first day of work to the notice; null for none. */
  noticeDays: count.max(1000).nullable(),
  /** Days from the last day of work to the lien; null for none. */
  lienDays: count.max(1000).nullable(),
});
export type LienRule = z.infer<typeof lienRuleSchema>;

export const businessSchema = z.strictObject({
  ...stamps,
  name: shortText,
  ownerName: shortText,
  address: addressSchema,
  phone: shortText,
  email: shortText,
  /** A small PNG or JPEG as a data address, or null to print the name alone on documents. */
  mark: z.string().max(400_000, 'The logo is too large. Use a picture under 300 kB.').nullable(),
  units: unitSystemSchema,
  locale: z.string().min(2).max(20),
  timeZone: zoneSchema,
  currency: z.string().regex(/^[A-Z]{3}$/, 'Enter the currency as three capital letters, such as USD.'),
  paper: z.enum(['letter', 'a4']),
  taxRates: z.array(taxRateSchema).max(12),
  hours: z
    .strictObject({ from: clockSchema, to: clockSchema, days: z.array(z.int().min(1).max(7)).max(7) })
    .refine((h) => h.from < h.to, 'The end of the day must be after its start.'),
  costs: costsSchema,
  pricing: pricingSchema,
  quoteValidDays: count.min(1, 'Enter at least 1 day.').max(365),
  /** Terms in the business's own words, printed after the clauses. */
  quoteTerms: longText,
  contract: contractTermsSchema,
  /** The maximum cold joint risk of a pour plan. */
  coldJointChance: share,
  /** The share of pours for which the bags quoted should be enough. */
  bagPercentile: z.number().min(0.5, 'Enter 50% or more.').max(0.99, 'Enter 99% or less.'),
  usualLossShare: share,
  bucketL: positive,
  /** Task times that a new pour plan starts from; absent for the typical ones. */
  ownTimes: taskTimesSchema.optional(),
  /** Categories of expenses, as the bookkeeper wants them. */
  expenseCategories: z.array(nameText).min(1, 'Keep at least one category.').max(60),
  /** Days that a state gives for a lien notice and a lien, as the owner entered them. */
  lienRules: z.array(lienRuleSchema).max(60),
  /** Actual hours per typical hour, by task; 1 for a task that is not listed. */
  taskFactors: z.record(z.string().max(40), positive.max(20)),
  /** What a new room of a job starts with; absent until a first choice. */
  usualMaterialId: idSchema.nullable().optional(),
  usualPrimerId: idSchema.nullable().optional(),
  /** People on a pour, the owner included, where a job names none; absent for the typical crew. */
  crewSize: count.min(1, 'Enter 1 or more.').max(20, 'Enter 20 or fewer.').optional(),
  /** When the company’s details were entered on the first quote; absent until then. */
  companyAskedAt: instantSchema.optional(),
  /** Counters for numbers the customer sees; they only rise. */
  nextJobSerial: count,
});
export type Business = z.infer<typeof businessSchema>;
