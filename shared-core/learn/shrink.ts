/**
 * A factor learned from few jobs, drawn toward the default it started from: an average in which the default counts as
 * so many jobs. Source: the posterior mean of a normal with a normal prior (Gelman et al., Bayesian Data Analysis, 2.5;
 * formula from memory).
 */

/** Number of finished jobs the default counts as. Our choice, no source: with four finished jobs they count half. */
export const PRIOR_JOBS = 4;

export type Learned = {
  readonly jobs: number;
  /** The factor before any job. */
  readonly before: number;
  /** Plain average of the jobs; null without any. */
  readonly mean: number | null;
  /** (weight × before + sum of jobs) ÷ (weight + jobs). */
  readonly value: number;
  /** Standard deviation from job to job; null under two jobs. */
  readonly spread: number | null;
  /** Standard deviation of `value` itself: spread ÷ √(weight + jobs). Null under two jobs. */
  readonly uncertainty: number | null;
};

/**
 * Draws the average of jobs toward the default. @param before the default @param values one number per finished job
 * @param priorJobs how many jobs the default weighs
 */
export function shrink(before: number, values: readonly number[], priorJobs: number = PRIOR_JOBS): Learned {
  const jobs = values.length;
  const sum = values.reduce((a, b) => a + b, 0);
  const value = priorJobs + jobs === 0 ? before : (priorJobs * before + sum) / (priorJobs + jobs);
  if (jobs === 0) return { jobs, before, mean: null, value, spread: null, uncertainty: null };
  const mean = sum / jobs;
  const spread = jobs < 2 ? null : Math.sqrt(values.reduce((a, v) => a + (v - mean) ** 2, 0) / (jobs - 1));
  return { jobs, before, mean, value, spread, uncertainty: spread === null ? null : spread / Math.sqrt(priorJobs + jobs) };
}
