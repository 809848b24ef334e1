/** A section through the floor along a line on the plan: existing floor, floor after grinding, and the finish above it. */
import type { Point } from '../book/fields.ts';
import { type ProfilePoint, profilesAlong } from './profile.ts';
import type { RoomRings } from './room-rings.ts';
import type { Surface } from './surface.ts';

/** A point of the section. Heights on the readings' scale, meters. */
export type SectionPoint = ProfilePoint & {
  /** Floor after grinding; the existing floor where nothing is ground. */
  readonly groundM: number;
  /** Top of the pour; the floor after grinding where nothing is poured. */
  readonly finishedM: number;
  readonly depthM: number;
};

/** The stretches of the line on the floor, each with its points in order. */
export type Section = {
  readonly lengthM: number;
  readonly stretches: readonly (readonly SectionPoint[])[];
  readonly lowestM: number;
};

/** Gaps between stretches, by distance along the line: across a notch, a column, or an island. */
export function gapsOf(section: Pick<Section, 'stretches'>): readonly { readonly fromM: number; readonly toM: number }[] {
  const stretches = section.stretches.filter((stretch) => stretch.length > 0);
  return stretches.slice(1).map((stretch, i) => ({ fromM: stretches[i]?.at(-1)?.alongM ?? 0, toM: stretch[0]?.alongM ?? 0 }));
}

/** The floor after grinding and the top of the pour at a point whose floor is at zM. */
export type FinishAt = (xM: number, yM: number, zM: number) => { readonly groundM: number; readonly finishedM: number };

/**
 * The section along a line. Points are added where the finish or the grinding begins or ends, so that straight lines between
 * points are exact.
 */
export function sectionAlong(surface: Surface, room: RoomRings, from: Point, to: Point, finishAt: FinishAt): Section {
  let lowestM = Number.POSITIVE_INFINITY;
  const finished = (point: ProfilePoint): SectionPoint => {
    const { groundM, finishedM } = finishAt(point.xM, point.yM, point.zM);
    lowestM = Math.min(lowestM, point.zM, groundM);
    return { ...point, groundM, finishedM, depthM: finishedM - groundM };
  };
  const stretches = profilesAlong(surface, room, from, to).map((profile) => {
    const points: SectionPoint[] = [];
    profile.forEach((point, i) => {
      const before = profile[i - 1];
      if (before) for (const turn of turnsBetween(before, point, finishAt)) points.push(finished(turn));
      points.push(finished(point));
    });
    return points;
  });
  return { lengthM: Math.hypot(to.xM - from.xM, to.yM - from.yM), stretches, lowestM };
}

/** Where depth or grinding, linear on either side, changes between two points: found by halving, at most four of them. */
function turnsBetween(a: ProfilePoint, b: ProfilePoint, finishAt: FinishAt): ProfilePoint[] {
  const pointAt = (s: number): ProfilePoint => ({
    alongM: a.alongM + s * (b.alongM - a.alongM),
    xM: a.xM + s * (b.xM - a.xM),
    yM: a.yM + s * (b.yM - a.yM),
    zM: a.zM + s * (b.zM - a.zM),
  });
  const state = (point: ProfilePoint): string => {
    const { groundM, finishedM } = finishAt(point.xM, point.yM, point.zM);
    return `${finishedM > groundM + 1e-9} ${groundM < point.zM - 1e-9}`;
  };
  const turns: ProfilePoint[] = [];
  const seek = (s0: number, s1: number, depth: number): void => {
    if (state(pointAt(s0)) === state(pointAt(s1)) || depth > 30) {
      if (depth > 30) turns.push(pointAt((s0 + s1) / 2));
      return;
    }
    const middle = (s0 + s1) / 2;
    seek(s0, middle, depth + 1);
    seek(middle, s1, depth + 1);
  };
  seek(0, 1, 0);
  return turns;
}
