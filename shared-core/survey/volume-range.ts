/**
 * How far a volume may be off once the plane is set at its finish elevation by laser, and how far that elevation itself may
 * move: two questions, answered apart. The first follows from `floorError`; the second from the true highest place, which
 * may be above every reading.
 */
import type { Range } from '../book/fields.ts';
import type { FloorError } from './floor-error.ts';

/** The range of a volume, cubic meters. */
export type VolumeRange = {
  /** Volume with the plane set at its finish elevation: 90% likely. */
  readonly rangeM3: Range;
  /** One standard deviation of it, and the part that the reading error alone makes. */
  readonly sdM3: number;
  readonly readingSdM3: number;
  /** Volume more per meter the plane is raised: the area that is filled, square meters. */
  readonly areaFilledM2: number;
  /**
   * How far the true highest place is above the highest place of the readings' surface, meters, 90% likely. Where the plane is set from
   * that place, it would have to rise by as much to keep the minimum thickness. Null where nothing hangs on it.
   */
  readonly highestM: Range | null;
};

/** 1.645 standard deviations either side hold 90% of a normal distribution. */
export const RANGE_DEVIATIONS = 1.645;

/** What the range needs beside the error of the floor. */
export type RangeTerms = {
  readonly volumeM3: number;
  readonly floorM2: number;
  readonly filledM2: number;
  /** The finish elevation was taken from the highest place found. */
  readonly hangsOnHighest: boolean;
};

/** The range of the volume under a plane. */
export function volumeRange(error: FloorError, { volumeM3, floorM2, filledM2, hangsOnHighest }: RangeTerms): VolumeRange {
  // Errors of parts of a floor are independent: they grow as the square root of the share that is filled.
  const acrossM2 = Math.sqrt(floorM2 * filledM2);
  const sdM3 = error.averageSdM * acrossM2;
  const reach = RANGE_DEVIATIONS * sdM3;
  return {
    rangeM3: { least: Math.max(0, volumeM3 - reach), likely: volumeM3, most: volumeM3 + reach },
    sdM3,
    readingSdM3: error.readingSdM * acrossM2,
    areaFilledM2: filledM2,
    highestM: hangsOnHighest ? error.highestM : null,
  };
}
