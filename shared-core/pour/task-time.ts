/** Duration of a task: a triangular range from the record, or a fixed or exponential time for checks against theory. */
import type { Triangular } from '../book/task-times.ts';
import { nextUnit, type RandomState } from './random.ts';

export type TaskTime =
  | { readonly kind: 'fixed'; readonly min: number }
  | ({ readonly kind: 'triangular' } & Triangular)
  | { readonly kind: 'exponential'; readonly meanMin: number };

export const triangular = (time: Triangular): TaskTime => ({ kind: 'triangular', ...time });
export const fixed = (min: number): TaskTime => ({ kind: 'fixed', min });
export const exponential = (meanMin: number): TaskTime => ({ kind: 'exponential', meanMin });

/** Mean of a task's time, minutes. Triangular: (a + b + c) / 3 (NIST/SEMATECH e-Handbook has the moments; from memory). */
export function meanMin(time: TaskTime): number {
  if (time.kind === 'fixed') return time.min;
  if (time.kind === 'exponential') return time.meanMin;
  return (time.least + time.usual + time.most) / 3;
}

/** Numbers for sampling one time, in a row of `ROW` places: minimum, maximum, cumulative probability at the mode, rise, fall, form. */
export const ROW = 6;
const FIXED = 0;
const TRIANGULAR = 1;
const EXPONENTIAL = 2;

/** The rows of several tasks, ready for sampling. */
export function taskRows(times: readonly TaskTime[]): Float64Array {
  const rows = new Float64Array(times.length * ROW);
  times.forEach((time, i) => {
    if (time.kind === 'exponential') rows.set([time.meanMin, 0, 0, 0, 0, EXPONENTIAL], i * ROW);
    else if (time.kind === 'fixed') rows.set([time.min, 0, 0, 0, 0, FIXED], i * ROW);
    else {
      const span = time.most - time.least;
      if (span <= 0) rows.set([time.least, 0, 0, 0, 0, FIXED], i * ROW);
      else {
        const rise = time.usual - time.least;
        const fall = time.most - time.usual;
        rows.set([time.least, time.most, rise / span, span * rise, span * fall, TRIANGULAR], i * ROW);
      }
    }
  });
  return rows;
}

/** One sampled time of a task by the inverse of its distribution, minutes; draws one random number unless the time is fixed. */
export function sampleMin(rows: Float64Array, task: number, random: RandomState): number {
  const row = task * ROW;
  const form = rows[row + 5];
  const first = rows[row] ?? 0;
  if (form === FIXED) return first;
  const unit = nextUnit(random);
  if (form === EXPONENTIAL) return -first * Math.log(1 - unit);
  return unit < (rows[row + 2] ?? 0)
    ? first + Math.sqrt(unit * (rows[row + 3] ?? 0))
    : (rows[row + 1] ?? 0) - Math.sqrt((1 - unit) * (rows[row + 4] ?? 0));
}
