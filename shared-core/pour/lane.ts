/** A lane of the pour: its place in the order, its floor, and the running volume of the whole pour at any place along it. */
import type { Point } from '../book/fields.ts';
import type { Region } from '../plan/region.ts';
import type { Axes } from './axes.ts';
import { volumeBefore, type LaneProfile } from './lane-profile.ts';

export type PlannedLane = {
  /** From 1 through the whole pour. */
  readonly number: number;
  /** Index of the bay it lies in. */
  readonly bay: number;
  readonly roomId: string;
  /** From 1 within its room: the number that log entries give. */
  readonly inRoom: number;
  readonly pieces: readonly Region[];
  readonly areaM2: number;
  readonly volumeM3: number;
  /** Volume poured before this lane begins, m3. */
  readonly startM3: number;
  /** Filled from the low end of its axes toward the high one. */
  readonly forward: boolean;
  readonly axes: Axes;
};

/** A lane with the volume along it. */
export type PourLane = PlannedLane & { readonly profile: LaneProfile };

/** One side of a doorway, jamb to jamb, on its room's own axes. */
export type DoorwaySide = { readonly roomId: string; readonly from: Point; readonly to: Point };

/** A doorway left open between two rooms of one pour: wet edges meet across it. Both sides run the same way. A dammed one is left out. */
export type OpenDoorway = { readonly sides: readonly [DoorwaySide, DoorwaySide] };

/** Volume of the whole pour placed when the lane is passed at the place `u` along it, m3. */
export function runningM3(lane: PourLane, u: number): number {
  const before = volumeBefore(lane.profile, u);
  return lane.startM3 + (lane.forward ? before : lane.volumeM3 - before);
}
