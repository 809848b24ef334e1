/**
 * Materials on hand by lot, from purchases, pour logs, signed prep lines and what was counted, used, returned or spoiled. Only those
 * entries are stored: bags a pour does not use stay on hand, and a voided entry does not count.
 */
import { type Job, roomsOnRecord, type SignedItem, type UsedMaterial } from '../book/job.ts';
import type { LedgerEntry } from '../book/ledger.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { endEntry, liveOf } from '../pour/log-time.ts';
import { NO_PLAN, type PourState, pourState } from '../pour/pour-state.ts';
import { counts } from './account.ts';

/** Containers of one lot of one material. An empty lot is "lot unknown". */
export type StockLot = {
  readonly materialId: string;
  readonly lot: string;
  /** As printed on the bag; null where it is not known. */
  readonly expiresOn: string | null;
  readonly containers: number;
};

/** Material used by a finished pour or a signed prep line. */
export type MaterialUse = {
  readonly materialId: string;
  readonly jobId: string;
  /** Those of a pour: bags brought less those counted at last, mixed or lost. */
  readonly containers: number;
  /** Lots named in its log, in the order they were opened; none for a prep line. */
  readonly lots: readonly string[];
  /** Day it finished or was signed, `YYYY-MM-DD`. */
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
 * Bags a pour took: those brought less the last count of the stack and what was mixed after it; without a count those mixed. Where fewer
 * were brought than mixed or counted, what was brought is not known, and those mixed count.
 */
function bagsTaken({ bagsBrought, bagsUsed, bagsLeft, entries }: PourState): number {
  const counted = endEntry(liveOf({ entries }).map(({ event }) => event))?.bagsLeft ?? null;
  const taken = bagsBrought - (counted ?? bagsLeft);
  return bagsBrought < bagsUsed || taken < 0 ? bagsUsed : taken;
}

/**
 * Bags used by finished pours.
 * @param dayOf the business's day of an instant
 */
export function pourUses(pours: readonly Pour[], events: readonly PourEvent[], dayOf: (at: string) => string): MaterialUse[] {
  return pours.flatMap((pour): MaterialUse[] => {
    if (pour.deletedAt !== null || pour.finishedAt === null) return [];
    const own = events.filter((event) => event.pourId === pour.id);
    const state = pourState(NO_PLAN, pour, own, pour.finishedAt);
    const containers = bagsTaken(state);
    if (containers <= 0) return [];
    const { materialId, jobId, finishedAt } = pour;
    return [{ materialId, jobId, containers, lots: state.lots, onDay: dayOf(finishedAt), at: finishedAt }];
  });
}

/**
 * Aggregate that finished pours mixed in, by the bags of their logs, lost batches included.
 * @param dayOf the business's day of an instant
 */
export function aggregateUses(
  pours: readonly Pour[],
  events: readonly PourEvent[],
  entries: readonly LedgerEntry[],
  dayOf: (at: string) => string,
): MaterialUse[] {
  const uses = pours.flatMap(({ id, jobId, bagsOnSite, finishedAt, deletedAt, asPoured: { aggregate } }): MaterialUse[] => {
    if (aggregate === undefined || deletedAt !== null || finishedAt === null) return [];
    const own = events.filter((event) => event.pourId === id);
    const containers = pourState(NO_PLAN, { bagsOnSite }, own, finishedAt).bagsUsed * aggregate.containersPerBag;
    return [{ materialId: aggregate.materialId, jobId, containers, lots: [], onDay: dayOf(finishedAt), at: finishedAt }];
  });
  return ofKept(uses, entries);
}

/** Uses from the first day on which a purchase or stock entry names the material: nothing is missing of what nobody keeps stock of. */
function ofKept(uses: readonly MaterialUse[], entries: readonly LedgerEntry[]): MaterialUse[] {
  const keptFrom = new Map<string, string>();
  for (const { onDay, move } of entries.flatMap(movesOf)) {
    const before = keptFrom.get(materialOf(move));
    if (before === undefined || onDay < before) keptFrom.set(materialOf(move), onDay);
  }
  return uses.filter(({ materialId, onDay }) => onDay >= (keptFrom.get(materialId) ?? '9999'));
}

/**
 * What the signatures of a room took from stock, each on its own day. A line that changed is signed again: that signature takes what it
 * used beyond the earlier ones, and gives nothing back where it used less. Every priming is another one. A voided signature took nothing.
 */
function takenBy(signed: readonly SignedItem[]): (UsedMaterial & Pick<SignedItem, 'doneAt'>)[] {
  const taken = new Map<string, number>();
  return signed
    .filter(({ withdrawnAt }) => withdrawnAt === null)
    .sort((a, b) => Date.parse(a.doneAt) - Date.parse(b.doneAt))
    .flatMap(({ itemKey, doneAt, used = [] }) =>
      used.flatMap(({ materialId, containers }) => {
        const key = `${itemKey}/${materialId}`;
        const before = itemKey === 'prime' ? 0 : (taken.get(key) ?? 0);
        taken.set(key, Math.max(before, containers));
        return containers - before > DUST ? [{ materialId, containers: containers - before, doneAt }] : [];
      }),
    );
}

/**
 * Material used by signed prep lines.
 * @param dayOf the business's day of an instant
 */
export function prepUses(jobs: readonly Job[], entries: readonly LedgerEntry[], dayOf: (at: string) => string): MaterialUse[] {
  const uses = jobs
    .filter(({ deletedAt }) => deletedAt === null)
    .flatMap((job) =>
      roomsOnRecord(job)
        .flatMap(({ signed }) => takenBy(signed))
        .map(({ doneAt, ...one }): MaterialUse => ({ ...one, jobId: job.id, lots: [], onDay: dayOf(doneAt), at: doneAt })),
    );
  return ofKept(uses, entries);
}

type Move =
  | { readonly kind: 'in' | 'set'; readonly to: StockLot }
  | {
      readonly kind: 'out';
      readonly materialId: string;
      readonly containers: number;
      readonly lots: readonly string[];
      /** Whether it is of the named lot alone: a log may miss a lot, an entry names the one it is of. */
      readonly isOneLot: boolean;
    };
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
  return [dated({ kind: 'out', materialId, containers, lots: [lot], isOneLot: lot !== '' })];
}

