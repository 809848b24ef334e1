/** The dates a quote states: the planned pour, foot traffic, and when the floor is expected to be ready for flooring. */
import type { JobBundle } from '../standing/job-bundle.ts';
import { roomsOf } from '../standing/job-bundle.ts';
import { figuresOf } from '../standing/job-figures.ts';
import { stepsToCome } from '../standing/next-pours.ts';
import { roomCure } from '../standing/room-cure.ts';
import type { Frozen, Quote } from '../book/quote.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import { milestoneName } from '../standing/cure-words.ts';

export type QuotedDates = {
  readonly roomId: string;
  readonly roomName: string;
  readonly pourAt: string;
  /** When the last of its lifts and sections is expected to be placed; null where that is on the day of the first. */
  readonly lastPourAt: string | null;
  /** As stated; null where the data sheet gives no way to calculate it. */
  readonly walkOnAt: string | null;
  /** Likely and latest; where the flooring needs a moisture test, the test decides, whatever the date. */
  readonly cover: {
    readonly name: string;
    readonly likelyAt: string;
    readonly latestAt: string;
    readonly byTest: boolean;
  } | null;
};

/** A job bundle from the frozen records alone: nothing poured, measured or promised yet. */
function bundleOf(frozen: Frozen, option: OptionEstimate): JobBundle {
  const rooms = frozen.job.rooms.map((jobRoom) => {
    const roomOption = option.rooms.find((r) => r.roomId === jobRoom.roomId);
    return roomOption === undefined ? jobRoom : { ...jobRoom, level: roomOption.level, materialId: roomOption.takeoff.materialId };
  });
  return {
    ...frozen,
    job: { ...frozen.job, rooms },
    quotes: [],
    pours: [],
    pourEvents: [],
    cureLogs: [],
    promises: [],
    clearanceTests: [],
    ledger: [],
    visits: [],
    summaries: figuresOf({ base: option }).map((figures) => ({
      ...figures,
      planDrawn: true,
      readingsTaken: 0,
      testsWanting: 0,
      holds: [],
      overridden: 0,
      prepOpen: 0,
      prepTotal: 0,
      prepNext: null,
      nextBags: null,
    })),
  };
}

/**
 * The dates of each room that has a planned pour, for one option. A pour planned for a day before the quote states none.
 * @param issuedAt instant of the quote
 */
export function quotedDates(frozen: Frozen, option: OptionEstimate, issuedAt: string): QuotedDates[] {
  const dayOf = (instant: string): string => dayOfInstant(instant, frozen.property.timeZone);
  const bundle = bundleOf(frozen, option);
  return roomsOf(bundle).flatMap((facts): QuotedDates[] => {
    const { pourAt } = facts.jobRoom;
    if (pourAt === null || dayOf(pourAt) < dayOf(issuedAt)) return [];
    const cure = roomCure(bundle, facts, frozen.business)?.schedule ?? null;
    const isLater = cure !== null && stepsToCome(bundle, facts).length > 1 && dayOf(cure.placedAt) > dayOf(pourAt);
    const cover = cure?.cover ?? null;
    const walk = cure?.milestones.find((m) => m.kind === 'walk-on')?.statedAt ?? null;
    return [
      {
        roomId: facts.room.id,
        roomName: facts.room.name,
        pourAt,
        lastPourAt: isLater ? cure.placedAt : null,
        walkOnAt: walk,
        cover:
          cover === null || cover.flooring === null || cover.likelyAt === null || cover.latestAt === null
            ? null
            : {
                ...{ name: milestoneName(cover), likelyAt: cover.likelyAt, latestAt: cover.latestAt },
                byTest: cover.clearanceTest?.byHours !== true,
              },
      },
    ];
  });
}

/** Dates a quote states for one option, each of which becomes a promised date on acceptance. Flooring waits for its test, so none is promised. */
export function statedDates(frozen: Frozen, option: OptionEstimate, issuedAt: string): Quote['dates'] {
  return quotedDates(frozen, option, issuedAt).flatMap(({ roomId, walkOnAt }) =>
    walkOnAt === null ? [] : [{ optionId: option.id, roomId, milestone: 'walk-on' as const, flooring: null, promisedFor: walkOnAt }],
  );
}
