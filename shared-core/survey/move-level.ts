/** Raises or lowers a finish elevation by hand, in steps of the business's units. */
import type { LevelChoice } from '../book/job.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import type { FloorRead } from './read-floor.ts';
import type { SettledLevel } from './settle-level.ts';

/** Step of a finish elevation, meters: 1/16 in. or 1 mm, and a coarser one. */
export function levelStepsM(units: UnitSystem): { readonly fine: number; readonly coarse: number } {
  return units === 'us' ? { fine: 0.0254 / 16, coarse: 0.0254 / 4 } : { fine: 0.001, coarse: 0.005 };
}

type Settled = Pick<SettledLevel, 'levelM' | 'lowestWithGrindingM' | 'ramp'>;

/**
 * The choice whose finish elevation is `byM` above a settled one, to the nearest step counted from the low point of the
 * floor. An elevation within half a step of the lowest permitted one becomes "as low as possible", which adjusts to later
 * readings. A constant thickness grows by the same amount; every height of a ramp rises. A ramp without heights does not
 * change, and no finish elevation goes below the low point.
 */
export function movedLevel(
  choice: LevelChoice,
  settled: Settled,
  floor: Pick<FloorRead, 'lowestM'>,
  byM: number,
  units: UnitSystem,
): LevelChoice {
  const { fine } = levelStepsM(units);
  const stepped = (m: number): number => Math.round(m / fine) * fine;
  if (choice.mode === 'follow') {
    return { ...choice, followThicknessM: Math.max(fine, stepped(choice.followThicknessM + byM)) };
  }
  if (choice.mode === 'ramp') {
    if (settled.ramp.length === 0) return choice;
    return { ...choice, rampThrough: settled.ramp.map((h) => ({ ...h, heightM: h.heightM + stepped(byM) })) };
  }
  const lowestM = settled.lowestWithGrindingM;
  const wantedM = Math.max(0, settled.levelM + byM - floor.lowestM);
  const isLowest = lowestM !== null && Math.abs(wantedM + floor.lowestM - lowestM) <= fine / 2;
  return { ...choice, levelM: isLowest ? null : floor.lowestM + stepped(wantedM) };
}

/** A settled elevation raised by `byM`, for a section to show while the volume is still being calculated. */
export function liftedLevel(settled: SettledLevel, byM: number): SettledLevel {
  return { ...settled, levelM: settled.levelM + byM, plane: { ...settled.plane, zM: settled.plane.zM + byM } };
}
