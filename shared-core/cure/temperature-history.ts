/**
 * The room's temperature from the pour on, as straight pieces: between readings a straight line, before the first and
 * after the last what is assumed. Every piece says whether it was read, bridges a gap, or is assumed.
 */
import type { CureReading } from '../book/cure-record.ts';

export const HOUR_MS = 3_600_000;

/** A longer time without readings is a gap. Common practice: at least one reading per shift. */
export const GAP_HOURS = 8;

export type Piece = {
  readonly fromMs: number;
  /** Infinity for the last piece, which goes on as assumed. */
  readonly toMs: number;
  readonly fromC: number;
  readonly toC: number;
  /** Shares 0 to 1. */
  readonly fromHumidity: number;
  readonly toHumidity: number;
  readonly known: 'read' | 'gap' | 'assumed';
};

export type Assumed = { readonly tempC: number; readonly humidity: number };

export type HistoryInput = {
  readonly startMs: number;
  /** In any order; readings before the start only serve to find the temperature at the start. */
  readonly readings: readonly CureReading[];
  readonly assumed: Assumed;
  /** What a gap longer than `GAP_HOURS` is taken to be: a line from reading to reading, or the assumed temperature. */
  readonly gaps: 'line' | 'assumed';
};

type Point = { readonly atMs: number; readonly tempC: number; readonly humidity: number };

/** Readings in order of time, one per instant (the last given wins), with a missing humidity replaced by the assumed one. */
function inOrder(readings: readonly CureReading[], assumedHumidity: number): Point[] {
  const points = readings
    .map((r) => ({ atMs: Date.parse(r.instant), tempC: r.tempC, humidity: r.relativeHumidity ?? assumedHumidity }))
    .sort((a, b) => a.atMs - b.atMs);
  return points.filter((p, i) => points[i + 1]?.atMs !== p.atMs);
}

const between = (a: number, b: number, share: number): number => a + (b - a) * share;

/** A part of a piece, cut at two instants inside it. */
export function cutPiece(piece: Piece, fromMs: number, toMs: number): Piece {
  const length = piece.toMs - piece.fromMs;
  if (!Number.isFinite(length)) return { ...piece, fromMs, toMs };
  const shareAt = (ms: number) => (length === 0 ? 0 : (ms - piece.fromMs) / length);
  return {
    ...piece,
    fromMs,
    toMs,
    fromC: between(piece.fromC, piece.toC, shareAt(fromMs)),
    toC: between(piece.fromC, piece.toC, shareAt(toMs)),
    fromHumidity: between(piece.fromHumidity, piece.toHumidity, shareAt(fromMs)),
    toHumidity: between(piece.fromHumidity, piece.toHumidity, shareAt(toMs)),
  };
}

function assumedPiece(fromMs: number, toMs: number, assumed: Assumed): Piece {
  const { tempC, humidity } = assumed;
  return { fromMs, toMs, fromC: tempC, toC: tempC, fromHumidity: humidity, toHumidity: humidity, known: 'assumed' };
}

/** Temperature before the first reading: its value when it is soon after the pour, otherwise the assumed one. */
function opening(startMs: number, first: Point, assumed: Assumed): Piece[] {
  if (first.atMs <= startMs) return [];
  if (first.atMs - startMs > GAP_HOURS * HOUR_MS) return [assumedPiece(startMs, first.atMs, assumed)];
  return [{ ...assumedPiece(startMs, first.atMs, { tempC: first.tempC, humidity: first.humidity }), known: 'read' }];
}

/**
 * Builds the history from the start without end.
 * @returns pieces that touch end to end; the last is assumed and has no end.
 */
export function temperatureHistory(input: HistoryInput): readonly Piece[] {
  const { startMs, assumed } = input;
  const points = inOrder(input.readings, assumed.humidity);
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined || last.atMs <= startMs) return [assumedPiece(startMs, Infinity, assumed)];
  const pieces = opening(startMs, first, assumed);
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1];
    const b = points[i];
    if (a === undefined || b === undefined || b.atMs <= startMs) continue;
    const gap = b.atMs - a.atMs > GAP_HOURS * HOUR_MS;
    const line: Piece = {
      fromMs: a.atMs,
      toMs: b.atMs,
      fromC: a.tempC,
      toC: b.tempC,
      fromHumidity: a.humidity,
      toHumidity: b.humidity,
      known: gap ? 'gap' : 'read',
    };
    const from = Math.max(a.atMs, startMs);
    if (gap && input.gaps === 'assumed') pieces.push({ ...assumedPiece(from, b.atMs, assumed), known: 'gap' });
    else pieces.push(from === a.atMs ? line : cutPiece(line, from, b.atMs));
  }
  pieces.push(assumedPiece(last.atMs, Infinity, assumed));
  return pieces;
}
