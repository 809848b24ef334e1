/**
 * Everything the readings determine about a floor before a finish elevation is chosen: calculated once, so that the
 * elevation can be dragged.
 */
import type { Point } from '../book/fields.ts';
import type { Plan, Survey } from '../book/plan-fields.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { planProblems } from '../plan/problems.ts';
import { fNumbersOf, type FNumbers } from './f-numbers.ts';
import { type Profiles, profilesOver } from './profile-lines.ts';
import { floorError, type FloorError } from './floor-error.ts';
import type { Spot } from './heights.ts';
import { type Departures, neighborsOf } from './leave-one-out.ts';
import { type Mosaic, mosaicOf } from './mosaic.ts';
import { doubtfulReadings, leveledDepartures, movedLaser, type ReadingProblem, sortReadings } from './reading-problems.ts';
import { extremesOf } from './relief.ts';
import { type RoomRings, roomRings } from './room-rings.ts';
import { type Surface, surfaceOver } from './surface.ts';
import { real } from './typed-reads.ts';
import { type WorthReading, worthReading } from './worth-reading.ts';

/** The measured floor: plain numbers and typed arrays, so that it can be passed between threads. */
export type FloorRead = {
  readonly room: RoomRings;
  readonly surface: Surface;
  readonly mosaic: Mosaic;
  readonly spots: readonly Spot[];
  readonly problems: readonly ReadingProblem[];
  /** How far the surface may be off the true floor. */
  readonly error: FloorError;
  readonly profiles: Profiles;
  readonly areaM2: number;
  /** Share of the floor without readings, 0 to 1. */
  readonly extrapolatedShare: number;
  readonly highestM: number;
  readonly lowestM: number;
  readonly lowestAt: Point;
  /** Mean height over the floor, meters. */
  readonly meanM: number;
  readonly fNumbers: FNumbers | null;
  readonly worthReading: readonly WorthReading[];
};

/** With more than this share of a floor beyond its readings, they tell neither its volume nor its flatness. Common practice, no source. */
const MOST_EXTRAPOLATED = 0.5;

/** Whether most of a floor is beyond its readings: no price is fixed on it, and nothing is said of its flatness. */
export const isMostlyUnread = ({ extrapolatedShare }: Pick<FloorRead, 'extrapolatedShare'>): boolean =>
  extrapolatedShare > MOST_EXTRAPOLATED;

/** The floor, or the problems that prevent calculating it: sentences with their places. */
export type FloorAnswer =
  | { readonly ok: true; readonly floor: FloorRead }
  | { readonly ok: false; readonly message: string; readonly problems: readonly ReadingProblem[] };

/**
 * Reads a room's survey. Fails with a sentence when the plan has no valid outline or the readings span no area; unusable
 * readings are listed and the others are used.
 */
export function readFloor(plan: Plan, survey: Survey, units: UnitSystem): FloorAnswer {
  const before = reads.get(survey);
  if (before !== undefined && before.plan === plan && before.units === units) return before.answer;
  const key = keyOf(plan, survey, units);
  const answer = kept.get(key) ?? computeFloor(plan, survey, units);
  keepAnswer(plan, survey, units, answer, key);
  return answer;
}

/** Keeps the answer of a floor, which may have been read on another thread. */
export function keepAnswer(plan: Plan, survey: Survey, units: UnitSystem, answer: FloorAnswer, key = keyOf(plan, survey, units)): void {
  reads.set(survey, { plan, units, answer });
  kept.delete(key);
  kept.set(key, answer);
  let readings = [...kept.values()].reduce((sum, one) => sum + readingsOf(one), 0);
  for (const [oldest, one] of kept) {
    if (readings <= MOST_READINGS || oldest === key) break;
    readings -= readingsOf(one);
    kept.delete(oldest);
  }
}

/** The last answer by survey record, because records are immutable and one job asks several times. */
const reads = new WeakMap<Survey, { readonly plan: Plan; readonly units: UnitSystem; readonly answer: FloorAnswer }>();

