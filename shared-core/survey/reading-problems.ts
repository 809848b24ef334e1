/** Errors and doubts about readings, each with its place and a sentence. No entered value is changed or dropped. */
import type { Point } from '../book/fields.ts';
import type { Reading, Survey } from '../book/plan-fields.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { heightOfM, spotsOf, type Spot, valueOfHeightM } from './heights.ts';
import { departuresOf, type Departures, type Neighbors, predict, ringAround } from './leave-one-out.ts';
import { acrossStep, straightStep } from './moved-laser.ts';
import { fittedPlane, planeAtM } from './plane.ts';
import { distanceToWallM, isOnFloor, isWithinRing, type RoomRings } from './room-rings.ts';
import { likelySlip, slipSentence } from './slip.ts';
import type { Surface } from './surface.ts';
import { real, whole } from './typed-reads.ts';

/**
 * `left-out`: not used until corrected. `query`: used as entered, but needs another look. `blocks`: there is no surface
 * until it is corrected.
 */
export type ReadingProblem = {
  readonly kind: 'not-a-number' | 'outside' | 'in-cutout' | 'two-heights' | 'too-few' | 'in-line' | 'departs' | 'moved';
  readonly weight: 'left-out' | 'query' | 'blocks';
  readonly readingIds: readonly string[];
  readonly point: Point | null;
  readonly message: string;
  /** The value that would fit, for a button that corrects the reading, meters; null when no slip fits. */
  readonly meantM: number | null;
  /** The readings of the later setup, where the laser may have been moved. */
  readonly laterIds?: readonly string[];
};

/**
 * A reading this little outside the wall counts as at the wall: outlines are drawn to the wall's face, and a rod's foot has
 * a width.
 */
const AT_THE_WALL_M = 0.02;

/** Usable readings, merged by spot, and the problems of the others. */
export type SortedReadings = { readonly spots: readonly Spot[]; readonly problems: readonly ReadingProblem[] };

/** Sorts readings into usable spots and problems. */
export function sortReadings(survey: Survey, room: RoomRings, units: UnitSystem): SortedReadings {
  const problems: ReadingProblem[] = [];
  const usable: Reading[] = [];
  for (const reading of survey.readings) {
    const { id, xM, yM, valueM } = reading;
    if (!Number.isFinite(xM) || !Number.isFinite(yM) || !Number.isFinite(valueM)) {
      const point = Number.isFinite(xM) && Number.isFinite(yM) ? { xM, yM } : null;
      const message = point ? 'This reading is not a number. Enter it again.' : 'This reading has no position. Place it on the plan.';
      problems.push({ kind: 'not-a-number', weight: 'left-out', readingIds: [id], point, message, meantM: null });
      continue;
    }
    if (!isOnFloor(room, xM, yM)) {
      const far = distanceToWallM(room, xM, yM);
      if (far > AT_THE_WALL_M) {
        const outline = room.rings[0];
        const inHole = outline !== undefined && isWithinRing(outline, xM, yM);
        const message = inHole
          ? 'This reading is in a cutout and is not used. Move it or edit the cutout.'
          : `This reading is ${formatLength(far, units)} outside the walls and is not used. Move it or the wall.`;
        problems.push({
          kind: inHole ? 'in-cutout' : 'outside',
          weight: 'left-out',
          readingIds: [id],
          point: { xM, yM },
          message,
          meantM: null,
        });
        continue;
      }
    }
    usable.push(reading);
  }
  const spots = spotsOf(survey.method, usable);
  for (const spot of spots) {
    if (spot.readings.length < 2) continue;
    const heights = spot.readings.map((reading) => heightOfM(survey.method, reading.valueM));
    const differenceM = Math.max(...heights) - Math.min(...heights);
    // Two readings differ by chance by √2 of one reading's scatter; more than three times that is a contradiction.
    if (differenceM <= 3 * Math.SQRT2 * survey.readingErrorM) continue;
    problems.push({
      kind: 'two-heights',
      weight: 'query',
      readingIds: spot.readings.map((reading) => reading.id),
      point: { xM: spot.xM, yM: spot.yM },
      message:
        spot.readings.length === 2
          ? `Two readings at this point are ${formatDepth(differenceM, units)} apart. Read it again and delete one. The average is used until then.`
          : `${spot.readings.length} readings at this point are up to ${formatDepth(differenceM, units)} apart. Read it again and keep one. The average is used until then.`,
      meantM: null,
    });
  }
  const shape = shapeProblem(spots);
  if (shape) problems.push(shape);
  return { spots, problems };
}

