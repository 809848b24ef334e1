/** A promised date against the date expected now. The promised date itself never moves. */
import type { Promised } from '../book/cure-record.ts';
import type { DatedMilestone } from './cure-input.ts';

export type PromiseVerdict = {
  readonly promise: Promised;
  /** What it is promised for. */
  readonly milestone: DatedMilestone;
  /** `on-track` even at the latest date; `at-risk` after the likely one; `late` before it; `on-hold` while there is no date. */
  readonly state: 'on-track' | 'at-risk' | 'late' | 'on-hold';
  /** How far the likely date is past the promised one; zero or less when it is not. Null on hold. */
  readonly lateByMs: number | null;
  /** From when nothing is owed: cleared for flooring, or the latest date of another milestone. Null while it is not known. */
  readonly settledAt: string | null;
  /** The floor is not placed whole, so the dates are those of the pour planned for the rest, or none. */
  readonly awaitsRest: boolean;
  /** Late or on hold only by the room's own readings: in the air assumed it would not be. */
  readonly byAir: boolean;
};

/** Compares one promised date with its milestone. */
export function judgePromise(promise: Promised, milestone: DatedMilestone): Pick<PromiseVerdict, 'state' | 'lateByMs'> {
  const promised = Date.parse(promise.promisedFor);
  if (milestone.likelyAt === null) return { state: 'on-hold', lateByMs: null };
  const lateByMs = Date.parse(milestone.likelyAt) - promised;
  if (lateByMs > 0) return { state: 'late', lateByMs };
  const holds = milestone.latestAt !== null && Date.parse(milestone.latestAt) <= promised;
  return { state: holds ? 'on-track' : 'at-risk', lateByMs };
}

/** A promised date that the customer has to hear about: it cannot be kept, or there is none. */
export const isBroken = ({ state }: Pick<PromiseVerdict, 'state'>): boolean => state === 'late' || state === 'on-hold';

const RANK = { late: 3, 'on-hold': 2, 'at-risk': 1, 'on-track': 0 } as const;

/** The worst verdict; null for none. Of two late ones, the later. */
export function gravest(verdicts: readonly PromiseVerdict[]): PromiseVerdict | null {
  const order = [...verdicts].sort((a, b) => RANK[b.state] - RANK[a.state] || (b.lateByMs ?? 0) - (a.lateByMs ?? 0));
  return order[0] ?? null;
}

/** The newest promised date of each milestone; earlier ones stay on record. */
export function standingPromises(promises: readonly Promised[]): readonly Promised[] {
  const newest = new Map<string, Promised>();
  for (const p of promises) {
    if (p.deletedAt !== null) continue;
    const key = `${p.milestone}:${p.flooring ?? ''}`;
    const known = newest.get(key);
    if (known === undefined || Date.parse(p.madeAt) >= Date.parse(known.madeAt)) newest.set(key, p);
  }
  return [...newest.values()];
}
