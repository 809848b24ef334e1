/** Figures of one finished pour: bags, waste, minutes per batch. Voided entries do not count. */
import type { Pour, PourEvent } from '../book/pour-record.ts';

export type PourFacts = {
  readonly pourId: string;
  /** Bags mixed over bags planned; null when either is missing. */
  readonly bagsRatio: number | null;
  /** Share of the mixed bags that was not placed; null without both counts. */
  readonly lossShare: number | null;
  /** Usual time from one batch landing to the next, minutes; null under three batches or when times are estimates. */
  readonly minutesABatch: number | null;
};

const standing = (events: readonly PourEvent[]): readonly PourEvent[] => {
  const undone = new Set(events.flatMap((e) => (e.kind === 'undone' ? [e.eventId] : [])));
  return events.filter((e) => e.kind !== 'undone' && !undone.has(e.id));
};

/** The middle value, or the middle of the two; null without any. */
export function median(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const [low, high] = [sorted[Math.floor((sorted.length - 1) / 2)], sorted[Math.ceil((sorted.length - 1) / 2)]];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}

/**
 * Reads one pour. The median of the times between batches is used, so that one stoppage does not distort it.
 * @param events the events of this pour
 */
export function pourFacts(pour: Pour, events: readonly PourEvent[]): PourFacts {
  const own = standing(events.filter((e) => e.pourId === pour.id));
  const total = (kind: 'mixed' | 'placed') => own.reduce((sum, e) => sum + (e.kind === kind ? e.bags : 0), 0);
  const placed = total('placed');
  const mixed = Math.max(total('mixed'), placed);
  const times = own
    .filter((e) => e.kind === 'placed' && !e.estimated)
    .map((e) => Date.parse(e.instant))
    .sort((a, b) => a - b);
  const steps = times.slice(1).map((t, i) => (t - (times[i] ?? t)) / 60_000);
  return {
    pourId: pour.id,
    bagsRatio: mixed > 0 && pour.bagsPlanned > 0 ? mixed / pour.bagsPlanned : null,
    lossShare: mixed > 0 && placed > 0 ? (mixed - placed) / mixed : null,
    minutesABatch: pour.fromPaper || steps.length < 2 ? null : median(steps),
  };
}
