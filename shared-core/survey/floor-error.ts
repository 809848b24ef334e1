/**
 * How far the triangles between the readings may be off the true floor. The readings show how rough the floor is: every
 * model of a floor is weighted by its likelihood given the readings, and the error of the triangles' average height follows
 * from each (Bayesian model averaging over Gaussian fields). Few readings allow many models, so the error is large.
 */
import type { Point, Range } from '../book/fields.ts';
import { distanceM } from '../plan/point.ts';
import {
  correlation,
  correlationsOf,
  dot,
  dotColumns,
  factorize,
  FLOOR_KINDS,
  type FloorModel,
  FLOOR_SIZES_M,
  type Layout,
  layoutOf,
  OFFSET_SD_M,
  writeCovariances,
} from './covariance.ts';
import type { Spot } from './heights.ts';
import { highestPlace } from './highest-place.ts';
import { isOnFloor, type RoomRings } from './room-rings.ts';
import { nearestOnHull, type Surface, surfaceOver, triangleAt } from './surface.ts';
import { real, whole } from './typed-reads.ts';

/** The error of a surface over its whole floor, meters. */
export type FloorError = {
  /** One standard deviation of the average height. */
  readonly averageSdM: number;
  /** The part of it due to the reading error alone. */
  readonly readingSdM: number;
  /** How far the true highest point is above the highest point of the surface: 5%, 50%, and 95% likely. */
  readonly highestM: Range;
};

/**
 * Correction for few readings, which fit a single model too well, because the models cover fewer floors than exist. Chosen
 * by simulation.
 */
const FEW_READINGS_FACTOR = 6;
/** Maximum sample places on the floor and readings weighted together: more take longer without improving the estimate. */
const PLACES = 110;
const MOST_READINGS = 90;
/** Maximum parts that are evaluated in a room with more than `MOST_READINGS` readings. */
const MOST_PARTS = 4;

/** The error of a surface over a room, from its own readings. */
export function floorError(spots: readonly Spot[], surface: Surface, room: RoomRings, readingErrorM: number): FloorError {
  const over = placesOver(room, spots.length <= MOST_READINGS ? PLACES : PLACES * Math.ceil(spots.length / MOST_READINGS));
  if (spots.length <= MOST_READINGS) return errorOf(spots, surface, room, over, readingErrorM);
  const { places, gridM } = over;
  // A large survey is evaluated in parts, because errors of parts that are far apart are independent.
  const parts = split(spots, places).slice(0, MOST_PARTS);
  const errors = parts.flatMap((part) => {
    const partSurface = surfaceOver(part.spots, 1e3);
    return partSurface === null
      ? []
      : [
          {
            ...errorOf(part.spots, partSurface, room, { places: part.places, gridM }, readingErrorM),
            share: part.places.length / places.length,
          },
        ];
  });
  const combined = (pick: (error: FloorError) => number): number =>
    Math.sqrt(errors.reduce((sum, e) => sum + pick(e) ** 2 * e.share, 0) / Math.max(1, errors.length));
  const highest = errors.reduce<Range>(
    (most, { highestM }) => (highestM.most > most.most ? highestM : most),
    errors[0]?.highestM ?? { least: 0, likely: 0, most: 0 },
  );
  return { averageSdM: combined((e) => e.averageSdM), readingSdM: combined((e) => e.readingSdM), highestM: highest };
}

/** Sample places on a square grid. */
type Places = { readonly places: readonly Point[]; readonly gridM: number };

/** About `most` places, spread evenly over the floor. */
function placesOver(room: RoomRings, most: number): Places {
  const step = Math.sqrt(room.areaM2 / most);
  const places: Point[] = [];
  for (let yM = room.topM + step / 2; yM < room.bottomM; yM += step) {
    for (let xM = room.leftM + step / 2; xM < room.rightM; xM += step) if (isOnFloor(room, xM, yM)) places.push({ xM, yM });
  }
  if (places.length === 0) places.push({ xM: (room.leftM + room.rightM) / 2, yM: (room.topM + room.bottomM) / 2 });
  return { places, gridM: step };
}

/** The corners of a room's outline. */
function cornersOf({ rings }: RoomRings): Point[] {
  const outline = rings[0] ?? new Float64Array(0);
  return Array.from({ length: outline.length / 2 }, (_, i) => ({ xM: real(outline, 2 * i), yM: real(outline, 2 * i + 1) }));
}

type Part = { readonly spots: readonly Spot[]; readonly places: readonly Point[] };

