import { describe, expect, it } from 'vitest';
import type { Lead } from '../../../shared-core/book/lead.ts';
import { newLead } from '../../../shared-core/book/new-records.ts';
import { leadCounts } from '../../../shared-core/lead/lead-counts.ts';

let idCount = 0;
const lead = (of: Partial<Lead>): Lead => ({
  ...newLead({ id: `lead-${(idCount += 1)}`, now: '2026-02-01T12:00:00.000Z' }, 'customer-1'),
  ...of,
});

describe('leads', () => {
  it('are counted as won and lost since a day, with the same reason once however it is written', () => {
    const lost = (reason: string, closedAt = '2026-03-01T12:00:00.000Z') => lead({ state: 'lost', reason, closedAt });
    const leads = [
      lead({}),
      lead({ state: 'won', reason: 'Quote accepted', closedAt: '2026-03-01T12:00:00.000Z' }),
      lost('Price'),
      lost('price.'),
      lost('No answer'),
      lost('Price', '2025-12-31T12:00:00.000Z'),
      { ...lost('Price'), deletedAt: '2026-03-02T12:00:00.000Z' },
    ];
    expect(leadCounts(leads, '2026-01-01T00:00:00.000Z')).toEqual({
      open: 1,
      won: 1,
      lost: 3,
      lostFor: [
        { reason: 'Price', count: 2 },
        { reason: 'No answer', count: 1 },
      ],
    });
  });
});
