/** Records about a floor: layers, tests, site conditions, and overridden holds. */
import { type Overriding, overrideOf } from '../../shared-core/assess/overrides.ts';
import type { Flooring } from '../../shared-core/book/flooring.ts';
import type { FlooringLimits, Job } from '../../shared-core/book/job.ts';
import type { Circumstances, FloorTest, Layer } from '../../shared-core/book/layer.ts';
import type { Room } from '../../shared-core/book/room.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { startedAgain } from '../../shared-core/material/usual-material.ts';
import { acceptedQuote } from '../../shared-core/price/change-order.ts';
import { changeJobRoom } from './job-commands.ts';
import { done, nowInstant, type Outcome, refused } from './command.ts';
import { change, updated, type Update, write } from './write.ts';

/** The job's records that decide what a room started with. */
export type StartedFrom = Pick<WholeJob, 'job' | 'business' | 'materials' | 'quotes'>;
/** What was chosen again for a floor that changed; null for what stays. */
export type ChosenAgain = { readonly primerId: string | null; readonly leastThicknessM: number | null };

/**
 * Changes what a floor is. A primer and a minimum thickness that the room started with are chosen again with it, in one step of undo, until
 * a quote is accepted.
 * @param from null where no job is open
 */
async function changeFloor(
  roomId: string,
  label: string,
  update: (room: Room) => Room,
  from: StartedFrom | null,
): Promise<Outcome<ChosenAgain>> {
  let floor: { readonly before: Room; readonly after: Room } | null = null;
  let chosen: ChosenAgain = { primerId: null, leastThicknessM: null };
  const chosenAgain = (job: Job): Job => {
    if (from === null || floor === null) return job;
    const again = startedAgain(job, floor, from.business, from.materials);
    const [was, now] = [job, again].map(({ rooms }) => rooms.find((room) => room.roomId === roomId));
    if (was === undefined || now === undefined) return again;
    const { leastThicknessM } = now.level;
    chosen = {
      primerId: now.primerId === was.primerId ? null : now.primerId,
      leastThicknessM: leastThicknessM === was.level.leastThicknessM ? null : leastThicknessM,
    };
    return again;
  };
  const outcome = await write(label, nowInstant(), {
    patches: [
      {
        table: 'rooms',
        id: roomId,
        change: (before) => {
          floor = { before, after: update(before) };
          return floor.after;
        },
      },
      ...(from === null || acceptedQuote(from.quotes) !== null ? [] : [{ table: 'jobs' as const, id: from.job.id, change: chosenAgain }]),
    ],
  });
  return outcome.ok ? done(chosen) : outcome;
}

/** Changes the layers, listed from the top, as a function of the stored ones, so that two quick changes both apply. */
export function setLayers(
  roomId: string,
  label: string,
  update: (layers: readonly Layer[]) => readonly Layer[],
  from: StartedFrom | null = null,
): Promise<Outcome<ChosenAgain>> {
  return changeFloor(roomId, label, (room) => ({ ...room, layers: [...updated(room.layers, update)] }), from);
}

/** Saves a test: adds a new one or replaces the edited one. */
export function storeTest(roomId: string, label: string, test: FloorTest, from: StartedFrom | null = null): Promise<Outcome<ChosenAgain>> {
  const stored = (tests: readonly FloorTest[]): FloorTest[] =>
    tests.some((t) => t.id === test.id) ? tests.map((t) => (t.id === test.id ? test : t)) : [...tests, test];
  return changeFloor(roomId, label, (room) => ({ ...room, tests: stored(room.tests) }), from);
}

export function deleteTest(roomId: string, label: string, testId: string, from: StartedFrom | null = null): Promise<Outcome<ChosenAgain>> {
  return changeFloor(roomId, label, (room) => ({ ...room, tests: room.tests.filter((t) => t.id !== testId) }), from);
}

export function setCircumstances(
  roomId: string,
  update: Update<Circumstances>,
  from: StartedFrom | null = null,
): Promise<Outcome<ChosenAgain>> {
  return changeFloor(roomId, 'site conditions', (room) => ({ ...room, circumstances: updated(room.circumstances, update) }), from);
}

/** Changing the flooring clears the manufacturer's limits, because they were for the earlier flooring. */
export function setFlooring(jobId: string, roomId: string, label: string, flooring: Flooring | null): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, label, (room) => (room.flooring === flooring ? room : { ...room, flooring, flooringLimits: null }));
}

/** The day the flooring went down, or the floor was sealed; null while it is not known. */
export function setFlooringLaid(jobId: string, roomId: string, flooringLaidOn: string | null): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'flooring laid', (room) => ({ ...room, flooringLaidOn }));
}

const NO_LIMITS: FlooringLimits = {
  slabHumidity: null,
  emissionLb: null,
  woodMoisture: null,
  withoutHoles: null,
  flatnessGapM: null,
  flatnessSpanM: null,
  statedIn: '',
};

/** The flooring manufacturer's limits and their source. With none, the published limits apply. */
export function setFlooringLimits(jobId: string, roomId: string, limits: Partial<FlooringLimits>): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'flooring manufacturer’s limits', (room) => {
    const next = { ...(room.flooringLimits ?? NO_LIMITS), ...limits };
    const { statedIn, ...figures } = next;
    const isEmpty = statedIn.trim() === '' && Object.values(figures).every((figure) => figure === null);
    return { ...room, flooringLimits: isEmpty ? null : next };
  });
}

/** The year the house was built decides whether coatings and paint may contain asbestos or lead. */
export function setYearBuilt(propertyId: string, yearBuilt: number | null): Promise<Outcome> {
  return change('properties', propertyId, 'year built', nowInstant(), { yearBuilt });
}

/** Overrides a hold with a reason, or records the document that clears it, with initials. Every document of the job prints it. */
export function overrideHold(
  jobId: string,
  roomId: string,
  hold: { readonly key: string; readonly title: string; readonly text: string },
  { initials, ...overriding }: Overriding,
): Promise<Outcome> {
  const by = initials.trim();
  if (by === '') return Promise.resolve(refused('Enter your initials first. They are recorded with the override.', 'initials'));
  const override = overrideOf(hold, { ...overriding, initials: by }, nowInstant());
  return changeJobRoom(jobId, roomId, `override: ${hold.title}`, (room) => ({ ...room, overrides: [...room.overrides, override] }));
}

export function initialsOf(name: string): string {
  return name
    .split(/\s+/)
    .map((part) => part.charAt(0))
    .join('')
    .slice(0, 4);
}
