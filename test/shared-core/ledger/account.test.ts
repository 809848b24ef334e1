import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Invoice, LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { accountOf, billedMinor, proposedMinor } from '../../../shared-core/ledger/account.ts';
import { contractOf, type Agreed } from '../../../shared-core/ledger/contract.ts';
import { overInvoicedMinor, stillToPayMinor } from '../../../shared-core/ledger/job-contract.ts';
import { orderCreditTaxes } from '../../../shared-core/ledger/credit-taxes.ts';
import { invoiceOf, invoicesToIssue, nextInvoiceNumber } from '../../../shared-core/ledger/next-invoice.ts';
import { invoiceLateChargeMinor } from '../../../shared-core/ledger/late-charge.ts';
import { payments } from '../../../shared-core/price/stages.ts';
import { credit, invoice, orderCredit, payment, refund } from './entries.ts';

const TODAY = '2026-03-30';

describe('the account of a job', () => {
  it('is overdue by the days past the due day, and due before it', () => {
    // Due March 16: on March 30 fourteen days have passed (calendar count).
    const [late] = accountOf([invoice('a', 1, 50_000)], TODAY).invoices;
    expect(late).toMatchObject({ state: 'overdue', daysOverdue: 14, openMinor: 50_000 });
    expect(accountOf([invoice('a', 1, 50_000)], '2026-03-16').invoices[0]).toMatchObject({ state: 'due', daysOverdue: 0 });
  });

  it('applies a payment to its invoice, the rest to the oldest, and what is left on account', () => {
    const entries = [
      invoice('a', 1, 10_000),
      invoice('b', 2, 20_000, { dueOn: '2026-04-01' }),
      payment('p', 5_000, 'b'),
      payment('q', 12_000),
      payment('r', 20_000),
    ];
    const account = accountOf(entries, TODAY);
    expect(account.invoices.map((i) => i.openMinor)).toEqual([0, 0]);
    expect(account.onAccountMinor).toBe(7_000);
  });

  it('proposes for a payment what is due of its invoice, or of the only one due', () => {
    const one = accountOf([invoice('a', 1, 10_000), payment('p', 2_500)], TODAY);
    expect([proposedMinor(one, null), proposedMinor(one, 'a')]).toEqual([7_500, 7_500]);
    const two = accountOf([invoice('a', 1, 10_000), invoice('b', 2, 20_000)], TODAY);
    expect([proposedMinor(two, null), proposedMinor(two, 'b')]).toEqual([null, 20_000]);
    expect(proposedMinor(accountOf([invoice('a', 1, 10_000), payment('p', 10_000)], TODAY), null)).toBeNull();
    // Retainage that is held is open, and not due.
    const held = [invoice('a', 1, 10_000, { retainageMinor: 1_000 }), payment('p', 9_000, 'a')];
    expect(proposedMinor(accountOf(held, TODAY), null)).toBeNull();
    expect(proposedMinor(accountOf([...held, invoice('b', 2, 20_000)], TODAY), null)).toBe(20_000);
  });

  it('lets a refund reopen what it was paid for', () => {
    const account = accountOf([invoice('a', 1, 10_000), payment('p', 10_000), refund('f', 2_500)], TODAY);
    expect(account.openMinor).toBe(2_500);
    expect(account.invoices[0]?.state).toBe('overdue');
  });

  it('keeps a paid invoice paid when another is issued after a refund and a credit', () => {
    // By hand: 100.00 + 20.00 paid, 20.00 refunded, 5.00 credited: 95.00 pays the second invoice of 100.00.
    for (const of of [null, 'a'] as const) {
      const paid = [invoice('a', 1, 10_000), payment('p', 12_000, of), refund('f', 2_000), credit('c', 'credit', 500)];
      const both = [...paid, invoice('b', 2, 10_000, { dueOn: '2026-03-20' }), payment('q', 9_500, of === null ? null : 'b')];
      expect(accountOf(both, TODAY)).toMatchObject({ openMinor: 0, onAccountMinor: 0 });
      const account = accountOf([...both, invoice('c', 3, 4_000, { dueOn: '2026-04-15' })], TODAY);
      expect(account.invoices.map(({ openMinor, state }) => [openMinor, state])).toEqual([
        [0, 'paid'],
        [0, 'paid'],
        [4_000, 'due'],
      ]);
    }
  });

  it('holds retainage back until it is released', () => {
    const entries = [invoice('a', 1, 10_000, { retainageMinor: 1_000 }), payment('p', 9_000)];
    expect(accountOf(entries, TODAY).invoices[0]).toMatchObject({ openMinor: 1_000, retainedMinor: 1_000, dueMinor: 0, state: 'due' });
    // Accepted after the invoice was due: the retainage is due from that day on, and late from the next.
    expect(accountOf(entries, TODAY, TODAY).invoices[0]).toMatchObject({ dueMinor: 1_000, dueOn: TODAY, state: 'due' });
    expect(accountOf(entries, TODAY, '2026-03-01').invoices[0]).toMatchObject({ dueOn: '2026-03-16', state: 'overdue' });
  });

  it('settles what is due before retainage that is held, whatever a payment was for', () => {
    const held = { retainageMinor: 50_000 };
    const both = [invoice('a', 1, 500_000, held), invoice('b', 2, 500_000, { ...held, dueOn: '2026-04-15' })];
    // Two invoices of 5,000.00, each with 500.00 held: 9,000.00 pays all that is due. By hand.
    for (const paid of [
      [payment('p', 450_000, 'a'), payment('q', 450_000)],
      [payment('p', 900_000)],
      [payment('p', 900_000, 'a')],
      [payment('p', 500_000, 'b'), payment('q', 400_000, 'b')],
      [payment('p', 1_000_000), refund('f', 100_000)],
    ]) {
      const account = accountOf([...both, ...paid], '2026-05-01');
      expect(account).toMatchObject({ dueMinor: 0, retainedMinor: 100_000, openMinor: 100_000, onAccountMinor: 0 });
      expect(account.invoices.map(({ state, retainedMinor }) => [state, retainedMinor])).toEqual([
        ['due', 50_000],
        ['due', 50_000],
      ]);
    }
    // Retainage paid early settles that of the invoice the payment was for; retainage that is written off is no longer held.
    const open = (...more: readonly LedgerEntry[]) =>
      accountOf([...both, ...more], '2026-05-01').invoices.map(({ dueMinor, retainedMinor }) => [dueMinor, retainedMinor]);
    expect(open(payment('p', 450_000, 'a'), payment('q', 500_000, 'b'))).toEqual([
      [0, 50_000],
      [0, 0],
    ]);
    expect(open(payment('p', 450_000, 'a'), credit('w', 'write-off', 50_000, 'a'))).toEqual([
      [0, 0],
      [450_000, 50_000],
    ]);
    // Released on April 1, the retainage of the first invoice is due before the second invoice.
    expect(accountOf([...both, payment('p', 600_000)], '2026-05-01', '2026-04-01').invoices.map(({ dues }) => dues)).toEqual([
      [],
      [
        { minor: 350_000, dueOn: '2026-04-15', isRetainage: false },
        { minor: 50_000, dueOn: '2026-04-15', isRetainage: true },
      ],
    ]);
  });

  it('leaves nothing due once as much is paid as is due, over random invoices, payments and refunds', () => {
    const minor = fc.integer({ min: 1, max: 500_000 });
    const billed = fc.array(fc.tuple(minor, minor, fc.constantFrom('2026-03-16', '2026-04-15')), { maxLength: 4 });
    const paid = fc.array(fc.tuple(minor, fc.option(fc.integer({ min: 0, max: 4 }))), { maxLength: 6 });
    fc.assert(
      fc.property(billed, paid, fc.integer({ min: 0, max: 100_000 }), (invoices, amounts, refundMinor) => {
        const account = accountOf(
          [
            ...invoices.map(([due, retainageMinor, dueOn], i) => invoice(`${i}`, i + 1, due + retainageMinor, { retainageMinor, dueOn })),
            ...amounts.map(([m, of], i) => payment(`p${i}`, m, of === null ? null : `${of}`)),
            ...(refundMinor === 0 ? [] : [refund('f', refundMinor)]),
          ],
          TODAY,
        );
        const left = invoices.reduce((sum, [due]) => sum + due, 0) - account.receivedMinor + account.refundedMinor;
        expect(account.dueMinor).toBe(Math.max(0, left));
      }),
    );
  });

  it('charges released retainage from its own due day', () => {
    const entries = [invoice('a', 1, 1_000_000, { retainageMinor: 100_000, dueOn: '2026-03-01' })];
    const [balance] = accountOf(entries, '2026-05-10', '2026-04-30').invoices;
    if (balance === undefined) throw new Error('an invoice');
    expect(balance).toMatchObject({ overdueMinor: 1_000_000, daysOverdue: 70, dueOn: '2026-03-01' });
    // 9,000 × 1.5% × 70 / 30 = 315.00, and 1,000 × 1.5% × 10 / 30 = 5.00, by hand.
    expect(invoiceLateChargeMinor(balance, '2026-05-10', { monthShare: 0.015, graceDays: 0 })).toBe(32_000);
    // On the day of the handover the retainage is due and not overdue yet.
    const [handed] = accountOf(entries, '2026-04-30', '2026-04-30').invoices;
    expect(handed).toMatchObject({ dueMinor: 1_000_000, overdueMinor: 900_000, daysOverdue: 60 });
    // Retainage held is open and not due.
    expect(accountOf([...entries, payment('p', 900_000)], '2026-05-10')).toMatchObject({
      openMinor: 100_000,
      dueMinor: 0,
      retainedMinor: 100_000,
    });
  });

  it('keeps the due day of a paid invoice, whatever day the work was accepted', () => {
    expect(accountOf([invoice('a', 1, 10_000), payment('p', 10_000)], TODAY, TODAY).invoices[0]).toMatchObject({
      dueOn: '2026-03-16',
      state: 'paid',
    });
  });

  it('ignores voided entries, and keeps them in the list', () => {
    const account = accountOf([invoice('a', 1, 10_000, { voidedAt: '2026-03-03T00:00:00Z', voidReason: 'Wrong customer' })], TODAY);
    expect(account).toMatchObject({ invoicedMinor: 0, openMinor: 0 });
    expect(account.invoices[0]?.state).toBe('void');
  });

  it('always adds up: invoiced is received less refunded, plus credits and write-offs, plus open, less on account', () => {
    const minor = fc.integer({ min: 1, max: 500_000 });
    const entry: fc.Arbitrary<LedgerEntry> = fc.oneof(
      fc
        .tuple(fc.uuid(), minor, fc.boolean())
        .map(([id, m, isVoid]) => invoice(id, 1, m, isVoid ? { voidedAt: '2026-03-03T00:00:00Z' } : {})),
      fc.tuple(fc.uuid(), minor).map(([id, m]) => payment(id, m)),
      fc.tuple(fc.uuid(), minor).map(([id, m]) => refund(id, m)),
      fc.tuple(fc.uuid(), fc.constantFrom('credit' as const, 'write-off' as const), minor).map(([id, kind, m]) => credit(id, kind, m)),
    );
    fc.assert(
      fc.property(fc.array(entry, { maxLength: 30 }), (entries) => {
        const a = accountOf(entries, TODAY);
        expect(a.invoicedMinor).toBe(
          a.receivedMinor - a.refundedMinor + a.creditedMinor + a.writtenOffMinor + a.openMinor - a.onAccountMinor,
        );
        // With its write-offs a customer never has more than without them.
        const without = accountOf(
          entries.filter(({ kind }) => kind !== 'write-off'),
          TODAY,
        );
        expect(a.onAccountMinor).toBeLessThanOrEqual(without.onAccountMinor);
        for (const { openMinor, invoice: of } of a.invoices) expect(openMinor).toBeLessThanOrEqual(of.totalMinor);
      }),
    );
  });
});

