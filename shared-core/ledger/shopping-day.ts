/** Stock reserved by jobs, and the items to buy for the jobs of a day. Each container is reserved for one job. */
import type { Material } from '../book/material.ts';
import { containerOf, containersFor } from '../material/containers.ts';
import { isExpired, type Stock } from './stock.ts';

/** One material an accepted job needs; poured rooms need none. */
export type JobNeed = {
  readonly jobNumber: string;
  /** Day of its next pour, `YYYY-MM-DD`; null while none is set. */
  readonly pourDay: string | null;
  readonly materialId: string;
  /** In the unit of `each`. */
  readonly amount: number;
  /** Amount in one container. */
  readonly each: number;
  readonly rooms: readonly string[];
};

/** A need with its reserved containers. */
export type Reserved = JobNeed & {
  readonly reserved: number;
  /** Needed beyond what is reserved; not rounded. */
  readonly missing: number;
};

/**
 * Reserves what is on hand, job by job in the order of their pours; jobs without a date come last. Lots that have expired, or
 * expire before a job's pour, are not reserved for it.
 * @param today `YYYY-MM-DD`
 */
export function reserve(needs: readonly JobNeed[], stock: Stock, today: string): Reserved[] {
  const lots = stock.lots.map((lot) => ({ ...lot }));
  const order = [...needs].sort((a, b) => dayOf(a).localeCompare(dayOf(b)) || a.jobNumber.localeCompare(b.jobNumber));
  return order.map((need) => {
    let missing = need.amount / need.each;
    const usedOn = need.pourDay !== null && need.pourDay > today ? need.pourDay : today;
    for (const lot of lots) {
      if (lot.materialId !== need.materialId || isExpired(lot, usedOn)) continue;
      const taken = Math.min(missing, lot.containers);
      lot.containers -= taken;
      missing -= taken;
    }
    return { ...need, reserved: need.amount / need.each - missing, missing };
  });
}

const dayOf = (need: JobNeed): string => need.pourDay ?? '9999';

/** One line of the shopping list: whole containers of one material, for every job of the day. */
export type ShoppingLine = {
  readonly materialId: string;
  readonly name: string;
  readonly container: string;
  readonly buy: number;
  /** Reserved from stock, containers. */
  readonly fromStock: number;
  /** Price of one container; null where none is known. */
  readonly priceMinor: number | null;
  readonly costMinor: number | null;
  readonly jobs: readonly { readonly jobNumber: string; readonly rooms: readonly string[] }[];
};

/** The number of the job that all lines are for; null where they are for several. */
export function onlyJob(lines: readonly Pick<ShoppingLine, 'jobs'>[]): string | null {
  const numbers = new Set(lines.flatMap(({ jobs }) => jobs.map(({ jobNumber }) => jobNumber)));
  const [first = null] = numbers;
  return numbers.size === 1 ? first : null;
}

/** The lines of one supplier; the name is empty while unknown. */
export type SupplierList = { readonly supplier: string; readonly lines: readonly ShoppingLine[]; readonly totalMinor: number };

/**
 * The shopping list of some jobs, by supplier. Missing amounts of several jobs are added before rounding up to whole containers.
 * @param reserved needs of the jobs that are shopped for
 * @param priceOf price of one container on the day, whole minor units
 */
export function shoppingBySupplier(
  reserved: readonly Reserved[],
  materials: readonly Material[],
  priceOf: (material: Material) => number | null,
): SupplierList[] {
  const lists = new Map<string, ShoppingLine[]>();
  for (const material of materials) {
    const own = reserved.filter((need) => need.materialId === material.id);
    if (own.length === 0) continue;
    const missing = own.reduce((sum, need) => sum + need.missing, 0);
    const buy = containersFor(missing, 1);
    const priceMinor = priceOf(material);
    const line: ShoppingLine = {
      materialId: material.id,
      name: material.name,
      container: containerOf(material).name,
      buy,
      fromStock: own.reduce((sum, need) => sum + need.reserved, 0),
      priceMinor,
      costMinor: priceMinor === null ? null : priceMinor * buy,
      jobs: own.map(({ jobNumber, rooms }) => ({ jobNumber, rooms })),
    };
    lists.set(material.supplier, [...(lists.get(material.supplier) ?? []), line]);
  }
  return [...lists]
    .map(([supplier, lines]) => ({
      supplier,
      lines: lines.sort((a, b) => a.name.localeCompare(b.name)),
      totalMinor: lines.reduce((sum, line) => sum + (line.costMinor ?? 0), 0),
    }))
    .sort((a, b) => Number(a.supplier === '') - Number(b.supplier === '') || a.supplier.localeCompare(b.supplier));
}
