/** Who worked, and at what pay: defaults for a new entry of hours. */
import type { Business } from '../book/business.ts';
import type { Hours, LedgerEntry } from '../book/ledger.ts';

/** How a person is paid and what an hour costs: as in the person's last entry, else the company's own rates. */
export function payOf(
  who: string,
  { ownerName, costs }: Pick<Business, 'ownerName' | 'costs'>,
  ledger: readonly LedgerEntry[],
): Pick<Hours, 'paidAs' | 'hourMinor'> {
  const name = who.trim();
  const last = ledger
    .filter((entry): entry is Hours => entry.kind === 'hours' && entry.who === name)
    .reduce<Hours | null>((best, entry) => (best === null || entry.onDay > best.onDay ? entry : best), null);
  if (last !== null) return { paidAs: last.paidAs, hourMinor: last.hourMinor };
  return name === ownerName ? { paidAs: 'owner', hourMinor: costs.ownHourMinor } : { paidAs: 'employee', hourMinor: costs.helperHourMinor };
}
