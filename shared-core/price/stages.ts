/** Payments and their due events; they add up exactly to the total. */
import type { Pricing } from '../book/business.ts';
import type { EstimateChoices } from '../book/job.ts';
import { formatPercent } from '../measure/percent.ts';
import type { Parsed } from '../measure/parsed.ts';
import { splitInStages } from './apportion.ts';

/** One payment. */
export type PaymentStage = EstimateChoices['stages'][number] & { readonly amountMinor: number };

/** The payments, and a sentence where their shares do not add up to the whole. */
export type Payments = { readonly stages: readonly PaymentStage[]; readonly depositMinor: number; readonly warning: string | null };

const WHOLE_TOLERANCE = 1e-9;

/**
 * The payments of a quote.
 * @param totalMinor tax included
 * @param stages the job's own; none means a deposit and the balance
 * @param pricing for the business's deposit
 */
export function payments(totalMinor: number, stages: EstimateChoices['stages'], pricing: Pick<Pricing, 'depositShare'>): Payments {
  const asked = stages.length > 0 ? stages : usualStages(pricing.depositShare);
  const sum = asked.reduce((total, stage) => total + stage.share, 0);
  const amounts = splitInStages(
    totalMinor,
    asked.map((stage) => stage.share),
  );
  const priced = asked.map((stage, index) => ({ ...stage, amountMinor: amounts[index] ?? 0 }));
  const isWhole = Math.abs(sum - 1) <= WHOLE_TOLERANCE;
  return {
    stages: priced,
    depositMinor: priced.filter((stage) => stage.due === 'on-acceptance').reduce((total, stage) => total + stage.amountMinor, 0),
    warning: isWhole ? null : `The payments add up to ${formatPercent(sum, 1)}. Make them add up to 100%.`,
  };
}

/**
 * Checks payments: each needs a name and a share, and together they make 100%. @returns the same payments, or the problem
 */
export function checkStages(stages: Readonly<EstimateChoices['stages']>, locale?: string): Parsed<EstimateChoices['stages']> {
  const nameless = stages.findIndex((stage) => stage.name.trim() === '');
  if (nameless >= 0) return { ok: false, message: `Enter a name for payment ${nameless + 1}. The customer sees it.` };
  const nothing = stages.find((stage) => stage.share <= 0);
  if (nothing !== undefined) return { ok: false, message: `${nothing.name} is 0%. Enter a share, or delete it.` };
  const sum = stages.reduce((total, stage) => total + stage.share, 0);
  if (Math.abs(sum - 1) <= WHOLE_TOLERANCE) return { ok: true, value: [...stages] };
  const difference = formatPercent(Math.abs(sum - 1), 2, locale);
  return {
    ok: false,
    message: `The payments add up to ${formatPercent(sum, 2, locale)}. That is ${difference} too ${sum < 1 ? 'little' : 'much'}.`,
  };
}

function usualStages(depositShare: number): EstimateChoices['stages'] {
  const deposit = { name: 'Deposit', share: depositShare, due: 'on-acceptance' as const };
  // Rounded to 12 decimals, so that 0.3 leaves exactly 0.7.
  const rest = { name: 'Balance due', share: Number((1 - depositShare).toFixed(12)), due: 'on-handover' as const };
  return [deposit, rest].filter((stage) => stage.share > 0);
}
