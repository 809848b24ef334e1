import { expect, it } from 'vitest';
import { missingForWarranty, warrantyOf, warrantyTerm } from '../../../shared-core/standing/warranty-period.ts';
import { wholeOf } from '../job-variants.ts';

const sample = wholeOf('26-024');
/** The job sold with a warranty of some months, its rooms handed over on these days at 8 pm in New York (UTC minus five in January). */
function sold(warrantyMonths: number | null, days: readonly (number | null)[], defectsUntil: string | null = null) {
  const contract = { ...sample.business.contract, warrantyMonths };
  const own = { ...sample.business.contract, warrantyMonths: 99 };
  const rooms = sample.job.rooms.slice(0, days.length).map((room, i) => {
    const day = days[i] ?? null;
    return { ...room, handedOverAt: day === null ? null : `2026-01-${String(day + 1).padStart(2, '0')}T01:00:00.000Z` };
  });
  const quotes = sample.quotes.map((quote) => ({
    ...quote,
    frozen: { ...quote.frozen, business: { ...quote.frozen.business, contract } },
  }));
  return { ...sample, quotes, business: { ...sample.business, contract: own }, job: { ...sample.job, rooms, defectsUntil } };
}

it('runs from the day the last room was handed over, for the months it was sold with', () => {
  expect(warrantyOf(sold(12, [14, 20]))).toEqual({ starts: '2026-01-20', ends: '2027-01-20' });
  expect(warrantyOf(sold(12, [20, 14]))).toEqual({ starts: '2026-01-20', ends: '2027-01-20' });
  // January 30 and 13 months: February 2027 has 28 days.
  expect(warrantyOf(sold(13, [30])).ends).toBe('2027-02-28');
  expect(warrantyOf(sold(12, [14, null]))).toEqual({ starts: null, ends: null });
  expect(warrantyOf(sold(null, [14, 20]))).toEqual({ starts: '2026-01-20', ends: null });
});

it('ends on the day set for the job, whatever it was sold with', () => {
  for (const months of [12, null]) expect(warrantyOf(sold(months, [14, null], '2026-12-31'))).toEqual({ starts: null, ends: '2026-12-31' });
  expect(warrantyTerm(sold(12, [14], '2026-12-31'))).toBe('through December 31, 2026');
  expect(warrantyTerm(sold(12, [14]))).toBe('for 12 months from the day of handover');
  expect(warrantyTerm(sold(null, [14]))).toBe('');
});

it('cannot be certified without a length or an end', () => {
  expect(missingForWarranty({ whole: sold(12, [14]) })).toBeNull();
  expect(missingForWarranty({ whole: sold(null, [14], '2026-12-31') })).toBeNull();
  expect(missingForWarranty({ whole: sold(null, [14]) })).toContain('Enter the end of its warranty period in Cure');
  const unsold = sold(null, [14]);
  const business = { ...unsold.business, contract: { ...unsold.business.contract, warrantyMonths: null } };
  expect(missingForWarranty({ whole: { ...unsold, business, quotes: [] } })).toContain('Settings');
});
