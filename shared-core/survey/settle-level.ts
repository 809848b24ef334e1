/**
 * A finish elevation over a floor: its quantities, where it is too thin, its steps at the doorways, and what grinding would
 * save.
 */
import type { LevelChoice } from '../book/job.ts';
import type { Plan } from '../book/plan-fields.ts';
import { formatDepth } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { contourStepM } from './contours.ts';
import { type DoorwayLevel, doorwayLevels } from './doorway-levels.ts';
import { deeperM3, type Fill, fillTo } from './fill.ts';
import { type GrindCurve, grindCurve, type GrindPrices } from './grind-or-fill.ts';
import { type Plane, planeAtM, type RampHeight, rampPlane } from './plane.ts';
import { rampHeights } from './ramp.ts';
import type { FloorRead } from './read-floor.ts';
import { type CutWords, GROUND } from './cut-words.ts';
import { type Relief, reliefFrom } from './relief.ts';
import type { FinishAt } from './section-along.ts';
import { type HighSpot, spotsAbove } from './spots.ts';
import { RANGE_DEVIATIONS, volumeRange, type VolumeRange } from './volume-range.ts';

export type LevelOptions = {
  readonly units: UnitSystem;
  /**
   * Null where the floor may not be ground (suspected asbestos, radiant heat close to the surface). The fill's price is null while
   * it is not known.
   */
  readonly grindPrices: (Omit<GrindPrices, 'fillM3'> & { readonly fillM3: number | null }) | null;
  /** How high spots are taken down; ground where it is left out. */
  readonly cut?: CutWords;
  /** Thickness of the new flooring with adhesive or mortar, for the doorways, meters; null while not known. */
  readonly flooringThicknessM: number | null;
};

export type LevelWarning = { readonly kind: 'off-scale' | 'too-low' | 'ramp' | 'bare' | 'lowest-taken'; readonly message: string };

export type SettledLevel = {
  readonly mode: LevelChoice['mode'];
  /** The finish plane; in `follow`, the plane for the depth contours (the mean floor plus the thickness). */
  readonly plane: Plane;
  /** The heights of a ramp; empty for any other finish, and while they are not known. */
  readonly ramp: readonly RampHeight[];
  /** The plane's height at the room's center, meters: the finish elevation the user sees. */
  readonly levelM: number;
  /** Lowest plane with the minimum thickness everywhere after the allowed grinding, by height at the room's center; null in `follow`. */
  readonly lowestWithGrindingM: number | null;
  /** How far the chosen plane is below the lowest one permitted with the allowed grinding, meters; zero when it is not below. */
  readonly shortM: number;
  readonly fill: Fill;
  readonly range: VolumeRange;
  readonly doorways: readonly DoorwayLevel[];
  /**
   * Patches above the finish elevation minus the minimum thickness: to be ground when grinding is allowed, otherwise too
   * thin.
   */
  readonly highSpots: readonly HighSpot[];
  readonly highSpotsAreGround: boolean;
  /** Null in `follow`, where the floor may not be ground, and while the fill has no price. */
  readonly grindCurve: GrindCurve | null;
  /** Readable interval for contours of the depth, meters. */
  readonly contourStepM: number;
  readonly warnings: readonly LevelWarning[];
};

/** Calculates a finish over a floor. */
export function settleLevel(floor: FloorRead, plan: Plan, choice: LevelChoice, options: LevelOptions): SettledLevel {
  const warnings: LevelWarning[] = [];
  const middle = { xM: (floor.room.leftM + floor.room.rightM) / 2, yM: (floor.room.topM + floor.room.bottomM) / 2 };
  if (choice.mode === 'follow') return followed(floor, plan, choice, options);
  const ramp = choice.mode === 'ramp' ? rampHeights(choice.rampThrough, plan, options.flooringThicknessM) : null;
  const sloped = ramp?.ok === true ? rampPlane(ramp.heights) : ramp;
  if (sloped && !sloped.ok) warnings.push({ kind: 'ramp', message: `${sloped.message} Until then a level floor is assumed.` });
  const slope = sloped?.ok ? sloped.plane : { zM: 0, slopeX: 0, slopeY: 0 };
  const relief = reliefFrom(floor.mosaic, slope);
  const t = choice.leastThicknessM;
  const mayGrind = options.grindPrices !== null;
  const cut = options.cut ?? GROUND;
  const grindMostM = mayGrind ? choice.grindMostM : 0;
  const lowest = relief.highestM + t;
  const hangsOnHighest = sloped?.ok ? false : choice.mode === 'ramp' || choice.levelM === null;
  const wanted = sloped?.ok ? sloped.plane.zM : hangsOnHighest ? lowest - grindMostM : (choice.levelM ?? lowest);
  const plane: Plane = { zM: wanted, slopeX: slope.slopeX, slopeY: slope.slopeY };
  const lift = planeAtM(plane, middle.xM, middle.yM) - plane.zM;
  const shortM = Math.max(0, lowest - grindMostM - wanted);
  // Tolerance for rounding: an elevation set from the highest spot must not count that spot as too thin.
  const short = shortM > 1e-9;
  const fill = fillTo(relief, wanted, { leastThicknessM: t, grindMostM });
  if (short) {
    const more = grindMostM > 0 ? `, even with ${formatDepth(grindMostM, options.units)} ${cut.done} off` : '';
    const message = `The finish elevation is ${formatDepth(shortM, options.units)} too low to keep ${formatDepth(t, options.units)} over the highest spot${more}. Raise it${mayGrind ? `, ${cut.verb} the high spots first` : ''} or accept bare or thin spots.`;
    warnings.push({ kind: 'too-low', message });
  }
  const highSpots = wanted - t < relief.highestM - 1e-9 ? spotsAbove(floor.surface, floor.room, floor.mosaic, slope, wanted - t) : [];
  const fillM3 = options.grindPrices?.fillM3 ?? null;
  const curve =
    options.grindPrices !== null && fillM3 !== null && choice.grindMostM > 0
      ? grindCurve(relief, t, choice.grindMostM, { ...options.grindPrices, fillM3 })
      : null;
  const finishAt = finishOver(plane, t, grindMostM);
  return {
    mode: choice.mode,
    plane,
    ramp: ramp?.ok === true ? ramp.heights : [],
    levelM: wanted + lift,
    lowestWithGrindingM: lowest - grindMostM + lift,
    shortM: short ? shortM : 0,
    fill,
    range: volumeRange(floor.error, {
      volumeM3: fill.volumeM3,
      floorM2: floor.areaM2,
      filledM2: fill.coveredM2,
      hangsOnHighest,
    }),
    doorways: doorwayLevels(floor.surface, plan, finishAt, options.flooringThicknessM),
    highSpots,
    highSpotsAreGround: grindMostM > 0,
    grindCurve: curve,
    contourStepM: contourStepM(relief.highestM - relief.lowestM, options.units),
    warnings,
  };
}