const agreed = (netMinor: number, rate: number): Agreed => {
  const taxMinor = Math.round(netMinor * rate);
  return { netMinor, totalMinor: netMinor + taxMinor, taxes: [{ taxId: 't', name: 'Sales tax', rate, baseMinor: netMinor, taxMinor }] };
};
const ALL_DONE = { accepted: true, poured: true, handedOver: true, thirtyDaysPast: true };

describe('the invoices of a contract', () => {
  it('add up to it to the cent in every tax, over random orders, stages, voids and the order they are issued in', () => {
    const order = fc.integer({ min: -40_000, max: 90_000 });
    fc.assert(
      fc.property(
        fc.integer({ min: 100_000, max: 2_000_000 }),
        fc.constantFrom(0, 0.0625, 0.08875),
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 4 }),
        fc.array(order, { maxLength: 4 }),
        fc.integer({ min: 0, max: 3 }),
        fc.integer({ min: 1, max: 90_000 }),
        (net, rate, weights, orders, voided, addition) => {
          const whole = weights.reduce((a, b) => a + b, 0);
          const base = agreed(net, rate);
          const asked = weights.map((w, i) => ({ name: `Stage ${i}`, share: w / whole, due: 'after-pour' as const }));
          const { stages } = payments(base.totalMinor, asked, { depositShare: 0.3 });
          const entries: LedgerEntry[] = [];
          const all = [...orders, addition];
          const invoices = () => entries.filter((e): e is Invoice => e.kind === 'invoice');
          const issueAll = (count: number) => {
            for (let i = 0; i < 8; i += 1) {
              const contract = contractOf(
                { ...base, currency: 'USD', stages },
                all.slice(0, count).map((m) => agreed(m, rate)),
              );
              const [draft] = invoicesToIssue(contract, entries, ALL_DONE);
              if (draft === undefined) return contract;
              const number = nextInvoiceNumber(invoices(), 2026);
              const { isReady: _, due: __, ...billing } = draft;
              entries.push({ ...invoice(`i${entries.length}`, number.serial, draft.totalMinor), ...billing, ...number });
              if (entries.length === voided) entries[0] = { ...(entries[0] as Invoice), voidedAt: '2026-03-03T00:00:00Z' };
            }
            throw new Error('no end of invoices');
          };
          issueAll(0);
          const contract = issueAll(orders.length);
          const live = () => invoices().filter((e) => e.voidedAt === null);
          const billed = live().reduce((sum, e) => sum + e.totalMinor, 0);
          // A contract reduced below what was billed requires a credit; nothing more is invoiced.
          expect(billed).toBe(Math.max(billed, contract.totalMinor));
          if (billed === contract.totalMinor)
            expect(
              live()
                .flatMap((e) => e.taxes)
                .reduce((sum, t) => sum + t.taxMinor, 0),
            ).toBe(contract.totalMinor - contract.netMinor);
          expect(invoices().map((e) => e.serial)).toEqual(invoices().map((_, i) => i + 1));
          // Once the credit is on record, an addition is billed in full, and every rate adds up to the contract less the credit.
          const invoicedTax = () => live().reduce((sum, e) => sum + e.totalMinor - e.netMinor, 0);
          const parts = billed > contract.totalMinor ? [0.4, 1] : [];
          // A part of the credit first, then the rest, each with the taxes that the screen records.
          for (const part of parts) {
            const amountMinor = Math.ceil(part * overInvoicedMinor(contract, accountOf(entries, TODAY)));
            if (amountMinor > 0)
              entries.push(orderCredit(`c${part}`, amountMinor, { taxes: orderCreditTaxes(contract, entries, amountMinor) }));
          }
          const creditedTax = entries.flatMap((e) => (e.kind === 'credit' ? e.taxes : [])).reduce((sum, tax) => sum + tax.taxMinor, 0);
          expect(creditedTax).toBe(parts.length === 0 ? 0 : invoicedTax() - (contract.totalMinor - contract.netMinor));
          const last = issueAll(all.length);
          const account = accountOf(entries, TODAY);
          expect(billedMinor(account)).toBe(last.totalMinor);
          expect(stillToPayMinor(last, account)).toBe(last.totalMinor);
          expect(invoicedTax() - creditedTax).toBe(last.totalMinor - last.netMinor);
        },
      ),
    );
  });

  it('bill each payment once where two have one name', () => {
    const asked = [
      { name: 'Payment', share: 0.4, due: 'on-acceptance' as const },
      { name: 'Payment', share: 0.6, due: 'on-handover' as const },
    ];
    const { stages } = payments(100_000, asked, { depositShare: 0 });
    const contract = contractOf({ ...agreed(100_000, 0), currency: 'USD', stages }, []);
    const started = { accepted: true, poured: false, handedOver: false, thirtyDaysPast: false };
    const first = invoice('a', 1, 40_000, { stageName: 'Payment' });
    const [all, left] = [invoicesToIssue(contract, [], started), invoicesToIssue(contract, [first], started)];
    // 40% and 60% of 1,000.00, by hand.
    expect(left).toMatchObject([{ stageName: 'Payment', purpose: 'final', totalMinor: 60_000, due: 'on-handover', isReady: false }]);
    expect(all.map(({ key }) => key)).toEqual(['Payment', ...left.map(({ key }) => key)]);
    const second = invoice('b', 2, 60_000, { stageName: 'Payment' });
    expect(invoicesToIssue(contract, [second, first], ALL_DONE)).toEqual([]);
    // Each key finds the invoice that billed it, whatever the order of the records.
    expect(all.map(({ key }) => invoiceOf([second, first], key)?.id)).toEqual(['a', 'b']);
    expect(invoiceOf([first], left[0]?.key ?? '')).toBeUndefined();
  });

  it('bill a voided payment again and no other, where two have one name', () => {
    const asked = [
      { name: 'Payment', share: 0.4, due: 'on-acceptance' as const },
      { name: 'Payment', share: 0.6, due: 'on-handover' as const },
    ];
    const base = { ...agreed(100_000, 0), currency: 'USD', stages: payments(100_000, asked, { depositShare: 0 }).stages };
    const contract = contractOf(base, [agreed(5_000, 0)]);
    const keys = invoicesToIssue(contract, [], ALL_DONE).map(({ key }) => key);
    const [first, second] = [40_000, 65_000].map((minor, i) => invoice(`i${i}`, i + 1, minor, { stageName: 'Payment', key: keys[i] }));
    if (first === undefined || second === undefined) throw new Error('two invoices');
    const voided = { ...first, voidedAt: '2026-03-03T00:00:00Z' };
    expect(invoicesToIssue(contract, [voided, second], ALL_DONE)).toMatchObject([{ key: keys[0], totalMinor: 40_000, purpose: 'deposit' }]);
    expect([invoiceOf([voided, second], keys[0] ?? ''), invoiceOf([voided, second], keys[1] ?? '')?.id]).toEqual([undefined, second.id]);
    // Two invoices for change orders, the first of them voided: what is left is billed under a key that none has.
    const more = contractOf(base, [agreed(12_000, 0)]);
    const orders = [3_000, 4_000].map((minor, i) => invoice(`o${i}`, i + 3, minor, { key: `change-orders${i === 0 ? '' : '/2'}` }));
    const standing = [first, second, ...orders.map((one, i) => (i === 0 ? { ...one, voidedAt: '2026-03-03T00:00:00Z' } : one))];
    const [draft] = invoicesToIssue(more, standing, ALL_DONE);
    expect(draft).toMatchObject({ purpose: 'change-order', totalMinor: 3_000 });
    expect(invoiceOf(standing, draft?.key ?? '')).toBeUndefined();
  });

  it('give back the tax of a rate that is no longer in the contract', () => {
    // 1,000.00 at 8%, of which half is invoiced with 40.00 of tax; accepted again at 9%. By hand.
    const stages = payments(108_000, [], { depositShare: 0.5 }).stages;
    const tax = { taxId: 't', name: 'Sales tax', rate: 0.08, baseMinor: 100_000, taxMinor: 8_000 };
    const again = { netMinor: 100_000, taxes: [{ ...tax, rate: 0.09, taxMinor: 9_000 }], totalMinor: 109_000 };
    const half = { ...tax, baseMinor: 50_000, taxMinor: 4_000 };
    const entries = [invoice('a', 1, 54_000, { stageName: 'Deposit', netMinor: 50_000, taxes: [half] })];
    const [draft, ...others] = invoicesToIssue(contractOf({ ...again, currency: 'USD', stages }, []), entries, ALL_DONE);
    expect(others).toEqual([]);
    // Together 1,000.00 and 90.00 of tax.
    expect(draft).toMatchObject({
      ...{ totalMinor: 55_000, netMinor: 50_000 },
      taxes: [
        { rate: 0.09, baseMinor: 100_000, taxMinor: 9_000 },
        { rate: 0.08, baseMinor: -50_000, taxMinor: -4_000 },
      ],
    });
  });

  it('lower the tax by that of a credit, rate by rate', () => {
    const tax = (taxId: string, rate: number, baseMinor: number) => ({
      ...{ taxId, name: taxId, rate, baseMinor },
      taxMinor: Math.round(baseMinor * rate),
    });
    const priced = (state: number, city: number): Agreed => {
      const taxes = [tax('state', 0.06, state), tax('city', 0.02, city)];
      const netMinor = state;
      return { netMinor, taxes, totalMinor: netMinor + taxes.reduce((sum, { taxMinor }) => sum + taxMinor, 0) };
    };
    const base = priced(1_000_000, 1_000_000);
    const contract = contractOf({ ...base, currency: 'USD', stages: [] }, [priced(-50_000, -50_000), priced(80_000, 80_000)]);
    const entries = [
      invoice('a', 1, base.totalMinor, { netMinor: base.netMinor, taxes: [...base.taxes] }),
      // 500.00 with 6% and 2% of it: 30.00 and 10.00. By hand.
      orderCredit('c', 54_000, { taxes: [tax('state', 0.06, 50_000), tax('city', 0.02, 50_000)] }),
    ];
    const [draft] = invoicesToIssue(contract, entries, ALL_DONE);
    // The addition of 800.00 alone, with 6% and 2% of it. By hand.
    expect(draft).toMatchObject({
      ...{ totalMinor: 86_400, netMinor: 80_000 },
      taxes: [
        { taxId: 'state', baseMinor: 80_000, taxMinor: 4_800 },
        { taxId: 'city', baseMinor: 80_000, taxMinor: 1_600 },
      ],
    });
  });

  it('never give a number twice, though the invoice that has it cannot be read', () => {
    const next = (...rows: readonly object[]) => nextInvoiceNumber([invoice('a', 2, 1_000), ...rows.map((row) => ({ ...row }))], 2026);
    expect(next().number).toBe('INV-2026-003');
    expect(next({ number: 'INV-2026-007' }, { number: 'INV-2025-031', serial: 31 }).number).toBe('INV-2026-008');
    expect(next({ number: null, serial: 5 }, { number: 'INV-2026-?', serial: 'x' })).toEqual({ serial: 6, number: 'INV-2026-006' });
  });

  it('wait for the event their payment waits for', () => {
    const base = agreed(100_000, 0);
    const { stages } = payments(
      base.totalMinor,
      [
        { name: 'Deposit', share: 0.3, due: 'on-acceptance' },
        { name: 'After the pour', share: 0.4, due: 'after-pour' },
        { name: 'Balance due', share: 0.3, due: 'on-handover' },
      ],
      { depositShare: 0.3 },
    );
    const contract = contractOf({ ...base, currency: 'USD', stages }, []);
    const drafts = invoicesToIssue(contract, [], { accepted: true, poured: false, handedOver: false, thirtyDaysPast: false });
    expect(drafts.map((d) => [d.purpose, d.totalMinor, d.isReady])).toEqual([
      ['deposit', 30_000, true],
      ['stage', 40_000, false],
      ['final', 30_000, false],
    ]);
  });
});
