/** The sample's accepted quote before any change order, and orders to it. */
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import { contractBasis, decideOrder, enteredPrice, issueOrder, type NewOrder } from '../../../shared-core/price/change-order.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { sampleAt } from '../../sample-at.ts';

export const NOW = '2026-05-12T15:05:00.000Z';
export const PLACE = { currency: 'USD', locale: 'en-US', units: 'us' } as const;
const found = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.id === 'sample-job-abara');
const accepted = found?.quotes.find((quote) => quote.state === 'accepted');
if (found === undefined || accepted === undefined) throw new Error('The sample has an accepted quote.');
/** The job on the day it was accepted: nothing poured, no change order. */
export const base: Quote = { ...accepted, orders: [] };
export const whole: WholeJob = { ...found, quotes: [base], pours: [], pourEvents: [] };
const contract = contractOfJob([base]);
if (contract === null) throw new Error('An accepted quote is a contract.');
export const agreed = contract;

export const draft = (of: Partial<NewOrder>): NewOrder => ({
  id: 'order-00001',
  issuedAt: NOW,
  issuedBy: 'Ros Teague',
  reason: 'Rot under the threshold',
  work: '',
  roomIds: ['sample-living'],
  withdrawnIds: [],
  photoIds: [],
  ...enteredPrice(18_500, null),
  addedDays: 0,
  priced: contractBasis(base),
  ...of,
});
export const issue = (of: Partial<NewOrder>): Quote => {
  const issued = issueOrder(base, draft(of), { quotes: [base] }, whole.job);
  if (!issued.ok) throw new Error(issued.message);
  return issued.value;
};
export const sign = (quote: Quote): Quote => {
  const signed = decideOrder(quote, 'order-00001', { state: 'signed', instant: NOW, by: 'Adaeze Abara' });
  if (!signed.ok) throw new Error(signed.message);
  return signed.value;
};
