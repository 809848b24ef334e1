/** The due day that a new invoice proposes, beside what the quote says of the payment. */
import { expect, it } from 'vitest';
import { invoicesToIssue, type Milestones, proposedDueDay } from '../../../shared-core/ledger/next-invoice.ts';

const TODAY = '2026-05-12';
const stages = (between: 'before-pour' | 'after-pour') => [
  { name: 'Deposit', share: 0.3, due: 'on-acceptance' as const, amountMinor: 30_000 },
  { name: 'Second payment', share: 0.3, due: between, amountMinor: 30_000 },
  { name: 'Balance due', share: 0.4, due: 'on-handover' as const, amountMinor: 40_000 },
];
const proposed = (
  reached: Partial<Milestones>,
  pourDay: string | null = null,
  between: 'before-pour' | 'after-pour' = 'after-pour',
): string[] => {
  const milestones = { accepted: true, poured: false, handedOver: false, thirtyDaysPast: false, ...reached };
  const contract = { currency: 'USD', netMinor: 100_000, taxes: [], totalMinor: 100_000, stages: stages(between) };
  return invoicesToIssue(contract, [], milestones).map((draft) => proposedDueDay(draft, TODAY, pourDay));
};

it('is the day of the invoice for a payment that the quote has due by now', () => {
  expect(proposed({ poured: true, handedOver: true })).toEqual([TODAY, TODAY, TODAY]);
});

// Two weeks to pay: common practice, no source.
it('is two weeks later where what the payment waits for has not happened', () => {
  expect(proposed({ poured: true })).toEqual([TODAY, TODAY, '2026-05-26']);
  expect(proposed({}, null, 'before-pour')).toEqual([TODAY, '2026-05-26', '2026-05-26']);
});

it('is the day of the pour for a payment that is due before it', () => {
  expect(proposed({}, '2026-05-20', 'before-pour')[1]).toBe('2026-05-20');
  expect(proposed({}, '2026-05-08', 'before-pour')[1]).toBe(TODAY);
});
