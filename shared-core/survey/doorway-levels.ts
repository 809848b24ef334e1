/** What the finished level does at each opening: depth of fill along the threshold and the step to the floor beyond. */
import type { Opening, Plan } from '../book/plan-fields.ts';
import { placedOpenings } from '../plan/openings.ts';
import { profilesAlong } from './profile.ts';
import type { RoomRings } from './room-rings.ts';
import type { FinishAt } from './section-along.ts';
import { heightAt, type Surface } from './surface.ts';

/** An opening under the chosen level. Heights on the readings' scale, meters. */
export type DoorwayLevel = {
  readonly openingId: string;
  readonly name: string;
  readonly edge: Opening['edge'];
  readonly floorM: number;
  readonly finishedM: number;
  readonly depthM: number;
  readonly leastDepthM: number;
  readonly greatestDepthM: number;
  /** The floor at this threshold lies beyond the readings: the figures are a guess until one is taken there. */
  readonly extrapolated: boolean;
  readonly adjoiningM: number | null;
  readonly adjoiningFlooring: string;
  /** From the floor beyond up to ours with its flooring: positive is a step up into this room. Null when that floor wasn't read. */
  readonly stepM: number | null;
};

/** Every opening under the finish, the new flooring's thickness laid on it. */
export function doorwayLevels(
  surface: Surface,
  room: RoomRings,
  plan: Pick<Plan, 'outline' | 'openings'>,
  finishAt: FinishAt,
  flooringThicknessM: number,
): DoorwayLevel[] {
  return placedOpenings(plan).map(({ opening, from, to, middle }) => {
    const floor = heightAt(surface, middle.xM, middle.yM);
    const { groundM, finishedM } = finishAt(middle.xM, middle.yM, floor.zM);
    const depths = profilesAlong(surface, room, from, to)
      .flat()
      .map((point) => {
        const there = finishAt(point.xM, point.yM, point.zM);
        return there.finishedM - there.groundM;
      });
    const depthM = finishedM - groundM;
    return {
      openingId: opening.id,
      name: opening.name,
      edge: opening.edge,
      floorM: floor.zM,
      finishedM,
      depthM,
      leastDepthM: Math.min(depthM, ...depths),
      greatestDepthM: Math.max(depthM, ...depths),
      extrapolated: floor.extrapolated,
      adjoiningM: opening.adjoiningM,
      adjoiningFlooring: opening.adjoiningFlooring,
      stepM: opening.adjoiningM === null ? null : finishedM + flooringThicknessM - opening.adjoiningM,
    };
  });
}
