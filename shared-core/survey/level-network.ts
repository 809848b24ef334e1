/**
 * Heights without a laser: runs of a level moved end over end, of gaps under a straightedge, and of a water level. All runs
 * together are one leveling network, solved by weighted least squares (C. D. Ghilani, Adjustment Computations, chapter 12).
 * A loop that returns to its start shows its closing error.
 */
import { newSurvey } from '../book/new-records.ts';
import type { Point } from '../book/fields.ts';
import type { LevelRun, Reading, Survey } from '../book/plan-fields.ts';
import { dotColumns, factorize } from './covariance.ts';
import { SAME_SPOT_M } from './heights.ts';

/** One measured difference: the combination of unknowns that `value` measures, and its standard deviation. */
export type Observation = {
  readonly terms: readonly (readonly [unknown: number, factor: number])[];
  readonly value: number;
  readonly sd: number;
};

/** The solution of a network. */
export type Adjusted = {
  readonly values: readonly number[];
  /** Standard deviation of each value, from the sds of the observations alone. */
  readonly sds: readonly number[];
  /**
   * Root of the weighted sum of squared residuals per observation beyond the minimum; 1 where the sds are right, null
   * without any beyond it.
   */
  readonly unitSd: number | null;
};

/** A pivot this small relative to its sum of weights carries no information. */
const SINGULAR = 1e-10;

/**
 * Weighted least squares by the normal equations.
 * @returns null where the observations do not determine an unknown
 */
export function adjust(unknowns: number, observations: readonly Observation[]): Adjusted | null {
  const n = unknowns;
  // The normal equations, their right-hand side in column n, and the identity beside them, which becomes the factor's inverse.
  const columns = 2 * n + 1;
  const matrix = new Float64Array(n * columns);
  for (const { terms, value, sd } of observations) {
    const weight = 1 / sd ** 2;
    for (const [i, a] of terms) {
      matrix[i * columns + n] = (matrix[i * columns + n] ?? 0) + weight * a * value;
      for (const [j, b] of terms) if (j >= i) matrix[i * columns + j] = (matrix[i * columns + j] ?? 0) + weight * a * b;
    }
  }
  for (let i = 0; i < n; i += 1) matrix[i * columns + n + 1 + i] = 1;
  const diagonal = (i: number): number => matrix[i * columns + i] ?? 0;
  const sums = Array.from({ length: n }, (_, i) => diagonal(i));
  if (factorize(matrix, n, columns) === null || sums.some((sum, i) => diagonal(i) ** 2 < SINGULAR * sum)) return null;
  const values = Array.from({ length: n }, () => 0);
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = matrix[i * columns + n] ?? 0;
    for (let k = i + 1; k < n; k += 1) sum -= (matrix[i * columns + k] ?? 0) * (values[k] ?? 0);
    values[i] = sum / diagonal(i);
  }
  const sds = values.map((_, i) => Math.sqrt(dotColumns(matrix, n, columns, n + 1 + i, n + 1 + i)));
  const redundancy = observations.length - n;
  const squares = observations.reduce(
    (squared, { terms, value, sd }) => squared + ((value - terms.reduce((sum, [i, a]) => sum + a * (values[i] ?? 0), 0)) / sd) ** 2,
    0,
  );
  return { values, sds, unitSd: redundancy > 0 ? Math.sqrt(squares / redundancy) : null };
}

/** Standard deviation of one reading with each tool, meters. Common practice, no source. */
const TOOL_SD_M: Readonly<Record<LevelRun['tool'], number>> = {
  level: 0.0015,
  'level-gaps': 0.001,
  straightedge: 0.001,
  'water-level': 0.0015,
};
/** A loop that returned to its start. */
export type Closing = {
  readonly runIds: readonly string[];
  /** Signed closing error of the loop, meters. */
  readonly errorM: number;
  /** Twice the standard deviation of this many setups: the closing error grows with the square root of their number. */
  readonly allowedM: number;
  readonly setups: number;
};

/** The floor measured by the runs. */
export type LeveledFloor = {
  readonly readings: readonly Reading[];
  readonly closings: readonly Closing[];
  /** One standard deviation of a height, meters: larger than the tools' own where the runs disagree. */
  readonly readingErrorM: number;
};
export type LevelAnswer = { readonly ok: true; readonly floor: LeveledFloor } | { readonly ok: false; readonly message: string };

/** The stations of a run, first to last. A level's run has one more station than values. */
export function stationsOf(run: LevelRun): Point[] {
  const count = run.tool === 'level' ? run.valuesM.length + 1 : run.valuesM.length;
  const angle = (run.angleDeg * Math.PI) / 180;
  return Array.from({ length: count }, (_, i) => ({
    xM: run.from.xM + i * run.stepM * Math.cos(angle),
    yM: run.from.yM + i * run.stepM * Math.sin(angle),
  }));
}

/** The end of a run, where the next one usually begins. */
export function endOf(run: LevelRun): Point {
  return stationsOf(run).at(-1) ?? run.from;
}

const isSame = (a: Point, b: Point): boolean => Math.hypot(a.xM - b.xM, a.yM - b.yM) < SAME_SPOT_M;

/** Points of all runs, each once. */
function pointIndex(): { readonly points: Point[]; readonly indexOf: (point: Point) => number } {
  const points: Point[] = [];
  const indexOf = (point: Point): number => {
    const index = points.findIndex((known) => isSame(known, point));
    return index >= 0 ? index : points.push(point) - 1;
  };
  return { points, indexOf };
}

/**
 * Solves the runs. The first point has height 0.
 * @returns readings as heights, the closing error of each loop, and the resulting reading error
 */
