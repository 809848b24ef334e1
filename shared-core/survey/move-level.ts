/** A level taken up or down by hand: the choice it makes, in steps a person can say. */
import type { LevelChoice } from '../book/job.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import type { FloorRead } from './read-floor.ts';
import type { SettledLevel } from './settle-level.ts';

/** The step a level moves by, meters: a sixteenth of an inch, or a millimeter; and the coarser one. */
export function levelStepsM(units: UnitSystem): { readonly fine: number; readonly coarse: number } {
  return units === 'us' ? { fine: 0.0254 / 16, coarse: 0.0254 / 4 } : { fine: 0.001, coarse: 0.005 };
}

/** A choice, and how far its level stands over the one it was moved from, meters. */
export type MovedLevel = { readonly choice: LevelChoice; readonly byM: number };

type Settled = Pick<SettledLevel, 'levelM' | 'lowestWithGrindingM'>;

/**
 * The choice whose level lies `byM` over a settled one's, to the nearest step, counted from the lowest place of the floor.
 * A level within half a step of the lowest that is permitted becomes that: "as low as it may be", which follows later
 * readings. A constant thickness grows by as much; a ramp goes up with all heights it passes through. A ramp with no
 * heights yet stays as it is, and no level goes under the lowest place.
 */
export function movedLevel(
  choice: LevelChoice,
  settled: Settled,
  floor: Pick<FloorRead, 'lowestM'>,
  byM: number,
  units: UnitSystem,
): MovedLevel {
  const { fine } = levelStepsM(units);
  const stepped = (m: number): number => Math.round(m / fine) * fine;
  if (choice.mode === 'follow') {
    const followThicknessM = Math.max(fine, stepped(choice.followThicknessM + byM));
    return { choice: { ...choice, followThicknessM }, byM: followThicknessM - choice.followThicknessM };
  }
  if (choice.mode === 'ramp') {
    if (choice.rampThrough.length === 0) return { choice, byM: 0 };
    const lift = stepped(byM);
    return { choice: { ...choice, rampThrough: choice.rampThrough.map((h) => ({ ...h, heightM: h.heightM + lift })) }, byM: lift };
  }
  const lowestM = settled.lowestWithGrindingM;
  const wantedM = Math.max(0, settled.levelM + byM - floor.lowestM);
  if (lowestM !== null && Math.abs(wantedM + floor.lowestM - lowestM) <= fine / 2) {
    return { choice: { ...choice, levelM: null }, byM: lowestM - settled.levelM };
  }
  const levelM = floor.lowestM + stepped(wantedM);
  return { choice: { ...choice, levelM }, byM: levelM - settled.levelM };
}

/** A settled level taken up by so much before it is settled again: what a section shows while the volume is still worked out. */
export function liftedLevel(settled: SettledLevel, byM: number): SettledLevel {
  return { ...settled, levelM: settled.levelM + byM, plane: { ...settled.plane, zM: settled.plane.zM + byM } };
}