/** Readings nearer than this to one line make no surface, meters. */
const IN_LINE_M = 0.05;

function shapeProblem(spots: readonly Spot[]): ReadingProblem | null {
  const ids = spots.flatMap((spot) => spot.readings.map((reading) => reading.id));
  const first = spots[0];
  const point = first ? { xM: first.xM, yM: first.yM } : null;
  if (spots.length < 3) {
    const had = spots.length === 0 ? 'No reading can be used yet' : spots.length === 1 ? 'One reading alone' : 'Two readings alone';
    const message = `${had}${spots.length === 0 ? '' : ' cannot describe the floor'}. Take at least three, near three corners.`;
    return { kind: 'too-few', weight: 'blocks', readingIds: ids, point, message, meantM: null };
  }
  let mx = 0;
  let my = 0;
  for (const spot of spots) {
    mx += spot.xM / spots.length;
    my += spot.yM / spots.length;
  }
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const spot of spots) {
    xx += (spot.xM - mx) ** 2;
    xy += (spot.xM - mx) * (spot.yM - my);
    yy += (spot.yM - my) ** 2;
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  const across = spots.map((spot) => (spot.yM - my) * Math.cos(angle) - (spot.xM - mx) * Math.sin(angle));
  if (Math.max(...across) - Math.min(...across) > IN_LINE_M) return null;
  const message = 'All readings are on one line. Take some on both sides of it.';
  return { kind: 'in-line', weight: 'blocks', readingIds: ids, point, message, meantM: null };
}

/** Minimum departure worth a question, meters: a step people notice underfoot (common practice). */
const LEAST_DEPARTURE_M = 0.008;
/** A departure is implausible at this multiple of the floor's own typical one. */
const IMPLAUSIBLE_FACTOR = 6;

/** Departures from the neighbors with the room's own slope removed, so that readings at the edge are judged fairly. */
export function leveledDepartures(surface: Surface, neighbors: Neighbors): { readonly departures: Departures; readonly leveled: Surface } {
  const leveled = { ...surface, zM: withoutSlope(surface) };
  return { departures: departuresOf(leveled, neighbors), leveled };
}

/** Rounds of fitting the slope and excluding outliers. */
const SLOPE_ROUNDS = 8;
/**
 * Outlier limit: this multiple of the readings' typical distance from the plane. Excluding one reading too many costs the
 * plane little.
 */
const OUTLIER_FACTOR = 2.5;

/**
 * Removes the slope. A slip of a meter tilts a plane fitted to all readings, so outliers are excluded and the plane is
 * fitted again.
 */
function withoutSlope(surface: Surface): Float64Array {
  const count = surface.spotCount;
  const counts = new Uint32Array(count).fill(1);
  let leveled = offPlane(surface, counts);
  for (let round = 1; round < SLOPE_ROUNDS; round += 1) {
    // The corners far out that follow the readings in the array are not readings.
    const read = leveled.subarray(0, count);
    const sorted = read.slice().sort();
    const middle = real(sorted, Math.floor(count / 2));
    const deviation = Float64Array.from(read, (z) => Math.abs(z - middle));
    const reason = Math.max(LEAST_DEPARTURE_M, OUTLIER_FACTOR * 1.4826 * real(deviation.slice().sort(), Math.floor(count / 2)));
    let isChanged = false;
    for (let i = 0; i < count; i += 1) {
      const flag = real(deviation, i) <= reason ? 1 : 0;
      if (counts[i] !== flag) isChanged = true;
      counts[i] = flag;
    }
    if (!isChanged) break;
    leveled = offPlane(surface, counts);
  }
  return leveled;
}

/** Heights over the least-squares plane of the readings that count. */
function offPlane(surface: Surface, counts: Uint32Array): Float64Array {
  const plane = fittedPlane(surface, (i) => counts[i] !== 0);
  const leveled = surface.zM.slice();
  for (let i = 0; i < surface.spotCount; i += 1)
    leveled[i] = real(surface.zM, i) - planeAtM(plane, real(surface.xM, i), real(surface.yM, i));
  return leveled;
}

/** Readings with the data to judge them: their surface, each one's neighbors, and its departure from them. */
export type JudgedReadings = {
  readonly leveled: Surface;
  readonly neighbors: Neighbors;
  readonly departures: Departures;
  readonly spots: readonly Spot[];
};

