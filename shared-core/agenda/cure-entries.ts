/** Dates that follow from a pour: foot traffic, next lift, clearance tests, flooring, and promised dates. */
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';
import { nextPourNumber, numberedPours } from './pour-keys.ts';
import type { JobRoomFacts } from '../standing/job-bundle.ts';
import { whose } from '../standing/names.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant, formatInstantDay } from '../measure/moment.ts';
import { workdayBefore } from '../measure/workdays.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import { isStatedAsDay, workCalendar } from '../cure/stated-date.ts';
import type { RoomCure } from '../standing/room-cure.ts';
import { nextPourAt, roomPour } from '../standing/room-pour.ts';
import { milestoneName, promiseWords, requirementWords } from '../standing/cure-words.ts';
import { timeWords } from '../standing/time-words.ts';

type RoomAndCure = { readonly facts: JobRoomFacts; readonly cure: RoomCure };

/** Names the pour that a room's dates follow from in a key: its last one, or the last one planned. */
function pouredName(make: EntryMaker, { facts, cure }: RoomAndCure): string {
  const last = numberedPours(roomPour(make.bundle, facts).floor).at(-1);
  return `${facts.room.id}:${last?.number ?? cure.schedule.lift}`;
}

function walkOn(make: EntryMaker, { facts, cure }: RoomAndCure): readonly AgendaEntry[] {
  const milestone = cure.schedule.milestones.find((m) => m.kind === 'walk-on');
  if (milestone === undefined || milestone.statedAt === null) return [];
  const isPart = cure.poured && !cure.whole;
  // A calendar shows it for the whole day, and the floor is wet until then.
  const from = timeWords(milestone.statedAt, make.zone, make.locale);
  return [
    make.timed(
      {
        kind: 'walk-on',
        name: pouredName(make, { facts, cure }),
        roomIds: [facts.room.id],
        event: isPart ? `placed part open from ${from}` : `foot traffic from ${from}`,
        verb: 'Open',
        rest: isPart ? `the placed part of ${make.theRooms([facts])} to foot traffic.` : `${make.theRooms([facts])} to foot traffic.`,
        note: cure.poured && cure.whole && facts.room.surveyAfter === null ? 'Read the floor for flatness from then on.' : null,
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
  const instant = milestone?.statedAt ?? last?.finishedAt ?? null;
  if (part !== 'part' || isPlanned || instant === null) return [];
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

/** The day to start a test so that its result is read on the date it decides: as many days before as it takes, on a working day. */
function testDay(make: EntryMaker, cover: DatedMilestone): string {
  const hours = cover.clearanceTest?.methods[0]?.hoursAfterPour ?? 0;
  const readOn = dayOfInstant(cover.statedAt ?? '', make.zone);
  return workdayBefore(addDaysToDay(readOn, -Math.ceil(hours / 24)), workCalendar(make.business, make.zone).week);
}

function flooring(make: EntryMaker, { facts, cure }: RoomAndCure): readonly AgendaEntry[] {
  const { cover, clearance } = cure.schedule;
  if (cover === null) return [];
  const name = `${pouredName(make, { facts, cure })}:${cover.flooring ?? ''}`;
  const roomIds = [facts.room.id];
  const shared = { kind: 'cover' as const, name, roomIds, toDo: false, stage: 'cure' as const };
  const passed = clearance?.passed === true ? clearance.test : null;
  if (passed !== null) {
    // A floor with a defect is not cleared by its test.
    if (cure.rest !== null) return [];
    const event = `cleared for ${milestoneName(cover)}`;
    const rest = `${make.theRooms([facts])} for ${milestoneName(cover)}.`;
    return [make.allDay({ ...shared, event, verb: 'Cleared', rest }, dayOfInstant(passed.takenAt, make.zone))];
  }
  if (cover.statedAt === null) return [];
  const byHours = clearance?.requirement.byHours === true;
  const ready = make.allDay(
    {
      ...shared,
      event: `ready for ${milestoneName(cover)}`,
      verb: 'Expect',
      rest: `${make.theRooms([facts])} to be ready for ${milestoneName(cover)}${byHours ? '' : ' (moisture test required)'}.`,
    },
    dayOfInstant(cover.statedAt, make.zone),
  );
  if (!cure.poured || byHours) return [ready];
  const readOn = formatInstantDay(cover.statedAt, make.zone, 'weekday', make.locale);
  const test = make.allDay(
    {
      kind: 'clearance-test',
      name,
      roomIds,
      event: 'moisture test',
      verb: 'Test',
      rest: `${make.theRooms([facts])} before ${milestoneName(cover)}. Read it by ${readOn}.`,
      note: cover.clearanceTest && requirementWords(cover.clearanceTest),
      toDo: true,
      stage: 'cure',
    },
    testDay(make, cover),
  );
  return [test, ready];
}

function promises(make: EntryMaker, { facts, cure }: RoomAndCure): readonly AgendaEntry[] {
  return cure.schedule.verdicts.flatMap((v) => {
    // A floor that passed its test owes no date, whatever was expected.
    if (v.state === 'on-track' || (v.milestone.kind === 'cover' && cure.schedule.clearance?.passed === true)) return [];
    const name = milestoneName(v.milestone);
    const rooms = make.theRooms([facts]);
    const own = {
      kind: 'promise' as const,
      name: v.promise.id,
      roomIds: [facts.room.id],
      stage: 'cure' as const,
      promised: true,
      settledAt: cure.whole ? v.settledAt : null,
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
          verb: 'Watch',
          rest: `${rooms}. The date promised for ${name} is at risk.`,
          toDo: false,
        }),
      ];
    const onHold = v.awaitsRest ? 'There is no date until the rest of the floor is planned' : 'Curing is paused, so there is no date';
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

/** Entries that follow from the cure of the rooms. */
export function cureEntries(make: EntryMaker, cures: ReadonlyMap<string, RoomCure>): readonly AgendaEntry[] {
  return make.rooms.flatMap((facts) => {
    const cure = cures.get(facts.room.id);
    if (cure === undefined) return [];
    const roomCure = { facts, cure };
    return [...walkOn(make, roomCure), ...nextPour(make, roomCure), ...flooring(make, roomCure), ...promises(make, roomCure)];
  });
}