/** Halves a survey across its longer side until each part is small enough to be weighted together. */
function split(spots: readonly Spot[], places: readonly Point[]): Part[] {
  if (spots.length <= MOST_READINGS) return places.length === 0 ? [] : [{ spots, places }];
  const xs = spots.map((spot) => spot.xM);
  const ys = spots.map((spot) => spot.yM);
  const key = Math.max(...xs) - Math.min(...xs) >= Math.max(...ys) - Math.min(...ys) ? 'xM' : 'yM';
  const sorted = [...spots].sort((a, b) => a[key] - b[key]);
  const half = sorted.length >> 1;
  const cut = sorted[half]?.[key] ?? 0;
  const [before, after] = [places.filter((p) => p[key] < cut), places.filter((p) => p[key] >= cut)];
  return [...split(sorted.slice(0, half), before), ...split(sorted.slice(half), after)];
}

/** Values shared by every model of the floor. */
type Known = {
  readonly layout: Layout;
  /** Distances from each reading to all places and then to the room's corners, meters. */
  readonly toPlacesM: Float64Array;
  readonly spread: Spread;
  /** Weight of each reading in the average height; the weights add to one. */
  readonly weights: Float64Array;
  /** Heights above their average. */
  readonly heights: Float64Array;
  /** Rows of the readings' covariances, their heights, and their covariances with the average height. */
  readonly matrix: Float64Array;
};

type Weighed = { readonly logLikelihood: number; readonly squaredM2: number; readonly model: FloorModel };

function errorOf(spots: readonly Spot[], surface: Surface, room: RoomRings, { places, gridM }: Places, errorM: number): FloorError {
  const weights = weightsOver(surface, places);
  const average = spots.reduce((sum, spot) => sum + spot.zM, 0) / spots.length;
  const middle = {
    xM: places.reduce((sum, p) => sum + p.xM, 0) / places.length,
    yM: places.reduce((sum, p) => sum + p.yM, 0) / places.length,
  };
  const heights = Float64Array.from(spots, (spot) => spot.zM - average);
  const layout = layoutOf(spots, middle, errorM);
  const corners = cornersOf(room);
  const toPlacesM = distancesM(spots, [...places, ...corners]);
  const matrix = new Float64Array(spots.length * (spots.length + 2));
  const known: Known = { layout, toPlacesM, spread: spreadOf(places, gridM), weights, heights, matrix };
  const weighed = FLOOR_KINDS.flatMap(({ kind, lengthM, prior }) =>
    weighSizes(known, kind, lengthM).map((w) => ({ ...w, logLikelihood: w.logLikelihood + Math.log(prior) })),
  );
  const top = Math.max(...weighed.map((w) => w.logLikelihood));
  let sum = 0;
  let squares = 0;
  for (const w of weighed) {
    const share = Math.exp(w.logLikelihood - top);
    sum += share;
    squares += share * w.squaredM2;
  }
  return {
    averageSdM: (1 + FEW_READINGS_FACTOR / spots.length ** 1.5) * Math.sqrt(squares / sum),
    readingSdM: errorM * Math.sqrt(dot(weights, weights)),
    highestM: highestPlace(
      { heights, places, corners, stepM: Math.sqrt(room.areaM2 / places.length), layout, toPlacesM },
      weighed.map(({ model, logLikelihood }) => ({ model, share: Math.exp(logLikelihood - top) / sum })),
      Math.max(...heights),
    ),
  };
}

/** Distances from every reading to every place, reading by reading, meters. */
function distancesM(spots: readonly Point[], places: readonly Point[]): Float64Array {
  const apartM = new Float64Array(spots.length * places.length);
  let k = 0;
  for (const spot of spots) {
    for (const place of places) {
      apartM[k] = distanceM(spot, place);
      k += 1;
    }
  }
  return apartM;
}

/** One kind of floor at every size: likelihood of the readings and squared error of the average height. */
function weighSizes(known: Known, kind: FloorModel['kind'], lengthM: number): Weighed[] {
  const { layout, toPlacesM, weights, heights, matrix } = known;
  const n = layout.count;
  const [columns, heightColumn, floorColumn] = [n + 2, n, n + 1];
  const correlations = correlationsOf(layout, kind, lengthM);
  const targets = toPlacesM.length / n;
  const { places } = known.spread;
  const toFloor = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    let sum = 0;
    for (let k = i * targets; k < i * targets + places; k += 1) sum += correlation(kind, toPlacesM[k] ?? Number.NaN, lengthM);
    toFloor[i] = sum / places;
  }
  const within = averageCorrelation(known.spread, kind, lengthM);
  const byWeights = dot(weights, heights);
  return FLOOR_SIZES_M.flatMap((sizeM) => {
    const size2 = sizeM ** 2;
    writeCovariances(matrix, columns, layout, correlations, sizeM);
    for (let i = 0; i < n; i += 1) {
      matrix[i * columns + heightColumn] = real(heights, i);
      // The center of the places is the origin of the slope, so that only the offset links the floor's average to a reading.
      matrix[i * columns + floorColumn] = size2 * real(toFloor, i) + OFFSET_SD_M ** 2;
    }
    const logs = factorize(matrix, n, columns);
    if (logs === null) return [];
    const product = (a: number, b: number): number => dotColumns(matrix, n, columns, a, b);
    const bias = product(floorColumn, heightColumn) - byWeights;
    const variance = Math.max(0, size2 * within + OFFSET_SD_M ** 2 - product(floorColumn, floorColumn));
    return [
      {
        logLikelihood: -product(heightColumn, heightColumn) / 2 - logs,
        squaredM2: bias * bias + variance,
        model: { kind, lengthM, sizeM },
      },
    ];
  });
}

