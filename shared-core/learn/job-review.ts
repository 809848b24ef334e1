/** Estimate beside actual for one job: what was quoted against what the pour log, the signatures and the ledger say. */
import type { WholeJob } from '../book/whole-job.ts';
import { counts } from '../ledger/account.ts';
import { liveEntries } from '../pour/placed-floor.ts';
import { prepFacts } from './prep-facts.ts';

/** One figure, estimated and actual; null where it is not known. */
export type Compared = { readonly estimated: number | null; readonly actual: number | null };

/** What a job's estimate and its work came to. */
export type JobReview = {
  /** Bags quoted and bags placed. */
  readonly bags: Compared;
  /** Days on site quoted, and days with hours in the ledger. */
  readonly days: Compared;
  /** Hours by prep task, from the times lines were signed. */
  readonly prepHours: readonly { readonly task: string; readonly hours: number }[];
};

/** Reviews a job from its records. The estimate is the accepted quote's as issued. */
export function jobReview(whole: Pick<WholeJob, 'job' | 'quotes' | 'pours' | 'pourEvents' | 'ledger'>): JobReview {
  const accepted = whole.quotes.findLast((quote) => quote.state === 'accepted');
  const option = accepted?.priced.options.find(({ id }) => id === accepted.acceptedOptionId) ?? null;
  const finished = whole.pours.filter((pour) => pour.deletedAt === null && pour.finishedAt !== null);
  const bags = finished
    .flatMap((pour) => liveEntries(pour, whole.pourEvents))
    .reduce((sum, { event }) => (event.kind === 'placed' ? sum + event.bags : sum), 0);
  const days = new Set(whole.ledger.flatMap((entry) => (entry.kind === 'hours' && counts(entry) ? [entry.onDay] : [])));
  const hours = new Map<string, number>();
  for (const { signed } of whole.job.rooms) {
    for (const { task, hours: took } of prepFacts(signed)) hours.set(task, (hours.get(task) ?? 0) + took);
  }
  return {
    bags: { estimated: option?.bags ?? null, actual: finished.length === 0 ? null : bags },
    days: { estimated: option?.days ?? null, actual: days.size === 0 ? null : days.size },
    prepHours: [...hours].map(([task, took]) => ({ task, hours: took })).sort((a, b) => b.hours - a.hours),
  };
}
