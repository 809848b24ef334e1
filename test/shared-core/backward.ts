/** A job with its records in another order, which says nothing: the database gives rows by their ids, and a list of tests by when each was entered. */
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import type { Room } from '../../shared-core/book/room.ts';

/** Rooms are in the job's order; the first of several materials of a kind is taken. */
const ORDERED = new Set(['rooms', 'materials']);

/** Tests of the same minute stay as they were entered. */
const inRoom = (room: Room): Room => ({
  ...room,
  tests: room.tests.toSorted((a, b) => b.takenAt.localeCompare(a.takenAt)),
  marks: room.marks.toReversed(),
});

/** The same job, all lists backward whose entries carry their own time, number or name, those inside of records too. */
export function backward(whole: WholeJob): WholeJob {
  const lists = Object.entries(whole).flatMap(([key, value]) =>
    Array.isArray(value) && !ORDERED.has(key) ? [[key, value.toReversed()] as const] : [],
  );
  return {
    ...whole,
    ...Object.fromEntries(lists),
    job: { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, signed: room.signed.toReversed() })) },
    rooms: whole.rooms.map(inRoom),
    houseRooms: whole.houseRooms.map(inRoom).toReversed(),
    cureLogs: whole.cureLogs.map((log) => ({ ...log, readings: log.readings.toReversed() })).toReversed(),
    materials: whole.materials.map((material) => ({ ...material, prices: material.prices.toReversed() })),
  };
}
