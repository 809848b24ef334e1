/** The agenda's input for one job: its records, and the computed data of its rooms. */
import type { Business } from '../book/business.ts';
import type { JobRoom } from '../book/job.ts';
import type { Pour } from '../book/pour-record.ts';
import type { Quote } from '../book/quote.ts';
import type { Room } from '../book/room.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { roomFloor } from '../pour/placed-floor.ts';
import type { RoomFigures } from './job-figures.ts';

/** A hold on work in a room, from the findings. */
export type RoomHold = {
  readonly key: string;
  /** `suspected asbestos: the lab has not answered`, without a full stop. */
  readonly why: string;
  /** The day it may be cleared, if known. */
  readonly liftsOn: string | null;
};

/** Results of assessment, prep, estimate and pour plan for a room. */
export type RoomSummary = {
  readonly roomId: string;
  readonly planDrawn: boolean;
  readonly readingsTaken: number;
  /** Tests the floor still needs before the day of the pour. */
  readonly testsWanting: number;
  readonly holds: readonly RoomHold[];
  /** How many holds on a pour to come were overridden. */
  readonly overridden: number;
  readonly prepOpen: number;
  readonly prepTotal: number;
  /** The next open line of the checklist; null when none is. */
  readonly prepNext: string | null;
  readonly bags: number | null;
  /** Bags to bring for the next pour; null while they are not known. */
  readonly nextBags: number | null;
  /** As of {@link RoomFigures}. */
  readonly unsettled: RoomFigures['unsettled'];
  /** Number of lifts; null before there is an estimate. */
  readonly lifts: number | null;
  /** As of {@link RoomFigures}; null before there is an estimate. */
  readonly pourMinutes: number | null;
  readonly fillShares: RoomFigures['fillShares'];
  /** Work before each later lift; null where one fills the room. */
  readonly liftBreak: RoomFigures['liftBreak'];
  readonly depth: { readonly meanM: number; readonly deepestM: number } | null;
};

/** One job with its records. A change creates a new object, so the same object means the same state. */
export type JobBundle = Omit<WholeJob, 'business' | 'houseRooms' | 'documents' | 'unreadNumbers' | 'calendarEntries'> & {
  readonly summaries: readonly RoomSummary[];
};

/** Business fields that the agenda needs. */
export type AgendaBusiness = Pick<Business, 'units' | 'locale' | 'hours' | 'timeZone' | 'ownerName' | 'address' | 'lienRules'>;

/** A room of the job with its record and its results. */
export type JobRoomFacts = { readonly room: Room; readonly jobRoom: JobRoom; readonly summary: RoomSummary | null };

/** The rooms of a job in its order; a room whose record is gone is ignored. */
export function roomsOf(bundle: JobBundle): readonly JobRoomFacts[] {
  return bundle.job.rooms.flatMap((jobRoom) => {
    const room = bundle.rooms.find((r) => r.id === jobRoom.roomId);
    const summary = bundle.summaries.find((s) => s.roomId === jobRoom.roomId) ?? null;
    return room === undefined ? [] : [{ room, jobRoom, summary }];
  });
}

/** The current quote: the newest revision that is not archived. */
export function standingQuote(bundle: Pick<JobBundle, 'quotes'>): Quote | null {
  const quotes = bundle.quotes.filter((q) => q.deletedAt === null && q.state !== 'superseded');
  return quotes.reduce<Quote | null>((best, q) => (best === null || q.revision > best.revision ? q : best), null);
}

/** Finished pours of a room, as {@link roomFloor} has them: first lift first, the pours of one lift by their start. */
export function finishedPours(bundle: JobBundle, roomId: string): readonly Pour[] {
  return roomFloor(bundle.pours, bundle.pourEvents, roomId).pours;
}
