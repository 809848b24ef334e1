/**
 * Materials on hand by lot, from purchases, pour logs and what was counted, used, returned or spoiled. Only those entries are
 * stored: bags a pour does not use stay on hand, and a voided entry does not count.
 */
import type { LedgerEntry } from '../book/ledger.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { NO_PLAN, pourState } from '../pour/pour-state.ts';
import { counts } from './account.ts';

/** Containers of one lot of one material. An empty lot is "lot unknown". */
export type StockLot = {
  readonly materialId: string;
  readonly lot: string;
  /** As printed on the bag; null where it is not known. */
  readonly expiresOn: string | null;
  readonly containers: number;
};

/** Materials used by a finished pour. */
export type PourUse = {
  readonly materialId: string;
  readonly jobId: string;
  /** Bags mixed. */
  readonly containers: number;
  /** Lots named in its log, in the order they were opened. */
  readonly lots: readonly string[];
  /** Day it finished, `YYYY-MM-DD`. */
  readonly onDay: string;
  readonly at: string;
};

/** Stock on hand. */
export type Stock = {
  /** Lots with stock left, by material, the first to expire first. */
  readonly lots: readonly StockLot[];
  /** Containers that were used, returned or spoiled and never recorded as bought or counted, by material. */
  readonly unrecorded: ReadonlyMap<string, number>;
};

const DUST = 1e-9;

/**
 * Bags used by finished pours.
 * @param dayOf the business's day of an instant
 */
export function pourUses(pours: readonly Pour[], events: readonly PourEvent[], dayOf: (at: string) => string): PourUse[] {
  return pours.flatMap((pour): PourUse[] => {
    if (pour.deletedAt !== null || pour.finishedAt === null) return [];
    const own = events.filter((event) => event.pourId === pour.id);
    const { bagsUsed, lots } = pourState(NO_PLAN, pour, own, pour.finishedAt);
    if (bagsUsed <= 0) return [];
    const { materialId, jobId, finishedAt } = pour;
    return [{ materialId, jobId, containers: bagsUsed, lots, onDay: dayOf(finishedAt), at: finishedAt }];
  });
}

type Move =
  | { readonly kind: 'in' | 'set'; readonly to: StockLot }
  | { readonly kind: 'out'; readonly materialId: string; readonly containers: number; readonly lots: readonly string[] };
type Dated = { readonly onDay: string; readonly at: string; readonly move: Move };

function movesOf(entry: LedgerEntry): Dated[] {
  const dated = (move: Move): Dated => ({ onDay: entry.onDay, at: entry.createdAt, move });
  if (!counts(entry)) return [];
  if (entry.kind === 'purchase')
    return entry.lines.flatMap((line) =>
      line.materialId === null
        ? []
        : [dated({ kind: 'in', to: { materialId: line.materialId, lot: line.lot, expiresOn: line.expiresOn, containers: line.quantity } })],
    );
  if (entry.kind !== 'stock') return [];
  const { materialId, lot, expiresOn, containers, what } = entry;
  if (what === 'counted') return [dated({ kind: 'set', to: { materialId, lot, expiresOn, containers } })];
  return [dated({ kind: 'out', materialId, containers, lots: [lot] })];
}

/**
 * Stock on hand at the end of a day. Entries count in the order of their days. Use without a lot number comes from the lot that
 * expires first.
 * @param entries the ledger
 * @param uses materials used by finished pours
 * @param today `YYYY-MM-DD`; later entries do not count yet
 */
export function stockOn(entries: readonly LedgerEntry[], uses: readonly PourUse[], today: string): Stock {
  const poured = uses.map(({ onDay, at, ...use }): Dated => ({ onDay, at, move: { kind: 'out', ...use } }));
  const moves = [...entries.flatMap(movesOf), ...poured]
    .filter(({ onDay }) => onDay <= today)
    .sort((a, b) => a.onDay.localeCompare(b.onDay) || a.at.localeCompare(b.at));
  const lots = new Map<string, StockLot>();
  const unrecorded = new Map<string, number>();
  const keyOf = ({ materialId, lot }: Pick<StockLot, 'materialId' | 'lot'>): string => `${materialId}/${lot}`;
  for (const { move } of moves) {
    if (move.kind === 'out') {
      const shortage = takeFrom(lots, move);
      if (shortage > DUST) unrecorded.set(move.materialId, (unrecorded.get(move.materialId) ?? 0) + shortage);
      continue;
    }
    const before = lots.get(keyOf(move.to));
    const containers = move.to.containers + (move.kind === 'in' ? (before?.containers ?? 0) : 0);
    lots.set(keyOf(move.to), { ...move.to, expiresOn: move.to.expiresOn ?? before?.expiresOn ?? null, containers });
    // A count replaces any shortage before it.
    if (move.kind === 'set') unrecorded.delete(move.to.materialId);
  }
  return { lots: [...lots.values()].filter((lot) => lot.containers > DUST).sort(byExpiry), unrecorded };
}

/** Takes from the named lots first, then from the first to expire; returns the shortage. */
function takeFrom(lots: Map<string, StockLot>, use: Extract<Move, { kind: 'out' }>): number {
  const own = [...lots].filter(([, lot]) => lot.materialId === use.materialId);
  const named = use.lots.flatMap((name) => own.filter(([, lot]) => lot.lot === name));
  const others = own.filter((entry) => !named.includes(entry)).sort(([, a], [, b]) => byExpiry(a, b));
  let missing = use.containers;
  for (const [key, lot] of [...named, ...others]) {
    const taken = Math.min(missing, lot.containers);
    lots.set(key, { ...lot, containers: lot.containers - taken });
    missing -= taken;
  }
  return missing;
}

function byExpiry(a: StockLot, b: StockLot): number {
  const day = (lot: StockLot): string => lot.expiresOn ?? '9999';
  return a.materialId.localeCompare(b.materialId) || day(a).localeCompare(day(b)) || a.lot.localeCompare(b.lot);
}

const sumOf = (lots: readonly StockLot[]): number => lots.reduce((sum, lot) => sum + lot.containers, 0);

/** Containers of one material over all its lots, expired ones too. */
export function onHand({ lots }: Pick<Stock, 'lots'>, materialId: string): number {
  return sumOf(lots.filter((lot) => lot.materialId === materialId));
}

/** Containers of one material that may be used on a day: lots that expired before it are left out. */
export function usableOn({ lots }: Pick<Stock, 'lots'>, materialId: string, day: string): number {
  return sumOf(lots.filter((lot) => lot.materialId === materialId && !isExpired(lot, day)));
}

/** True once the day printed on the bag has passed. */
export function isExpired(lot: Pick<StockLot, 'expiresOn'>, day: string): boolean {
  return lot.expiresOn !== null && lot.expiresOn < day;
}
