/** Defaults for a new hours entry: the worker and the pay. */
import type { Business } from '../book/business.ts';
import type { Hours, LedgerEntry } from '../book/ledger.ts';

/** A person's pay type and hourly cost: from the last entry, else from the company's rates. */
export function payOf(
  person: string,
  { ownerName, costs }: Pick<Business, 'ownerName' | 'costs'>,
  ledger: readonly LedgerEntry[],
): Pick<Hours, 'paidAs' | 'hourMinor'> {
  const name = person.trim();
  const last = ledger
    .filter((entry): entry is Hours => entry.kind === 'hours' && entry.who === name)
    .reduce<Hours | null>((best, entry) => (best === null || entry.onDay > best.onDay ? entry : best), null);
  if (last !== null) return { paidAs: last.paidAs, hourMinor: last.hourMinor };
  return name === ownerName ? { paidAs: 'owner', hourMinor: costs.ownHourMinor } : { paidAs: 'employee', hourMinor: costs.helperHourMinor };
}
