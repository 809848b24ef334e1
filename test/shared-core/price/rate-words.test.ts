/** Rates formatted, stored and parsed again. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseCurrency } from '../../../shared-core/price/currency.ts';
import { rateAsStored, rateAsShown, rateWords } from '../../../shared-core/price/rate-words.ts';

const UNITS = ['h', 'm', 'm2', 'm3', 'kg', 'km'] as const;

describe('a rate', () => {
  it('parses to what was entered, in either system', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 10_000_000 }),
        fc.constantFrom(...UNITS),
        fc.constantFrom('us' as const, 'metric' as const),
        (shown, unit, units) => {
          expect(rateAsShown(rateAsStored(shown, unit, units), unit, units)).toBe(shown);
        },
      ),
    );
  });
  it('is stored in whole minor units wherever the SI unit is the larger', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 10_000_000 }),
        fc.constantFrom('m' as const, 'm2' as const, 'm3' as const, 'kg' as const),
        (shown, unit) => {
          expect(Number.isInteger(rateAsStored(shown, unit, 'us'))).toBe(true);
        },
      ),
    );
  });
  it.each([
    // NIST SP 811 (2008), appendix B.8: 1 ft² is 0.09290304 m², 1 mile is 1.609344 km, 1 lb is 0.45359237 kg, all exact.
    [300, 'm2', 300 / 0.09290304],
    [70, 'km', 70 / 1.609344],
    [12, 'kg', 12 / 0.45359237],
  ] as const)('%d cents a US unit of %s is stored by the exact size of the unit', (shown, unit, stored) => {
    expect(Math.abs(rateAsStored(shown, unit, 'us') - stored)).toBeLessThanOrEqual(0.5);
  });
  it('is shown in whole cents also where it is stored in fractions', () => {
    const stored = rateAsStored(70, 'km', 'us');
    expect(rateWords(stored, 'km', 'us', 'USD', 'en-US')).toBe('$0.70 per mi');
    expect(rateWords(stored, 'km', 'metric', 'USD', 'en-US')).toBe('$0.43 per km');
  });
});

describe('a currency', () => {
  // ISO 4217.
  it('is parsed in small or capital letters, and an unknown one is refused', () => {
    expect(parseCurrency('cad')).toEqual({ ok: true, value: 'CAD' });
    expect(parseCurrency('dollars').ok).toBe(false);
    expect(parseCurrency('QQQ').ok).toBe(false);
  });
});
