/** The business's contract terms and their form fields, used by the record, the screen and the documents. */
import { z } from 'zod';
import { count, longText, share, shortText } from './fields.ts';

export const CLAUSE_TOPICS = [
  'change-orders',
  'concealed-conditions',
  'site-conditions',
  'power-and-water',
  'access-and-hours',
  'disposal',
  'flatness',
  'moisture',
  'payment',
  'warranty',
  'cancellation',
] as const;
export const clauseTopicSchema = z.enum(CLAUSE_TOPICS);
export type ClauseTopic = z.infer<typeof clauseTopicSchema>;

export const contractTermsSchema = z.strictObject({
  license: shortText,
  registration: shortText,
  insurance: shortText,
  /** The state whose law the contract names. */
  state: shortText,
  paymentMethods: shortText,
  /** Plain text printed as a QR code on invoices, such as a payment address; empty for none. */
  paymentCode: shortText,
  /** The pour is on hold until the deposit is received. */
  depositBeforePour: z.boolean(),
  /** Per month on an overdue balance, 0.015 is 1.5%; null for none. */
  lateChargeShare: share.nullable(),
  /** Months from completion; null where no warranty is given. */
  warrantyMonths: count.max(600, 'A warranty is at most 600 months.').nullable(),
  /** What the warranty covers and what it does not, in the business's own words; empty for the starter text. */
  warrantyText: longText,
  /** Clauses in the business's own words; a topic that is not listed uses the starter text, an empty text leaves it out. */
  clauses: z.array(z.strictObject({ topic: clauseTopicSchema, text: longText })).max(CLAUSE_TOPICS.length),
  /** Print the buyer's notice of the right to cancel (16 CFR 429) with each quote. */
  cancellationNotice: z.boolean(),
  /** Print the program's name at the foot of each page. */
  footLine: z.boolean(),
});
export type ContractTerms = z.infer<typeof contractTermsSchema>;

/** Terms of a new business: empty, with the cancellation notice printed and no late charge. */
export function newContractTerms(): ContractTerms {
  return {
    license: '',
    registration: '',
    insurance: '',
    state: '',
    paymentMethods: '',
    paymentCode: '',
    depositBeforePour: false,
    lateChargeShare: null,
    warrantyMonths: null,
    warrantyText: '',
    clauses: [],
    cancellationNotice: true,
    footLine: true,
  };
}

/** How a field of the contract terms is entered. */
export type ContractField = {
  readonly key: Exclude<keyof ContractTerms, 'clauses'>;
  readonly group: 'Licenses and insurance' | 'Payment' | 'Warranty' | 'Documents';
  readonly label: string;
  readonly kind: 'text' | 'long' | 'percent' | 'months' | 'yes-no';
  readonly hint: string;
};

/** Every field of the contract terms but the clauses, in the order of the form. */
export const CONTRACT_FIELDS: readonly ContractField[] = [
  { key: 'license', group: 'Licenses and insurance', label: 'License', kind: 'text', hint: 'Kind and number, as your state requires.' },
  {
    key: 'registration',
    group: 'Licenses and insurance',
    label: 'Registration',
    kind: 'text',
    hint: 'Home improvement registration, if your state has one.',
  },
  { key: 'insurance', group: 'Licenses and insurance', label: 'Insurance', kind: 'text', hint: 'Insurer and policy number.' },
  { key: 'state', group: 'Licenses and insurance', label: 'State law', kind: 'text', hint: 'The state whose law the contract names.' },
  { key: 'paymentMethods', group: 'Payment', label: 'Payment methods', kind: 'text', hint: 'Check, card, bank transfer.' },
  {
    key: 'paymentCode',
    group: 'Payment',
    label: 'Text for a payment QR code',
    kind: 'text',
    hint: 'A payment address or link, printed on invoices. Leave it empty for no code.',
  },
  { key: 'lateChargeShare', group: 'Payment', label: 'Late charge per month', kind: 'percent', hint: 'Many states set a maximum.' },
  { key: 'warrantyMonths', group: 'Warranty', label: 'Warranty period', kind: 'months', hint: 'Months from completion.' },
  { key: 'warrantyText', group: 'Warranty', label: 'Warranty terms', kind: 'long', hint: 'What it covers and what it does not.' },
  {
    key: 'depositBeforePour',
    group: 'Payment',
    label: 'Hold the pour until the deposit is received',
    kind: 'yes-no',
    hint: 'You can override the hold with a reason.',
  },
  {
    key: 'cancellationNotice',
    group: 'Documents',
    label: 'Print notice of right to cancel',
    kind: 'yes-no',
    hint: 'For sales at the customer’s home (16 CFR 429).',
  },
  { key: 'footLine', group: 'Documents', label: 'Print “Made with Straightedge”', kind: 'yes-no', hint: 'At the foot of each page.' },
];
