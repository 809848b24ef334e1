/** The takeoff of the rest of a floor, from the takeoff of all of it: bags by the rest's own plan, primer and hours by its area. */
import type { TaskHours } from './crew-hours.ts';
import { bagsToBring } from './lift-bags.ts';
import { hasAggregate } from './lifts.ts';
import { primingCoats, type RoomTakeoff } from './takeoff.ts';
import { batchCount } from './water.ts';

export type RestAmounts = {
  /** Whether it goes on a lift that is already placed. */
  readonly isOverLift: boolean;
  /** Share of the room to vacuum and prime, 0 to 1. */
  readonly openShare: number;
  /** Share of the room's bags to carry in and pour, 0 to 1. */
  readonly pourShare: number;
  /** Bags the plan of the rest needs, before rounding; null while it cannot be laid out: then the share of the room's bags. */
  readonly plannedBags: number | null;
  /** Whether the margin of the room's bags over its likely bags is kept. */
  readonly hasReserve: boolean;
  /** Whether the crew sets up for it once more. */
  readonly isSetUp: boolean;
  /** Whether the bags are mixed with aggregate, where the room has any. */
  readonly withAggregate: boolean;
  /** Own hours for edges, patches and checks. */
  readonly prepHours: number;
};

/** Tasks done again by the share of the floor, and by the share of the pour. */
const BY_FLOOR: ReadonlySet<string> = new Set(['vacuum', 'prime']);
const BY_POUR: ReadonlySet<string> = new Set(['stage', 'pour']);

/** Set-up and washout of one pour, of a task that holds those of several. */
function oneSetUp(task: TaskHours, setUps: number): TaskHours {
  if (setUps < 2 || task.why.kind !== 'set-ups') return task;
  return { ...task, ownHours: task.ownHours / setUps, helperHours: task.helperHours / setUps, why: { ...task.why, pours: 1 } };
}

/** The takeoff of the rest. */
export function restTakeoff(all: RoomTakeoff, amounts: RestAmounts): RoomTakeoff {
  const { isOverLift, openShare, pourShare, plannedBags, hasReserve, isSetUp, withAggregate, prepHours } = amounts;
  const { bags, room } = all;
  const primer = isOverLift ? all.liftPrimer : all.primer;
  const allCoats = primingCoats(all).reduce((sum, coats) => sum + coats, 0);
  const exactBags = plannedBags ?? (bags?.exactBags ?? 0) * pourShare;
  const whole = (bagCount: number): number =>
    Math.max(0, Math.ceil(exactBags * (hasReserve ? bagCount / Math.max(1e-9, bags?.exactBags ?? 1) : 1) - 1e-6));
  const quoted = bags === null ? 0 : whole(bags.quotedBags);
  const share = bags === null || bags.quotedBags === 0 ? pourShare : quoted / bags.quotedBags;
  const volume =
    room.volume === null
      ? null
      : 'sdM3' in room.volume
        ? { likelyM3: room.volume.likelyM3 * share, sdM3: room.volume.sdM3 * share }
        : { leastM3: room.volume.leastM3 * share, likelyM3: room.volume.likelyM3 * share, mostM3: room.volume.mostM3 * share };
  return {
    ...all,
    room: {
      ...room,
      areaM2: room.areaM2 * openShare,
      perimeterM: 0,
      volume,
      grind: { areaM2: 0, volumeM3: 0 },
      openings: [],
      removed: [],
      scraped: [],
      crackM: 0,
      abradeM2: 0,
      fasten: { subfloorM2: 0, plywoodM2: 0 },
      reinforceM2: 0,
      sealM2: 0,
      mitigation: null,
    },
    bags:
      bags === null
        ? null
        : {
            ...bags,
            exactBags,
            leastBags: whole(bags.leastBags),
            mostBags: whole(bags.mostBags),
            quotedBags: quoted,
          },
    powderKg: all.powderKg * share,
    aggregate: all.aggregate === null || !withAggregate ? null : { ...all.aggregate, totalKg: all.aggregate.aggregateKg * quoted },
    water:
      all.water === null
        ? null
        : {
            ...all.water,
            batches: { likely: batchCount(exactBags, all.water.bagsPerBatch), all: batchCount(quoted, all.water.bagsPerBatch) },
            totalL: { least: all.water.totalL.least * share, most: all.water.totalL.most * share },
          },
    primer:
      primer === null
        ? null
        : {
            ...primer,
            spreadL: primer.spreadL * openShare,
            neatL: primer.neatL * openShare,
            waterL: primer.waterL * openShare,
          },
    liftPrimer: null,
    primings: 1,
    betweenLiftsM2: isOverLift ? room.areaM2 * openShare : 0,
    damM: 0,
    dams: 0,
    disposalKg: 0,
    hours: [
      ...(prepHours > 0
        ? [
            {
              key: 'edges' as const,
              ownHours: prepHours,
              helperHours: 0,
              why: { kind: 'edges-after-pour' as const },
              source: 'typical' as const,
            },
          ]
        : []),
      ...all.hours.flatMap((task) => {
        if (task.key === 'set-up') return isSetUp ? [oneSetUp(task, all.setUps)] : [];
        const floorShare = openShare * (task.key === 'prime' ? (primer?.coats ?? 0) / Math.max(1, allCoats) : 1 / all.primings);
        const share = BY_FLOOR.has(task.key) ? floorShare : BY_POUR.has(task.key) ? pourShare : 0;
        return share <= 0 ? [] : [{ ...task, ownHours: task.ownHours * share, helperHours: task.helperHours * share }];
      }),
    ],
    setUps: isSetUp ? 1 : 0,
    pourMinutes: all.pourMinutes * pourShare,
    problems: [],
  };
}

/**
 * What a room takes from one lift on: the rest of that lift, and all of the lifts after it, with their priming.
 * @param lift that the rest is of, from 1
 */
export function withLaterLifts(all: RoomTakeoff, rest: RoomTakeoff, lift: number): RoomTakeoff {
  const { bags, sheet, lifts, liftBags, aggregate, liftPrimer, room } = all;
  const later = (liftBags ?? []).slice(lift);
  if (later.length === 0 || bags === null) return rest;
  const counts = later.map((exact) => bagsToBring(bags, exact));
  const bagCount = counts.reduce((sum, count) => sum + count, 0);
  const mixed = counts.reduce((sum, count, i) => sum + (hasAggregate(lifts, lift + 1 + i) ? count : 0), 0);
  const aggregateKg = (rest.aggregate?.totalKg ?? 0) + mixed * (aggregate?.aggregateKg ?? 0);
  return {
    ...rest,
    bags: rest.bags === null ? null : { ...rest.bags, quotedBags: rest.bags.quotedBags + bagCount },
    powderKg: rest.powderKg + bagCount * (sheet?.bagKg.value ?? 0),
    aggregate: aggregate === null ? null : { ...aggregate, totalKg: aggregateKg },
    liftPrimer,
    primings: 1 + later.length,
    betweenLiftsM2: rest.betweenLiftsM2 + room.areaM2 * later.length,
  };
}
