/** The quote's first page says what, when and how much, on either paper size. Read back by pdftotext and qpdf. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { tenHalls } from '../../ten-room-quote.ts';
import { testFonts } from './working-desk.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const folder = scratchFolder('quote');
const wholes = wholeJobsOf(sampleAt(NOW)).filter((whole) => ['26-031', '26-028', '26-024', '26-022'].includes(whole.job.number));
const ten = tenHalls(NOW);
const cases = [
  ...wholes.flatMap((whole) =>
    (['letter', 'a4'] as const).flatMap((paper) =>
      [null, '2026-05-27T13:40:00.000Z'].map((pourAt) => ({ number: whole.job.number, whole, paper, pourAt })),
    ),
  ),
  // The longest text on the smaller page.
  { number: 'a quote of ten rooms', whole: ten, paper: 'letter' as const, pourAt: '2026-05-27T13:40:00.000Z' },
];

async function paperOf(whole: WholeJob, paper: 'letter' | 'a4', pourAt: string | null) {
  const job = { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, pourAt })) };
  const paid = { ...whole, job, quotes: [], business: { ...whole.business, paper } };
  const issued = issueQuoteWithDocument(readJob(paid, NOW), { id: 'quote-one', instant: NOW, by: 'Owner', note: '' });
  if (!issued.ok) throw new Error(issued.message);
  const { quote, tree } = issued.value;
  const { pdf } = await inkDocument(tree, testFonts());
  const path = join(folder, `${whole.job.number}-${paper}-${pourAt === null ? 'open' : 'dated'}.pdf`);
  writeFileSync(path, pdf);
  return { quote, path };
}

describe('the first page of a quote', () => {
  it.each(cases)('of $number on $paper says what, how much, when and how flat (pour: $pourAt)', async ({ whole, paper, pourAt }) => {
    const { quote, path } = await paperOf(whole, paper, pourAt);
    // A form feed ends each page.
    const all = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
    const [first = '', ...others] = all.split('\f');
    expect(first).toContain('Our findings');
    expect(first).toContain(formatMoney(quote.totalMinor, quote.currency, 'en-US'));
    expect(first).toContain(pourAt === null ? 'We agree on the pour date' : 'May 27');
    const payments = quote.priced.options.length > 1 ? 'Deposit, when you accept' : 'Payments';
    for (const part of [payments, 'Flatness', 'We promise no gap larger']) expect(first).toContain(part);
    expect(all.replace(/\s+/g, ' ')).toContain(`I accept pages 1 to ${others.length} of quote`);
    expect(execFileSync('qpdf', ['--check', path], { encoding: 'utf8' })).toContain('No syntax or stream encoding errors');
  });

  it('keeps three payments with long names beside a long customer, a long company and a discount', async () => {
    const whole = wholes.find(({ job }) => job.number === '26-024') ?? expect.fail('no job 26-024');
    const stages = [
      { name: 'Deposit on signing, to reserve the crew and order material', share: 0.3, due: 'on-acceptance' as const },
      { name: 'Progress payment before the first pour, once the prep is done', share: 0.4, due: 'before-pour' as const },
      { name: 'Final payment after the moisture test and the walk-through', share: 0.3, due: 'on-handover' as const },
    ];
    const estimate = { ...whole.job.estimate, stages, discountMinor: 25_000, discountNote: 'two floors poured on the same day' };
    const long = {
      ...whole,
      job: { ...whole.job, estimate },
      customer: { ...whole.customer, name: 'The Harold and Margaret Lindqvist Revocable Living Trust' },
      business: { ...whole.business, name: 'Blackstone Valley Self-Leveling Floors and Underlayment Company' },
    };
    const { path } = await paperOf(long, 'letter', null);
    const first = execFileSync('pdftotext', ['-l', '1', path, '-'], { encoding: 'utf8' }).replace(/\s+/g, ' ');
    for (const part of ['reserve the crew and order material', 'once the prep is done', 'the walk-through', 'We promise no gap larger'])
      expect(first).toContain(part);
  });
});
