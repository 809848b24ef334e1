/** What has to be received before the pour, by the contract or by the company's own rule. */
import type { Business } from '../book/business.ts';
import type { LedgerEntry } from '../book/ledger.ts';
import type { Quote } from '../book/quote.ts';
import { formatMoney } from '../price/money.ts';
import { accountOf } from './account.ts';
import { contractOfJob } from './job-contract.ts';

/** What is still missing, whole minor units, and the sentence about it. */
export type DepositHold = { readonly missingMinor: number; readonly text: string };

/**
 * The hold on a pour while a payment is missing; null while nothing is. Payments that the contract asks for before the pour always
 * hold it. The deposit due on acceptance holds it where the company's terms say so.
 */
export function depositHold(
  quotes: readonly Quote[],
  entries: readonly LedgerEntry[],
  { contract: terms, locale }: Pick<Business, 'contract' | 'locale'>,
): DepositHold | null {
  const contract = contractOfJob(quotes);
  if (contract === null) return null;
  const asked = contract.stages
    .filter(({ due }) => due === 'before-pour' || (due === 'on-acceptance' && terms.depositBeforePour))
    .reduce((sum, stage) => sum + stage.amountMinor, 0);
  const { receivedMinor, refundedMinor, creditedMinor } = accountOf(entries, '1970-01-01');
  const missingMinor = asked - (receivedMinor - refundedMinor + creditedMinor);
  if (asked === 0 || missingMinor <= 0) return null;
  const money = formatMoney(missingMinor, contract.currency, locale);
  return { missingMinor, text: `The deposit is not received: ${money} is missing.` };
}
