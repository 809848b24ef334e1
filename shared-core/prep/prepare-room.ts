/** A room's prep: the checklist from its assessment, with signatures, the primer's clock and the holds on the pour. */
import type { UnitSystem } from '../book/business.ts';
import type { JobRoom } from '../book/job.ts';
import type { Room } from '../book/room.ts';
import { HOUR_S } from '../measure/duration.ts';
import { distanceM } from '../plan/point.ts';
import { areaInRoomM2 } from '../plan/overlap.ts';
import { roomPerimeterM } from '../plan/region.ts';
import { prepChecklist } from './checklist.ts';
import { liftWait } from './items-prime.ts';
import { isSameWork, lineText } from './line-words.ts';
import { wordingFor } from '../substrate/wording.ts';
import { type PourHold, pourHeldBy } from './pour-held.ts';
import { bareShare, isOverLift, type NextPour, type PrepInput } from './prep-input.ts';
import { type Primed, primedFor, type PrimerClock, primerClock } from './primer-clock.ts';
import type { PrepItem } from './prep-item.ts';
import { type SignedLine, signedLines } from './signed-lines.ts';
import type { Assessment } from '../assess/assess-room.ts';

/** The assessment and the figures other parts compute. */
export type PrepareInput = NextPour & {
  readonly room: Room;
  readonly jobRoom: JobRoom;
  readonly assessment: Assessment;
  readonly units: UnitSystem;
  readonly locale: string;
  readonly grind: PrepInput['grind'];
  readonly primer: PrepInput['primer'];
  readonly bags: number | null;
  readonly waterL: number | null;
  readonly helpers: number;
  readonly onGenerator?: boolean;
  /** What an earlier pour left to do; null or absent when nothing. */
  readonly rest?: PrepInput['rest'];
  /** When the last pour in the room finished; null before the first lift. */
  readonly lastPouredAt: string | null;
  /** Whether more is to be poured after that one: the rest of its floor, or another lift. */
  readonly hasNextPour: boolean;
  /** Whether the floor is poured whole: nothing is on hold any more. */
  readonly isPoured: boolean;
  /** Whether a quote for the room is issued or accepted. */
  readonly isQuoted: boolean;
  /** Numbers of the change orders that touch the room and wait for a signature. */
  readonly waitingOrders: readonly number[];
  /** What is missing of the payments due before the pour, as a sentence; null for nothing. */
  readonly deposit: string | null;
  readonly now: string;
};

/** A room's prep. */
export type Preparation = {
  readonly lines: readonly SignedLine[];
  readonly clock: PrimerClock | null;
  /** The primer that the next pour goes on; on a floor that is poured whole, the last. */
  readonly primed: Primed;
  /** When the last pour finished, while more is to be poured: signatures and primer from before it do not count again. */
  readonly againAfter: string | null;
  /** Whether the next pour goes on a lift that is already placed; on a floor that is poured whole, whether the last one did. */
  readonly isOverLift: boolean;
  readonly holds: readonly PourHold[];
  /** Own crew's hours over all lines, signed or not. */
  readonly hours: number;
};

/** Areas and lengths of what is drawn, by id. A spot has the area of its width, or none. */
function drawnSizes(room: Room): Pick<PrepInput, 'areasM2' | 'lengthsM'> {
  const areasM2: Record<string, number> = {};
  const lengthsM: Record<string, number> = {};
  for (const layer of room.layers) if (layer.area !== null) areasM2[layer.id] = areaInRoomM2(room.plan, layer.area);
  for (const mark of room.marks) {
    if (mark.shape === 'area') areasM2[mark.id] = areaInRoomM2(room.plan, mark.points);
    if (mark.shape === 'spot' && mark.widthM !== null) areasM2[mark.id] = mark.widthM ** 2;
    if (mark.shape === 'line') {
      lengthsM[mark.id] = mark.points.slice(1).reduce((sum, point, i) => sum + distanceM(mark.points[i] ?? point, point), 0);
    }
  }
  return { areasM2, lengthsM };
}

/** The input of a room's checklist. */
export function checklistInput(
  input: Pick<
    PrepareInput,
    | 'units'
    | 'room'
    | 'jobRoom'
    | 'assessment'
    | 'grind'
    | 'primer'
    | 'bags'
    | 'waterL'
    | 'helpers'
    | 'onGenerator'
    | 'rest'
    | keyof NextPour
  >,
): PrepInput {
  const { room, jobRoom, assessment } = input;
  const perimeter = assessment.facts.areaM2 === null ? null : roomPerimeterM(room.plan);
  return {
    facts: assessment.facts,
    findings: assessment.findings,
    units: input.units,
    perimeterM: perimeter === null ? null : perimeter.wallsM + perimeter.holesM,
    grind: input.grind,
    primer: input.primer,
    ...drawnSizes(room),
    bags: input.bags,
    waterL: input.waterL,
    helpers: input.helpers,
    onGenerator: input.onGenerator ?? false,
    byCart: jobRoom.pourPlan?.crew.carry === 'cart',
    rest: input.rest ?? null,
    openShare: input.openShare ?? 1,
    liftsUnder: input.liftsUnder ?? 0,
  };
}

