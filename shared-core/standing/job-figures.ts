/** Estimate figures used by assessment, prep and lists, small enough to cache with their records. */
import { type LiftBreak, liftBreak } from '../material/lift-break.ts';
import type { PrimerNeed } from '../material/primer.ts';
import type { FillShares } from '../pour/fill-shares.ts';
import type { PrepInput } from '../prep/prep-input.ts';
import type { JobEstimate } from '../price/estimate-job.ts';
import { DOUBT_KEY } from '../price/estimate-room.ts';

/** One room's figures under the job's own option; null where the estimate has none yet. */
export type RoomFigures = {
  readonly roomId: string;
  /** Load the pour adds at its deepest point, pascals. */
  readonly addedLoadPa: number | null;
  /** Step up from the floor or sill beyond each opening to the new flooring, by the opening's id, meters; without those not known. */
  readonly doorSteps: Readonly<Record<string, number>>;
  /** High spots that are ground, square meters and meters. */
  readonly grind: { readonly areaM2: number; readonly spots: number; readonly deepestM: number } | null;
  /** The primer before the first lift, and before each later one. */
  readonly primer: PrepInput['primer'];
  readonly liftPrimer: PrepInput['primer'];
  readonly bags: number | null;
  /** Bags before rounding; null for none. */
  readonly exactBags: number | null;
  /** What keeps the figures from being final: a doubtful reading holds them; anything else is still to be entered. */
  readonly unsettled: 'doubt' | 'missing' | null;
  /** The most mix water of one bag, liters. */
  readonly bagWaterL: number | null;
  /** Minutes of all pours of the room. */
  readonly pourMinutes: number | null;
  /** How the bags and the minutes are divided among its pours; empty while that is not known. */
  readonly fillShares: FillShares;
  readonly liftBreak: LiftBreak | null;
  readonly depth: { readonly leastM: number; readonly meanM: number; readonly deepestM: number } | null;
  /** Lifts the pour takes; null while there is no estimate. */
  readonly lifts: number | null;
};
export type JobFigures = readonly RoomFigures[];

const primed = (need: PrimerNeed | null): PrepInput['primer'] =>
  need === null
    ? null
    : {
        coats: need.coats,
        liters: need.spreadL,
        waterParts: need.waterParts,
        dryHoursLeast: need.dryHours.least,
        dryHoursMost: need.dryHours.most,
      };

/** The figures of every room under the job's own option. */
export function figuresOf({ base }: Pick<JobEstimate, 'base'>): JobFigures {
  return base.rooms.map(({ roomId, survey, takeoff, fillShares, problems }): RoomFigures => {
    const stops = problems.filter((problem) => problem.stops);
    const level = survey.state === 'waiting' ? null : survey.level;
    const ground = level !== null && level.highSpotsAreGround ? level.highSpots : [];
    const depths = takeoff.room.depths;
    return {
      roomId,
      addedLoadPa: takeoff.weight?.deepestPa ?? null,
      doorSteps: Object.fromEntries(
        (level?.doorways ?? []).flatMap(({ openingId, stepM }) => (stepM === null ? [] : [[openingId, stepM]])),
      ),
      grind:
        ground.length === 0
          ? null
          : {
              areaM2: ground.reduce((sum, spot) => sum + spot.areaM2, 0),
              spots: ground.length,
              deepestM: Math.max(...ground.map((spot) => spot.depthM)),
            },
      primer: primed(takeoff.primer),
      liftPrimer: primed(takeoff.liftPrimer),
      bags: takeoff.bags?.quotedBags ?? null,
      exactBags: takeoff.bags?.exactBags ?? null,
      unsettled: stops.some(({ key }) => key.startsWith(DOUBT_KEY)) ? 'doubt' : stops.length > 0 ? 'missing' : null,
      bagWaterL: takeoff.sheet?.waterL.value.most ?? null,
      pourMinutes: takeoff.bags === null ? null : takeoff.pourMinutes,
      fillShares,
      liftBreak: liftBreak(takeoff),
      depth: depths === null ? null : { leastM: depths.leastM, meanM: depths.meanM, deepestM: depths.mostM },
      lifts: takeoff.lifts?.count ?? null,
    };
  });
}