const materialOf = (move: Move): string => (move.kind === 'out' ? move.materialId : move.to.materialId);

/**
 * Moves in their order. Within a day, what was bought comes before what was used, because a receipt is often recorded in the evening. A
 * count keeps its moment between them.
 */
function inOrder(moves: readonly Dated[]): readonly Dated[] {
  const counts = new Map<string, number>();
  return [...moves]
    .sort((a, b) => a.onDay.localeCompare(b.onDay) || a.at.localeCompare(b.at))
    .map((dated) => {
      const key = `${dated.onDay}/${materialOf(dated.move)}`;
      const before = counts.get(key) ?? 0;
      if (dated.move.kind === 'set') counts.set(key, before + 1);
      return { dated, before, rank: ['in', 'out', 'set'].indexOf(dated.move.kind) };
    })
    .sort((a, b) => a.dated.onDay.localeCompare(b.dated.onDay) || a.before - b.before || a.rank - b.rank)
    .map(({ dated }) => dated);
}

/**
 * Stock on hand at the end of a day. Entries count in the order of their days. Use without a lot number comes from the lot that
 * expires first; an entry with one takes from no other. A purchase recorded after a count first makes good what its day had too little of by then: those bags were counted.
 * @param uses materials used by finished pours and signed prep lines
 * @param today `YYYY-MM-DD`; later entries do not count yet
 */
export function stockOn(entries: readonly LedgerEntry[], uses: readonly MaterialUse[], today: string): Stock {
  const used = uses.map(({ onDay, at, ...use }): Dated => ({ onDay, at, move: { kind: 'out', ...use, isOneLot: false } }));
  const moves = inOrder([...entries.flatMap(movesOf), ...used].filter(({ onDay }) => onDay <= today));
  const lots = new Map<string, StockLot>();
  const unrecorded = new Map<string, number>();
  // Containers used on a day before any purchase of them was recorded, with those that a later count of that day found.
  const missing = new Map<string, number>();
  const keyOf = ({ materialId, lot }: Pick<StockLot, 'materialId' | 'lot'>): string => `${materialId}/${lot}`;
  for (const { move, onDay } of moves) {
    const key = `${onDay}/${materialOf(move)}`;
    const short = missing.get(key) ?? 0;
    if (move.kind === 'out') {
      const shortage = takeFrom(lots, move);
      if (shortage <= DUST) continue;
      unrecorded.set(move.materialId, (unrecorded.get(move.materialId) ?? 0) + shortage);
      missing.set(key, short + shortage);
      continue;
    }
    const { to } = move;
    const before = lots.get(keyOf(to));
    const had = before?.containers ?? 0;
    const settled = move.kind === 'in' ? Math.min(short, to.containers) : 0;
    const containers = move.kind === 'in' ? had + to.containers - settled : to.containers;
    lots.set(keyOf(to), { ...to, expiresOn: to.expiresOn ?? before?.expiresOn ?? null, containers });
    // A count replaces any shortage before it.
    if (move.kind === 'set') unrecorded.delete(to.materialId);
    if (short > 0) missing.set(key, move.kind === 'set' ? Math.max(0, short + containers - had) : short - settled);
  }
  return { lots: [...lots.values()].filter((lot) => lot.containers > DUST).sort(byExpiry), unrecorded };
}

/** Takes from the named lots first, then from the first to expire where other lots may give; returns the shortage. */
function takeFrom(lots: Map<string, StockLot>, use: Extract<Move, { kind: 'out' }>): number {
  const own = [...lots].filter(([, lot]) => lot.materialId === use.materialId);
  const named = use.lots.flatMap((name) => own.filter(([, lot]) => lot.lot === name));
  const others = use.isOneLot ? [] : own.filter((entry) => !named.includes(entry)).sort(([, a], [, b]) => byExpiry(a, b));
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

/** Containers that an entry can take from: those of its lot, of every lot where it names none. */
export function takeable({ lots }: Pick<Stock, 'lots'>, materialId: string, lot: string): number {
  return sumOf(lots.filter((one) => one.materialId === materialId && (lot === '' || one.lot === lot)));
}

/** True once the day printed on the bag has passed. */
export function isExpired(lot: Pick<StockLot, 'expiresOn'>, day: string): boolean {
  return lot.expiresOn !== null && lot.expiresOn < day;
}