/** The distances between places, each with its number of ordered pairs. */
type Spread = { readonly apartM: readonly number[]; readonly pairs: readonly number[]; readonly places: number };

/** Places on a grid have few distances among many pairs: about 200 among 6,000. */
function spreadOf(places: readonly Point[], gridM: number): Spread {
  const columns = Uint32Array.from(
    stepsOver(
      places.map((p) => p.xM),
      gridM,
    ),
  );
  const rows = Uint32Array.from(
    stepsOver(
      places.map((p) => p.yM),
      gridM,
    ),
  );
  const side = Math.max(...columns, ...rows) + 1;
  const counts = new Uint32Array(side * side);
  for (let i = 0; i < places.length; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const offset = side * Math.abs(whole(columns, i) - whole(columns, j)) + Math.abs(whole(rows, i) - whole(rows, j));
      counts[offset] = whole(counts, offset) + 2;
    }
  }
  const offsets = Array.from(counts, (_, k) => k).filter((k) => whole(counts, k) > 0);
  const apartM = offsets.map((k) => gridM * Math.sqrt(Math.floor(k / side) ** 2 + (k % side) ** 2));
  return { apartM, pairs: offsets.map((k) => whole(counts, k)), places: places.length };
}

/** Numbers of the grid's steps from the lowest of the values. */
function stepsOver(values: readonly number[], stepM: number): number[] {
  const lowest = Math.min(...values);
  return values.map((value) => Math.round((value - lowest) / stepM));
}

function averageCorrelation({ apartM, pairs, places }: Spread, kind: FloorModel['kind'], lengthM: number): number {
  return apartM.reduce((sum, apart, k) => sum + (pairs[k] ?? 0) * correlation(kind, apart, lengthM), places) / places ** 2;
}

/** Weight of each spot in the surface's average height over the places. */
function weightsOver(surface: Surface, places: readonly Point[]): Float64Array {
  const weights = new Float64Array(surface.spotCount);
  const three: [number, number, number] = [0, 0, 0];
  const add = (spot: number, weight: number): void => {
    weights[spot] = real(weights, spot) + weight / places.length;
  };
  let last = 0;
  for (const { xM, yM } of places) {
    const t = triangleAt(surface, xM, yM, last);
    if (t >= 0) {
      last = t;
      spotWeights(surface, t, xM, yM, three);
      for (let c = 0; c < 3; c += 1) add(whole(surface.cellSpots, 3 * t + c), three[c] ?? 0);
    } else {
      const { from, to, share } = nearestOnHull(surface, xM, yM);
      add(from, 1 - share);
      add(to, share);
    }
  }
  return weights;
}

/** Weight of each of a cell's three spots at a point of it; the weights add to one. */
function spotWeights(surface: Surface, cell: number, xM: number, yM: number, into: [number, number, number]): void {
  const a = whole(surface.cellSpots, 3 * cell);
  const b = whole(surface.cellSpots, 3 * cell + 1);
  const c = whole(surface.cellSpots, 3 * cell + 2);
  const { xM: xs, yM: ys } = surface;
  const ux = real(xs, b) - real(xs, a);
  const uy = real(ys, b) - real(ys, a);
  const px = xM - real(xs, a);
  const py = yM - real(ys, a);
  into[2] = 0;
  if (b === c) {
    const length2 = ux * ux + uy * uy;
    into[1] = length2 === 0 ? 0 : Math.min(1, Math.max(0, (px * ux + py * uy) / length2));
    into[0] = 1 - into[1];
    return;
  }
  const vx = real(xs, c) - real(xs, a);
  const vy = real(ys, c) - real(ys, a);
  const twice = ux * vy - uy * vx;
  into[1] = twice === 0 ? 0 : (px * vy - py * vx) / twice;
  into[2] = twice === 0 ? 0 : (ux * py - uy * px) / twice;
  into[0] = 1 - into[1] - into[2];
}
