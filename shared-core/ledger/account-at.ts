/** A job's account as it stood at a time before. */
import type { Invoice, LedgerEntry } from '../book/ledger.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { type Account, accountOf } from './account.ts';

/** The account of the entries that count at the end of a day: what came or was released later is left out. A void counts from the first. */
export function accountAt(entries: readonly LedgerEntry[], day: string, releasedOn: string | null): Account {
  return accountOf(
    entries.filter((entry) => entry.onDay <= day),
    day,
    releasedBy(day, releasedOn),
  );
}

/** The day retainage was released where that was by a day; null while it was held. */
export const releasedBy = (day: string, releasedOn: string | null): string | null =>
  releasedOn !== null && releasedOn <= day ? releasedOn : null;

/**
 * The entries as they stood at the end of a day: what came or was voided later is left out.
 * @param zone the business's time zone
 */
export function standingOn(entries: readonly LedgerEntry[], day: string, zone: string): LedgerEntry[] {
  return entries.flatMap((entry) => {
    if (entry.onDay > day) return [];
    const { voidedAt } = entry;
    return [voidedAt !== null && dayOfInstant(voidedAt, zone) > day ? { ...entry, voidedAt: null } : entry];
  });
}

/** The entries as they stood when an invoice was issued: what was voided later still counts. Those entered later are among them. */
export function standingAtIssue(entries: readonly LedgerEntry[], { createdAt }: Pick<Invoice, 'createdAt'>): LedgerEntry[] {
  return entries.map((entry) => (entry.voidedAt !== null && entry.voidedAt > createdAt ? { ...entry, voidedAt: null } : entry));
}

/**
 * What the customer's credit balance paid of an invoice when it was issued, whole minor units: all of it that its issue did not add to
 * what was due. What is recorded or voided later does not count, so that the figure never changes.
 * @param releasedOn the day retainage became due; null while it is held back
 */
export function appliedAtIssueMinor(entries: readonly LedgerEntry[], invoice: Invoice, releasedOn: string | null): number {
  const { id, createdAt, onDay, totalMinor, retainageMinor } = invoice;
  const before = standingAtIssue(entries, invoice).filter((entry) => entry.id !== id && entry.createdAt < createdAt);
  const released = releasedBy(onDay, releasedOn);
  const askedMinor = released === null ? totalMinor - retainageMinor : totalMinor;
  const dueMinor = (all: readonly LedgerEntry[]): number => accountOf(all, onDay, released).dueMinor;
  const appliedMinor = askedMinor - (dueMinor([...before, { ...invoice, voidedAt: null }]) - dueMinor(before));
  return Math.max(0, Math.min(totalMinor - retainageMinor, appliedMinor));
}
