import type { StockChange } from '../../shared-core/book/ledger.ts';
import type { Reserved } from '../../shared-core/ledger/shopping-day.ts';
import { isExpired, type Stock, takeable } from '../../shared-core/ledger/stock.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';

/** A number of containers: `2`, `1.5`. */
export const containerCount = (value: number, locale: string): string => formatNumber(value, { most: 1 }, locale);

/** The lot number, or that it is unknown. */
export function lotWords(lot: string): string {
  return lot === '' ? 'Lot unknown' : `Lot ${lot}`;
}

/** What is missing for accepted jobs, then what has expired. @param reserved null while it is calculated */
export function stockFoot({ lots }: Pick<Stock, 'lots'>, reserved: readonly Reserved[] | null, today: string): string {
  if (reserved === null) return 'Loading…';
  const short = [...new Set(reserved.filter((need) => need.missing > 1e-9).map((need) => need.jobNumber))];
  const needs =
    reserved.length === 0
      ? 'No accepted job needs material.'
      : short.length === 0
        ? 'Everything for the accepted jobs is on hand.'
        : short.length === 1
          ? `Material is missing for job ${short.join()}.`
          : `Material is missing for ${short.length} jobs: ${short.join(', ')}.`;
  const expired = lots.filter((lot) => isExpired(lot, today)).length;
  if (expired === 0) return needs;
  return `${needs} ${expired === 1 ? '1 lot has expired and is' : `${expired} lots have expired and are`} not reserved for any job.`;
}

/** What an entry takes: all that is left, where the number entered is more and reads the same as what is shown on hand. */
export function containersTaken(
  stock: Pick<Stock, 'lots'>,
  { what, materialId, lot, containers }: Pick<StockChange, 'what' | 'materialId' | 'lot' | 'containers'>,
  locale: string,
): number {
  const left = takeable(stock, materialId, lot);
  const isSame = containerCount(containers, locale) === containerCount(left, locale);
  return what !== 'counted' && left > 0 && containers > left && isSame ? left : containers;
}

/**
 * Why an entry of today cannot be saved: more would go out than is on hand. Null where it can. What went out on an earlier day may have
 * been there then.
 */
export function moreThanOnHand(
  stock: Pick<Stock, 'lots'>,
  { what, materialId, lot, containers, onDay }: Pick<StockChange, 'what' | 'materialId' | 'lot' | 'containers' | 'onDay'>,
  { today, locale }: { readonly today: string; readonly locale: string },
): string | null {
  const left = takeable(stock, materialId, lot);
  if (what === 'counted' || onDay < today || containers <= left + 1e-9) return null;
  if (left <= 1e-9) return `${lot === '' ? 'None is' : `${lotWords(lot)} is not`} on hand. Record the purchase or a count first.`;
  const has = lot === '' ? `Only ${containerCount(left, locale)} on hand` : `${lotWords(lot)} has ${containerCount(left, locale)}`;
  return `${has}. Enter less, or record the purchase or a count first.`;
}
