/** Invoices, receipts, statements and overdue notices, their amounts added by hand. */
import { describe, expect, it } from 'vitest';
import type { Invoice, LedgerEntry } from '../../../shared-core/book/ledger.ts';
import type { Property } from '../../../shared-core/book/property.ts';
import {
  daysWords,
  invoicePaper,
  type MoneyPaperOf,
  overduePaper,
  receiptPaper,
  statementPaper,
} from '../../../shared-core/documents/money-papers.ts';
import { jobInvoice, jobReceipt } from '../../../shared-core/documents/job-money-papers.ts';
import { paymentMessage } from '../../../shared-core/documents/payment-message.ts';
import { answerQuote } from '../../../shared-core/price/quote-state.ts';
import type { Quote } from '../../../shared-core/book/quote.ts';
import { acceptedQuote } from '../../../shared-core/price/change-order.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { accountOf, type InvoiceBalance } from '../../../shared-core/ledger/account.ts';
import { sampleAt } from '../../sample-at.ts';
import { credit, invoice, orderCredit, payment, refund } from '../ledger/entries.ts';
import { flat, rowsOf, textOf } from './tree-text.ts';

const NOW = '2026-03-30T16:00:00.000Z';
const TODAY = '2026-03-30';
const book = sampleAt(NOW);
const [settings, person, place, job] = [book.business[0], book.customers[0], book.properties[0], book.jobs[0]];
if (settings === undefined || person === undefined || place === undefined || job === undefined) throw new Error('The sample has a job.');
const site: Property = { ...place, address: { ...place.address, line: '8 Mill Road', city: 'Albany', region: 'NY', zip: '12207' } };
const source: MoneyPaperOf = {
  business: {
    ...settings,
    locale: 'en-US',
    currency: 'USD',
    phone: '212 555 0142',
    email: '',
    contract: { ...settings.contract, paymentMethods: 'Check', paymentCode: '' },
  },
  customer: { ...person, name: 'Dale Tremaine', address: null },
  property: site,
  job,
  now: NOW,
  today: TODAY,
};
const TAX = { taxId: 'state', name: 'Sales tax', rate: 0.08875, baseMinor: 100_000, taxMinor: 8_875 };
const amounts = (tree: ReturnType<typeof invoicePaper>, caption: string) =>
  rowsOf(tree, caption).map((row) => [row['Description'], row['Amount']]);

