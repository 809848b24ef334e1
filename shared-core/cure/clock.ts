/**
 * Adjusted hours that depend on the room's air: curing by equivalent age, drying by drying potential. The rate is integrated
 * along each straight piece of the history; below the minimum temperature no hours count.
 */
import { cutPiece, HOUR_MS, type Piece } from './temperature-history.ts';

/** Adjusted hours per real hour at a temperature and a humidity (share). Never negative. */
export type Rate = (tempC: number, humidity: number) => number;

export type Interval = { readonly fromMs: number; readonly toMs: number };

/** Gauss–Legendre nodes and weights on [0, 1], five points (Abramowitz and Stegun, table 25.4). */
const NODES: readonly (readonly [number, number])[] = [
  [0.5, 0.28444444444444444],
  [0.23076534494715845, 0.2393143352496832],
  [0.7692346550528415, 0.2393143352496832],
  [0.046910077030668, 0.11846344252809454],
  [0.953089922969332, 0.11846344252809454],
];

/** Within this many degrees five points integrate an Arrhenius rate to better than one part in 10^11. */
const DEGREES_A_STEP = 8;

/** Adjusted hours over one finite piece, ignoring the minimum temperature. */
function gain(piece: Piece, rate: Rate): number {
  const hours = (piece.toMs - piece.fromMs) / HOUR_MS;
  if (hours <= 0) return 0;
  const dT = piece.toC - piece.fromC;
  const dH = piece.toHumidity - piece.fromHumidity;
  if (dT === 0 && dH === 0) return hours * rate(piece.fromC, piece.fromHumidity);
  const steps = Math.max(1, Math.ceil(Math.abs(dT) / DEGREES_A_STEP));
  let sum = 0;
  for (let k = 0; k < steps; k++) {
    for (const [x, weight] of NODES) {
      const share = (k + x) / steps;
      sum += weight * rate(piece.fromC + dT * share, piece.fromHumidity + dH * share);
    }
  }
  return (hours * sum) / steps;
}

/** Cuts pieces where the temperature crosses `leastC`, with a flag whether hours count. */
export function runningParts(pieces: readonly Piece[], leastC: number): readonly (Piece & { readonly runs: boolean })[] {
  const parts: (Piece & { runs: boolean })[] = [];
  for (const p of pieces) {
    const crosses = p.fromC < leastC !== p.toC < leastC && Number.isFinite(p.toMs);
    if (!crosses) {
      parts.push({ ...p, runs: Math.max(p.fromC, p.toC) >= leastC });
      continue;
    }
    const crossingMs = p.fromMs + ((leastC - p.fromC) / (p.toC - p.fromC)) * (p.toMs - p.fromMs);
    parts.push(
      { ...cutPiece(p, p.fromMs, crossingMs), runs: p.fromC >= leastC },
      { ...cutPiece(p, crossingMs, p.toMs), runs: p.toC >= leastC },
    );
  }
  return parts;
}

type Parts = ReturnType<typeof runningParts>;
const partsKnown = new WeakMap<readonly Piece[], { readonly leastC: number; readonly parts: Parts }>();

/** The same, cut once for all clocks that run over one history. */
function partsOf(pieces: readonly Piece[], leastC: number): Parts {
  const known = partsKnown.get(pieces);
  if (known?.leastC === leastC) return known.parts;
  const parts = runningParts(pieces, leastC);
  partsKnown.set(pieces, { leastC, parts });
  return parts;
}

/** Times below the minimum temperature in measured or bridged pieces, joined where they touch. */
export function stoodStill(pieces: readonly Piece[], leastC: number): readonly Interval[] {
  const intervals: { fromMs: number; toMs: number }[] = [];
  for (const part of runningParts(pieces, leastC)) {
    if (part.runs || part.toMs <= part.fromMs || !Number.isFinite(part.toMs)) continue;
    const before = intervals.at(-1);
    if (before !== undefined && before.toMs === part.fromMs) before.toMs = part.toMs;
    else intervals.push({ fromMs: part.fromMs, toMs: part.toMs });
  }
  return intervals;
}

