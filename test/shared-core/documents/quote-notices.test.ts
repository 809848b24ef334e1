/** The notices the law puts in a quote. */
import { describe, expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import type { DocumentTree } from '../../../shared-core/documents/tree.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleJob } from './sample-job.ts';
import { textOf } from './tree-text.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const wholeOf = (number: string): WholeJob => sampleJob(number, NOW);
function treeOf(whole: WholeJob): DocumentTree {
  const issued = issueQuoteWithDocument(readJob(whole, NOW), { id: 'quote-one', instant: NOW, by: 'Owner', note: '' });
  if (!issued.ok) throw new Error(issued.message);
  return issued.value.tree;
}

describe('the notices of a quote', () => {
  it('adds the notice of cancellation in duplicate, with the sentences 16 CFR 429.1 asks for', () => {
    const printed = textOf(treeOf(wholeOf('26-031')));
    expect(printed.split('I HEREBY CANCEL THIS TRANSACTION.')).toHaveLength(3);
    for (const sentence of [
      'You, the buyer, may cancel this transaction at any time prior to midnight of the third business day after the date of this transaction.',
      'within THREE BUSINESS DAYS from the above date',
      'will be returned within TEN BUSINESS DAYS following receipt by the seller of your cancellation notice',
      'does not pick them up within 20 days of the date of your Notice of Cancellation',
    ])
      expect(printed).toContain(sentence);
    const whole = wholeOf('26-031');
    const nowhere = { ...whole.business.address, line: '', city: '', region: '', zip: '' };
    expect(textOf(treeOf({ ...whole, business: { ...whole.business, address: nowhere } }))).toMatch(/, at _{40}, NOT LATER THAN/);
    const contract = { ...whole.business.contract, cancellationNotice: false };
    expect(textOf(treeOf({ ...whole, business: { ...whole.business, contract } }))).not.toContain('I HEREBY CANCEL');
  });

  // 16 CFR 429.0(b), from memory: the rule is for services primarily for personal, family or household purposes.
  it('leaves the notice out of the quote for a business, or adds it, as the job says', () => {
    const whole = wholeOf('26-031');
    const printed = (isUsual: boolean, cancellationNotice: boolean | null, country = 'US', name = whole.customer.name) => {
      const contract = { ...whole.business.contract, cancellationNotice: isUsual };
      const business = { ...whole.business, contract, address: { ...whole.business.address, country } };
      const estimate = { ...whole.job.estimate, cancellationNotice };
      const all = textOf(treeOf({ ...whole, business, customer: { ...whole.customer, name }, job: { ...whole.job, estimate } }));
      return [all.includes('I HEREBY CANCEL'), all.includes('You, the buyer, may cancel')];
    };
    expect(printed(true, null)).toEqual([true, true]);
    expect(printed(true, false)).toEqual([false, false]);
    expect(printed(false, true)).toEqual([true, true]);
    expect(printed(true, true, 'CA')).toEqual([false, false]);
    expect(printed(true, null, 'US', 'Calder Row Rentals, LLC')).toEqual([false, false]);
    expect(printed(true, true, 'US', 'Calder Row Rentals, LLC')).toEqual([true, true]);
    // A home is often owned by the trust of its people.
    expect(printed(true, null, 'US', 'The Odell Family Trust')).toEqual([true, true]);
  });

  // 29 CFR 1926.1153(f)(1): no dry sweeping or brushing where it could expose someone to silica.
  it('promises no sweeping', () => {
    const printed = textOf(treeOf(wholeOf('26-031')));
    expect(printed).toContain('leave the work area vacuumed');
    expect(printed).not.toMatch(/\b(?:sweep|swept|brush)/i);
  });

  it('adds the receipt for the lead pamphlet for a home built before 1978 or of unknown age (40 CFR 745.83)', () => {
    const whole = wholeOf('26-031');
    const built = (yearBuilt: number | null) =>
      /The home at [^.]+ ((?:may have been|was) built [^.]+)\. Federal law/.exec(
        textOf(treeOf({ ...whole, property: { ...whole.property, yearBuilt } })),
      )?.[1];
    expect([1977, 1978, null].map(built)).toEqual(['was built in 1977, before 1978', undefined, 'may have been built before 1978']);
  });
});
