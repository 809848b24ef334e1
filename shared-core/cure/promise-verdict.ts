/** A promised date against the date expected now. The promised date itself never moves. */
import type { Promised } from '../book/cure-record.ts';
import type { DatedMilestone } from './cure-input.ts';

export type PromiseVerdict = {
  readonly promise: Promised;
  /** `on-track` even at the latest date; `at-risk` after the likely one; `late` before it; `on-hold` while there is no date. */
  readonly state: 'on-track' | 'at-risk' | 'late' | 'on-hold';
  /** How far the likely date is past the promised one; zero or less when it is not. Null on hold. */
  readonly lateByMs: number | null;
};

/** Compares one promised date with its milestone. */
export function judgePromise(promise: Promised, milestone: DatedMilestone): PromiseVerdict {
  const promised = Date.parse(promise.promisedFor);
  if (milestone.likelyAt === null) return { promise, state: 'on-hold', lateByMs: null };
  const lateByMs = Date.parse(milestone.likelyAt) - promised;
  if (lateByMs > 0) return { promise, state: 'late', lateByMs };
  const holds = milestone.latestAt !== null && Date.parse(milestone.latestAt) <= promised;
  return { promise, state: holds ? 'on-track' : 'at-risk', lateByMs };
}

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
