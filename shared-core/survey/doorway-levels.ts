/** The effect of the finish elevation at each doorway: pour depth at the threshold and the step to the adjoining floor. */
import type { Opening, Plan } from '../book/plan-fields.ts';
import { isExterior, openingName, placedOpenings } from '../plan/openings.ts';
import type { FinishAt } from './section-along.ts';
import { heightAt, type Surface } from './surface.ts';

/** A doorway at the chosen finish elevation. Heights on the readings' scale, meters. */
export type DoorwayLevel = {
  readonly openingId: string;
  readonly name: string;
  readonly isExterior: boolean;
  readonly edge: Opening['edge'];
  readonly floorM: number;
  readonly finishedM: number;
  readonly depthM: number;
  /** The floor at this threshold has no readings, so the figures are extrapolated until one is taken there. */
  readonly extrapolated: boolean;
  readonly adjoiningFlooring: string;
  /**
   * Step from the adjoining floor to this room's finished flooring: positive is a step up into this room. Null when the
   * adjoining floor has no reading.
   */
  readonly stepM: number | null;
};

/** Every doorway at the finish elevation plus the new flooring, which counts as nothing while its thickness is not known (null). */
export function doorwayLevels(
  surface: Surface,
  plan: Pick<Plan, 'outline' | 'openings'>,
  finishAt: FinishAt,
  flooringThicknessM: number | null,
): DoorwayLevel[] {
  return placedOpenings(plan).map(({ opening, middle }) => {
    const floor = heightAt(surface, middle.xM, middle.yM);
    const { groundM, finishedM } = finishAt(middle.xM, middle.yM, floor.zM);
    return {
      openingId: opening.id,
      name: openingName(opening),
      isExterior: isExterior(opening),
      edge: opening.edge,
      floorM: floor.zM,
      finishedM,
      depthM: finishedM - groundM,
      extrapolated: floor.extrapolated,
      adjoiningFlooring: opening.adjoiningFlooring,
      stepM: opening.adjoiningM === null ? null : finishedM + (flooringThicknessM ?? 0) - opening.adjoiningM,
    };
  });
}
