import { expect, it } from 'vitest';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { accountOf, openToWriteOffMinor, taxReceivedMinor } from '../../../shared-core/ledger/account.ts';
import { opensAgainMinor } from '../../../shared-core/ledger/job-contract.ts';
import { credit, invoice, payment, refund } from './entries.ts';

const TODAY = '2026-03-30';

it('writes off no more than is open, and never makes a credit balance of it', () => {
  // 1,000.00 invoiced, 930.00 paid: 70.00 is open. By hand.
  const billed = [invoice('a', 1, 100_000), payment('p', 93_000)];
  expect(openToWriteOffMinor(accountOf(billed, TODAY), 'a')).toBe(7_000);
  for (const of of ['a', null])
    expect(accountOf([...billed, credit('w', 'write-off', 10_000, of)], TODAY)).toMatchObject({
      writtenOffMinor: 7_000,
      openMinor: 0,
      onAccountMinor: 0,
    });
  // A credit is given to the customer.
  expect(accountOf([...billed, credit('c', 'credit', 10_000)], TODAY)).toMatchObject({ openMinor: 0, onAccountMinor: 3_000 });
});

it('takes a write-off back by what is paid after all, before any of it is a credit balance', () => {
  const off = credit('w', 'write-off', 50_000, 'a');
  const later = (minor: number, of: string | null = null) => ({ ...payment('q', minor, of), onDay: '2026-03-25' });
  const read = (...more: LedgerEntry[]) => {
    const { writtenOffMinor, openMinor, onAccountMinor, invoices } = accountOf([invoice('a', 1, 50_000), off, ...more], TODAY);
    expect(invoices.reduce((sum, b) => sum + b.writtenOffMinor, 0)).toBe(writtenOffMinor);
    return [writtenOffMinor, openMinor, onAccountMinor, invoices.find((b) => b.invoice.id === 'a')?.paidMinor];
  };
  // 500.00 written off, of which 200.00, all, or 600.00 is paid after all; a refund of what was overpaid leaves it written off. By hand.
  expect(read()).toEqual([50_000, 0, 0, 0]);
  expect(read(later(20_000))).toEqual([30_000, 0, 0, 20_000]);
  expect(read(later(50_000, 'a'))).toEqual([0, 0, 0, 50_000]);
  expect(read(later(60_000))).toEqual([0, 0, 10_000, 50_000]);
  expect(read(later(20_000), refund('f', 20_000))).toEqual([50_000, 0, 0, 0]);
  // Another invoice is open: a payment for none pays it, and one for the invoice written off pays that.
  const other = invoice('b', 2, 50_000, { dueOn: '2026-04-15' });
  expect(read(other, later(50_000))).toEqual([50_000, 0, 0, 0]);
  expect(read(other, later(50_000, 'a'))).toEqual([0, 50_000, 0, 50_000]);
  // A write-off for no invoice gives up what was issued by then, and stays there.
  const general = { ...off, invoiceId: null };
  const issued = { ...other, createdAt: '2026-03-20T15:00:00Z' };
  const account = accountOf([invoice('a', 1, 50_000), general, issued, later(50_000, 'a')], TODAY);
  expect(account).toMatchObject({ writtenOffMinor: 0, openMinor: 50_000 });
});

it('writes off what a refund opened again, and opens again what was paid before what was written off', () => {
  // 1,000.00 is paid and 300.00 of it paid back, which is not charged again. By hand.
  const back = [invoice('a', 1, 100_000), payment('p', 100_000), refund('r', 30_000)];
  expect(openToWriteOffMinor(accountOf(back, TODAY), 'a')).toBe(30_000);
  for (const of of ['a', null]) {
    const off = { ...credit('w', 'write-off', 30_000, of), onDay: '2026-03-25' };
    expect(accountOf([...back, off], TODAY)).toMatchObject({ writtenOffMinor: 30_000, openMinor: 0, reopenedMinor: 0, onAccountMinor: 0 });
  }
  // 1,070.00 with 70.00 of tax is paid and paid back in full, and another invoice is written off: no tax is left in what was received.
  const tax = { taxId: 't', name: 'Sales tax', rate: 0.07, baseMinor: 100_000, taxMinor: 7_000 };
  const taxed = invoice('a', 1, 107_000, { netMinor: 100_000, taxes: [tax] });
  const other = invoice('b', 2, 107_000, { dueOn: '2026-04-15' });
  const all = [taxed, other, payment('p', 107_000, 'a'), credit('w', 'write-off', 107_000, 'b'), refund('r', 107_000)];
  expect(taxReceivedMinor(all)).toBe(0);
  expect(accountOf(all, TODAY).invoices.map(({ openMinor }) => openMinor)).toEqual([107_000, 0]);
});

it('tells what a refund opens again, which a credit of it settles', () => {
  // 1,000.00 billed; each case: what was paid, written off, refunded, and opened again by the refund. By hand.
  for (const [paid, off, back, again] of [
    [100_000, 0, 15_000, 15_000],
    [110_000, 0, 15_000, 5_000],
    [110_000, 0, 10_000, 0],
    [100_000, 40_000, 15_000, 0],
    [60_000, 40_000, 15_000, 15_000],
  ] as const) {
    const early = { ...credit('w', 'write-off', 40_000, 'a'), onDay: '2026-03-04' };
    const entries = [invoice('a', 1, 100_000), payment('p', paid), ...(off > 0 ? [early] : [])];
    expect(opensAgainMinor(back, accountOf(entries, TODAY), 0)).toBe(again);
    const refunded = [...entries, refund('f', back)];
    if (off === 0) expect(accountOf(refunded, TODAY).reopenedMinor).toBe(again);
    if (again > 0) expect(accountOf([...refunded, credit('g', 'credit', again)], TODAY)).toMatchObject({ openMinor: 0, onAccountMinor: 0 });
  }
  // Of a credit for change orders that is still to be recorded, nothing opens.
  expect(opensAgainMinor(15_000, accountOf([invoice('a', 1, 100_000), payment('p', 100_000)], TODAY), 20_000)).toBe(0);
});