describe('an invoice', () => {
  const billed = invoice('a', 1, 108_875, {
    netMinor: 100_000,
    taxes: [TAX, { ...TAX, taxId: 'none', name: 'City tax', taxMinor: 0 }],
    retainageMinor: 10_000,
    dueOn: '2026-04-15',
  });
  const contract = { totalMinor: 500_000, invoicedMinor: 108_875 };

  it('adds up from its net amount through tax and retainage to what is due', () => {
    expect(amounts(invoicePaper(source, billed, contract), 'Amounts').slice(1)).toEqual([
      ['Subtotal', '$1,000.00'],
      ['Sales tax, 8.875% of $1,000.00', '$88.75'],
      ['Total', '$1,088.75'],
      ['Retainage, due when the work is accepted', '-$100.00'],
      ['Due by April 15, 2026', '$988.75'],
    ]);
    // A local rate of four decimals is printed whole: 8.1875% of 1,000.00 is 81.88.
    const local = { ...billed, taxes: [{ ...TAX, rate: 0.081875, taxMinor: 8_188 }] };
    expect(amounts(invoicePaper(source, local, contract), 'Amounts')[2]).toEqual(['Sales tax, 8.1875% of $1,000.00', '$81.88']);
    expect(textOf(invoicePaper(source, billed, contract))).toContain('Still to be invoiced: $3,911.25.');
    // 5,000.00 less 1,088.75, and the 100.00 that were credited are to be invoiced again. By hand.
    const credited = textOf(invoicePaper(source, billed, { ...contract, orderCreditsMinor: 10_000 }));
    expect(credited).toContain('Credited for change orders: $100.00. Still to be invoiced: $4,011.25.');
    // A deduction after the last invoice leaves nothing to invoice.
    expect(textOf(invoicePaper(source, billed, { ...contract, totalMinor: 100_000 }))).toContain('Still to be invoiced: $0.00.');
    // Change orders are named only where one was signed.
    expect(textOf(invoicePaper(source, billed, contract))).toContain('Contract total: ');
    expect(textOf(invoicePaper(source, billed, { ...contract, isChanged: true }))).toContain('Contract total with signed change orders: ');
    expect(amounts(invoicePaper(source, { ...billed, retainageMinor: 0 }, contract), 'Amounts').at(-1)).toEqual([
      'Due by April 15, 2026',
      '$1,088.75',
    ]);
  });

  it('goes to the billing address, or the site where there is none', () => {
    const text = textOf(invoicePaper(source, billed, contract)).split('\n');
    const from = text.indexOf('Bill to');
    expect(text.slice(from + 1, from + 4)).toEqual(['Dale Tremaine', '8 Mill Road', 'Albany, NY 12207']);
    expect(text).toContain('Work at: 8 Mill Road, Albany');
    const address = { ...site.address, line: 'PO Box 9', city: 'Troy', zip: '12180' };
    const billing = textOf(invoicePaper({ ...source, customer: { ...source.customer, address } }, billed, contract)).split('\n');
    expect(billing.slice(from + 1, from + 4)).toEqual(['Dale Tremaine', 'PO Box 9', 'Troy, NY 12180']);
    expect(billing).toContain('Work at: 8 Mill Road, Albany');
  });

  it('says how to pay, with a code only where one is entered', () => {
    const text = textOf(invoicePaper(source, billed, contract));
    expect(text).toContain('How to pay: Check');
    expect(text).toContain('Questions? Call 212 555 0142.');
    const contractOf = (paymentCode: string, paymentMethods: string) => ({
      ...source,
      business: { ...source.business, phone: '', contract: { ...source.business.contract, paymentCode, paymentMethods } },
    });
    const coded = invoicePaper(contractOf(' https://pay.example/26 ', ''), billed, contract);
    expect(textOf(coded)).toContain('Scan to pay: https://pay.example/26\n');
    expect(textOf(coded)).not.toMatch(/How to pay|Questions/);
    expect(flat(coded.blocks).filter((block) => block.kind === 'drawing')).toHaveLength(1);
    expect(flat(invoicePaper(source, billed, contract).blocks).filter((block) => block.kind === 'drawing')).toHaveLength(0);
  });

  it('is marked void, asks for nothing, and carries its note', () => {
    const voided = invoicePaper(source, { ...billed, voidedAt: NOW, note: 'Thank you.' }, contract);
    expect([voided.watermark, voided.title.endsWith(' void')]).toEqual(['Void', true]);
    expect(textOf(voided)).toContain('Thank you.');
  });

  it('asks for nothing once it is void: no due day, no amount due, no way to pay', () => {
    const { contract: terms } = source.business;
    const business = { ...source.business, contract: { ...terms, paymentCode: 'https://pay.example/albany' } };
    const asks = /Due|due when|How to pay|Scan to pay|Invoiced to date|988\.75/;
    const at = (voidedAt: string | null) => invoicePaper({ ...source, business }, { ...billed, voidedAt }, contract);
    const [open, voided] = [at(null), at(NOW)];
    expect(textOf(open)).toMatch(asks);
    expect(textOf(voided)).not.toMatch(asks);
    expect(textOf(voided)).toContain('This invoice is void. Do not pay it.');
    const drawings = (tree: typeof open) => flat(tree.blocks).filter(({ kind }) => kind === 'drawing').length;
    expect([drawings(open), drawings(voided)]).toEqual([1, 0]);
    expect(invoicePaper(source, billed, contract)).not.toHaveProperty('watermark');
  });
});