const UNIT_SYSTEMS: readonly UnitSystem[] = ['us', 'metric'];

/** The checklist in each system, so that changing units does not void a signature; the other one only where a text is compared. */
function inEachUnits(input: PrepInput): (units: UnitSystem) => readonly PrepItem[] {
  const known = new Map<UnitSystem, readonly PrepItem[]>();
  return (units) => {
    const items = known.get(units) ?? prepChecklist({ ...input, units });
    known.set(units, items);
    return items;
  };
}

/** Whether a line is work over the substrate, so that a placed part leaves less of it. Places marked on the plan keep their own size. */
const isOverSubstrate = ({ afterLift, amount, on }: PrepItem): boolean =>
  afterLift === 'buried' && amount?.unit === 'm2' && on.length === 0;

/** Part of the work of a line. */
const partOf = (item: PrepItem, share: number): PrepItem => ({
  ...item,
  amount: item.amount === null ? null : { ...item.amount, value: item.amount.value * share },
  hours: item.hours === null ? null : Math.round(item.hours * share * 100) / 100,
});

/** A line for the floor that no pour covers: buried work that is not signed cannot be done any more, or is asked for where it can. */
function onBareFloor(line: SignedLine, share: number): readonly SignedLine[] {
  const { item, state, signatures } = line;
  if (item === null || state === 'signed' || item.afterLift !== 'buried' || share >= 1) return [line];
  if (share > 0) return [isOverSubstrate(item) ? { ...line, item: partOf(item, share) } : line];
  return signatures.length === 0 ? [] : [{ ...line, item: null, state: 'not-needed' }];
}

/** That the lift below is younger than its shortest wait, whatever is signed; null where it is not, or nothing is to go on it. */
function freshLiftWords(input: PrepareInput): string | null {
  const { lastPouredAt, liftsUnder, assessment, now } = input;
  if (!input.hasNextPour || !isOverLift(input) || lastPouredAt === null) return null;
  const { words, leastHours } = liftWait(assessment.facts);
  if (leastHours === null) return null;
  const isFresh = Date.parse(now) < Date.parse(lastPouredAt) + leastHours * HOUR_S * 1000;
  return isFresh ? `Lift ${liftsUnder ?? 1} is not ${leastHours} h old yet. The next lift waits ${words}.` : null;
}

/** Derives the checklist of a room with its signatures. */
export function prepareRoom(input: PrepareInput): Preparation {
  const { jobRoom, assessment, primer } = input;
  const askedIn = inEachUnits(checklistInput(input));
  // Each pour needs priming and staging again, so earlier signatures on those lines do not count.
  const againAfter = input.hasNextPour ? input.lastPouredAt : null;
  const isAsSigned = (item: PrepItem, signedText: string): boolean =>
    UNIT_SYSTEMS.some((units) => {
      const own = askedIn(units).find(({ key }) => key === item.key) ?? item;
      // Each placed part leaves less of the same work, and a whole floor none.
      if (input.isPoured || (input.lastPouredAt !== null && isOverSubstrate(own))) return isSameWork(own, signedText);
      return lineText(own, wordingFor(units, input.locale), input.locale) === signedText;
    });
  const lines = signedLines(askedIn(input.units), jobRoom.signed, { isAsSigned, againAfter })
    .flatMap((line) => onBareFloor(line, bareShare(input)))
    .toSorted((a, b) => Number(a.item === null) - Number(b.item === null));
  const primed = primedFor(jobRoom, againAfter);
  const clock =
    primer === null || input.isPoured
      ? null
      : primerClock({
          primedAt: primed.primedAt,
          coats: primer.coats,
          coatsDone: primed.primerCoatsDone,
          dryHoursLeast: primer.dryHoursLeast,
          dryHoursMost: primer.dryHoursMost,
          now: input.now,
        });
  const { findings, overrides } = assessment;
  const { isQuoted, waitingOrders, deposit } = input;
  const freshLift = freshLiftWords(input);
  const holds = input.isPoured ? [] : pourHeldBy({ findings, lines, overrides, clock, freshLift, isQuoted, waitingOrders, deposit });
  return {
    lines,
    clock,
    primed,
    againAfter,
    isOverLift: isOverLift(input),
    holds,
    hours: Math.round(lines.reduce((sum, { item }) => sum + (item?.hours ?? 0), 0) * 100) / 100,
  };
}
