/** Flatness after the pour: the promised gap, the measured gap, and the verdict. */
import type { JobRoom } from '../book/job.ts';
import type { Quote } from '../book/quote.ts';
import type { Room } from '../book/room.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import type { WorstGap } from '../survey/flatness.ts';
import { floorFlatness, USUAL_STRAIGHTEDGE_M } from '../survey/floor-flatness.ts';
import { type FloorRead, readFloor } from '../survey/read-floor.ts';

export type FlatnessAfter = {
  /** Largest gap the quote promised under the usual straightedge, m; null where no quote states one. */
  readonly promisedM: number | null;
  /** Largest gap measured after the last pour; null where the floor was not measured since. */
  readonly worst: WorstGap | null;
  /** The floor it was measured on; null with `worst`. */
  readonly floor: FloorRead | null;
  /** `kept`: within the promise, to a reading, and within every limit for the flooring. */
  readonly verdict: 'not-measured' | 'kept' | 'over-promise' | 'over-limit';
};

/**
 * How finely a gap can be read: half a sixteenth of an inch, m. One that is over the promise by no more reads the same on a tape, in
 * whichever units it is printed. Common practice, no source.
 */
export const GAP_READING_M = 0.0254 / 32;

/** The gap promised by the quote that is accepted, or issued last; null without one. */
export function promisedGapM(quotes: readonly Quote[]): number | null {
  const live = quotes.filter((quote) => quote.deletedAt === null);
  const quote = live.findLast(({ state }) => state === 'accepted') ?? live.findLast(({ state }) => state === 'issued');
  if (quote === undefined) return null;
  const { options, suggestedId } = quote.priced;
  const optionId = quote.acceptedOptionId ?? suggestedId;
  return options.find((option) => option.id === optionId)?.gapM ?? null;
}

/** Readings since the last pour ended; earlier ones are of another floor. */
function surveySince(room: Pick<Room, 'surveyAfter'>, placedAt: string): Room['surveyAfter'] {
  const survey = room.surveyAfter;
  return survey === null || (survey.takenAt !== null && survey.takenAt < placedAt) ? null : survey;
}

/**
 * The flatness of a placed floor.
 * @param placedAt instant the last pour of the room ended
 */
export function flatnessAfter(
  room: Room,
  jobRoom: Pick<JobRoom, 'flooring' | 'flooringLimits'>,
  context: { readonly quotes: readonly Quote[]; readonly placedAt: string; readonly units: UnitSystem; readonly country: string },
): FlatnessAfter {
  const promisedM = promisedGapM(context.quotes);
  const survey = surveySince(room, context.placedAt);
  const read = survey === null ? null : readFloor(room.plan, survey, context.units);
  if (read === null || !read.ok) return { promisedM, worst: null, floor: null, verdict: 'not-measured' };
  const { worst, forFlooring } = floorFlatness(read.floor, USUAL_STRAIGHTEDGE_M, {
    ...jobRoom,
    country: context.country,
  });
  const isOver = promisedM !== null && worst.gapM > promisedM + GAP_READING_M;
  const verdict = forFlooring.some((rule) => !rule.meets) ? 'over-limit' : isOver ? 'over-promise' : 'kept';
  return { promisedM, worst, floor: read.floor, verdict };
}
