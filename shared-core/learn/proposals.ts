/** Suggestions from finished jobs for the next estimate. Nothing changes until the user accepts one. */
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { type Learned, shrink } from './shrink.ts';

export type FactorKind = 'bags' | 'loss' | 'pace' | 'minutes-a-batch' | 'prep-hours' | 'promise-days';

export type FactorInput = {
  readonly kind: FactorKind;
  /** For prep hours: the task. */
  readonly task: string | null;
  /** The figure in use now. */
  readonly before: number;
  /** The figure those jobs were planned with, which the suggestion is drawn toward; absent takes the one in use. */
  readonly prior?: number;
  /** One number per finished job. */
  readonly values: readonly number[];
};

export type Proposal = {
  readonly key: string;
  readonly kind: FactorKind;
  readonly task: string | null;
  readonly learned: Learned;
  /** Whether there are enough jobs and the difference is large enough to suggest a change. */
  readonly worthAsking: boolean;
  readonly sentence: string;
};

/** Minimum number of jobs for a suggestion. Our choice, no source. */
export const LEAST_JOBS = 3;
/** Minimum change, as a share of the figure in use; it must also exceed its own uncertainty. */
const LEAST_CHANGE = 0.03;

const WORDS: Readonly<Record<FactorKind, string>> = {
  bags: 'Bags used per bag planned',
  loss: 'Waste factor that fits the bags used',
  pace: 'Minutes taken per planned minute',
  'minutes-a-batch': 'Minutes per batch',
  'prep-hours': 'Actual hours per typical hour',
  'promise-days': 'Days from the promised date to the passed test',
};

function factorText(kind: FactorKind, value: number, locale: string | undefined): string {
  if (kind === 'loss') return formatPercent(value, 1, locale);
  return formatNumber(value, { most: kind === 'bags' || kind === 'pace' || kind === 'prep-hours' ? 2 : 1 }, locale);
}

function worthAsking(learned: Learned): boolean {
  const change = Math.abs(learned.value - learned.before);
  return learned.jobs >= LEAST_JOBS && change > Math.abs(learned.before) * LEAST_CHANGE && change > (learned.uncertainty ?? Infinity);
}

/** One suggestion per factor, those worth making first. */
export function proposals(factors: readonly FactorInput[], locale?: string): readonly Proposal[] {
  return factors
    .map(({ kind, task, before, prior, values }): Proposal => {
      const learned = { ...shrink(prior ?? before, values), before };
      const name = task === null ? WORDS[kind] : `${task}, ${WORDS[kind].toLowerCase()}`;
      const jobs = `${learned.jobs} ${learned.jobs === 1 ? 'job' : 'jobs'}`;
      const spread = learned.spread === null ? '' : `, ± ${factorText(kind, learned.spread, locale)} from job to job`;
      const sentence =
        learned.mean === null
          ? `${name}: ${factorText(kind, before, locale)}. No finished jobs yet.`
          : `${name}: now ${factorText(kind, before, locale)}. Average of ${jobs}: ${factorText(kind, learned.mean, locale)}${spread}. Suggested: ${factorText(kind, learned.value, locale)}.`;
      return { key: task === null ? kind : `${kind}:${task}`, kind, task, learned, worthAsking: worthAsking(learned), sentence };
    })
    .sort((a, b) => Number(b.worthAsking) - Number(a.worthAsking));
}