it('states the contract as it stood when the invoice was issued, however late its PDF is saved', () => {
  const whole = wholeJobsOf(book).find(({ quotes }) => acceptedQuote(quotes)?.orders.some(({ state }) => state === 'signed'));
  const accepted = acceptedQuote(whole?.quotes ?? []);
  const order = accepted?.orders.find(({ state }) => state === 'signed');
  if (whole === undefined || accepted === null || order === undefined) throw new Error('The sample has a signed change order.');
  // A contract of $6,080.35, all of it invoiced on May 1 and 10; then an order of -$999.01, with its credit, on May 12.
  const options = accepted.priced.options.map((option) => ({ ...option, totalMinor: 608_035 }));
  const deducted = { ...order, totalMinor: -99_901, decidedAt: '2026-05-12T14:00:00.000Z' };
  const of = { jobId: whole.job.id };
  const first = invoice('a', 1, 182_411, { ...of, createdAt: '2026-05-01T14:00:00.000Z' });
  const final = invoice('b', 2, 425_624, { ...of, createdAt: '2026-05-10T14:00:00.000Z' });
  const given = orderCredit('c', 99_901, { ...of, createdAt: '2026-05-12T14:05:00.000Z' });
  const quotes = [{ ...accepted, priced: { ...accepted.priced, options }, orders: [deducted] }];
  const textAt = (created: string): string => {
    const issued = { ...final, createdAt: created };
    return textOf(jobInvoice({ ...whole, quotes, ledger: [first, issued, given] }, issued, '2026-05-20T14:00:00.000Z'));
  };
  expect(textAt(final.createdAt)).toContain(
    'Contract total: $6,080.35. Invoiced to date, this invoice included: $6,080.35. Still to be invoiced: $0.00.',
  );
  // Issued after the order it states the rest: 6,080.35 less 999.01. By hand.
  expect(textAt('2026-05-13T14:00:00.000Z')).toContain('Contract total with signed change orders: $5,081.34.');
});

it('states no contract total once the contract is canceled, nor that of a later one', () => {
  const whole = wholeJobsOf(sampleAt(NOW)).find(({ quotes }) => acceptedQuote(quotes) !== null);
  const accepted = acceptedQuote(whole?.quotes ?? []);
  if (whole === undefined || accepted === null) throw new Error('The sample has an accepted quote.');
  const first = invoice('a', 1, 10_000, { jobId: whole.job.id, createdAt: accepted.issuedAt });
  const answer = { state: 'declined' as const, instant: NOW, by: 'Dale Tremaine', note: 'Canceled in time', optionId: null };
  const canceled = answerQuote(accepted, answer);
  if (!canceled.ok) throw new Error(canceled.message);
  const text = (...quotes: Quote[]) => textOf(jobInvoice({ ...whole, quotes, ledger: [first] }, first, NOW));
  expect(text(accepted)).toContain('Still to be invoiced: ');
  const total = /Contract total|Invoiced to date|Still to be invoiced/;
  expect(text(canceled.value)).not.toMatch(total);
  const later = { ...accepted, id: 'quote-later', revision: accepted.revision + 1, issuedAt: NOW };
  expect(first.createdAt < NOW).toBe(true);
  expect(text(canceled.value, later)).not.toMatch(total);
});

it('states what was invoiced to date in the order of issue, across the serials of two years', () => {
  const whole = wholeJobsOf(book).find((one) => acceptedQuote(one.quotes) !== null);
  if (whole === undefined) throw new Error('The sample has a contract.');
  const of = (id: string, serial: number, totalMinor: number, createdAt: string) =>
    invoice(id, serial, totalMinor, { jobId: whole.job.id, createdAt, onDay: createdAt.slice(0, 10), dueOn: '2027-02-01' });
  const late = of('old', 41, 30_000, '2026-12-20T15:00:00.000Z');
  const fresh = of('new', 1, 20_000, '2027-01-05T15:00:00.000Z');
  const text = (of: Invoice) => textOf(jobInvoice({ ...whole, ledger: [fresh, late] }, of, '2027-01-05T16:00:00.000Z'));
  // 300.00 in December and 200.00 in January, added by hand.
  expect(text(fresh)).toContain('Invoiced to date, this invoice included: $500.00.');
  expect(text(late)).toContain('Invoiced to date, this invoice included: $300.00.');
  // The first one was voided since: what is printed of the second stays as it was issued.
  const voided = { ...late, voidedAt: '2027-01-06T15:00:00.000Z' };
  const again = textOf(jobInvoice({ ...whole, ledger: [fresh, voided] }, fresh, '2027-01-07T16:00:00.000Z'));
  expect(again).toContain('Invoiced to date, this invoice included: $500.00.');
  // A late charge is no part of the contract, and its own paper says nothing of it.
  const charge = { ...of('charge', 2, 450, '2027-02-05T15:00:00.000Z'), lateFor: 'old', title: 'Late charge on invoice INV-2026-041' };
  const charged = textOf(jobInvoice({ ...whole, ledger: [fresh, late, charge] }, charge, '2027-02-05T16:00:00.000Z'));
  expect(charged).toContain('Late charge on invoice INV-2026-041');
  expect(charged).not.toMatch(/Contract total|Work performed/);
  // Both are due on one day: a payment goes to the one issued first.
  expect(accountOf([fresh, late, payment('p', 30_000)], '2027-01-06').invoices.map((b) => [b.invoice.id, b.openMinor])).toEqual([
    ['old', 0],
    ['new', 20_000],
  ]);
});

