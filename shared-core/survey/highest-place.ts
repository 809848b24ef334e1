/** How far the true highest point of a floor may be above the highest reading, from the floor models that fit the readings. */
import type { Point, Range } from '../book/fields.ts';
import { normalShareBelow } from '../measure/normal.ts';
import {
  correlation,
  correlationsOf,
  dotColumns,
  factorize,
  type FloorModel,
  type Layout,
  trendAt,
  writeCovariances,
} from './covariance.ts';
import { real } from './typed-reads.ts';

/** One model of the floor with its share of all models. */
export type Fitted = { readonly model: FloorModel; readonly share: number };

/**
 * Readings as places and heights over their average; the sample places, spread evenly over the floor, and the room's
 * corners.
 */
export type FloorSample = {
  readonly heights: Float64Array;
  readonly places: readonly Point[];
  readonly corners: readonly Point[];
  readonly stepM: number;
  readonly layout: Layout;
  /** Distances from reading i to the places and then the corners, at i · (places + corners) + k, meters. */
  readonly toPlacesM: Float64Array;
};

/** Models less likely than this are left out. */
const LEAST_SHARE = 0.05;
/** Correlation lengths per side of the square a bump covers; a rough floor is uneven at any distance. Chosen by simulation. */
const BUMP_LENGTHS = { rough: 0.15, smooth: 1 } as const;
const MOST_BUMPS_A_STEP = 100;
const LEAST_BUMPS_A_STEP = { rough: 3, smooth: 0 } as const;

/**
 * Factor on a rough floor's deviation between readings, which its model, sized from the readings alone, underestimates.
 * Chosen by simulation.
 */
const DEVIATION_FACTOR = { rough: 1.25, smooth: 1 } as const;

/** A normal this many deviations above its mean is below with a chance of 1 to the last digit. */
const CERTAIN_DEVIATIONS = 9;

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
        const deviations = (heightM - averageM) / sdM;
        if (deviations > CERTAIN_DEVIATIONS) continue;
        const below = normalShareBelow(deviations);
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

function openPlaces({ heights, places, corners, stepM, layout, toPlacesM }: FloorSample, model: FloorModel, share: number): Open[] {
  const { kind, lengthM, sizeM } = model;
  const { count: n, spots, middle } = layout;
  const size2 = sizeM ** 2;
  const all = [...places, ...corners];
  // All places are solved beside the readings' heights in one pass.
  const columns = n + 1 + all.length;
  const matrix = new Float64Array(n * columns);
  writeCovariances(matrix, columns, layout, correlationsOf(layout, kind, lengthM), sizeM);
  for (let i = 0; i < n; i += 1) {
    const spot = spots[i] ?? middle;
    const row = i * columns + n;
    matrix[row] = real(heights, i);
    for (let k = 0; k < all.length; k += 1) {
      const apartM = toPlacesM[i * all.length + k] ?? Number.NaN;
      matrix[row + 1 + k] = size2 * correlation(kind, apartM, lengthM) + trendAt(spot, all[k] ?? middle, middle);
    }
  }
  if (factorize(matrix, n, columns) === null) return [];
  const bumps = Math.min(MOST_BUMPS_A_STEP, Math.max(LEAST_BUMPS_A_STEP[kind], (stepM / (BUMP_LENGTHS[kind] * lengthM)) ** 2));
  return all.map((place, k) => {
    const column = n + 1 + k;
    const known = dotColumns(matrix, n, columns, column, column);
    const sdM = DEVIATION_FACTOR[kind] * Math.sqrt(Math.max(1e-12, size2 + trendAt(place, place, middle) - known));
    return { averageM: dotColumns(matrix, n, columns, column, n), sdM, bumps: k < places.length ? bumps : Math.min(1, bumps), share };
  });
}
