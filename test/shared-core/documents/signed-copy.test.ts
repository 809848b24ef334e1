import { describe, expect, it } from 'vitest';
import type { Signature } from '../../../shared-core/book/papers.ts';
import { issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import { signedCopy } from '../../../shared-core/documents/signed-copy.ts';
import { cancelBy } from '../../../shared-core/standing/right-to-cancel.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import { type Block, documentTreeSchema, type DocumentTree } from '../../../shared-core/documents/tree.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { textOf } from './tree-text.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const { documents, quotes } = sampleAt(NOW);
const tree = readTree(documents[0]?.content ?? '');
if (tree === null) throw new Error('The sample has a stored quote.');
const PIXEL = 'data:image/png;base64,iVBORw0KGgo=';
const signature: Signature = {
  role: 'customer',
  name: 'Vivian Odell',
  instant: '2026-05-15T18:00:00.000Z',
  optionId: null,
  signedSha256: 'c'.repeat(64),
  picture: PIXEL,
  photoId: null,
};
const fieldsOf = (blocks: readonly Block[]): { label: string; value?: string | undefined; picture?: string | undefined }[] =>
  blocks.flatMap((b) =>
    b.kind === 'fields'
      ? b.fields
      : b.kind === 'columns'
        ? fieldsOf(b.columns.flat())
        : b.kind === 'together' || b.kind === 'cover'
          ? fieldsOf(b.blocks)
          : [],
  );
const quote = quotes.find(({ id }) => id === documents[0]?.quoteId);
if (quote === undefined) throw new Error('The sample has the quote of the document.');
const place = { zone: 'America/New_York', locale: 'en-US', business: tree.head.name, quote };
const signed: DocumentTree = signedCopy(tree, [signature], place);

describe('a signed copy', () => {
  it('has the signature, name and day in the customer’s fields only, and the hash of the signed PDF', () => {
    expect(documentTreeSchema.safeParse(signed).error).toBeUndefined();
    const signatures = fieldsOf(signed.blocks).filter((field) => field.picture !== undefined);
    expect(signatures.map((field) => field.label)).toEqual(['Customer, signature']);
    expect(fieldsOf(signed.blocks).some((field) => field.label === 'Printed name' && field.value === 'Vivian Odell')).toBe(true);
    expect(JSON.stringify(signed.blocks.at(-1))).toContain('c'.repeat(64));
  });
  it('dates the signature with its year', () => {
    expect(fieldsOf(signed.blocks).find(({ label, value }) => label === 'Date' && value !== undefined)?.value).toBe('May 15, 2026');
  });
  it('names the option that was chosen, once, and none where there was nothing to choose', () => {
    expect(textOf(signed)).not.toContain('Chosen:');
    const whole = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.number === '26-031');
    if (whole === undefined) throw new Error('The sample has a job with options.');
    const issued = issueQuoteWithDocument(readJob(whole, NOW), { id: 'quote-one', instant: NOW, by: 'Owner', note: '' });
    if (!issued.ok) throw new Error(issued.message);
    const { priced } = issued.value.quote;
    expect(priced.options.length).toBeGreaterThan(1);
    const copy = (optionId: string, acceptedOptionId: string | null): string =>
      textOf(signedCopy(issued.value.tree, [{ ...signature, optionId }], { ...place, quote: { ...issued.value.quote, acceptedOptionId } }));
    for (const { id, name, totalMinor } of priced.options) {
      const chosen = `Chosen: “${name}”, total ${formatMoney(totalMinor, 'USD', 'en-US')}, `;
      expect(copy(id, null).split(chosen)).toHaveLength(2);
      // A quote that is accepted already: the answer on record holds.
      expect(copy(priced.suggestedId, id).split(chosen)).toHaveLength(2);
    }
  });
  it('does not change the signed document', () => {
    expect(readTree(documents[0]?.content ?? '')).toEqual(tree);
    expect(fieldsOf(tree.blocks).some((field) => field.picture !== undefined)).toBe(false);
  });
  it('dates the notice of cancellation, both copies', () => {
    const last = fieldsOf(signed.blocks).filter((field) => field.label === 'Last day to cancel');
    // Signed Friday, May 15: Saturday, Monday and Tuesday are the three business days (16 CFR 429.0).
    expect(last.map((field) => field.value)).toEqual(['Tuesday, May 19, 2026', 'Tuesday, May 19, 2026']);
  });
});

describe('the last day to cancel', () => {
  it.each([
    // 16 CFR 429.0(f): Sundays and federal holidays do not count, Saturdays do.
    ['2026-05-12', '2026-05-15', 'three weekdays'],
    ['2026-05-15', '2026-05-19', 'over a Sunday'],
    ['2026-05-22', '2026-05-27', 'over a Sunday and Memorial Day, May 25'],
    ['2026-11-25', '2026-11-30', 'over Thanksgiving, November 26, and a Sunday'],
    ['2026-12-24', '2026-12-29', 'over Christmas and a Sunday'],
  ])('of a sale on %s is %s (%s)', (signedOn, last) => expect(cancelBy(signedOn)).toBe(last));
});
