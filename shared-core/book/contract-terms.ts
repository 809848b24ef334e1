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
  /** Months from the day of handover; null where no warranty is given. */
  warrantyMonths: count.max(600, 'A warranty is at most 600 months.').nullable(),
  /** Clauses in the business's own words; a topic that is not listed uses the starter text, an empty text leaves it out. */
  clauses: z.array(z.strictObject({ topic: clauseTopicSchema, text: longText })).max(CLAUSE_TOPICS.length),
  /** Print the buyer's notice of the right to cancel (16 CFR 429) with each quote. */
  cancellationNotice: z.boolean(),
  /** Print the program's name at the foot of each page. */
  footLine: z.boolean(),
});
export type ContractTerms = z.infer<typeof contractTermsSchema>;

/** How a field of the contract terms is entered, what it begins with, and where it is printed. */
export type ContractField<V = ContractTerms[ContractKey]> = {
  readonly label: string;
  readonly kind: 'text' | 'percent' | 'months' | 'yes-no';
  readonly hint: string;
  readonly begins: V;
  /** Under the company's name on every document, or where the contract is signed. Others have places of their own. */
  readonly printed?: readonly ('letterhead' | 'acceptance')[];
};
export type ContractKey = Exclude<keyof ContractTerms, 'clauses'>;

/** Every field of the contract terms but the clauses, in the order of the form. */
export const CONTRACT_FIELDS: { readonly [K in ContractKey]: ContractField<ContractTerms[K]> } = {
  license: {
    label: 'License',
    kind: 'text',
    hint: 'Kind and number, as your state requires.',
    begins: '',
    printed: ['letterhead', 'acceptance'],
  },
  registration: {
    label: 'Registration',
    kind: 'text',
    hint: 'Home improvement registration, if your state has one.',
    begins: '',
    printed: ['letterhead', 'acceptance'],
  },
  insurance: { label: 'Insurance', kind: 'text', hint: 'Insurer and policy number.', begins: '', printed: ['acceptance'] },
  state: { label: 'State law', kind: 'text', hint: 'The state whose law the contract names.', begins: '' },
  paymentMethods: { label: 'Payment methods', kind: 'text', hint: 'Check, card, bank transfer.', begins: '' },
  paymentCode: {
    label: 'Text for a payment QR code',
    kind: 'text',
    hint: 'A payment address or link, printed on invoices. Leave it empty for no code.',
    begins: '',
  },
  lateChargeShare: { label: 'Late charge per month', kind: 'percent', hint: 'Many states set a maximum.', begins: null },
  warrantyMonths: {
    label: 'Warranty period',
    kind: 'months',
    hint: 'Months from the day of handover. What it covers is under Contract clauses.',
    begins: null,
  },
  depositBeforePour: {
    label: 'Hold the pour until the deposit is received',
    kind: 'yes-no',
    hint: 'You can override the hold with a reason.',
    begins: false,
  },
  cancellationNotice: {
    label: 'Print notice of right to cancel',
    kind: 'yes-no',
    hint: 'For sales at the customer’s home (16 CFR 429). Left out for a name with Inc, LLC, Corp, Association, or the like. Change it on a job under Quote.',
    begins: true,
  },
  footLine: { label: 'Print “Made with Straightedge”', kind: 'yes-no', hint: 'At the foot of each page.', begins: true },
};
export const CONTRACT_KEYS = Object.keys(CONTRACT_FIELDS) as readonly ContractKey[];

/** Terms of a new business: empty, with the cancellation notice printed and no late charge. */
export function newContractTerms(): ContractTerms {
  const begins = Object.fromEntries(CONTRACT_KEYS.map((key) => [key, CONTRACT_FIELDS[key].begins]));
  return contractTermsSchema.parse({ ...begins, clauses: [] });
}

/** The credentials printed in a place, each with its label; those not entered are left out. */
export function printedCredentials(
  terms: ContractTerms,
  place: 'letterhead' | 'acceptance',
): readonly { readonly label: string; readonly text: string }[] {
  return CONTRACT_KEYS.flatMap((key) => {
    const { label, printed }: ContractField = CONTRACT_FIELDS[key];
    const text = terms[key];
    return printed?.includes(place) === true && typeof text === 'string' && text !== '' ? [{ label, text }] : [];
  });
}
