/** Dates that follow from a pour: foot traffic, next lift, clearance tests, flooring, and promised dates. */
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';
import { nextPourNumber, numberedPours } from './pour-keys.ts';
import type { JobRoomFacts } from '../standing/job-bundle.ts';
import { whose } from '../standing/names.ts';
import { formatDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import { hasFailedTest } from '../cure/cure-schedule.ts';
import { isStatedAsDay, workCalendar } from '../cure/stated-date.ts';
import { testDays } from '../cure/test-days.ts';
import type { FloorRest } from '../pour/floor-rest.ts';
import type { RoomCure } from '../standing/room-cure.ts';
import { nextPourAt, roomPour } from '../standing/room-pour.ts';
import { fewTestsWords, milestoneName, promiseWords, requirementWords } from '../standing/cure-words.ts';
import { repairPlace, repairStep } from '../standing/repair-words.ts';
import { timeWords } from '../standing/time-words.ts';

type RoomAndCure = {
  readonly facts: JobRoomFacts;
  readonly cure: RoomCure;
  /** When the planned pour is over; null where none is planned, or it is under way. */
  readonly planEndsAt: string | null;
};

/** A date expected of a planned pour expires when that pour is over and not placed, and is never reached before it. */
const expectedUntil = ({ cure, planEndsAt }: RoomAndCure, expectedAt: string): string | null =>
  cure.poured ? null : (planEndsAt ?? expectedAt);

/** Names the pour that a room's dates follow from in a key: its last one, or the last one planned. */
function pouredName(make: EntryMaker, { facts, cure }: Pick<RoomAndCure, 'facts' | 'cure'>): string {
  const { floor } = roomPour(make.bundle, facts);
  const { lift } = cure.schedule;
  const next = nextPourNumber(floor);
  const planned = next.split('.')[0] === String(lift) ? next : lift;
  return `${facts.room.id}:${cure.poured ? (numberedPours(floor).at(-1)?.number ?? lift) : planned}`;
}

function walkOn(make: EntryMaker, room: RoomAndCure): readonly AgendaEntry[] {
  const { facts, cure } = room;
  const milestone = cure.schedule.milestones.find((m) => m.kind === 'walk-on');
  if (milestone === undefined || milestone.statedAt === null) return [];
  const isPart = cure.poured && !cure.whole;
  // A calendar shows it for the whole day, and the floor is wet until then.
  const from = timeWords(milestone.statedAt, make.zone, make.locale);
  return [
    make.timed(
      {
        kind: 'walk-on',
        name: pouredName(make, room),
        roomIds: [facts.room.id],
        event: isPart ? `placed part open from ${from}` : `foot traffic from ${from}`,
        verb: 'Open',
        rest: isPart ? `the placed part of ${make.theRooms([facts])} to foot traffic.` : `${make.theRooms([facts])} to foot traffic.`,
        note: cure.poured && cure.whole && facts.room.surveyAfter === null ? 'Flatness readings can start then.' : null,
        settledAt: expectedUntil(room, milestone.statedAt),
        toDo: false,
        stage: 'cure',
      },
      milestone.statedAt,
      null,
    ),
  ];
}

/** A room with a lift or part of its floor left to place and no date for it. */
function nextPour(make: EntryMaker, { facts, cure }: RoomAndCure): readonly AgendaEntry[] {
  const { part, last, liftsPlaced, liftsPlanned, floor } = roomPour(make.bundle, facts);
  const isPlanned = nextPourAt(facts.jobRoom, last, make.zone) !== null;
  const milestone = cure.schedule.milestones.find((m) => m.kind === 'next-lift');
  const openAt = milestone?.statedAt ?? last?.finishedAt ?? null;
  if (part !== 'part' || isPlanned || openAt === null) return [];
  // Floor removed later than that is to be planned for from then on.
  const takenOutAt = cure.rest?.takenOutAt ?? openAt;
  const instant = takenOutAt > openAt ? takenOutAt : openAt;
  const isLift = liftsPlaced > 0 && liftsPlaced < liftsPlanned;
  return [
    make.allDay(
      {
        kind: 'next-lift',
        name: `${facts.room.id}:${nextPourNumber(floor)}`,
        roomIds: [facts.room.id],
        event: isLift ? `plan lift ${liftsPlaced + 1}` : 'plan rest of pour',
        verb: 'Plan',
        rest: isLift
          ? `lift ${liftsPlaced + 1} of ${make.theRooms([facts])}.`
          : `the rest of the pour in ${make.theRooms([facts])}. Part of the floor is not placed yet.`,
        toDo: true,
        stage: 'pour',
      },
      dayOfInstant(instant, make.zone),
    ),
  ];
}

type Covered = RoomAndCure & { readonly cover: DatedMilestone; readonly name: string };

/** What still has to be done to a placed floor before its flooring: due on the day promised, or expected, for it, and not before it was found. */
function repair(make: EntryMaker, { facts, cure, cover, name }: Covered, rest: FloorRest): readonly AgendaEntry[] {
  const promised = cure.schedule.verdicts.find((v) => v.milestone.key === cover.key);
  const instant = promised?.promise.promisedFor ?? cover.statedAt ?? cure.schedule.clearance?.test?.takenAt ?? null;
  if (instant === null) return [];
  const dueAt = rest.foundAt !== null && rest.foundAt > instant ? rest.foundAt : instant;
  const place = { units: make.business.units, locale: make.locale };
  const [verb = '', ...words] = repairStep(rest, make.theRooms([facts]), cure.schedule, place).split(' ');
  const event = `${verb.toLowerCase()} ${repairPlace(cure.schedule)}`;
  const shared = { kind: 'cover' as const, name, roomIds: [facts.room.id], toDo: true, stage: 'pour' as const };
  const own = { ...shared, event, verb, rest: words.join(' '), promised: promised !== undefined && dueAt === instant };
  return [make.allDay(own, dayOfInstant(dueAt, make.zone))];
}

/** Flooring that may go down, or when it is expected to: no day after a failed test. A promised one is to be cleared on the day promised. */
function ready(make: EntryMaker, covered: Covered): readonly AgendaEntry[] {
  const { facts, cure, cover, name } = covered;
  const { clearance } = cure.schedule;
  const own = { kind: 'cover' as const, name, roomIds: [facts.room.id], toDo: false, stage: 'cure' as const };
  const passedAt = clearance?.passedAt ?? null;
  if (passedAt !== null) {
    const event = `cleared for ${milestoneName(cover)}`;
    const rest = `${make.theRooms([facts])} for ${milestoneName(cover)}.`;
    return [make.allDay({ ...own, event, verb: 'Cleared', rest }, dayOfInstant(passedAt, make.zone))];
  }
  if (cover.statedAt === null || cure.schedule.laidOn !== null || hasFailedTest(cure.schedule)) return [];
  const promised = cure.schedule.verdicts.find((v) => v.milestone.key === cover.key);
  const isTested = clearance?.requirement.byHours !== true;
  if (cure.poured && isTested && promised?.state === 'on-track') {
    const event = `clear for ${milestoneName(cover)}`;
    const rest = `${make.theRooms([facts])} for ${milestoneName(cover)}. Its moisture test has to pass by the promised day.`;
    const { promisedFor } = promised.promise;
    return [make.allDay({ ...own, event, verb: 'Clear', rest, toDo: true, promised: true }, dayOfInstant(promisedFor, make.zone))];
  }
  const event = `ready for ${milestoneName(cover)}`;
  const test = isTested ? ' (moisture test required)' : '';
  const rest = `${make.theRooms([facts])} to be ${event}${test}.`;
  const settledAt = expectedUntil(covered, cover.statedAt);
  return [make.allDay({ ...own, event, verb: 'Expect', rest, settledAt }, dayOfInstant(cover.statedAt, make.zone))];
}

function clearanceTest(make: EntryMaker, { facts, cure, cover, name }: Covered): readonly AgendaEntry[] {
  const days = testDays(cure.schedule, workCalendar(make.business, make.zone));
  if (!cure.poured || days === null) return [];
  const { startOn, readOn } = days;
  const again = hasFailedTest(cure.schedule) ? ' again' : '';
  const few = cure.schedule.clearance && fewTestsWords(cure.schedule.clearance);
  const word = (day: string): string => formatDay(day, 'weekday', make.locale);
  return [
    make.allDay(
      {
        kind: 'clearance-test',
        name,
        roomIds: [facts.room.id],
        event: 'moisture test',
        verb: 'Test',
        rest: `${make.theRooms([facts])}${again} before ${milestoneName(cover)}. ${startOn < readOn ? `Start it by ${word(startOn)}, read` : 'Read'} it by ${word(readOn)}.`,
        note: few ?? (cover.clearanceTest && requirementWords(cover.clearanceTest)),
        toDo: true,
        stage: 'cure',
      },
      startOn,
    ),
  ];
}

function flooring(make: EntryMaker, room: RoomAndCure): readonly AgendaEntry[] {
  const { cure } = room;
  const { cover } = cure.schedule;
  if (cover === null) return [];
  const covered = { ...room, cover, name: `${pouredName(make, room)}:${cover.flooring ?? ''}` };
  return [...clearanceTest(make, covered), ...(cure.rest === null ? ready(make, covered) : repair(make, covered, cure.rest))];
}

/** The cleared rooms of a job without a handover date, from the day the first one is cleared. */
function handoverDate(make: EntryMaker, rooms: readonly RoomAndCure[]): readonly AgendaEntry[] {
  if (make.bundle.job.handoverAt !== null) return [];
  const cleared = rooms.flatMap(({ facts, cure: { whole, rest, schedule } }) =>
    facts.jobRoom.handedOverAt !== null || !whole || rest !== null || schedule.clearedFrom === null
      ? []
      : [{ facts, from: schedule.clearedFrom }],
  );
  const [since] = cleared.map(({ from }) => from).sort();
  if (since === undefined) return [];
  const roomIds = cleared.map(({ facts }) => facts.room.id);
  const own = { kind: 'handover-date' as const, name: '1', roomIds, event: 'set handover date', toDo: true, stage: 'handover' as const };
  const rest = `a handover date for ${make.theRooms(cleared.map(({ facts }) => facts))}.`;
  return [make.undated({ ...own, verb: 'Set', rest }, dayOfInstant(since, make.zone))];
}

function promises(make: EntryMaker, { facts, cure }: RoomAndCure): readonly AgendaEntry[] {
  return cure.schedule.verdicts.flatMap((v) => {
    const passed = v.milestone.kind === 'cover' && (cure.schedule.clearance?.passed === true || cure.schedule.laidOn !== null);
    // A sound floor that passed its test or has its flooring owes no date, whatever was expected.
    if (v.state === 'on-track' || (passed && cure.rest === null)) return [];
    const name = milestoneName(v.milestone);
    const rooms = make.theRooms([facts]);
    const own = {
      kind: 'promise' as const,
      name: v.promise.id,
      roomIds: [facts.room.id],
      stage: 'cure' as const,
      promised: true,
      settledAt: v.settledAt,
    };
    const hour = isStatedAsDay(v.promise.milestone) ? null : timeWords(v.promise.promisedFor, make.zone, make.locale);
    const event = (state: string): string => (hour === null ? `promised date ${state}` : `promised ${hour}, ${state}`);
    const entryOf = (entry: Parameters<typeof make.timed>[0]): AgendaEntry =>
      hour === null ? make.allDay(entry, dayOfInstant(v.promise.promisedFor, make.zone)) : make.timed(entry, v.promise.promisedFor, null);
    if (v.state === 'at-risk')
      return [
        entryOf({
          ...own,
          event: event('at risk'),
          verb: 'Check',
          rest: `${rooms}. The date promised for ${name} is at risk.`,
          // Once its day is over, a floor not cleared is a call to make.
          toDo: v.milestone.kind === 'cover' && cure.poured && cure.rest === null && cure.schedule.clearance?.requirement.byHours !== true,
        }),
      ];
    const onHold = v.awaitsRest
      ? 'There is no date until the rest of the floor is planned'
      : v.milestone.kind === 'cover' && cure.rest !== null
        ? 'There is no date until the floor is repaired and checked'
        : v.milestone.likelyAt !== null
          ? 'The floor failed its moisture test, so there is no date'
          : 'Curing is paused, so there is no date';
    const reason = v.state === 'on-hold' ? onHold : promiseWords(v);
    return [
      entryOf({
        ...own,
        event: event(v.state === 'on-hold' ? 'on hold' : 'late'),
        verb: 'Call',
        rest: `about ${whose(make.bundle.customer.name)} promised date for ${name}. ${reason}.`,
        toDo: true,
      }),
    ];
  });
}

/**
 * Entries that follow from the cure of the rooms.
 * @param planEnds when the planned pour of each room is over, by room id
 */
export function cureEntries(
  make: EntryMaker,
  cures: ReadonlyMap<string, RoomCure>,
  planEnds: ReadonlyMap<string, string>,
): readonly AgendaEntry[] {
  const rooms = make.rooms.flatMap((facts) => {
    const cure = cures.get(facts.room.id);
    return cure === undefined ? [] : [{ facts, cure, planEndsAt: planEnds.get(facts.room.id) ?? null }];
  });
  const ofRooms = rooms.flatMap((room) => [walkOn, nextPour, flooring, promises].flatMap((entriesOf) => entriesOf(make, room)));
  return [...ofRooms, ...handoverDate(make, rooms)];
}
