/** How the bags of a room are divided among its pours: by lift, and by section within a lift. */
import type { PourPlan } from '../book/job.ts';
import { type LiftPlan, liftDepthM } from '../material/lifts.ts';
import { areaOf, type Region, regionAreaM2, roomRegion } from '../plan/region.ts';
import { acrossM, alongM, axesAt, cornersOf, pointAt, spansAcross } from './axes.ts';
import { openM2, type PourRoom, sectionsOf } from './room-bays.ts';

/** Share of a room's bags by lift, the lowest first, and within a lift by section in pouring order; together 1. */
export type FillShares = readonly (readonly number[])[];

/** A room with its plan of the pour; null before there is one. */
export type DividedRoom = { readonly plan: PourRoom['plan']; readonly pourPlan: PourPlan | null };

/** The depth is read at about this many places along and across a section. Our choice, no source. */
const READS = 48;
/** A share below this is rounding. */
const NO_SHARE = 1e-4;

/** The sections that are poured on days of their own; one where all of the room is poured together. */
function dividedInto({ plan, pourPlan }: DividedRoom): readonly Region[] {
  return pourPlan?.section == null ? [roomRegion(plan)] : sectionsOf({ plan, pourPlan });
}

/** Sections of a lift that are poured on a day of their own, after the first. */
export const laterSections = (room: DividedRoom): number => (room.plan.outline.length < 3 ? 0 : dividedInto(room).length - 1);

/** Volume of each lift on a piece of floor, by midpoints, m3. */
function liftVolumesM3(piece: Region, depthM: (xM: number, yM: number) => number, lifts: LiftPlan | null, count: number): number[] {
  const axes = axesAt(0);
  const [us, vs] = [alongM, acrossM].map((of) => cornersOf([piece]).map((corner) => of(axes, corner)));
  const span = (values: readonly number[] = []): number => Math.max(...values) - Math.min(...values);
  const fromM = Math.min(...(us ?? []));
  const [stepM, acrossStepM] = [span(us) / READS, span(vs) / READS];
  const volumes = Array.from({ length: count }, () => 0);
  for (let i = 0; i < READS; i++) {
    const u = fromM + (i + 0.5) * stepM;
    const spans = spansAcross([piece], axes, u);
    for (let s = 0; s + 1 < spans.length; s += 2) {
      const [start, end] = [spans[s] ?? 0, spans[s + 1] ?? 0];
      const reads = Math.max(1, Math.ceil((end - start) / acrossStepM - 1e-9));
      const cellM2 = (stepM * (end - start)) / reads;
      for (let read = 0; read < reads; read++) {
        const { xM, yM } = pointAt(axes, u, start + ((read + 0.5) * (end - start)) / reads);
        const wholeM = Math.max(0, depthM(xM, yM));
        for (let n = 0; n < count; n++) volumes[n] = (volumes[n] ?? 0) + liftDepthM(wholeM, lifts, n + 1) * cellM2;
      }
    }
  }
  return volumes;
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0);

/**
 * Divides the bags of a room among its lifts, and those of each lift among its sections by volume.
 * @param liftBags bags of each lift, the lowest first, because a lift with aggregate takes fewer for its volume
 * @param depthM depth of all lifts together at a place of the room, meters
 * @returns one lift of one section where nothing divides it; empty without an outline or without any bags
 */
export function fillShares(
  room: DividedRoom,
  lifts: LiftPlan | null,
  liftBags: readonly number[],
  depthM: (xM: number, yM: number) => number,
): FillShares {
  const all = sumOf(liftBags);
  if (room.plan.outline.length < 3 || all <= 0) return [];
  const sections = dividedInto(room);
  if (sections.length < 2) return liftBags.map((bags) => [bags / all]);
  const bySection = sections.map((section) => liftVolumesM3(section, depthM, lifts, liftBags.length));
  return liftBags.map((bags, n) => {
    const volumes = bySection.map((ofLift) => ofLift[n] ?? 0);
    const liftM3 = sumOf(volumes);
    return volumes.map((volumeM3) => ((liftM3 > 0 ? volumeM3 / liftM3 : 1 / volumes.length) * bags) / all);
  });
}

/** One lift of a room: its number from 1, the lowest, of how many, and the floor of it still open; null for all. */
export type OpenLift = { readonly number: number; readonly of: number; readonly open: readonly Region[] | null };

/**
 * Shares of a room's bags that the pours of one lift place, the next pour first: one, or the chosen section and then each of the others.
 * Where the shares are not known, each lift is as large as the others, and a section is as large as its area.
 */
export function liftPours(shares: FillShares, room: DividedRoom, { number, of, open }: OpenLift): readonly number[] {
  const known = shares.length === of ? (shares[Math.min(number, of) - 1] ?? []) : [];
  const liftShare = known.length === 0 ? 1 / of : known.reduce((sum, one) => sum + one, 0);
  if (room.plan.outline.length < 3) return [liftShare];
  const sections = dividedInto(room);
  if (sections.length < 2 && open === null) return [liftShare];
  const areaM2 = areaOf(sections);
  const left = sections.map((section, i) => {
    const ofSectionM2 = Math.max(1e-9, regionAreaM2(section));
    const whole = known.length === sections.length ? (known[i] ?? 0) : (liftShare * ofSectionM2) / Math.max(1e-9, areaM2);
    return whole * Math.min(1, openM2(section, open) / ofSectionM2);
  });
  const chosen = room.pourPlan?.section ?? null;
  const first = chosen === null ? undefined : sections[chosen - 1];
  // A section that is placed is not poured again: then all that is open is one pour.
  const isTogether = first === undefined || openM2(first, open) === 0;
  const divided = isTogether
    ? [left.reduce((sum, one) => sum + one, 0)]
    : [left[sections.indexOf(first)] ?? 0, ...left.filter((_, i) => sections[i] !== first)];
  const pours = divided.filter((share) => share > NO_SHARE);
  return pours.length === 0 ? [0] : pours;
}

/**
 * Share of a room's bags that the next pour of a lift places; null where the shares are not known.
 * @param lift from 1, the lowest; past the last it is the last
 * @param open floor of the lift still open; null for all
 */
export function nextShare(shares: FillShares, room: DividedRoom, lift: number, open: readonly Region[] | null): number | null {
  return shares.length === 0 ? null : (liftPours(shares, room, { number: lift, of: shares.length, open })[0] ?? null);
}
