/** Invoices and receipts of a job that has those of two computers. */
import { afterEach, expect, it, vi } from 'vitest';
import { book } from '../../../renderer/book/database.ts';
import { addSample } from '../../../renderer/book/sample-commands.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { moneyPapers } from '../../../renderer/money/money-documents.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';
import { sampleAt } from '../../sample-at.ts';
import { invoice, payment } from '../../shared-core/ledger/entries.ts';
import { freshBook, NOW } from '../book/fresh-book.ts';
import { pageDesk } from '../page-desk.ts';

afterEach(() => vi.unstubAllGlobals());

const jobId = 'sample-job-tremaine';
const papers = async () => {
  const whole = await readWholeJob(jobId);
  if (whole === null) throw new Error('The sample has this job.');
  return moneyPapers(whole, jobMoney(whole, NOW));
};

/** The sample in an empty book, and every document inked from then on. */
const inkedOfSample = async (): Promise<string[]> => {
  const inked: string[] = [];
  pageDesk((name, input) => {
    if (name === 'document.ink') inked.push(JSON.stringify(input));
    return undefined;
  });
  await freshBook();
  await addSample(sampleAt(NOW));
  return inked;
};

it('prints each under its own entry: two invoices of one number, and receipts in the order they were given', async () => {
  const inked = await inkedOfSample();
  const [here, there] = [invoice('here', 4, 100_000, { jobId }), invoice('there', 4, 300_000, { jobId })];
  // The payment of the other computer was entered first and comes with an import later.
  const paidHere = { ...payment('paid-here', 80_000), jobId, createdAt: '2026-05-02T15:00:00.000Z' };
  const paidThere = { ...payment('paid-there', 50_000), jobId, createdAt: '2026-05-01T15:00:00.000Z' };
  await book().rowsOf('ledger').bulkPut([here, paidHere]);
  for (let time = 0; time < 2; time += 1) {
    expect(await (await papers()).invoice(here)).toMatchObject({ ok: true });
    expect(await (await papers()).receipt(paidHere)).toMatchObject({ ok: true });
  }
  await book().rowsOf('ledger').bulkPut([there, paidThere]);
  const preview = await (await papers()).treeOf(there);
  expect(JSON.stringify(preview)).toContain('$3,000.00');
  for (let time = 0; time < 2; time += 1) {
    expect(await (await papers()).invoice(there)).toMatchObject({ ok: true });
    expect(await (await papers()).receipt(paidThere)).toMatchObject({ ok: true });
    expect(await (await papers()).receipt(paidHere)).toMatchObject({ ok: true });
  }
  const amounts = ['$1,000.00', '$800.00', '$3,000.00', '$500.00'];
  const given = inked.map((tree) => amounts.find((amount) => new RegExp(`"(Total|Received, with thanks)".*?\\${amount}`).test(tree)));
  expect(given).toEqual([
    '$1,000.00',
    '$800.00',
    '$1,000.00',
    '$800.00',
    '$3,000.00',
    '$500.00',
    '$800.00',
    '$3,000.00',
    '$500.00',
    '$800.00',
  ]);
  const stored = (await book().rowsOf('documents').where('jobId').equals(jobId).toArray()).filter(({ entryId }) => entryId !== null);
  const { number } = (await book().rowsOf('jobs').get(jobId)) ?? {};
  expect(new Map(stored.map(({ entryId, title }) => [entryId, title]))).toEqual(
    new Map([
      ['here', 'Invoice INV-2026-004'],
      ['paid-here', `Receipt ${number}-1`],
      ['there', 'Invoice INV-2026-004'],
      ['paid-there', `Receipt ${number}-2`],
    ]),
  );
  expect(stored).toHaveLength(4);
  // Voided since, an invoice is printed as void.
  await book()
    .rowsOf('ledger')
    .put({ ...here, voidedAt: NOW, voidReason: 'Wrong amount' });
  expect((await (await papers()).treeOf({ ...here, voidedAt: NOW })).title).toBe('Invoice INV-2026-004 void');
});

it('names the late charge the job was sold with, whatever Settings say since', async () => {
  const inked = await inkedOfSample();
  const whole = await readWholeJob('sample-job-abara');
  if (whole === null) throw new Error('The sample has this job.');
  // Sold with 1% a month.
  const business = { ...whole.business, contract: { ...whole.business.contract, lateChargeShare: 0.05 } };
  const dueOn = '2026-05-02';
  const later = { ...whole, business, ledger: [invoice('late', 4, 100_000, { jobId: whole.job.id, dueOn })] };
  const money = jobMoney(later, NOW);
  const [late] = money.account.invoices;
  if (late === undefined) throw new Error('The invoice is overdue.');
  expect(await moneyPapers(later, money).overdue(late)).toMatchObject({ ok: true });
  // By hand: ten days of thirty, 1% of $1,000.00.
  expect(inked.map((tree) => /late charge, (\$[\d.]+) through/.exec(tree)?.[1])).toEqual(['$3.33']);
});