it('takes the credit balance off what it asks for, as it was at its issue', () => {
  const whole = wholeJobsOf(book).find((one) => acceptedQuote(one.quotes) !== null);
  if (whole === undefined) throw new Error('The sample has a contract.');
  const at = (day: string) => ({ jobId: whole.job.id, createdAt: `${day}T15:00:00.000Z`, onDay: day });
  const issued = invoice('b', 2, 115_798, { ...at('2026-03-20'), dueOn: '2026-04-16' });
  const wrong = invoice('a', 1, 50_000, { ...at('2026-03-02'), dueOn: '2026-03-16' });
  const early = { ...payment('p', 20_000), ...at('2026-03-10') };
  const asked = (of: Invoice, ...ledger: LedgerEntry[]) => {
    const paper = jobInvoice({ ...whole, ledger: [...ledger, of] }, of, '2026-03-30T16:00:00.000Z');
    return { rows: amounts(paper, 'Amounts').slice(2), text: textOf(paper) };
  };
  // By hand: 1,157.98 less the 200.00 that was received before.
  const reduced = [
    ['Total', '$1,157.98'],
    ['Your credit balance, applied to this invoice', '-$200.00'],
    ['Due by April 16, 2026', '$957.98'],
  ];
  expect(asked(issued, early).rows).toEqual(reduced);
  const [open] = accountOf([early, issued], TODAY).invoices;
  expect(open?.dueMinor).toBe(95_798);
  expect(paymentMessage(whole, open as InvoiceBalance).body).toContain('$957.98 is still open');
  // It stays as issued: whatever is paid or voided since.
  const late = { ...payment('q', 30_000), ...at('2026-03-25') };
  expect(asked(issued, { ...early, voidedAt: '2026-03-26T15:00:00.000Z' }, late).rows).toEqual(reduced);
  expect(asked(issued, { ...early, voidedAt: '2026-03-12T15:00:00.000Z' }, late).rows.at(-1)).toEqual([
    'Due by April 16, 2026',
    '$1,157.98',
  ]);
  // What an invoice before it was paid with is no credit balance, whichever is due first.
  expect(asked({ ...issued, dueOn: '2026-03-20' }, { ...wrong, totalMinor: 20_000 }, early).rows.at(-1)?.[1]).toBe('$1,157.98');
  // The payment of an invoice that was voided pays the next one in full: nothing is asked for.
  const paid = { ...payment('p', 150_000, 'a'), ...at('2026-03-10') };
  const settled = asked(issued, { ...wrong, totalMinor: 150_000, voidedAt: '2026-03-18T15:00:00.000Z' }, paid);
  expect(settled.rows.slice(1)).toEqual([
    ['Your credit balance, applied to this invoice', '-$1,157.98'],
    ['Due now', '$0.00'],
  ]);
  expect(settled.text).not.toMatch(/Due date|How to pay/);
  // Retainage that is held is paid last: 1,500.00 covers the 1,057.98 that is due, and the rest stays a credit balance.
  const withheld = asked({ ...issued, retainageMinor: 10_000 }, { ...paid, invoiceId: null });
  expect(withheld.rows.slice(1).map(([, amount]) => amount)).toEqual(['-$100.00', '-$1,057.98', '$0.00']);
});

