import { describe, expect, it } from 'vitest';
import type { QuotedPrice } from '../../../shared-core/book/quote.ts';
import { quoteMessage } from '../../../shared-core/documents/quote-message.ts';
import { suggestedOption } from '../../../shared-core/price/quoted-price.ts';
import { sampleAt } from '../../sample-at.ts';

const [sampled] = sampleAt('2026-05-12T15:00:00.000Z').quotes;
if (sampled === undefined) throw new Error('The sample has a quote.');
const basis = suggestedOption(sampled.priced);

/** A price of these options, by name and total in cents. */
const pricedAt = (totals: Readonly<Record<string, number>>): QuotedPrice => ({
  suggestedId: 'Level',
  options: Object.entries(totals).map(([name, totalMinor]) => ({ ...basis, id: name, name, totalMinor })),
});

const offer = {
  business: { name: 'Odell Floors', ownerName: 'Ann Odell', phone: '212 555 0142' },
  customer: { name: 'Dale Tremaine' },
  number: '26-022',
  quote: {
    ...{ revision: 2, currency: 'USD' as const, validUntil: '2026-05-14', acceptedOptionId: null as string | null },
    priced: pricedAt({ Level: 412_350 }),
  },
  locale: 'en-US',
};

describe('the email with a quote', () => {
  it('names the quote, its total and its last day, and who sends it', () => {
    const { subject, body, text } = quoteMessage(offer);
    expect(subject).toBe('Quote 26-022, revision 2');
    expect(body.split('\n\n')).toEqual([
      'Dear Dale Tremaine,',
      expect.stringMatching(/quote 26-022 .*\$4,123\.50.*May 14, 2026/),
      expect.stringMatching(/accept/),
      'Ann Odell\nOdell Floors\n212 555 0142',
    ]);
    expect(text).toMatch(/^Odell Floors: .*26-022.*\$4,123\.50.*May 14, 2026.*212 555 0142\.$/);
  });

  it('has the total of each option, until one is accepted', () => {
    const priced = pricedAt({ 'Follow the floor': 300_000, Level: 412_350 });
    const open = quoteMessage({ ...offer, quote: { ...offer.quote, priced } });
    expect(open.body).toContain('Follow the floor: $3,000.00. Level: $4,123.50.');
    expect(open.body).toContain('choose an option');
    expect(open.text).toContain('Follow the floor: $3,000.00. Level: $4,123.50. Valid until');
    for (const acceptedOptionId of ['Follow the floor', 'Level']) {
      const { body, text } = quoteMessage({ ...offer, quote: { ...offer.quote, priced, acceptedOptionId } });
      for (const said of [body, text])
        expect([said.includes('$3,000.00'), said.includes('$4,123.50')]).toEqual([
          acceptedOptionId !== 'Level',
          acceptedOptionId === 'Level',
        ]);
    }
  });

  it('leaves out what is not entered, and no name twice', () => {
    const alone = quoteMessage({ ...offer, business: { name: '', ownerName: 'Ann Odell', phone: '' } });
    expect(alone.body.split('\n\n').at(-1)).toBe('Ann Odell');
    expect(alone.text).toMatch(/^Ann Odell: .*May 14, 2026\.$/);
  });
});
