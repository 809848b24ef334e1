/**
 * The ledger: invoices, payments, costs and stock changes, one entry per record. Single entry, no accounts.
 * An entry is never deleted: a mistake is voided with a reason, and the entry stays on the record.
 */
import { z } from 'zod';
import { count, daySchema, idSchema, instantSchema, moneyMinor, nameText, notNegative, positive, shortText, stamps } from './fields.ts';

const amount = moneyMinor.min(1, 'Enter an amount greater than 0.');

const entry = {
  ...stamps,
  /** The day it counts for, in the business's time zone. */
  onDay: daySchema,
  note: shortText,
  /** When it was voided; null while it counts. */
  voidedAt: instantSchema.nullable(),
  voidReason: shortText,
};
const ofJob = { ...entry, jobId: idSchema };
const perhapsOfJob = { ...entry, jobId: idSchema.nullable() };

export const paymentMethodSchema = z.enum(['check', 'cash', 'transfer', 'card', 'other']);
export type PaymentMethod = z.infer<typeof paymentMethodSchema>;

/** Tax of one rate on an invoice. `baseMinor` is the taxed amount. */
export const invoiceTaxSchema = z.strictObject({
  taxId: z.string().min(1).max(40),
  name: nameText,
  rate: z.number().min(0).max(0.6),
  baseMinor: moneyMinor,
  taxMinor: moneyMinor,
});
export type InvoiceTax = z.infer<typeof invoiceTaxSchema>;

export const invoiceSchema = z.strictObject({
  kind: z.literal('invoice'),
  ...ofJob,
  /** Serial within the year, without gaps: a voided invoice keeps its number. */
  serial: count.min(1),
  /** The number the customer sees, `INV-2026-004`. */
  number: z.string().regex(/^[0-9A-Za-z-]{1,24}$/, 'An invoice number has letters, digits, and hyphens.'),
  purpose: z.enum(['deposit', 'stage', 'final', 'change-order', 'other']),
  /** The payment of the contract that it bills; null for none. */
  stageName: shortText.nullable(),
  /** Which payment of the contract that is where two have one name, as in `invoicesToIssue`. Without it, the place among its name says so. */
  key: z.string().min(1).max(220).optional(),
  title: nameText,
  netMinor: moneyMinor,
  taxes: z.array(invoiceTaxSchema).max(12),
  totalMinor: amount,
  /** The invoice that was paid late, of a charge for it beside the contract; absent for an invoice of the contract. */
  lateFor: idSchema.optional(),
  /** Held back until the work is accepted; part of the total, not due on `dueOn`. */
  retainageMinor: moneyMinor.min(0),
  dueOn: daySchema,
  currency: z.string().length(3),
});
export type Invoice = z.infer<typeof invoiceSchema>;

export const paymentSchema = z.strictObject({
  kind: z.literal('payment'),
  ...ofJob,
  amountMinor: amount,
  method: paymentMethodSchema,
  /** Check number, transfer reference. */
  reference: shortText,
  /** The invoice it was paid against; null goes to the oldest open one. */
  invoiceId: idSchema.nullable(),
});
export type Payment = z.infer<typeof paymentSchema>;

export const refundSchema = z.strictObject({
  kind: z.literal('refund'),
  ...ofJob,
  amountMinor: amount,
  method: paymentMethodSchema,
  reference: shortText,
});
export type Refund = z.infer<typeof refundSchema>;

/** Reduces the balance: `credit` is given to the customer, `write-off` is no longer expected. */
export const creditSchema = z.strictObject({
  kind: z.enum(['credit', 'write-off']),
  ...ofJob,
  amountMinor: amount,
  /** The sales tax in the amount by rate, as on an invoice. Below 0 for a rate that change orders added. */
  taxes: z.array(invoiceTaxSchema).max(12),
  invoiceId: idSchema.nullable(),
  reason: nameText,
  /** Gives back what was invoiced beyond a contract that change orders reduced. Without it, the credit is given beside the contract. */
  forChangeOrders: z.boolean().optional(),
});
export type Credit = z.infer<typeof creditSchema>;

export const purchaseLineSchema = z.strictObject({
  text: nameText,
  quantity: positive,
  unit: shortText,
  amountMinor: moneyMinor,
  /** The data sheet of the item: then `quantity` counts containers, which are added to stock. Null for anything else. */
  materialId: idSchema.nullable(),
  lot: shortText,
  /** As printed on the bag; null where none is. */
  expiresOn: daySchema.nullable(),
});
export type PurchaseLine = z.infer<typeof purchaseLineSchema>;

export const purchaseSchema = z.strictObject({
  kind: z.literal('purchase'),
  ...perhapsOfJob,
  supplier: nameText,
  /** A category of the business's own list. */
  category: nameText,
  lines: z.array(purchaseLineSchema).min(1, 'Enter at least one line.').max(60),
  taxMinor: moneyMinor.min(0),
  method: paymentMethodSchema,
  reference: shortText,
  /** Photos of the receipt. */
  photoIds: z.array(idSchema).max(20),
});
export type Purchase = z.infer<typeof purchaseSchema>;

export const hoursSchema = z.strictObject({
  kind: z.literal('hours'),
  ...ofJob,
  who: nameText,
  /** How the user is paid: decides where the year's summary lists them. */
  paidAs: z.enum(['owner', 'employee', 'contractor']),
  task: nameText,
  minutes: count.min(1, 'Enter a time greater than 0.').max(24 * 60, 'One entry holds at most 24 hours.'),
  /** Hourly cost at the time, so that a later rate does not change past jobs. */
  hourMinor: moneyMinor.min(0),
  /** Key of the prep signatures or the pour log that the hours were read from; empty for hours entered by hand. */
  readFrom: shortText,
});
export type Hours = z.infer<typeof hoursSchema>;

export const driveSchema = z.strictObject({
  kind: z.literal('drive'),
  ...perhapsOfJob,
  purpose: nameText,
  distanceKm: notNegative.max(5000, 'That is over 3,000 miles. Check the distance.'),
  /** Cost per kilometer at the time, in minor units; not a whole number. */
  kmMinor: notNegative,
});
export type Drive = z.infer<typeof driveSchema>;

/** A change of stock outside purchases and pour logs. Containers of one lot. */
export const stockSchema = z.strictObject({
  kind: z.literal('stock'),
  ...perhapsOfJob,
  /** `counted` sets the stock; the others reduce it. */
  what: z.enum(['counted', 'used', 'returned', 'spoiled']),
  materialId: idSchema,
  lot: shortText,
  expiresOn: daySchema.nullable(),
  containers: notNegative,
});
export type StockChange = z.infer<typeof stockSchema>;

export const ledgerEntrySchema = z.discriminatedUnion('kind', [
  invoiceSchema,
  paymentSchema,
  refundSchema,
  creditSchema,
  purchaseSchema,
  hoursSchema,
  driveSchema,
  stockSchema,
]);
export type LedgerEntry = z.infer<typeof ledgerEntrySchema>;

/** A usual list of expense categories to begin from: general accounting terms. */
export const USUAL_CATEGORIES: readonly string[] = [
  'Materials',
  'Supplies and small tools',
  'Equipment rental',
  'Disposal',
  'Contract labor',
  'Vehicle and fuel',
  'Insurance and licenses',
  'Office and phone',
  'Other',
];