/** The integral of a rate over a history, for many lookups. */
export type Clock = {
  /** Adjusted hours from the start of the history to an instant. */
  readonly hoursAt: (atMs: number) => number;
  /** When the adjusted hours reach `hours`; null when they never do at the assumed temperature. */
  readonly whenMs: (hours: number) => number | null;
};

/** Halvings of a piece: 2^-48 of a piece of months is far under a millisecond. */
const HALVINGS = 48;

/** When a finite piece has given some hours: by Newton's method, and by halving where the rate gives no step inside the bounds. */
function within(part: Piece, rate: Rate, hours: number): number {
  let low = part.fromMs;
  let high = part.toMs;
  let at = (low + high) / 2;
  for (let i = 0; i < HALVINGS && high - low > 1e-3; i++) {
    const done = cutPiece(part, part.fromMs, at);
    const missing = hours - gain(done, rate);
    if (missing > 0) low = at;
    else high = at;
    const next = at + (missing / rate(done.toC, done.toHumidity)) * HOUR_MS;
    if (Math.abs(next - at) <= 1e-3) return next;
    at = next > low && next < high ? next : (low + high) / 2;
  }
  return high;
}

/** Index of the last entry that is at most `value`, in an ascending list whose first entry is. */
function lastAtMost(list: Float64Array, count: number, value: number): number {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const mid = (low + high + 1) >> 1;
    if ((list[mid] ?? Infinity) <= value) low = mid;
    else high = mid - 1;
  }
  return low;
}

/**
 * Integrates a rate over a history. @param pieces from `temperatureHistory`; the last has no end @param leastC below this no hours count
 */
export function runClock(pieces: readonly Piece[], rate: Rate, leastC: number): Clock {
  const parts = partsOf(pieces, leastC);
  const starts = new Float64Array(parts.length);
  const sums = new Float64Array(parts.length);
  let sum = 0;
  parts.forEach((part, i) => {
    starts[i] = part.fromMs;
    sums[i] = sum;
    if (part.runs && Number.isFinite(part.toMs)) sum += gain(part, rate);
  });
  const hoursAt = (atMs: number): number => {
    const i = lastAtMost(starts, parts.length, atMs);
    const part = parts[i];
    const before = sums[i] ?? 0;
    if (part === undefined || atMs <= part.fromMs || !part.runs) return before;
    return before + gain(cutPiece(part, part.fromMs, Math.min(atMs, part.toMs)), rate);
  };
  const whenMs = (hours: number): number | null => {
    if (hours <= 0) return parts[0]?.fromMs ?? null;
    let i = lastAtMost(sums, parts.length, hours);
    // Paused parts share one sum; the first of them is when the hours were reached.
    while (i > 0 && sums[i] === hours) i--;
    const part = parts[i];
    if (part === undefined) return null;
    const need = hours - (sums[i] ?? 0);
    if (Number.isFinite(part.toMs)) return within(part, rate, need);
    const speed = part.runs ? rate(part.fromC, part.fromHumidity) : 0;
    return speed > 0 ? part.fromMs + (need / speed) * HOUR_MS : null;
  };
  return { hoursAt, whenMs };
}

const clocksKnown = new WeakMap<readonly Piece[], Map<string, Clock>>();

/**
 * The same, cached for all milestones, because a logger file has thousands of pieces. @param name identifies the rate
 */
export function clockOver(pieces: readonly Piece[], name: string, rate: Rate, leastC: number): Clock {
  const known = clocksKnown.get(pieces) ?? new Map<string, Clock>();
  clocksKnown.set(pieces, known);
  const key = `${name} ${leastC}`;
  const clock = known.get(key) ?? runClock(pieces, rate, leastC);
  known.set(key, clock);
  return clock;
}
