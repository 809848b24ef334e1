import { expect, it } from 'vitest';
import { priceOnDay } from '../../../shared-core/price/price-on-day.ts';

it('is the newest price in force by the day, that day included, in whatever order the prices were entered', () => {
  const price = (from: string, minor: number) => ({ from, minor, note: '' });
  const prices = [price('2026-01-05', 3100), price('2026-03-01', 3350), price('2026-07-15', 3425)];
  for (const some of [prices, prices.toReversed(), [1, 2, 0].flatMap((i) => prices[i] ?? [])])
    expect(
      ['2026-01-04', '2026-01-05', '2026-02-28', '2026-03-01', '2026-07-14', '2026-07-15', '2027-01-01'].map(
        (day) => priceOnDay({ prices: some }, day)?.minor,
      ),
    ).toEqual([undefined, 3100, 3100, 3350, 3350, 3425, 3425]);
  // Of two entered for one day, the later entry.
  expect(priceOnDay({ prices: [price('2026-01-05', 3100), price('2026-01-05', 3000)] }, '2026-01-05')).toEqual({
    from: '2026-01-05',
    minor: 3000,
  });
  expect(priceOnDay({ prices: [] }, '2026-01-05')).toBeNull();
});
