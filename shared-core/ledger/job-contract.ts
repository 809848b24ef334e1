/** The contract of a job, from its quotes as they were issued. */
import type { Quote } from '../book/quote.ts';
import { type Agreed, type Contract, contractOf } from './contract.ts';

/**
 * The accepted quote with the change orders signed since; null while nothing was accepted. Prices are the stored ones:
 * nothing is computed again.
 * @param orders what each signed change order adds or takes off
 */
export function contractOfJob(quotes: readonly Quote[], orders: readonly Agreed[] = []): Contract | null {
  const accepted = quotes.findLast((quote) => quote.state === 'accepted' && quote.deletedAt === null);
  if (accepted === undefined) return null;
  const { options, suggestedId } = accepted.priced;
  const option = options.find(({ id }) => id === accepted.acceptedOptionId) ?? options.find(({ id }) => id === suggestedId);
  return option === undefined ? null : contractOf({ ...option, currency: accepted.currency }, orders);
}
