/** A lane of the pour: its number, its floor, and the cumulative volume of the pour at any place along it. */
import type { Point } from '../book/fields.ts';
import type { Region } from '../plan/region.ts';
import type { Axes } from './axes.ts';
import { volumeBefore, type LaneProfile } from './lane-profile.ts';

export type PlannedLane = {
  /** Numbered from 1 through the whole pour. */
  readonly number: number;
  /** Index of its bay. */
  readonly bay: number;
  readonly roomId: string;
  /** Numbered from 1 within its room, as in log entries. */
  readonly inRoom: number;
  readonly pieces: readonly Region[];
  readonly areaM2: number;
  readonly volumeM3: number;
  /** Depth at its shallowest place, m. */
  readonly leastDepthM: number;
  /** Volume poured before this lane, m³. */
  readonly startM3: number;
  /** Whether it is filled from the low end of its axes to the high end. */
  readonly forward: boolean;
  readonly axes: Axes;
};

/** A lane with its volume profile. */
export type PourLane = PlannedLane & { readonly profile: LaneProfile };

/** One side of a doorway, jamb to jamb, on its room's own axes. */
export type DoorwaySide = { readonly roomId: string; readonly from: Point; readonly to: Point };

/** A doorway left open between two rooms of one pour, where wet edges meet. Both sides run in the same direction. Dammed doorways are excluded. */
export type OpenDoorway = { readonly sides: readonly [DoorwaySide, DoorwaySide] };

/** Volume of the whole pour placed when the lane is filled up to `u`, m³. */
export function runningM3(lane: PourLane, u: number): number {
  const before = volumeBefore(lane.profile, u);
  return lane.startM3 + (lane.forward ? before : lane.volumeM3 - before);
}
