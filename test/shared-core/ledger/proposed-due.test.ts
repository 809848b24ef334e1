/** The due day that a new invoice proposes, beside what the quote says of the payment. */
import { expect, it } from 'vitest';
import { invoicesToIssue, type Milestones, proposedDueDay } from '../../../shared-core/ledger/next-invoice.ts';

const TODAY = '2026-05-12';
const stages = (between: 'before-pour' | 'after-pour' | 'thirty-days') => [
  { name: 'Deposit', share: 0.3, due: 'on-acceptance' as const, amountMinor: 30_000 },
  { name: 'Second payment', share: 0.3, due: between, amountMinor: 30_000 },
  { name: 'Balance due', share: 0.4, due: 'on-handover' as const, amountMinor: 40_000 },
];
const proposed = (
  reached: Partial<Milestones>,
  pourDay: string | null = null,
  between: 'before-pour' | 'after-pour' | 'thirty-days' = 'after-pour',
  thirtyDays: string | null = null,
): string[] => {
  const milestones = { accepted: true, poured: false, handedOver: false, thirtyDaysPast: false, ...reached };
  const contract = { quotedAt: '', currency: 'USD', netMinor: 100_000, taxes: [], totalMinor: 100_000, stages: stages(between) };
  return invoicesToIssue(contract, [], milestones).map((draft) => proposedDueDay(draft, TODAY, { pour: pourDay, thirtyDays }));
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

it('is the thirtieth day after the handover for a payment that the quote has due then', () => {
  // Handed over and invoiced on May 12: by the calendar, 19 more days of May and 11 of June.
  expect(proposed({ poured: true, handedOver: true }, null, 'thirty-days', '2026-06-11')[1]).toBe('2026-06-11');
  // Invoiced once the day is past, it is due at once.
  expect(proposed({ poured: true, handedOver: true, thirtyDaysPast: true }, null, 'thirty-days', '2026-05-01')[1]).toBe(TODAY);
  // Before the handover, the day is not known.
  expect(proposed({ poured: true }, null, 'thirty-days')[1]).toBe('2026-05-26');
});