/** The last answers by content, because records come new from each query, quote and message: an edit of anything else reads no floor. */
const kept = new Map<string, FloorAnswer>();

/** Readings in the floors kept by content; a floor of 2,000 takes about 10 MB. */
const MOST_READINGS = 6000;

const readingsOf = (answer: FloorAnswer): number => (answer.ok ? answer.floor.spots.length : 1);

const keyOf = (plan: Plan, survey: Survey, units: UnitSystem): string => JSON.stringify([units, plan, { ...survey, takenAt: null }]);

function computeFloor(plan: Plan, survey: Survey, units: UnitSystem): FloorAnswer {
  const unsound = planProblems(plan, units).find((problem) => !/^(opening|diagonal)/.test(problem.kind));
  if (unsound) return { ok: false, message: unsound.message, problems: [] };
  const room = roomRings(plan);
  if (!room) return { ok: false, message: 'The room is not drawn yet. Draw its walls first.', problems: [] };
  const { spots, problems } = sortReadings(survey, room, units);
  const blocked = problems.find((problem) => problem.weight === 'blocks');
  if (blocked) return { ok: false, message: blocked.message, problems };
  const surface = surfaceOver(spots, reachFor(spots, room));
  if (!surface) return { ok: false, message: 'All readings are on one line. Take some on both sides of it.', problems };
  const mosaic = mosaicOf(surface, room);
  const neighbors = neighborsOf(surface);
  const { departures, leveled } = leveledDepartures(surface, neighbors);
  const extremes = extremesOf(mosaic, { slopeX: 0, slopeY: 0 });
  return {
    ok: true,
    floor: {
      room,
      surface,
      mosaic,
      spots,
      problems: [
        ...problems,
        ...doubtfulReadings({ leveled, neighbors, departures, spots }, survey, units),
        ...movedLaser(spots, survey, units),
      ],
      error: floorError(spots, surface, room, survey.readingErrorM),
      profiles: profilesOver(surface, room, { through: largestDepartures(departures) }),
      areaM2: mosaic.areaTotalM2,
      extrapolatedShare: Math.min(1, Math.max(0, mosaic.extrapolatedM2 / mosaic.areaTotalM2)),
      ...extremes,
      meanM: meanHeightM(mosaic),
      fNumbers: fNumbersOf(spots),
      worthReading: worthReading(surface, mosaic, departures, neighbors, survey.readingErrorM),
    },
  };
}

/**
 * Number of spots whose connecting lines are all checked: those that depart most from their neighbors. Fewer in a survey so
 * dense that the even lines pass near every reading.
 */
const CHECKED_SPOTS = 18;
const DENSE = 300;
const CHECKED_SPOTS_DENSE = 6;

function largestDepartures({ departureM }: Departures): number[] {
  return Array.from(departureM, (_, i) => i)
    .sort((a, b) => Math.abs(real(departureM, b)) - Math.abs(real(departureM, a)))
    .slice(0, departureM.length > DENSE ? CHECKED_SPOTS_DENSE : CHECKED_SPOTS);
}

/** A distance that covers the room and every reading from anywhere, meters. */
function reachFor(spots: readonly Spot[], room: RoomRings): number {
  let [x0, x1, y0, y1] = [room.leftM, room.rightM, room.topM, room.bottomM];
  for (const spot of spots) {
    x0 = Math.min(x0, spot.xM);
    x1 = Math.max(x1, spot.xM);
    y0 = Math.min(y0, spot.yM);
    y1 = Math.max(y1, spot.yM);
  }
  return 1.5 * Math.hypot(x1 - x0, y1 - y0) + 1;
}

function meanHeightM(mosaic: Mosaic): number {
  let sum = 0;
  for (let k = 0; k < mosaic.count; k += 1) {
    sum += (real(mosaic.areaM2, k) * (real(mosaic.xyz, 9 * k + 2) + real(mosaic.xyz, 9 * k + 5) + real(mosaic.xyz, 9 * k + 8))) / 3;
  }
  return sum / mosaic.areaTotalM2;
}