describe('what was paid', () => {
  const entries = [
    invoice('a', 1, 100_000, { onDay: '2026-03-02', dueOn: '2026-03-16' }),
    { ...payment('p', 60_000, 'a'), onDay: '2026-03-10', reference: '1041' },
    { ...refund('f', 5_000), onDay: '2026-03-12' },
    { ...credit('c', 'credit', 2_000), onDay: '2026-03-20' },
  ];
  const account = accountOf(entries, TODAY);

  it('is on the receipt, less refunds, with what is open', () => {
    const paid = entries[1];
    if (paid?.kind !== 'payment') throw new Error('a payment');
    const receipt = receiptPaper(source, paid, account, 2);
    expect(amounts(receipt, 'Payment')).toEqual([
      ['Received, with thanks', '$600.00'],
      ['Received to date', '$550.00'],
      ['Balance due on invoices', '$430.00'],
    ]);
    expect(textOf(receipt)).toContain('Received from\nDale Tremaine\n');
    expect(textOf(receipt)).not.toContain('Bill to');
    expect(receipt.title).toBe(`Receipt ${job.number}-2`);
    const text = textOf(receipt);
    expect(text).toContain('Paid by: Check 1041');
    expect(text).toMatch(/For: Invoice \S+/);
    expect(textOf(receiptPaper(source, { ...paid, invoiceId: null, reference: '' }, account, 2))).toMatch(
      new RegExp(`Paid by: Check\\n[^]*For: Job ${job.number}`),
    );
  });

  // 1,000.00 with 100.00 held, of which 900.00 is paid: 900 + 100 = 1,000, so that nothing is due. Arithmetic of this page.
  it('is on a receipt printed late as it was that day, without payments that turned out to be none', () => {
    const whole = wholeJobsOf(book).find((one) => acceptedQuote(one.quotes) !== null);
    const [billed, paid] = entries;
    if (whole === undefined || billed?.kind !== 'invoice' || paid?.kind !== 'payment') throw new Error('The sample has a contract.');
    const since = { voidedAt: '2026-03-20T16:00:00.000Z' };
    const ledger = [{ ...billed, ...since }, paid, { ...payment('again', 60_000, 'a'), ...since }];
    const late = jobReceipt({ ...whole, documents: [], ledger }, paid, NOW);
    // 1,000.00 less 600.00, by hand.
    expect(amounts(late, 'Payment').map(([, amount]) => amount)).toEqual(['$600.00', '$600.00', '$400.00']);
  });

  it('is on the receipt beside the retainage that is held, which is not due', () => {
    const paid = payment('p', 90_000, 'a');
    const held = accountOf([invoice('a', 1, 100_000, { retainageMinor: 10_000 }), paid], TODAY);
    const rows = [
      ['Retainage, due when the work is accepted', '$100.00'],
      ['Balance due on invoices', '$0.00'],
    ];
    expect(amounts(receiptPaper(source, paid, held, 1), 'Payment').slice(2)).toEqual(rows);
    expect(amounts(statementPaper(source, [], held), 'Balance')).toEqual([rows[0], ['Balance due', '$0.00']]);
  });

  it('beyond what was invoiced is a credit balance on the receipt', () => {
    // 1,070.00 invoiced and 1,200.00 received. By hand.
    const paid = payment('p', 120_000);
    const over = accountOf([invoice('a', 1, 107_000), paid], TODAY);
    expect(amounts(receiptPaper(source, paid, over, 1), 'Payment').slice(-2)).toEqual([
      ['Balance due on invoices', '$0.00'],
      ['Credit balance', '$130.00'],
    ]);
  });

  it('takes an adjustment back on the statement, which never adjusts more than was open', () => {
    // 500.00 of 1,000.00 is paid; 600.00 is written off, of which 500.00 was open; then 500.00 is paid after all. By hand.
    const later = { ...payment('q', 50_000), onDay: '2026-03-25' };
    const adjusted = [invoice('a', 1, 100_000), payment('p', 50_000), credit('w', 'write-off', 60_000), later];
    const statement = statementPaper(source, adjusted, accountOf(adjusted, TODAY));
    expect(rowsOf(statement, 'Account').map((row) => [row['Description']?.split(/[:,]/)[0], row['Amount'], row['Balance']])).toEqual([
      [expect.stringMatching(/^Invoice /), '$1,000.00', '$1,000.00'],
      ['Payment received', '-$500.00', '$500.00'],
      ['Adjustment', '-$500.00', '$0.00'],
      ['Payment received', '-$500.00', '-$500.00'],
      ['Adjustment taken back', '$500.00', '$0.00'],
    ]);
    expect(amounts(statement, 'Balance')).toEqual([['Balance due', '$0.00']]);
  });

  it('is on the statement in order, with the balance after each line', () => {
    const later = { ...payment('q', 1_000), onDay: '2026-04-02' };
    const voided = { ...payment('v', 9_000), voidedAt: NOW, voidReason: 'Twice' };
    const statement = statementPaper(source, [later, voided, ...entries.toReversed()], account);
    expect(rowsOf(statement, 'Account').map((row) => [row['Date'], row['Amount'], row['Balance']])).toEqual([
      ['March 2, 2026', '$1,000.00', '$1,000.00'],
      ['March 10, 2026', '-$600.00', '$400.00'],
      ['March 12, 2026', '$50.00', '$450.00'],
      ['March 20, 2026', '-$20.00', '$430.00'],
    ]);
    expect(rowsOf(statement, 'Account').map((row) => row['Description']?.split(/[:,]/)[0])).toEqual([
      expect.stringMatching(/^Invoice /),
      'Payment received',
      'Refund',
      'Credit',
    ]);
    expect(amounts(statement, 'Balance')).toEqual([['Balance due', '$430.00']]);
    expect(textOf(statement)).toContain('How to pay');
  });

  it('is due without the retainage held, which has a line of its own', () => {
    const held = [invoice('a', 1, 1_000_000, { retainageMinor: 100_000, dueOn: '2026-03-01' }), payment('p', 900_000)];
    const statement = statementPaper(source, held, accountOf(held, TODAY));
    expect(amounts(statement, 'Balance')).toEqual([
      ['Retainage, due when the work is accepted', '$1,000.00'],
      ['Balance due', '$0.00'],
    ]);
    expect(textOf(statement)).not.toContain('How to pay');
  });

  it('beyond what was invoiced is a credit balance, with nothing to pay', () => {
    const over = [...entries, payment('r', 50_000)];
    const statement = statementPaper(source, over, accountOf(over, TODAY));
    expect(amounts(statement, 'Balance')).toEqual([['Credit balance', '$70.00']]);
    expect(textOf(statement)).not.toContain('How to pay');
  });

  it('asks for a refund back when the payment it came from was returned', () => {
    const returned = { ...payment('p', 150_000), voidedAt: NOW, voidReason: 'Returned by the bank' };
    const refunded = [invoice('a', 1, 100_000), returned, refund('f', 50_000)];
    const statement = statementPaper(source, refunded, accountOf(refunded, TODAY));
    // By hand: 1,000.00 is invoiced, nothing is received, and 500.00 was refunded.
    expect(rowsOf(statement, 'Account').at(-1)?.['Balance']).toBe('$1,500.00');
    expect(amounts(statement, 'Balance')).toEqual([['Balance due', '$1,500.00']]);
    expect(textOf(statement)).toContain('How to pay');
  });
});

