/**
 * Starter clauses of a contract, by topic, with blanks the program fills. Each business edits them and has them checked against
 * its state's law.
 */
import type { Business } from '../book/business.ts';
import { type ClauseTopic, CLAUSE_TOPICS, type ContractTerms } from '../book/contract-terms.ts';
import type { Frozen, QuotedOption, QuotedPrice } from '../book/quote.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { termsOfJob } from '../ledger/job-contract.ts';
import { formatClockTime } from '../measure/clock-time.ts';
import { formatListOr } from '../measure/list.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatWeekdays } from '../measure/weekday.ts';
import { acceptedQuote } from '../price/change-order.ts';
import { formatMoney } from '../price/money.ts';
import { warrantyTerm } from '../standing/warranty-period.ts';
import { KEEP_ROOM_PERIOD, keepRoomWords } from './handover-care.ts';
import { issuerName } from './letterhead.ts';

/** What fills the blanks. */
type ClauseBlanks = {
  readonly business: string;
  readonly deposit: string;
  readonly paymentMethods: string;
  /** `1.5%`; empty for no late charge. */
  readonly lateCharge: string;
  /** `for 12 months from the day of handover`, `through November 29, 2028`; empty where no warranty is given. */
  readonly warranty: string;
  readonly state: string;
  /** `Monday to Friday, 7:30 am to 5 pm`; empty without a working day. */
  readonly hours: string;
  readonly temperature: string;
};

type Starter = { readonly title: string; readonly text: string };

/** Common practice, no source. A sentence whose blank is empty is left out. */
export const STARTER_CLAUSES: Readonly<Record<ClauseTopic, Starter>> = {
  'change-orders': {
    title: 'Changes',
    text: 'Any change to the work is written as a change order with its price and added days. We start changed work after both of us have signed it.',
  },
  'concealed-conditions': {
    title: 'Hidden conditions',
    text: 'We priced what we could see and measure. If we find a hidden condition that adds work, we stop, show you, and give you a price before we continue.',
  },
  'site-conditions': {
    title: 'The rooms',
    text: `Please have the rooms empty and the old flooring accessible before our first day. Keep the rooms at {temperature} ${KEEP_ROOM_PERIOD}.`,
  },
  'power-and-water': {
    title: 'Power and water',
    text: 'You provide household power and clean water at the property. Tell us if either will be off.',
  },
  'access-and-hours': {
    title: 'Access and hours',
    text: 'We work {hours}, and on any other day named in this quote. Please arrange access and a parking space close to the door. Keep children and pets out of the work area.',
  },
  disposal: {
    title: 'Cleanup',
    text: 'We dispose of our own waste, and of the materials we remove unless the scope says otherwise. We leave the work area vacuumed.',
  },
  flatness: {
    title: 'Flat and level',
    text: 'Flat means free of dips and humps. Level means horizontal. We promise the flatness stated in this quote, checked with a straightedge. The floor is level only where the scope says “level”.',
  },
  moisture: {
    title: 'Moisture',
    text: 'The new floor holds water from mixing and needs time to dry. Flooring that needs a moisture test goes down only after the test meets the flooring manufacturer’s limit. A dry-by date is an estimate.',
  },
  payment: {
    title: 'Payment',
    text: 'Payments are due as listed in this quote. We accept {paymentMethods}. An overdue balance bears a late charge of {lateCharge} per month.',
  },
  warranty: {
    title: 'Warranty',
    text: 'We repair defects in our work at no charge {warranty}. The warranty does not cover damage by water, movement of the building, or work by others.',
  },
  cancellation: {
    title: 'Cancellation',
    text: 'If you cancel after the period allowed by law, you pay for work done and for materials that cannot be returned. The law of {state} applies.',
  },
};

/** Leaves out sentences whose blank has no value, then fills the others. */
function filled(text: string, blanks: ClauseBlanks): string {
  const values: Readonly<Record<string, string>> = { ...blanks };
  return text
    .split(/(?<=\.)\s+/)
    .filter((sentence) => [...sentence.matchAll(/\{(\w+)\}/g)].every(([, key]) => (values[key ?? ''] ?? '') !== ''))
    .map((sentence) => sentence.replace(/\{(\w+)\}/g, (_, key: string) => values[key] ?? ''))
    .join(' ')
    .trim();
}

/** A clause: the business's own words where it has any, the starter text otherwise; empty where it is left out. */
function clauseText(topic: ClauseTopic, terms: ContractTerms, blanks: ClauseBlanks): string {
  const own = terms.clauses.find((clause) => clause.topic === topic);
  if (topic === 'warranty' && own === undefined && blanks.warranty === '') return '';
  return filled(own?.text ?? STARTER_CLAUSES[topic].text, blanks);
}

function clauseBlanks(business: Business, options: readonly QuotedOption[], warranty: string): ClauseBlanks {
  const { contract, locale, currency, units, hours } = business;
  const deposits = options.map(({ name, depositMinor }) => {
    const deposit = formatMoney(depositMinor, currency, locale);
    return options.length < 2 ? deposit : `${deposit} for “${name}”`;
  });
  return {
    business: issuerName(business),
    deposit: formatListOr(deposits),
    paymentMethods: contract.paymentMethods,
    lateCharge: contract.lateChargeShare === null ? '' : formatPercent(contract.lateChargeShare, 2, locale),
    warranty,
    state: contract.state,
    hours:
      hours.days.length === 0
        ? ''
        : `${formatWeekdays(hours.days, locale)}, ${formatClockTime(hours.from, locale)} to ${formatClockTime(hours.to, locale)}`,
    temperature: keepRoomWords(units, locale),
  };
}

/** The clauses of a quote in order. */
export function quoteClauses({ business, job }: Pick<Frozen, 'business' | 'job'>, { options }: QuotedPrice): readonly Starter[] {
  const blanks = clauseBlanks(business, options, warrantyTerm({ business, job, quotes: [] }));
  return CLAUSE_TOPICS.flatMap((topic): Starter[] => {
    const text = clauseText(topic, business.contract, blanks);
    return text === '' ? [] : [{ title: STARTER_CLAUSES[topic].title, text }];
  });
}

/** The warranty clause of a job as it was sold; as the settings have it while nothing was accepted. */
export function warrantyClause(whole: Pick<WholeJob, 'business' | 'job' | 'quotes'>): string {
  const sold = acceptedQuote(whole.quotes);
  const blanks = clauseBlanks(sold?.frozen.business ?? whole.business, sold?.priced.options ?? [], warrantyTerm(whole));
  return clauseText('warranty', termsOfJob(whole), blanks);
}
