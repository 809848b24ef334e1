/** The dates a quote tells: the pour as meant, when the floor may be walked on, when its covering may be tested for. */
import type { JobBundle } from '../standing/job-bundle.ts';
import { roomsOf } from '../standing/job-bundle.ts';
import { roomCure } from '../standing/room-cure.ts';
import type { Flooring } from '../book/flooring.ts';
import type { Promised } from '../book/cure-record.ts';
import type { Frozen } from '../book/quote.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';

export type QuotedDates = {
  readonly roomId: string;
  readonly roomName: string;
  readonly pourAt: string;
  /** Null where the material's sheet gives no way to reckon it. */
  readonly walkOnAt: string | null;
  /** Likely and latest; the test decides, whatever the date. */
  readonly cover: { readonly flooring: Flooring; readonly name: string; readonly likelyAt: string; readonly latestAt: string } | null;
};

/** A bundle from the frozen record alone: nothing poured, read or promised yet. */
function bundleOf(frozen: Frozen, option: OptionEstimate): JobBundle {
  const rooms = frozen.job.rooms.map((jobRoom) => {
    const way = option.rooms.find((r) => r.roomId === jobRoom.roomId);
    return way === undefined ? jobRoom : { ...jobRoom, level: way.level, materialId: way.takeoff.materialId };
  });
  return {
    job: { ...frozen.job, rooms },
    customer: frozen.customer,
    property: frozen.property,
    rooms: frozen.rooms,
    materials: frozen.materials,
    quotes: [],
    pours: [],
    pourEvents: [],
    logs: [],
    promises: [],
    tests: [],
    visits: [],
    summaries: option.rooms.map((room) => ({
      roomId: room.roomId,
      planDrawn: true,
      readingsTaken: 0,
      testsWanting: 0,
      holds: [],
      prepOpen: 0,
      prepTotal: 0,
      prepNext: null,
      bags: room.takeoff.bags?.quotedBags ?? null,
      lifts: room.takeoff.lifts?.count ?? null,
      pourMinutes: room.takeoff.bags === null ? null : room.takeoff.pourMinutes,
      depth: room.takeoff.room.depths === null ? null : { meanM: room.takeoff.room.depths.meanM, deepestM: room.takeoff.room.depths.mostM },
    })),
  };
}

/** A customer is told a time one can say: the half hour not before it. */
function nextHalfHour(instant: string): string {
  const halfHourMs = 1_800_000;
  return new Date(Math.ceil(Date.parse(instant) / halfHourMs) * halfHourMs).toISOString();
}

/** The dates of each room that has a day for its pour, by one way of doing the job. */
export function quotedDates(frozen: Frozen, option: OptionEstimate): QuotedDates[] {
  const bundle = bundleOf(frozen, option);
  return roomsOf(bundle).flatMap((facts): QuotedDates[] => {
    const { pourAt } = facts.jobRoom;
    if (pourAt === null) return [];
    const cure = roomCure(bundle, facts, frozen.business)?.schedule ?? null;
    const cover = cure?.cover ?? null;
    const walk = cure?.milestones.find((m) => m.kind === 'walk-on')?.likelyAt ?? null;
    return [
      {
        roomId: facts.room.id,
        roomName: facts.room.name,
        pourAt,
        walkOnAt: walk === null ? null : nextHalfHour(walk),
        cover:
          cover === null || cover.flooring === null || cover.likelyAt === null || cover.latestAt === null
            ? null
            : { flooring: cover.flooring, name: cover.name, likelyAt: cover.likelyAt, latestAt: cover.latestAt },
      },
    ];
  });
}

/** What an accepted quote promises: the day each floor may be walked on, as the quote told it. Coverings wait for their test, so none is promised. */
export function quotedPromises(
  frozen: Frozen,
  option: OptionEstimate,
): Pick<Promised, 'jobId' | 'roomId' | 'milestone' | 'flooring' | 'promisedFor' | 'to'>[] {
  return quotedDates(frozen, option).flatMap(({ roomId, walkOnAt }) =>
    walkOnAt === null
      ? []
      : [{ jobId: frozen.job.id, roomId, milestone: 'walk-on' as const, flooring: null, promisedFor: walkOnAt, to: frozen.customer.name }],
  );
}