describe('an overdue notice', () => {
  const [late] = accountOf([invoice('a', 1, 50_000, { dueOn: '2026-03-16' })], TODAY).invoices;
  if (late === undefined) throw new Error('an invoice');
  it('names the days, the amount, and a late charge only where there is one', () => {
    const text = textOf(overduePaper(source, late, 0));
    expect(text).toContain('Overdue: 14 days');
    expect(text).toContain('was due on March 16, 2026. We have not received $500.00 of it.');
    expect(amounts(overduePaper(source, late, 0), 'Amount overdue').map(([, amount]) => amount)).toEqual(['$500.00', '$500.00']);
    // A charge that is not billed is not asked for, as on the statement.
    expect(amounts(overduePaper(source, late, 750), 'Amount overdue').slice(1)).toEqual([['Total due now', '$500.00']]);
    const charged = 'The contract has a late charge, $7.50 through March 30, 2026. It is not billed and not in this total.';
    expect([textOf(overduePaper(source, late, 750)).includes(charged), text.includes('late charge')]).toEqual([true, false]);
    const retained = [invoice('r', 1, 1_000_000, { retainageMinor: 100_000, dueOn: '2026-03-01' })];
    const noticed = (today: string) => {
      const [balance] = accountOf(retained, today, '2026-04-30').invoices;
      if (balance === undefined) throw new Error('an invoice');
      return { notice: overduePaper({ ...source, today }, balance, 0), message: paymentMessage(source, balance).body };
    };
    // The retainage is due on April 30, so that it is not overdue until May.
    expect(amounts(noticed('2026-04-30').notice, 'Amount overdue').map(([, amount]) => amount)).toEqual(['$9,000.00', '$9,000.00']);
    expect(noticed('2026-04-30').message).toContain('$9,000.00 is still open.');
    expect(amounts(noticed('2026-05-10').notice, 'Amount overdue').map(([, amount]) => amount)).toEqual([
      '$9,000.00',
      '$1,000.00',
      '$10,000.00',
    ]);
    expect(textOf(noticed('2026-05-10').notice)).toContain(
      'was due on March 1, 2026. We have not received $9,000.00 of it. Its retainage of $1,000.00 was due on April 30, 2026.',
    );
    expect([daysWords(1), daysWords(0)]).toEqual(['1 day', '0 days']);
  });
});
