/** A pour on record: the plan stored when it starts, and reading it again. */
import type { Material } from '../book/material.ts';
import type { Pour } from '../book/pour-record.ts';
import type { PouredPlan } from '../book/poured-plan.ts';
import { perContainer } from '../material/containers.ts';
import { inUse } from '../material/shopping.ts';
import type { Found } from '../measure/parsed.ts';
import type { Region } from '../plan/region.ts';
import { clocksAt } from '../pour/clocks.ts';
import { openDoorways } from '../pour/open-doorways.ts';
import { hasLater, pourLimits, pourTempC } from '../pour/pour-regions.ts';
import { storedLayout } from '../pour/stored-layout.ts';
import type { JobReading, RoomReading } from './read-job.ts';
import { broughtBags, firstPourPlan, leadingPlan, pourAggregateKg, type PourReading, type ReadPourProblem } from './read-pour.ts';

/**
 * The plan stored when a pour starts: the floor, the layout, the product and what is under it.
 * @param materials the business's data sheets, for the aggregate
 */
export function pouredPlanOf(read: PourReading, materials: readonly Material[]): PouredPlan {
  const { material } = read;
  const aggregate = inUse(materials, 'aggregate');
  const each = aggregate === null ? null : perContainer(aggregate, 'kg');
  const aggregateKg = pourAggregateKg(read);
  return {
    rooms: read.rooms.map(({ room, estimate, moistureSystem, primedWith }, i) => {
      const lift = read.lifts[i];
      const depths = estimate?.takeoff.room.depths ?? null;
      return {
        roomId: room.id,
        name: room.name,
        lift: lift?.number ?? read.lift.number,
        liftsPlanned: Math.max(1, lift?.of ?? read.lift.of),
        plan: { outline: room.plan.outline, holes: room.plan.holes, openings: room.plan.openings },
        depth: depths === null ? null : { meanM: depths.meanM, deepestM: depths.mostM },
        isRest: lift?.isRest ?? false,
        ...((read.later[i]?.length ?? 0) === 0 ? {} : { later: copied(read.later[i] ?? []) }),
        ...(moistureSystem === null ? {} : { moistureSystem: moistureSystem.name }),
        ...(primedWith === null ? {} : { primer: primedWith.name }),
      };
    }),
    layout: read.layout.ok ? storedLayout(read.layout.value) : null,
    material,
    ...(aggregate !== null && each?.ok === true && aggregateKg > 0
      ? { aggregate: { materialId: aggregate.id, containersPerBag: aggregateKg / each.value } }
      : {}),
    bagYieldM3: read.bagYieldM3,
    lossShare: read.lossShare,
    minThicknessM: read.leastM,
    plannedTempC: read.plannedTempC,
  };
}

/** Regions in their stored form. */
function copied(regions: readonly Region[]): NonNullable<PouredPlan['rooms'][number]['later']> {
  return regions.map(({ outline, holes }) => ({ outline: [...outline], holes: holes.map((hole) => [...hole]) }));
}

type Recorded = Pick<Pour, 'id' | 'plans' | 'bagsPlanned' | 'asPoured'>;

/**
 * Reads a pour on record against the plan stored with it.
 * @param tempC temperature of the pour; null takes the last one read in its log, then the planned one
 */
export function readPourRecord(reading: JobReading, pour: Recorded, tempC: number | null = null): Found<PourReading, ReadPourProblem> {
  const { asPoured } = pour;
  const readC = tempC ?? pourTempC(pour, reading.whole.pourEvents);
  const { powder } = asPoured.material;
  if (powder === null) return { ok: false, problem: { kind: 'no-sheet-stored' } };
  const rooms = asPoured.rooms.flatMap((stored): RoomReading[] => {
    const roomReading = reading.rooms.find((r) => r.room.id === stored.roomId);
    return roomReading === undefined
      ? []
      : [{ ...roomReading, room: { ...roomReading.room, name: stored.name, plan: { ...roomReading.room.plan, ...stored.plan } } }];
  });
  const lead = rooms[0];
  if (lead === undefined) return { ok: false, problem: { kind: 'rooms-removed' } };
  const plans = rooms.map(
    (roomReading) =>
      pour.plans?.find((p) => p.roomId === roomReading.room.id)?.plan ??
      roomReading.jobRoom.pourPlan ??
      firstPourPlan(roomReading, reading.whole),
  );
  const first = leadingPlan(rooms, plans) ?? firstPourPlan(lead, reading.whole);
  const clocks = clocksAt(powder, readC);
  const bagsNeeded = asPoured.layout === null ? pour.bagsPlanned : Math.ceil(asPoured.layout.volumeM3 / asPoured.bagYieldM3 - 1e-6);
  const lifts = asPoured.rooms.map((r) => ({ number: r.lift, of: r.liftsPlanned, isRest: r.isRest }));
  const later = asPoured.rooms.map((r) => r.later ?? []);
  return {
    ok: true,
    value: {
      rooms,
      lift: { number: Math.max(...lifts.map((l) => l.number)), of: Math.max(...lifts.map((l) => l.of)) },
      lifts,
      plans,
      first,
      doorways: openDoorways(
        rooms.map(({ room }) => ({ roomId: room.id, plan: room.plan })),
        first.openDoorways ?? [],
      ),
      material: { ...asPoured.material, powder },
      clocks,
      plannedTempC: asPoured.plannedTempC,
      bagYieldM3: asPoured.bagYieldM3,
      lossShare: asPoured.lossShare,
      bagsNeeded,
      bagsToBring:
        asPoured.layout === null
          ? bagsNeeded
          : broughtBags({ first, rooms, lifts, plans, later, bagYieldM3: asPoured.bagYieldM3 }, asPoured.layout),
      layout: asPoured.layout === null ? { ok: false, problem: { kind: 'no-layout-stored' } } : { ok: true, value: asPoured.layout },
      later,
      pourRooms: [],
      recordPlan: {
        layout: asPoured.layout,
        hasLater: hasLater(asPoured),
        healingMin: clocks.healingMin,
        workingTimeMin: clocks.workingTimeMin,
        limitsAt: pourLimits(asPoured) ?? (() => clocks),
        bagsPerBatch: asPoured.layout?.bagsPerBatch ?? first.crew.bagsPerBatch,
      },
      leastM: asPoured.minThicknessM,
    },
  };
}
