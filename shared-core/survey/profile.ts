/** The floor along a straight line: every crease it crosses, so that the profile is exact between its points. */
import type { Point } from '../book/fields.ts';
import { type RoomRings, stretchesOnFloor } from './room-rings.ts';
import { type Surface, heightAt } from './surface.ts';
import { real, whole } from './typed-reads.ts';

/** A point of a profile: distance along the line from its start and the floor's height there, meters. */
export type ProfilePoint = { readonly alongM: number; readonly xM: number; readonly yM: number; readonly zM: number };

/** The floor along the line, one list of points for each stretch that is on the floor. */
export function profilesAlong(surface: Surface, room: RoomRings, from: Point, to: Point): ProfilePoint[][] {
  const stretches = stretchesOnFloor(room, from, to);
  if (stretches.length === 0) return [];
  const lengthM = Math.hypot(to.xM - from.xM, to.yM - from.yM);
  const ux = (to.xM - from.xM) / lengthM;
  const uy = (to.yM - from.yM) / lengthM;
  const { xM, yM, zM, creases } = surface;
  const crossings: { alongM: number; zM: number }[] = [];
  const along = (i: number): number => (real(xM, i) - from.xM) * ux + (real(yM, i) - from.yM) * uy;
  for (let k = 0; k < creases.length; k += 2) {
    const a = whole(creases, k);
    const b = whole(creases, k + 1);
    const va = (real(yM, a) - from.yM) * ux - (real(xM, a) - from.xM) * uy;
    const vb = (real(yM, b) - from.yM) * ux - (real(xM, b) - from.xM) * uy;
    if ((va > 0 && vb > 0) || (va < 0 && vb < 0)) continue;
    if (va === vb) {
      crossings.push({ alongM: along(a), zM: real(zM, a) }, { alongM: along(b), zM: real(zM, b) });
      continue;
    }
    const s = va / (va - vb);
    const alongM = along(a) + s * (along(b) - along(a));
    crossings.push({ alongM, zM: real(zM, a) + s * (real(zM, b) - real(zM, a)) });
  }
  crossings.sort((a, b) => a.alongM - b.alongM);
  const profiles: ProfilePoint[][] = [];
  for (let k = 0; k + 1 < stretches.length; k += 2) {
    const start = stretches[k] ?? 0;
    const end = stretches[k + 1] ?? 0;
    const place = (alongM: number): Point => ({ xM: from.xM + alongM * ux, yM: from.yM + alongM * uy });
    const atStart = place(start);
    const atEnd = place(end);
    const points: ProfilePoint[] = [{ alongM: start, ...atStart, zM: heightAt(surface, atStart.xM, atStart.yM).zM }];
    let last = start;
    for (const crossing of crossings) {
      if (crossing.alongM <= last + 1e-9 || crossing.alongM >= end - 1e-9) continue;
      points.push({ ...crossing, ...place(crossing.alongM) });
      last = crossing.alongM;
    }
    points.push({ alongM: end, ...atEnd, zM: heightAt(surface, atEnd.xM, atEnd.yM).zM });
    profiles.push(points);
  }
  return profiles;
}