export function levelFloor(runs: readonly LevelRun[]): LevelAnswer {
  const used = runs.filter((run) => run.valuesM.length > 0);
  const { points, indexOf } = pointIndex();
  const runPoints = used.map((run) => stationsOf(run).map(indexOf));
  const open = pieces(used, runPoints, points.length);
  if (points.length < 3) return { ok: false, message: 'Enter at least three points.' };
  if (open !== null) return { ok: false, message: open };
  let unknowns = points.length - 1;
  const observations: Observation[] = [];
  const height = (point: number, factor: number): (readonly [number, number])[] => (point === 0 ? [] : [[point - 1, factor]]);
  used.forEach((run, r) => {
    const stations = runPoints[r] ?? [];
    const sd = TOOL_SD_M[run.tool];
    if (run.tool === 'level') {
      run.valuesM.forEach((value, i) =>
        observations.push({ terms: [...height(stations[i + 1] ?? 0, 1), ...height(stations[i] ?? 0, -1)], value, sd }),
      );
      return;
    }
    const offset = unknowns;
    unknowns += run.tool === 'straightedge' ? 2 : 1;
    const observe = (point: number, distanceM: number, value: number): void => {
      const tilt: (readonly [number, number])[] = run.tool === 'straightedge' ? [[offset + 1, distanceM]] : [];
      // A gap is measured down from the straightedge or the water to the floor.
      observations.push({ terms: [...height(point, 1), [offset, -1], ...tilt.map(([i, d]) => [i, -d] as const)], value: -value, sd });
    };
    run.valuesM.forEach((value, i) => observe(stations[i] ?? 0, i * run.stepM, value));
    if (run.againM !== null) observe(stations[0] ?? 0, 0, run.againM);
  });
  const adjusted = adjust(unknowns, observations);
  if (adjusted === null)
    return { ok: false, message: 'A straightedge alone does not show slope. Add a run with a level or a water level that meets it.' };
  const heights = [0, ...adjusted.values.slice(0, points.length - 1)];
  const toolSdM = Math.sqrt(adjusted.sds.slice(0, points.length - 1).reduce((sum, sd) => sum + sd * sd, 0) / (points.length - 1));
  return {
    ok: true,
    floor: {
      readings: points.map((point, i) => ({ id: `level-${i}`, ...point, valueM: heights[i] ?? 0, note: null, confirmed: false })),
      closings: closingsOf(used),
      readingErrorM: toolSdM * Math.max(1, adjusted.unitSd ?? 1),
    },
  };
}

/** Reports runs that share no point with the others and so break the network apart. */
function pieces(runs: readonly LevelRun[], runPoints: readonly (readonly number[])[], count: number): string | null {
  const group = Array.from({ length: count }, (_, i) => i);
  const root = (i: number): number => (group[i] === i || group[i] === undefined ? i : root(group[i]));
  for (const stations of runPoints) for (const point of stations) group[root(point)] = root(stations[0] ?? point);
  const roots = new Set(group.map((_, i) => root(i)));
  if (roots.size < 2) return null;
  const separate = runs.findIndex((_, r) => root(runPoints[r]?.[0] ?? 0) !== root(0));
  return `Run ${separate + 1} meets no other run. Start it at a point of another run.`;
}

/** Loops of a level continued from run to run, and water levels read again at their first point. */
function closingsOf(runs: readonly LevelRun[]): Closing[] {
  const closings: Closing[] = [];
  let chain: LevelRun[] = [];
  for (const run of runs) {
    if (run.tool !== 'level') {
      if (run.againM !== null)
        closings.push({
          runIds: [run.id],
          errorM: run.againM - (run.valuesM[0] ?? 0),
          allowedM: 2 * Math.SQRT2 * TOOL_SD_M[run.tool],
          setups: 1,
        });
      continue;
    }
    const last = chain.at(-1);
    chain = last !== undefined && isSame(endOf(last), run.from) ? [...chain, run] : [run];
    const [first] = chain;
    if (first === undefined || !isSame(endOf(run), first.from)) continue;
    const values = chain.flatMap((link) => link.valuesM);
    closings.push({
      runIds: chain.map((link) => link.id),
      errorM: values.reduce((sum, value) => sum + value, 0),
      allowedM: 2 * TOOL_SD_M.level * Math.sqrt(values.length),
      setups: values.length,
    });
    chain = [];
  }
  return closings;
}

/** The first loop whose closing error is larger than its setups allow; null when all close. */
export function badClosing(closings: readonly Closing[]): Closing | null {
  return closings.find(({ errorM, allowedM }) => Math.abs(errorM) > allowedM) ?? null;
}

/**
 * A survey calculated from runs. It has no readings while the runs do not solve or a loop closes badly. A point stays confirmed
 * while its height is the same within its error.
 */
export function surveyFromRuns(survey: Survey, runs: readonly LevelRun[]): Survey {
  const { runs: _before, ...rest } = survey;
  // Without runs it is for laser readings again, with their direction and their error.
  if (runs.length === 0) return { ...rest, ...newSurvey() };
  const solved = levelFloor(runs);
  if (!solved.ok || badClosing(solved.floor.closings) !== null) return { ...rest, runs: [...runs], readings: [] };
  const { readings, readingErrorM } = solved.floor;
  const isConfirmed = (reading: Reading): boolean =>
    survey.readings.some((r) => r.confirmed && isSame(r, reading) && Math.abs(r.valueM - reading.valueM) <= readingErrorM);
  const kept = readings.map((reading) => ({ ...reading, confirmed: isConfirmed(reading) }));
  return { ...rest, runs: [...runs], method: 'height', readings: kept, readingErrorM };
}
