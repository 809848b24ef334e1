import { describe, expect, it } from 'vitest';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { accountOf } from '../../../shared-core/ledger/account.ts';
import { contractOf, type Agreed } from '../../../shared-core/ledger/contract.ts';
import { isContractPaid, overInvoicedMinor, stillToPayMinor } from '../../../shared-core/ledger/job-contract.ts';
import { invoicesToIssue } from '../../../shared-core/ledger/next-invoice.ts';
import { payments } from '../../../shared-core/price/stages.ts';
import { credit, invoice, orderCredit, payment } from './entries.ts';

const TODAY = '2026-03-30';
const agreed = (netMinor: number, rate: number): Agreed => {
  const taxMinor = Math.round(netMinor * rate);
  return { netMinor, totalMinor: netMinor + taxMinor, taxes: [{ taxId: 't', name: 'Sales tax', rate, baseMinor: netMinor, taxMinor }] };
};
const ALL_DONE = { accepted: true, poured: true, handedOver: true, thirtyDaysPast: true };

describe('what is still to pay under a contract that a deduction reduced', () => {
  const base = { ...agreed(1_000_000, 0), currency: 'USD', stages: payments(1_000_000, [], { depositShare: 0.3 }).stages };
  const contract = contractOf(base, [agreed(-50_000, 0)]);
  const billed = [invoice('a', 1, 300_000), payment('p', 300_000), invoice('b', 2, 700_000)];
  const read = (...more: readonly LedgerEntry[]) => {
    const account = accountOf([...billed, ...more], TODAY);
    return {
      over: overInvoicedMinor(contract, account),
      left: stillToPayMinor(contract, account),
      isPaid: isContractPaid(contract, account),
    };
  };
  it('asks for a credit of the deduction once all is invoiced, and counts it once', () => {
    // 10,000 less 500 is 9,500, of which 3,000 is paid: 6,500 is left, before the credit as after it. By hand.
    expect(read()).toEqual({ over: 50_000, left: 650_000, isPaid: false });
    const given = orderCredit('c', 50_000);
    expect(read(given)).toEqual({ over: 0, left: 650_000, isPaid: false });
    expect(read(given, payment('q', 600_000))).toEqual({ over: 0, left: 50_000, isPaid: false });
    expect(read(given, payment('q', 650_000))).toEqual({ over: 0, left: 0, isPaid: true });
    // Paid in full before the deduction: the customer has 500 to get back.
    expect(read(given, payment('q', 700_000))).toMatchObject({ over: 0, left: -50_000 });
    expect(read(credit('w', 'write-off', 50_000))).toMatchObject({ over: 50_000 });
  });
  it('bills an addition after the credit in full', () => {
    // 10,000 less 500 and 800 more is 10,300. Invoiced less the credit is 9,500, so that 800 is left to bill. By hand.
    const more = contractOf(base, [agreed(-50_000, 0), agreed(80_000, 0)]);
    const names = base.stages.map(({ name }) => name);
    const entries = [
      ...billed.map((entry, i) => (entry.kind === 'invoice' ? { ...entry, stageName: names[i === 0 ? 0 : 1] ?? null } : entry)),
      orderCredit('c', 50_000),
      payment('q', 650_000),
    ];
    expect(invoicesToIssue(more, entries, ALL_DONE).map(({ totalMinor }) => totalMinor)).toEqual([80_000]);
    const account = accountOf(entries, TODAY);
    expect([stillToPayMinor(more, account), isContractPaid(more, account)]).toEqual([80_000, false]);
  });
  it('is less by a credit given beside the contract', () => {
    // 500 given for a scratch, then 500 less by a change order: 10,000 less 1,000 is 9,000, of which 3,000 is paid. By hand.
    expect(read(credit('g', 'credit', 50_000))).toEqual({ over: 50_000, left: 600_000, isPaid: false });
    expect(read(credit('g', 'credit', 50_000), orderCredit('c', 50_000))).toEqual({ over: 0, left: 600_000, isPaid: false });
  });
  it('includes what is not invoiced yet', () => {
    const account = accountOf(billed.slice(0, 2), TODAY);
    expect([overInvoicedMinor(contract, account), stillToPayMinor(contract, account)]).toEqual([0, 650_000]);
  });
});
