import { describe, expect, it } from 'vitest';
import { containersTaken, moreThanOnHand, stockFoot } from '../../../renderer/money/stock-words.ts';
import type { Reserved } from '../../../shared-core/ledger/shopping-day.ts';

const TODAY = '2026-05-12';
const lot = (name: string, containers: number, expiresOn: string | null = null) => ({
  ...{ materialId: 'fine', lot: name, expiresOn, containers },
});
const need = (jobNumber: string, missing: number): Reserved => ({
  ...{ jobNumber, pourDay: null, materialId: 'fine', amount: 5, each: 1, rooms: [], reserved: 5 - missing, missing },
});

describe('the foot of Stock', () => {
  // Written for the test.
  const EXPIRED = '1 lot has expired and is not reserved for any job.';
  it('says what is missing first, then what has expired', () => {
    const stock = { lots: [lot('old', 0.2, '2026-05-01')] };
    expect(stockFoot(stock, [need('26-001', 2), need('26-001', 1)], TODAY)).toBe(`Material is missing for job 26-001. ${EXPIRED}`);
    expect(stockFoot(stock, [need('26-001', 0)], TODAY)).toBe(`Everything for the accepted jobs is on hand. ${EXPIRED}`);
    expect(stockFoot({ lots: [] }, [need('26-001', 2), need('26-002', 1)], TODAY)).toBe('Material is missing for 2 jobs: 26-001, 26-002.');
  });
});

describe('a stock entry of more than is on hand', () => {
  const stock = { lots: [lot('P1', 2), lot('P2', 1.5)] };
  const why = (containers: number, lot: string, { onDay = TODAY, what = 'used' }: { onDay?: string; what?: 'used' | 'counted' } = {}) =>
    moreThanOnHand(stock, { what, materialId: 'fine', lot, containers, onDay }, { today: TODAY, locale: 'en-US' });
  it('is refused by what its lot has', () => {
    expect(why(3, 'P2')).toBe('Lot P2 has 1.5. Enter less, or record the purchase or a count first.');
    expect(why(1, 'P3')).toBe('Lot P3 is not on hand. Record the purchase or a count first.');
    expect(why(4, '')).toMatch(/^Only 3\.5 on hand\./);
  });
  it('is saved where the lot has it, for an earlier day, and as a count', () => {
    expect([why(1.5, 'P2'), why(3.5, ''), why(3, 'P2', { onDay: '2026-05-11' }), why(9, 'P2', { what: 'counted' })]).toEqual(
      Array.from({ length: 4 }, () => null),
    );
  });
  it('takes all that is left where it reads the same as the number entered', () => {
    // 2 3/4 reads 2.8 with one decimal.
    const taken = (containers: number, what: 'used' | 'counted' = 'used') =>
      containersTaken({ lots: [lot('P1', 2.75)] }, { what, materialId: 'fine', lot: 'P1', containers }, 'en-US');
    expect([taken(2.8), taken(2.7), taken(2.9), taken(2.8, 'counted')]).toEqual([2.75, 2.7, 2.9, 2.8]);
  });
});
