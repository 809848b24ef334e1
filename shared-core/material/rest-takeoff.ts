/** What the rest of a floor takes, from the takeoff of all of it: bags by the rest's own plan, primer and hours by its area. */
import type { RoomTakeoff } from './takeoff.ts';

export type RestAmounts = {
  /** Share of the room still to place, 0 to 1. */
  readonly openShare: number;
  /** Bags the plan of the rest needs; null while it cannot be laid out: then the share of the room's bags. */
  readonly plannedBags: number | null;
  /** Own hours for edges, patches and checks. */
  readonly prepHours: number;
};

/** Tasks done again for the rest, by its share of the floor. What is fixed for a pour is not shared out. */
const BY_AREA: ReadonlySet<string> = new Set(['vacuum', 'prime', 'stage', 'pour']);

/** The takeoff of the rest. The margin of the room's bags over its likely bags is kept. */
export function restTakeoff(all: RoomTakeoff, { openShare, plannedBags, prepHours }: RestAmounts): RoomTakeoff {
  const { bags, room } = all;
  const exactBags = plannedBags ?? (bags?.exactBags ?? 0) * openShare;
  const whole = (of: number): number => Math.ceil(exactBags * (of / Math.max(1e-9, bags?.exactBags ?? 1)) - 1e-6);
  const quoted = bags === null ? 0 : whole(bags.quotedBags);
  const share = bags === null || bags.quotedBags === 0 ? openShare : quoted / bags.quotedBags;
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
      crackM: 0,
      abradeM2: 0,
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
            likelyBags: Math.ceil(exactBags - 1e-6),
            leastBags: whole(bags.leastBags),
            mostBags: whole(bags.mostBags),
            quotedBags: quoted,
          },
    powderKg: all.powderKg * share,
    aggregate: all.aggregate === null ? null : { ...all.aggregate, totalKg: all.aggregate.totalKg * share },
    water:
      all.water === null
        ? null
        : {
            ...all.water,
            batches: Math.ceil(quoted / all.water.bagsPerBatch - 1e-9),
            totalL: { least: all.water.totalL.least * share, most: all.water.totalL.most * share },
          },
    primer:
      all.primer === null
        ? null
        : {
            ...all.primer,
            spreadL: all.primer.spreadL * openShare,
            neatL: all.primer.neatL * openShare,
            waterL: all.primer.waterL * openShare,
          },
    damM: 0,
    dams: 0,
    disposal: { massKg: 0, areaM2: 0 },
    hours: [
      ...(prepHours > 0
        ? [
            {
              key: 'edges' as const,
              name: 'Edges and patches',
              ownHours: prepHours,
              helperHours: 0,
              why: 'edges, patches, and checks after the first pour, typical',
              source: 'typical' as const,
            },
          ]
        : []),
      ...all.hours.flatMap((task) =>
        task.key === 'set-up'
          ? openShare > 0
            ? [task]
            : []
          : BY_AREA.has(task.key) && openShare > 0
            ? [{ ...task, ownHours: task.ownHours * openShare, helperHours: task.helperHours * openShare }]
            : [],
      ),
    ],
    pourMinutes: all.pourMinutes * openShare,
    problems: [],
  };
}
