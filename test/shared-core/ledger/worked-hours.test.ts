import { describe, expect, it } from 'vitest';
import { payOf } from '../../../shared-core/ledger/worked-hours.ts';
import { hours, payment } from './entries.ts';

const BUSINESS = { ownerName: 'Ros Teague', costs: { ownHourMinor: 5200, helperHourMinor: 3100 } } as Parameters<typeof payOf>[1];

describe('the pay of a new hours entry', () => {
  it('is the company’s rate for the owner, and for a helper', () => {
    expect(payOf('Ros Teague', BUSINESS, [])).toEqual({ paidAs: 'owner', hourMinor: 5200 });
    expect(payOf(' Ros Teague ', BUSINESS, [])).toEqual({ paidAs: 'owner', hourMinor: 5200 });
    expect(payOf('Bea Lorne', BUSINESS, [])).toEqual({ paidAs: 'employee', hourMinor: 3100 });
  });

  it('is what the same person’s newest entry says, wherever it stands among the entries', () => {
    const bea = (id: string, onDay: string, hourMinor: number) =>
      hours(id, 60, hourMinor, { who: 'Bea Lorne', paidAs: 'contractor', onDay });
    const entries = [
      payment('p1', 100),
      bea('h1', '2026-03-02', 3300),
      bea('h2', '2026-03-09', 3600),
      bea('h3', '2026-03-04', 3500),
      hours('h4', 60, 9900, { who: 'Wen Abara', onDay: '2026-03-12' }),
    ];
    for (const some of [entries, entries.toReversed()])
      expect(payOf('Bea Lorne', BUSINESS, some)).toEqual({ paidAs: 'contractor', hourMinor: 3600 });
    // Of one day, the first that was entered.
    expect(payOf('Bea Lorne', BUSINESS, [bea('h5', '2026-03-09', 4000), ...entries]).hourMinor).toBe(4000);
  });
});
