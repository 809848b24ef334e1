/**
 * Cuts a region exactly along a straight line: existing corners keep their coordinates, and new corners appear only where
 * a side meets the line. Corners on the line count as beyond it, so that parts joined only by a wall along the line are separated.
 */
import type { Point } from '../book/fields.ts';
import { between, DUST_M } from './point.ts';
import { signedAreaM2, turned } from './polygon.ts';
import { pointInRing, type Region } from './region.ts';

/** The half-plane where x·normal.x + y·normal.y is at least `offsetM`. The normal has length 1. */
export type HalfPlane = { readonly normal: { readonly x: number; readonly y: number }; readonly offsetM: number };

/** Rings smaller than this are rounding errors at a corner that only touches the line. */
const DUST_AREA_M2 = 1e-12;

type Crossing = { readonly point: Point; readonly alongM: number; readonly kind: 'enter' | 'leave'; readonly chain: Chain };
type Chain = { readonly points: Point[]; enter: Crossing | null; leave: Crossing | null };

/** Calculated from the same end for either half, so that the pieces on both sides share exactly equal corners. */
function crossingPoint(a: Point, aDepth: number, b: Point, bDepth: number): Point {
  if (aDepth === 0) return a;
  if (bDepth === 0) return b;
  const isForward = a.xM < b.xM || (a.xM === b.xM && a.yM < b.yM);
  return isForward ? between(a, b, aDepth / (aDepth - bDepth)) : between(b, a, bDepth / (bDepth - aDepth));
}

function cutRing(ring: readonly Point[], half: HalfPlane, whole: (readonly Point[])[], crossings: Crossing[]): void {
  const depths = ring.map((p) => {
    const depth = p.xM * half.normal.x + p.yM * half.normal.y - half.offsetM;
    return Math.abs(depth) < DUST_M ? 0 : depth;
  });
  if (depths.every((depth) => depth > 0)) {
    whole.push(ring);
    return;
  }
  const start = depths.findIndex((depth, i) => depth <= 0 && (depths[(i + 1) % ring.length] ?? 0) > 0);
  if (start < 0) return;
  let chain: Chain = { points: [], enter: null, leave: null };
  for (let step = 0; step < ring.length; step += 1) {
    const i = (start + step) % ring.length;
    const j = (i + 1) % ring.length;
    const [a, b, aDepth, bDepth] = [ring[i], ring[j], depths[i], depths[j]];
    if (a === undefined || b === undefined || aDepth === undefined || bDepth === undefined) continue;
    if (aDepth > 0 === bDepth > 0) {
      if (bDepth > 0) chain.points.push(b);
      continue;
    }
    const point = crossingPoint(a, aDepth, b, bDepth);
    const alongM = point.xM * half.normal.y - point.yM * half.normal.x;
    if (bDepth > 0) {
      chain = { points: [point], enter: null, leave: null };
      chain.enter = { point, alongM, kind: 'enter', chain };
      crossings.push(chain.enter);
      chain.points.push(b);
    } else {
      chain.points.push(point);
      chain.leave = { point, alongM, kind: 'leave', chain };
      crossings.push(chain.leave);
    }
  }
}

/** Exits and entries alternate along the line, so crossings at the same point are ordered to keep that pattern. */
function inTurn(crossings: readonly Crossing[]): readonly Crossing[] {
  const sorted = [...crossings].sort((a, b) => a.alongM - b.alongM);
  for (let i = 0; i < sorted.length; i += 1) {
    const wanted = i % 2 === 0 ? 'leave' : 'enter';
    const crossing = sorted[i];
    if (crossing === undefined || crossing.kind === wanted) continue;
    const swap = sorted.findIndex((other, j) => j > i && other.kind === wanted);
    const other = sorted[swap];
    if (other === undefined) break;
    sorted.splice(swap, 1);
    sorted.splice(i, 0, other);
  }
  return sorted;
}

/** Sorts rings into regions: clockwise rings are outlines, counterclockwise rings are cutouts. */
function regionsFrom(rings: readonly (readonly Point[])[]): readonly Region[] {
  const outlines: { outline: readonly Point[]; holes: (readonly Point[])[]; area: number }[] = [];
  const holes: (readonly Point[])[] = [];
  for (const ring of rings) {
    const area = signedAreaM2(ring);
    if (area > DUST_AREA_M2) outlines.push({ outline: ring, holes: [], area });
    else if (area < -DUST_AREA_M2) holes.push(ring);
  }
  outlines.sort((a, b) => a.area - b.area);
  for (const hole of holes) {
    const holds = outlines.find(({ outline }) => {
      const positions = hole.map((p) => pointInRing(p, outline));
      return positions.includes('inside') || !positions.includes('outside');
    });
    holds?.holes.push(hole);
  }
  return outlines.map(({ outline, holes: own }) => ({ outline, holes: own }));
}

/**
 * The parts of a region on one side of a line.
 * @param region outline and cutouts in either direction, none of which may cross itself
 * @param half the side that is kept
 * @returns the pieces, outlines clockwise on the drawing; empty when nothing is on that side
 */
export function clipToHalfPlane(region: Region, half: HalfPlane): readonly Region[] {
  const whole: (readonly Point[])[] = [];
  const crossings: Crossing[] = [];
  cutRing(turned(region.outline, 'clockwise'), half, whole, crossings);
  for (const hole of region.holes) cutRing(turned(hole, 'counterclockwise'), half, whole, crossings);
  const sorted = inTurn(crossings);
  const follows = new Map<Chain, Chain>();
  for (let i = 0; i + 1 < sorted.length; i += 2) {
    const [leave, enter] = [sorted[i], sorted[i + 1]];
    if (leave !== undefined && enter !== undefined) follows.set(leave.chain, enter.chain);
  }
  const rings: (readonly Point[])[] = [...whole];
  const visited = new Set<Chain>();
  for (const first of follows.keys()) {
    const ring: Point[] = [];
    for (let chain: Chain | undefined = first; chain !== undefined && !visited.has(chain); chain = follows.get(chain)) {
      visited.add(chain);
      ring.push(...chain.points);
    }
    if (ring.length >= 3) rings.push(ring);
  }
  return regionsFrom(rings);
}

/** The other side of the same line. */
export function otherSide(half: HalfPlane): HalfPlane {
  return { normal: { x: -half.normal.x, y: -half.normal.y }, offsetM: -half.offsetM };
}
