/**
 * The uncertainty of a volume once the plane is set at its finish elevation by laser, and the uncertainty of that elevation:
 * two separate questions. The first follows from `floorError`; the second from the true highest point, which may be above
 * every reading.
 */
import type { Range } from '../book/fields.ts';
import type { FloorError } from './floor-error.ts';

/** The range of a volume, cubic meters. */
export type VolumeRange = {
  /** Volume with the plane set at its finish elevation: 90% likely. */
  readonly rangeM3: Range;
  /** One standard deviation of it. */
  readonly sdM3: number;
  /** Additional volume per meter the plane is raised: the filled area, square meters. */
  readonly areaFilledM2: number;
  /**
   * How far the true highest point is above the highest point of the readings' surface, meters, 90% likely. Where the plane
   * is set from that point, it would have to rise by the same amount to keep the minimum thickness. Null where nothing
   * depends on it.
   */
  readonly highestM: Range | null;
};

/** 1.645 standard deviations either side contain 90% of a normal distribution. */
export const RANGE_DEVIATIONS = 1.645;

/** The inputs of the range besides the error of the floor. */
export type RangeTerms = {
  readonly volumeM3: number;
  readonly floorM2: number;
  readonly filledM2: number;
  /** The finish elevation was set from the highest measured point. */
  readonly hangsOnHighest: boolean;
};

/** The range of the volume under a plane. */
export function volumeRange(error: FloorError, { volumeM3, floorM2, filledM2, hangsOnHighest }: RangeTerms): VolumeRange {
  // Errors of parts of a floor are independent: they grow as the square root of the filled share.
  const sdM3 = error.averageSdM * Math.sqrt(floorM2 * filledM2);
  const reach = RANGE_DEVIATIONS * sdM3;
  return {
    rangeM3: { least: Math.max(0, volumeM3 - reach), likely: volumeM3, most: volumeM3 + reach },
    sdM3,
    areaFilledM2: filledM2,
    highestM: hangsOnHighest ? error.highestM : null,
  };
}
