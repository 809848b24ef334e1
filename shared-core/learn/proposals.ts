/** What the business's own finished jobs suggest for the next estimate. A proposal only: nothing changes until the person agrees. */
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
  /** One number a finished job. */
  readonly values: readonly number[];
};

export type Proposal = {
  readonly key: string;
  readonly kind: FactorKind;
  readonly task: string | null;
  readonly learned: Learned;
  /** Enough jobs, and far enough from what is in use: worth asking about. */
  readonly worthAsking: boolean;
  readonly sentence: string;
};

/** Under so many jobs nothing is proposed. Ours to choose. */
export const LEAST_JOBS = 3;
/** Nor for a change smaller than this share of the figure in use, or smaller than its own uncertainty. */
const LEAST_CHANGE = 0.03;

const WORDS: Readonly<Record<FactorKind, string>> = {
  bags: 'Bags used against bags planned',
  loss: 'Waste factor that fits the bags used',
  pace: 'Minutes taken per planned minute',
  'minutes-a-batch': 'Minutes per batch',
  'prep-hours': 'Times the typical hours',
  'promise-days': 'Days from the promised date to the passed test',
};

function say(kind: FactorKind, value: number, locale: string | undefined): string {
  if (kind === 'loss') return formatPercent(value, 1, locale);
  return formatNumber(value, { most: kind === 'bags' || kind === 'pace' || kind === 'prep-hours' ? 2 : 1 }, locale);
}

function worthAsking(learned: Learned): boolean {
  const change = Math.abs(learned.value - learned.before);
  return learned.jobs >= LEAST_JOBS && change > Math.abs(learned.before) * LEAST_CHANGE && change > (learned.uncertainty ?? Infinity);
}

/** Proposals, one a factor, those worth asking about first. */
export function proposals(factors: readonly FactorInput[], locale?: string): readonly Proposal[] {
  return factors
    .map(({ kind, task, before, values }): Proposal => {
      const learned = shrink(before, values);
      const name = task === null ? WORDS[kind] : `${task}, ${WORDS[kind].toLowerCase()}`;
      const jobs = `${learned.jobs} ${learned.jobs === 1 ? 'job' : 'jobs'}`;
      const spread = learned.spread === null ? '' : `, ± ${say(kind, learned.spread, locale)} from job to job`;
      const sentence =
        learned.mean === null
          ? `${name}: ${say(kind, before, locale)}. No finished jobs yet.`
          : `${name}: now ${say(kind, before, locale)}. Average of ${jobs}: ${say(kind, learned.mean, locale)}${spread}. Suggested: ${say(kind, learned.value, locale)}.`;
      return { key: task === null ? kind : `${kind}:${task}`, kind, task, learned, worthAsking: worthAsking(learned), sentence };
    })
    .sort((a, b) => Number(b.worthAsking) - Number(a.worthAsking));
}
