/** A promised date against the date expected now. The promised date itself never moves. */
import type { Promised } from '../book/cure-record.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant, startOfDay } from '../measure/moment.ts';
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
  /** When the promised day is over at the property. */
  readonly dayOverAt: string;
  /** The floor is not placed whole, so the dates are those of the pour planned for the rest, or none. */
  readonly awaitsRest: boolean;
  /** Late or on hold only by the room's own readings: in the air assumed it would not be. */
  readonly byAir: boolean;
};

/** Where and how the floor failed the test for its flooring; `failedAt` is null where it did not. */
type Judged = { readonly zone: string; readonly failedAt: string | null };

/**
 * Compares one promised date with its milestone. Flooring whose test failed on the promised day or later is expected on the next date
 * stated for it, and has none once that day has come.
 */
export function judgePromise(
  promise: Promised,
  milestone: DatedMilestone,
  { zone, failedAt }: Judged,
): Pick<PromiseVerdict, 'state' | 'lateByMs' | 'dayOverAt'> {
  const promisedDay = dayOfInstant(promise.promisedFor, zone);
  const dayOverAt = startOfDay(addDaysToDay(promisedDay, 1), zone);
  const { latestAt, statedAt } = milestone;
  const failed = milestone.kind === 'cover' ? failedAt : null;
  const failedDay = failed === null ? '' : dayOfInstant(failed, zone);
  const nextAt = statedAt !== null && dayOfInstant(statedAt, zone) > failedDay ? statedAt : null;
  const expectedAt = milestone.likelyAt !== null && failedDay >= promisedDay ? nextAt : milestone.likelyAt;
  if (expectedAt === null) return { state: 'on-hold', lateByMs: null, dayOverAt };
  const promised = Date.parse(promise.promisedFor);
  const lateByMs = Date.parse(expectedAt) - promised;
  if (lateByMs > 0) return { state: 'late', lateByMs, dayOverAt };
  const holds = latestAt !== null && Date.parse(latestAt) <= promised && (failed === null || failed < latestAt);
  return { state: holds ? 'on-track' : 'at-risk', lateByMs, dayOverAt };
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
