import { describe, expect, it } from 'vitest';
import { quoteMessage } from '../../../shared-core/documents/quote-message.ts';

const offer = {
  business: { name: 'Odell Floors', ownerName: 'Ann Odell', phone: '212 555 0142' },
  customer: { name: 'Dale Tremaine' },
  number: '26-022',
  quote: { revision: 2, totalMinor: 412_350, currency: 'USD' as const, validUntil: '2026-05-14' },
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

  it('leaves out what is not entered, and no name twice', () => {
    const alone = quoteMessage({ ...offer, business: { name: '', ownerName: 'Ann Odell', phone: '' } });
    expect(alone.body.split('\n\n').at(-1)).toBe('Ann Odell');
    expect(alone.text).toMatch(/^Ann Odell: .*May 14, 2026\.$/);
  });
});
