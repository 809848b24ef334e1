/** A promise beside the date now expected. The promise itself never moves. */
import type { Promised } from '../book/cure-record.ts';
import type { DatedMilestone } from './cure-input.ts';

const DAY_MS = 86_400_000;

export type PromiseVerdict = {
  readonly promise: Promised;
  /** `holds` even at the latest; `tight` at the likely date; `late` not even then; `open` while no date can be given. */
  readonly state: 'holds' | 'tight' | 'late' | 'open';
  /** How far the likely date lies past the promise; zero or less when it does not. Null while open. */
  readonly lateByMs: number | null;
  /** `Holds`, `Tight`, `Late by three days`. */
  readonly word: string;
};

const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

function counted(n: number, unit: string): string {
  return `${COUNTS[n] ?? String(n)} ${unit}${n === 1 ? '' : 's'}`;
}

/** A lateness in words: hours under two days, days above; rounded up, so that it never sounds better than it is. */
export function latenessWords(ms: number): string {
  const hours = Math.ceil(ms / 3_600_000);
  return hours < 48 ? counted(hours, 'hour') : counted(Math.ceil(ms / DAY_MS), 'day');
}

/** Sets one promise against the milestone it was made for. */
export function judgePromise(promise: Promised, milestone: DatedMilestone): PromiseVerdict {
  const promised = Date.parse(promise.promisedFor);
  if (milestone.likelyAt === null) return { promise, state: 'open', lateByMs: null, word: 'Stands still: no date' };
  const lateByMs = Date.parse(milestone.likelyAt) - promised;
  if (lateByMs > 0) return { promise, state: 'late', lateByMs, word: `Late by ${latenessWords(lateByMs)}` };
  const holds = milestone.latestAt !== null && Date.parse(milestone.latestAt) <= promised;
  return { promise, state: holds ? 'holds' : 'tight', lateByMs, word: holds ? 'Holds' : 'Tight' };
}

const RANK = { late: 3, open: 2, tight: 1, holds: 0 } as const;

/** The gravest of some verdicts; null for none. Of two late ones, the later. */
export function gravest(verdicts: readonly PromiseVerdict[]): PromiseVerdict | null {
  const order = [...verdicts].sort((a, b) => RANK[b.state] - RANK[a.state] || (b.lateByMs ?? 0) - (a.lateByMs ?? 0));
  return order[0] ?? null;
}

/** Of several promises for one milestone the newest counts; the earlier ones stay on record. */
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
