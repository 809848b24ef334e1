/** The lines of a bench: what was measured, beside the plain other way in the same run, and the goal. */

export type BenchRow = {
  readonly what: string;
  readonly ms: number;
  /** Times the plain other way in the same run; null for that way itself. */
  readonly ratio: number | null;
  /** The most it may be: `at most 3 times`, `under 50 ms`. */
  readonly goal?: string;
  readonly isMet?: boolean;
};
export type BenchResult = { readonly title: string; readonly rows: readonly BenchRow[]; readonly notes: readonly string[] };

type Limit = { readonly times?: number; readonly ms?: number };

/** A line with its goal, as a ratio or in milliseconds. */
export function goalRow(what: string, ms: number, plainMs: number, { times, ms: most }: Limit): BenchRow {
  const ratio = ms / plainMs;
  const goal = times === undefined ? `under ${most ?? 0} ms` : `at most ${times} times`;
  return { what, ms, ratio, goal, isMet: times === undefined ? ms < (most ?? 0) : ratio <= times };
}

export const plainRow = (what: string, ms: number): BenchRow => ({ what, ms, ratio: null });

export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? NaN;
}
export const median = (values: readonly number[]): number => quantile(values, 0.5);

export async function since(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}
