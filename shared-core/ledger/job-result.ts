/** The earnings of one job: money received less its cost, from its ledger entries. */
import type { Drive, Hours, LedgerEntry, Purchase } from '../book/ledger.ts';
import { exact, over, roundHalfUp, times } from '../price/exact.ts';
import { accountOf, counts, netReceivedMinor, taxReceivedMinor } from './account.ts';
import { total } from './contract.ts';

/** One job's result, whole minor units, on a cash basis. */
export type JobResult = {
  /** Received less refunded, without the sales tax in it and without what is on account: that belongs to the customer. */
  readonly incomeMinor: number;
  /** Sales tax inside what was received: it belongs to the tax office. */
  readonly taxMinor: number;
  readonly laborMinor: number;
  readonly drivesMinor: number;
  readonly costMinor: number;
  readonly profitMinor: number;
  /** Profit for each hour the owner worked, the owner's own hours not counted as a cost; null without owner hours. */
  readonly ownerHourMinor: number | null;
};

/** Cost of a purchase with tax, whole minor units. */
export function purchaseMinor(purchase: Pick<Purchase, 'lines' | 'taxMinor'>): number {
  return purchase.lines.reduce((sum, line) => sum + line.amountMinor, purchase.taxMinor);
}

/** Cost of an hours entry, whole minor units. */
export function hoursMinor(hours: Pick<Hours, 'minutes' | 'hourMinor'>): number {
  return roundHalfUp(over(times(exact(hours.hourMinor), exact(hours.minutes)), exact(60)));
}

/** Cost of a drive, whole minor units. */
export function driveMinor(drive: Pick<Drive, 'distanceKm' | 'kmMinor'>): number {
  return roundHalfUp(times(exact(drive.distanceKm), exact(drive.kmMinor)));
}

/** The result of the entries of one job; voided entries do not count. */
export function jobResult(entries: readonly LedgerEntry[]): JobResult {
  const live = entries.filter(counts);
  const entriesOf = <K extends LedgerEntry['kind']>(kind: K) => live.filter((e): e is Extract<LedgerEntry, { kind: K }> => e.kind === kind);
  const account = accountOf(live, '1970-01-01');
  const taxMinor = taxReceivedMinor(live);
  const hours = entriesOf('hours');
  const laborMinor = total(hours, hoursMinor);
  const drivesMinor = total(entriesOf('drive'), driveMinor);
  const costMinor = total(entriesOf('purchase'), purchaseMinor) + laborMinor + drivesMinor;
  const incomeMinor = netReceivedMinor(account) - Math.min(account.onAccountMinor, Math.max(0, netReceivedMinor(account))) - taxMinor;
  const owner = hours.filter((h) => h.paidAs === 'owner');
  const ownerMinutes = total(owner, (h) => h.minutes);
  const beforeOwner = incomeMinor - costMinor + total(owner, hoursMinor);
  return {
    incomeMinor,
    taxMinor,
    laborMinor,
    drivesMinor,
    costMinor,
    profitMinor: incomeMinor - costMinor,
    ownerHourMinor: ownerMinutes === 0 ? null : roundHalfUp(over(times(exact(beforeOwner), exact(60)), exact(ownerMinutes))),
  };
}
