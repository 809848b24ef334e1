/** The expected sums are by hand: bookkeeping of open items. */
import { expect, it } from 'vitest';
import { accountAt, appliedAtIssueMinor, releasedBy, standingAtIssue, standingOn } from '../../../shared-core/ledger/account-at.ts';
import { invoice, payment } from './entries.ts';

const at = (day: string) => `${day}T15:00:00.000Z`;

it('retainage is held up to the day before it is released', () => {
  expect([releasedBy('2026-03-19', '2026-03-20'), releasedBy('2026-03-20', '2026-03-20'), releasedBy('2026-03-21', '2026-03-20')]).toEqual([
    null,
    '2026-03-20',
    '2026-03-20',
  ]);
  expect(releasedBy('2026-03-20', null)).toBeNull();
  const entries = [invoice('a', 1, 10_000, { retainageMinor: 1_000 }), payment('p', 9_000, 'a')];
  expect(accountAt(entries, '2026-03-30', '2026-03-31').dueMinor).toBe(0);
  expect(accountAt(entries, '2026-03-31', '2026-03-31').dueMinor).toBe(1_000);
});

it('a credit balance pays of an invoice what its issue does not ask for', () => {
  const before = { ...payment('p', 4_000), createdAt: at('2026-03-01'), onDay: '2026-03-01' };
  const issued = invoice('b', 1, 10_000, { createdAt: at('2026-03-02'), onDay: '2026-03-02' });
  expect(appliedAtIssueMinor([before, issued], issued, null)).toBe(4_000);
  // With 10% held back it asks for 9,000, of which 4,000 are paid; released, for all of it.
  const held = { ...issued, retainageMinor: 1_000 };
  expect(appliedAtIssueMinor([before, held], held, null)).toBe(4_000);
  expect(appliedAtIssueMinor([before, held], held, '2026-03-01')).toBe(4_000);
  const more = { ...before, amountMinor: 20_000 };
  expect(appliedAtIssueMinor([more, issued], issued, null)).toBe(10_000);
  expect(appliedAtIssueMinor([more, held], held, null)).toBe(9_000);
  // What is paid later, or voided later, changes nothing.
  const later = { ...payment('q', 6_000), createdAt: at('2026-03-05'), onDay: '2026-03-05' };
  expect(appliedAtIssueMinor([{ ...before, voidedAt: at('2026-03-06') }, issued, later], issued, null)).toBe(4_000);
  expect(appliedAtIssueMinor([{ ...before, voidedAt: at('2026-03-01') }, issued], issued, null)).toBe(0);
});

it('an entry voided later stands until then', () => {
  const entry = { ...payment('p', 4_000), createdAt: at('2026-03-01'), onDay: '2026-03-01', voidedAt: at('2026-03-10') };
  expect(standingOn([entry], '2026-03-09', 'UTC')[0]?.voidedAt).toBeNull();
  expect(standingOn([entry], '2026-03-10', 'UTC')[0]?.voidedAt).toBe(at('2026-03-10'));
  expect(standingOn([entry], '2026-02-28', 'UTC')).toEqual([]);
  expect(standingAtIssue([entry], { createdAt: at('2026-03-09') })[0]?.voidedAt).toBeNull();
  expect(standingAtIssue([entry], { createdAt: at('2026-03-10') })[0]?.voidedAt).toBe(at('2026-03-10'));
});
