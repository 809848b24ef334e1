/**
 * Status of a room and a job, from facts only: visiting a screen or pressing a button never completes a stage. Screens,
 * documents, lists, reminders and calendar entries use it.
 */
import type { Quote, QuoteState } from '../book/quote.ts';
import { DEPOSIT_HOLD } from '../prep/pour-held.ts';
import {
  type AgendaBusiness,
  type JobBundle,
  type JobRoomFacts,
  type RoomHold,
  roomsOf,
  type RoomSummary,
  standingQuote,
} from './job-bundle.ts';
import { hasRoom } from '../price/change-order.ts';
import { isCanceled, standingAt } from '../price/quote-state.ts';
import { type PouredPart, roomPour } from './room-pour.ts';
import { type JobMoney, jobMoney } from './job-money.ts';
import { isCleared, isCured, roomCure } from './room-cure.ts';
import type { RoomState, Stage, StageState } from './stage.ts';

/** Missing parts of an assessment, in order. */
export type AssessGap = 'outline' | 'readings' | 'layers' | 'flooring' | 'tests';

/** Status of the current quote for one room; `none` also while it does not include the room. */
export type RoomQuote = 'none' | 'canceled' | Exclude<QuoteState, 'superseded'>;

export type RoomStanding = {
  readonly roomId: string;
  readonly name: string;
  /** Current stage; `done` once it is cleared and handed over, and from then on while part of it waits for a repair or a check. */
  readonly stage: Stage;
  /** Each stage by its own facts: it may be done before an earlier one. */
  readonly stages: readonly StageState[];
  /** Overall state of the room, for lists. */
  readonly state: RoomState;
  readonly drawn: boolean;
  /** Elevation readings on record; fewer than three give no surface. */
  readonly readings: number;
  readonly assessed: boolean;
  readonly assessGaps: readonly AssessGap[];
  /** Holds from findings; none once anything is poured. */
  readonly holds: readonly RoomHold[];
  readonly prep: { readonly total: number; readonly open: number; readonly next: string | null; readonly signed: boolean };
  readonly bags: number | null;
  /** What keeps the estimate from being final; null once a part is poured. */
  readonly unsettled: RoomSummary['unsettled'];
  readonly quoted: RoomQuote;
  readonly accepted: boolean;
  readonly poured: PouredPart;
  readonly lifts: { readonly placed: number; readonly planned: number };
  /** The end of the last finished pour; null before any. */
  readonly pouredAt: string | null;
  /** Placed over the whole floor and not cleared for flooring yet. Handed over, it waits for its test or hours alone. */
  readonly curing: boolean;
  /** Cleared for flooring: by a passed test, or by the data sheet's hours where no test is required. */
  readonly cleared: boolean;
  /** From when it is or will be cleared; null while only a test can say. */
  readonly clearedFrom: string | null;
  readonly handedOverAt: string | null;
};

export type JobStanding = {
  readonly rooms: readonly RoomStanding[];
  /** Every room is done. */
  readonly complete: boolean;
  /** As of {@link JobMoney}. */
  readonly canFinish: JobMoney['canFinish'];
};

function assessGapsOf({ room, jobRoom, summary }: JobRoomFacts): readonly AssessGap[] {
  const gaps: readonly (readonly [AssessGap, boolean])[] = [
    ['outline', summary?.planDrawn !== true],
    ['readings', (summary?.readingsTaken ?? 0) < READINGS_MIN],
    ['layers', room.layers.length === 0],
    ['flooring', jobRoom.flooring === null],
    ['tests', (summary?.testsWanting ?? 0) > 0],
  ];
  return gaps.flatMap(([gap, isOpen]) => (isOpen ? [gap] : []));
}

/** Three readings are the fewest that define a plane. */
const READINGS_MIN = 3;

/** Status of a quote for a room at an instant. */
export function roomQuote(quote: Quote | null, roomId: string, now: string): RoomQuote {
  const state = quote === null ? 'superseded' : standingAt(quote, now);
  if (quote === null || state === 'superseded' || !hasRoom(quote, roomId)) return 'none';
  return state === 'declined' && isCanceled(quote) ? 'canceled' : state;
}

type Facts = Omit<RoomStanding, 'stage' | 'stages' | 'state'>;

/** Stages that a finding's hold stops: nothing is disturbed or poured while it is open. */
const HELD_STAGES: readonly Stage[] = ['assess', 'prep', 'pour'];

function isDone(stage: StageState['stage'], facts: Facts): boolean {
  switch (stage) {
    case 'assess':
      return facts.assessed;
    case 'prep':
      return facts.prep.signed;
    case 'estimate':
      return facts.bags !== null && facts.unsettled === null;
    case 'quote':
      return facts.accepted;
    case 'pour':
      return facts.poured === 'whole';
    case 'cure':
      return facts.poured === 'whole' && !facts.curing;
    case 'handover':
      return facts.handedOverAt !== null;
  }
}

