/**
 * How far the true highest point of a floor may be above the highest reading, from the floor models that fit the readings.
 */
import type { Point, Range } from '../book/fields.ts';
import { normalShareBelow } from '../measure/normal.ts';
import { correlation, dot, factorize, type FloorModel, OFFSET_SD_M, SLOPE_SD, solveLower } from './covariance.ts';

/** One model of the floor with its share of all models. */
export type Fitted = { readonly model: FloorModel; readonly share: number };

/**
 * Readings as places and heights over their average; the sample places, spread evenly over the floor, and the room's
 * corners.
 */
export type FloorSample = {
  readonly spots: readonly Point[];
  readonly heights: Float64Array;
  readonly places: readonly Point[];
  readonly corners: readonly Point[];
  readonly stepM: number;
  readonly middle: Point;
  readonly errorM: number;
};

/** Models less likely than this are left out. */
const LEAST_SHARE = 0.05;
/**
 * Correlation lengths per side of the square a bump covers; a rough floor is uneven at any distance. Chosen by simulation.
 */
const BUMP_LENGTHS = { rough: 0.15, smooth: 1 } as const;
const MOST_BUMPS_A_STEP = 100;
const LEAST_BUMPS_A_STEP = { rough: 3, smooth: 0 } as const;

/**
 * Factor on a rough floor's deviation between readings, which its model, sized from the readings alone, underestimates.
 * Chosen by simulation.
 */
const DEVIATION_FACTOR = { rough: 1.25, smooth: 1 } as const;

/** Height at a place given the readings, one standard deviation, and the number of bumps the place represents. */
type Open = { readonly averageM: number; readonly sdM: number; readonly bumps: number; readonly share: number };

/**
 * The highest point above `aboveM`, a height over the readings' average: 5%, 50%, and 95% likely. Places count as
 * independent bumps: the chance that all are below a height is a product, and never above that of any one place.
 */
export function highestPlace(sample: FloorSample, fitted: readonly Fitted[], aboveM: number): Range {
  const likely = fitted.filter(({ share }) => share >= LEAST_SHARE);
  const total = likely.reduce((sum, { share }) => sum + share, 0);
  const models = likely.map(({ model, share }) => openPlaces(sample, model, share / total)).filter((places) => places.length > 0);
  const chanceBelow = (heightM: number): number =>
    models.reduce((sum, places) => {
      let logs = 0;
      let least = 1;
      for (const { averageM, sdM, bumps } of places) {
        const below = normalShareBelow((heightM - averageM) / sdM);
        if (below <= 0) return sum;
        logs += bumps * Math.log(below);
        least = Math.min(least, below);
      }
      return sum + (places[0]?.share ?? 0) * Math.min(least, Math.exp(logs));
    }, 0);
  const most = Math.max(...models.flatMap((places) => places.map(({ averageM, sdM }) => averageM + 6 * sdM)));
  const least = Math.min(...models.flatMap((places) => places.map(({ averageM, sdM }) => averageM - 6 * sdM)));
  const heightAt = (share: number): number => {
    let [low, high] = [least, most];
    for (let i = 0; i < 24; i += 1) {
      const middle = (low + high) / 2;
      if (chanceBelow(middle) < share) low = middle;
      else high = middle;
    }
    return (low + high) / 2 - aboveM;
  };
  return { least: heightAt(0.05), likely: heightAt(0.5), most: heightAt(0.95) };
}

function openPlaces({ spots, heights, places, corners, stepM, middle, errorM }: FloorSample, model: FloorModel, share: number): Open[] {
  const n = spots.length;
  const size2 = model.sizeM ** 2;
  const between = (a: Point, b: Point): number =>
    size2 * correlation(model.kind, Math.hypot(a.xM - b.xM, a.yM - b.yM), model.lengthM) +
    OFFSET_SD_M ** 2 +
    SLOPE_SD ** 2 * ((a.xM - middle.xM) * (b.xM - middle.xM) + (a.yM - middle.yM) * (b.yM - middle.yM));
  const matrix = new Float64Array(n * n);
  spots.forEach((a, i) => {
    for (let j = 0; j <= i; j += 1) matrix[i * n + j] = between(a, spots[j] ?? a) + (i === j ? errorM ** 2 : 0);
  });
  if (factorize(matrix, n) === null) return [];
  const y = solveLower(matrix, n, heights.slice());
  const bumpM = BUMP_LENGTHS[model.kind] * model.lengthM;
  const bumps = Math.min(MOST_BUMPS_A_STEP, Math.max(LEAST_BUMPS_A_STEP[model.kind], (stepM / bumpM) ** 2));
  const open = (place: Point, many: number): Open => {
    const row = Float64Array.from(spots, (a) => between(a, place));
    solveLower(matrix, n, row);
    const sdM = DEVIATION_FACTOR[model.kind] * Math.sqrt(Math.max(1e-12, between(place, place) - dot(row, row)));
    return { averageM: dot(row, y), sdM, bumps: many, share };
  };
  return [...places.map((place) => open(place, bumps)), ...corners.map((corner) => open(corner, Math.min(1, bumps)))];
}