/**
 * Floor after grinding and top of the pour under a plane: spots above the plane minus `t` are ground by `grindMostM` at
 * most.
 */
export function finishOver(plane: Plane, leastThicknessM: number, grindMostM: number): FinishAt {
  return (xM, yM, zM) => {
    const level = planeAtM(plane, xM, yM);
    const groundM = grindMostM > 0 ? Math.min(zM, Math.max(level - leastThicknessM, zM - grindMostM)) : zM;
    return { groundM, finishedM: Math.max(groundM, level) };
  };
}

/** The finish of a settled elevation, for sections. */
export function finishOf(level: SettledLevel, choice: LevelChoice, mayGrind: boolean): FinishAt {
  if (level.mode === 'follow') return (_x, _y, zM) => ({ groundM: zM, finishedM: zM + choice.followThicknessM });
  return finishOver(level.plane, choice.leastThicknessM, mayGrind ? choice.grindMostM : 0);
}

/** How much of a settled pour lies deeper than each of some depths. Meters, cubic meters. */
export function deeperVolumesM3(floor: FloorRead, level: SettledLevel, choice: LevelChoice, depthsM: readonly number[]): readonly number[] {
  if (level.mode === 'follow') return depthsM.map((depthM) => Math.max(0, level.fill.meanDepthM - depthM) * floor.areaM2);
  const relief = reliefFrom(floor.mosaic, level.plane);
  const terms = { leastThicknessM: choice.leastThicknessM, grindMostM: level.highSpotsAreGround ? choice.grindMostM : 0 };
  return depthsM.map((depthM) => deeperM3(relief, level.plane.zM, terms, depthM));
}

/** A constant thickness over the existing floor; the texture's allowance adds material without raising the top. */
function followed(floor: FloorRead, plan: Plan, choice: LevelChoice, options: LevelOptions): SettledLevel {
  const { followThicknessM, textureM } = choice;
  const relief: Relief = reliefFrom(floor.mosaic, { slopeX: 0, slopeY: 0 });
  const depthM = followThicknessM + textureM;
  const volumeM3 = depthM * floor.areaM2;
  const plane = { zM: floor.meanM + followThicknessM, slopeX: 0, slopeY: 0 };
  return {
    mode: 'follow',
    plane,
    ramp: [],
    levelM: plane.zM,
    lowestWithGrindingM: null,
    shortM: 0,
    fill: {
      volumeM3,
      coveredM2: floor.areaM2,
      // The texture's allowance fills low spots: a high spot has the thickness alone.
      leastDepthM: followThicknessM,
      meanDepthM: depthM,
      greatestDepthM: depthM,
      groundM2: 0,
      removedM3: 0,
    },
    range: {
      rangeM3: { least: followThicknessM * floor.areaM2, likely: volumeM3, most: (followThicknessM + 2 * textureM) * floor.areaM2 },
      sdM3: (textureM * floor.areaM2) / RANGE_DEVIATIONS,
      areaFilledM2: floor.areaM2,
      highestM: null,
    },
    doorways: doorwayLevels(
      floor.surface,
      plan,
      (_x, _y, zM) => ({ groundM: zM, finishedM: zM + followThicknessM }),
      options.flooringThicknessM,
    ),
    highSpots: [],
    highSpotsAreGround: false,
    grindCurve: null,
    contourStepM: contourStepM(relief.highestM - relief.lowestM, options.units),
    warnings:
      followThicknessM < choice.leastThicknessM
        ? [
            {
              kind: 'too-low',
              message: `The thickness is less than the material’s minimum, ${formatDepth(choice.leastThicknessM, options.units)}. Make it thicker or choose another material.`,
            },
          ]
        : [],
  };
}