/**
 * Implausible readings, the worst first. The worst is excluded and its neighbors are judged again without it, so that one
 * slip does not flag the readings around it. A confirmed reading is not asked about again.
 */
export function doubtfulReadings(
  { leveled, neighbors, departures, spots }: JudgedReadings,
  survey: Pick<Survey, 'method' | 'readingErrorM'>,
  units: UnitSystem,
): ReadingProblem[] {
  const count = leveled.spotCount;
  if (count < 5) return [];
  const sizes = Float64Array.from(departures.departureM, Math.abs).sort();
  const typical = 1.4826 * real(sizes, Math.floor(sizes.length / 2));
  const reason = Math.max(LEAST_DEPARTURE_M, IMPLAUSIBLE_FACTOR * typical, IMPLAUSIBLE_FACTOR * survey.readingErrorM);
  const limitOf = (i: number): number => (departures.beyond[i] ? 1.5 : 1) * reason;
  const departure = departures.departureM.slice();
  const excluded = new Set<number>();
  const most = Math.max(1, Math.floor(count / 5));
  while (excluded.size < most) {
    let worst = -1;
    for (let i = 0; i < count; i += 1) {
      if (excluded.has(i) || Math.abs(real(departure, i)) <= limitOf(i)) continue;
      if (worst < 0 || Math.abs(real(departure, i)) > Math.abs(real(departure, worst))) worst = i;
    }
    if (worst < 0) break;
    excluded.add(worst);
    for (let k = whole(neighbors.start, worst); k < whole(neighbors.start, worst + 1); k += 1) {
      const i = whole(neighbors.of, k);
      departure[i] = real(leveled.zM, i) - predict(leveled, i, ringAround(leveled, neighbors, i, excluded)).zM;
    }
  }
  const problems: ReadingProblem[] = [];
  for (const i of excluded) {
    const spot = spots[i];
    const reading = spot?.readings[0];
    // Judged again against the remaining readings, so that a true bump between two slips is not flagged.
    const departureM = real(leveled.zM, i) - predict(leveled, i, ringAround(leveled, neighbors, i, excluded)).zM;
    if (!spot || !reading || spot.readings.every(({ confirmed }) => confirmed) || Math.abs(departureM) <= limitOf(i)) continue;
    const predictedM = valueOfHeightM(survey.method, spot.zM - departureM);
    const slip = likelySlip(reading.valueM, predictedM, Math.max(4 * survey.readingErrorM, 3 * typical), units);
    const way = departureM > 0 ? 'higher' : 'lower';
    problems.push({
      kind: 'departs',
      weight: 'query',
      readingIds: spot.readings.map((entry) => entry.id),
      point: { xM: spot.xM, yM: spot.yM },
      message: `This reading puts the floor ${formatDepth(Math.abs(departureM), units)} ${way} than those around it.${slipSentence(slip, units)} Read it again, then confirm or delete it.`,
      meantM: slip?.meantM ?? null,
    });
  }
  return problems;
}

/** A step across the readings, unless it was confirmed at its nearest readings. Runs have no laser. */
export function movedLaser(spots: readonly Spot[], survey: Survey, units: UnitSystem): ReadingProblem[] {
  const order = new Map(survey.readings.map(({ id }, i) => [id, i]));
  const step = survey.runs === undefined ? straightStep(spots, ({ readings }) => order.get(readings[0]?.id ?? '') ?? 0) : null;
  if (step === null) return [];
  const across = acrossStep(step);
  const readings = across.flatMap((spot) => spot.readings);
  if (readings.every(({ confirmed }) => confirmed)) return [];
  const way = step.stepM > 0 ? 'higher' : 'lower';
  return [
    {
      kind: 'moved',
      weight: 'query',
      readingIds: readings.map(({ id }) => id),
      point: { xM: ((across[0]?.xM ?? 0) + (across[1]?.xM ?? 0)) / 2, yM: ((across[0]?.yM ?? 0) + (across[1]?.yM ?? 0)) / 2 },
      message: `Beyond a straight line here, all readings put the floor about ${formatDepth(Math.abs(step.stepM), units)} ${way}. Was the laser moved? Read one spot from both setups and enter both readings.`,
      meantM: null,
      laterIds: step.later.flatMap((spot) => spot.readings.map(({ id }) => id)),
    },
  ];
}