/** The current stage: after the pour the remaining ones, before it the first that the quote or the pour waits for. */
function stageOf(facts: Facts): Stage {
  const first = (stages: readonly StageState['stage'][]): Stage | null => stages.find((stage) => !isDone(stage, facts)) ?? null;
  if (facts.poured === 'whole') return first(['cure', 'handover']) ?? 'done';
  if (facts.poured !== 'none') return 'pour';
  if (facts.accepted) return first(['assess', 'prep', 'pour']) ?? 'pour';
  return first(['assess', 'estimate', 'quote', 'prep', 'pour']) ?? 'pour';
}

function stagesOf(facts: Facts, current: Stage): readonly StageState[] {
  // A missing deposit is a hold on the pour only.
  const isHeld = facts.holds.some(({ key }) => key !== DEPOSIT_HOLD);
  const isPourHeld = facts.holds.length > 0;
  return (['assess', 'prep', 'estimate', 'quote', 'pour', 'cure', 'handover'] as const).map((stage) => {
    if ((isHeld && HELD_STAGES.includes(stage)) || (isPourHeld && stage === 'pour')) return { stage, state: 'held' };
    if (stage === 'estimate' && facts.unsettled === 'doubt') return { stage, state: 'held' };
    if (isDone(stage, facts)) return { stage, state: 'done' };
    const begun = stage === 'prep' && facts.prep.open < facts.prep.total;
    return { stage, state: stage === current || begun ? 'under-way' : 'waiting' };
  });
}

function stateOf(facts: Facts, stage: Stage): RoomState {
  if (stage === 'done') return 'done';
  if (facts.holds.some(({ key }) => key !== DEPOSIT_HOLD || stage === 'pour')) return 'held';
  return facts.drawn || facts.readings > 0 || stage !== 'assess' ? 'under-way' : 'waiting';
}

/**
 * Status of a room of a job.
 * @param now instant; quotes expire and the data sheet's hours pass by it
 * @returns null when the job does not have the room
 */
export function roomStanding(bundle: JobBundle, roomId: string, business: AgendaBusiness, now: string): RoomStanding | null {
  const facts = roomsOf(bundle).find((r) => r.room.id === roomId);
  return facts === undefined ? null : standingOf(bundle, facts, business, now);
}

function standingOf(bundle: JobBundle, roomFacts: JobRoomFacts, business: AgendaBusiness, now: string): RoomStanding {
  const { room, jobRoom, summary } = roomFacts;
  const pour = roomPour(bundle, roomFacts);
  const gaps = assessGapsOf(roomFacts);
  const cure = pour.part === 'whole' ? roomCure(bundle, roomFacts, business) : null;
  const cleared = cure !== null && isCleared(cure, now);
  const isCureOver = cure !== null && (jobRoom.handedOverAt === null ? cleared : isCured(cure, now));
  const quoted = roomQuote(standingQuote(bundle), room.id, now);
  const [total, open] = [summary?.prepTotal ?? 0, summary?.prepOpen ?? 0];
  const facts: Facts = {
    roomId: room.id,
    name: room.name,
    drawn: summary?.planDrawn ?? false,
    readings: summary?.readingsTaken ?? 0,
    assessed: gaps.length === 0,
    assessGaps: gaps,
    holds: pour.part === 'none' ? (summary?.holds ?? []) : [],
    // An empty checklist is complete only after the assessment.
    prep: { total, open, next: summary?.prepNext ?? null, signed: open === 0 && (total > 0 || gaps.length === 0) },
    bags: summary?.bags ?? null,
    unsettled: pour.part === 'none' ? (summary?.unsettled ?? null) : null,
    quoted,
    accepted: quoted === 'accepted',
    poured: pour.part,
    lifts: { placed: pour.liftsPlaced, planned: pour.liftsPlanned },
    pouredAt: pour.last?.finishedAt ?? null,
    curing: pour.part === 'whole' && !isCureOver,
    cleared,
    clearedFrom: cure?.schedule.clearedFrom ?? null,
    handedOverAt: jobRoom.handedOverAt,
  };
  const stage = stageOf(facts);
  return { ...facts, stage, stages: stagesOf(facts, stage), state: stateOf(facts, stage) };
}

/** Status of every room of a job, in the job's order. Parameters as in {@link roomStanding}. */
export function jobStanding(bundle: JobBundle, business: AgendaBusiness, now: string): JobStanding {
  const rooms = roomsOf(bundle).map((roomFacts) => standingOf(bundle, roomFacts, business, now));
  const complete = rooms.length > 0 && rooms.every((r) => r.stage === 'done');
  return { rooms, complete, canFinish: jobMoney({ ...bundle, business }, now).canFinish };
}
