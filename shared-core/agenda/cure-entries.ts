/** Dates that follow from a pour: walk-on, next lift, tests, covering, and promises that stand beside them. */
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';
import type { JobRoomFacts } from '../standing/job-bundle.ts';
import { roomWords, whose } from '../standing/names.ts';
import { dayOfInstant, isMidnight } from '../measure/moment.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import type { RoomCure } from '../standing/room-cure.ts';
import { minutesLater } from '../standing/time-words.ts';

type RoomAndCure = { readonly facts: JobRoomFacts; readonly cure: RoomCure };

function walkOn(make: EntryMaker, { facts, cure }: RoomAndCure): readonly AgendaEntry[] {
  const found = cure.schedule.milestones.find((m) => m.kind === 'walk-on');
  if (found === undefined || found.likelyAt === null) return [];
  return [
    make.timed(
      {
        kind: 'walk-on',
        name: `${facts.room.id}:${cure.schedule.lift}`,
        roomIds: [facts.room.id],
        verb: 'Open',
        rest: `${make.theRooms([facts])} to light feet.`,
        toDo: false,
        stage: 'cure',
      },
      found.likelyAt,
      null,
      found.latestAt ?? found.likelyAt,
    ),
  ];
}

function nextLift(make: EntryMaker, { facts, cure }: RoomAndCure): readonly AgendaEntry[] {
  const { lift } = cure.schedule;
  const waiting = make.bundle.pours.some(
    (p) => p.deletedAt === null && p.startedAt === null && p.lift === lift + 1 && p.roomIds.includes(facts.room.id),
  );
  const found = cure.schedule.milestones.find((m) => m.kind === 'next-lift');
  if (!cure.poured || !waiting || found === undefined || found.likelyAt === null) return [];
  return [
    make.timed(
      {
        kind: 'next-lift',
        name: `${facts.room.id}:${lift + 1}`,
        roomIds: [facts.room.id],
        verb: 'Prime and pour',
        rest: `the next lift of ${make.theRooms([facts])}.`,
        toDo: true,
        stage: 'pour',
      },
      found.likelyAt,
      null,
      found.latestAt ?? found.likelyAt,
    ),
  ];
}

function flooring(make: EntryMaker, { facts, cure }: RoomAndCure): readonly AgendaEntry[] {
  const { cover, clearance, lift } = cure.schedule;
  if (cover === null || cover.likelyAt === null) return [];
  const name = `${facts.room.id}:${lift}:${cover.flooring ?? ''}`;
  const roomIds = [facts.room.id];
  const known = make.timed(
    {
      kind: 'cover',
      name,
      roomIds,
      verb: 'Expect',
      rest: `${make.theRooms([facts])} to be dry enough for ${cover.name}, if the test says so.`,
      toDo: false,
      stage: 'cure',
    },
    cover.likelyAt,
    null,
    cover.latestAt ?? cover.likelyAt,
  );
  if (!cure.poured || clearance?.cleared === true) return [known];
  const test = make.timed(
    {
      kind: 'clearance-test',
      name,
      roomIds,
      verb: 'Test',
      rest: `${make.theRooms([facts])} before ${cover.name} goes on it.`,
      note: cover.clearanceTest?.sentence ?? null,
      toDo: true,
      stage: 'cure',
    },
    cover.likelyAt,
    null,
    cover.latestAt ?? cover.likelyAt,
  );
  return [test, known];
}

/** A promise for the end of a day stands on that day, not at the beginning of the next. */
const lastMinuteOf = (at: string, zone: string): string => (isMidnight(at, zone) ? minutesLater(at, -1) : at);

function promises(make: EntryMaker, { facts, cure }: RoomAndCure): readonly AgendaEntry[] {
  return cure.schedule.verdicts.flatMap((v) => {
    if (v.state === 'on-track') return [];
    const milestone: DatedMilestone | undefined = cure.schedule.milestones.find(
      (m) => m.kind === v.promise.milestone && (v.promise.flooring === null || m.flooring === v.promise.flooring),
    );
    const what = milestone?.name ?? 'the date promised';
    const own = {
      kind: 'promise' as const,
      name: v.promise.id,
      roomIds: [facts.room.id],
      stage: 'cure' as const,
      promised: true,
    };
    const where = `the ${roomWords(facts.room.name)}`;
    // A covering is promised for a day, anything sooner for a time.
    const at = (entry: Parameters<typeof make.timed>[0]): AgendaEntry =>
      v.promise.milestone === 'cover'
        ? make.allDay(entry, dayOfInstant(v.promise.promisedFor, make.zone))
        : make.timed(entry, lastMinuteOf(v.promise.promisedFor, make.zone), null);
    if (v.state === 'at-risk') {
      const rest = `${make.theRooms([facts])} warm: ${what} is tight for the day promised.`;
      return [at({ ...own, verb: 'Keep', rest, toDo: false })];
    }
    const why = v.state === 'on-hold' ? 'too cold for any date' : v.word.replace('Late by', 'late by');
    const rest = `${whose(make.bundle.customer.name)} date for ${what} in ${where} again: it is ${why}.`;
    return [at({ ...own, verb: 'Promise', rest, toDo: true })];
  });
}

/** Entries that follow from the cure of the rooms. */
export function cureEntries(make: EntryMaker, cures: ReadonlyMap<string, RoomCure>): readonly AgendaEntry[] {
  return make.rooms.flatMap((facts) => {
    const cure = cures.get(facts.room.id);
    if (cure === undefined) return [];
    const both = { facts, cure };
    return [...walkOn(make, both), ...nextLift(make, both), ...flooring(make, both), ...promises(make, both)];
  });
}
