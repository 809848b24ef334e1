/**
 * What if: another depth, product, option or crew tried on the estimate. A try is a few changes to the current job; nothing is
 * stored until it is saved.
 */
import { z } from 'zod';
import { idSchema } from '../book/fields.ts';
import { type EstimateChoices, type Job, type JobRoom, levelSchema, type PourPlan, pourPlanSchema } from '../book/job.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { pourModel } from '../pour/crew-model.ts';
import { outlookOf } from '../pour/outlook.ts';
import { simulatePour } from '../pour/simulate.ts';
import { type JobReading, readJob } from './read-job.ts';
import { readPour, roomsOfGo } from './read-pour.ts';

/** Changes in one room; absent parts stay as in the job. */
const roomTrySchema = z.strictObject({
  roomId: idSchema,
  level: levelSchema.optional(),
  materialId: idSchema.nullable().optional(),
  primerId: idSchema.nullable().optional(),
  pourPlan: pourPlanSchema.nullable().optional(),
});
export type RoomTry = z.infer<typeof roomTrySchema>;

/** All changes in a job, one entry per room. */
export const jobTrySchema = z.array(roomTrySchema).max(60);
export type JobTry = z.infer<typeof jobTrySchema>;

/** Reads a stored try; null when there is none or it cannot be read. */
export function tryOfText(text: string | null | undefined): JobTry | null {
  if (text === null || text === undefined) return null;
  try {
    const read = jobTrySchema.safeParse(JSON.parse(text));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

function roomWith(room: JobRoom, tried: RoomTry | undefined): JobRoom {
  if (tried === undefined) return room;
  return {
    ...room,
    ...(tried.level === undefined ? {} : { level: tried.level }),
    ...(tried.materialId === undefined ? {} : { materialId: tried.materialId }),
    ...(tried.primerId === undefined ? {} : { primerId: tried.primerId }),
    ...(tried.pourPlan === undefined ? {} : { pourPlan: tried.pourPlan }),
  };
}

/** The job with the changes of a try, for reading and for saving. */
export function withTry(job: Job, tries: JobTry): Job {
  if (tries.length === 0) return job;
  return {
    ...job,
    rooms: job.rooms.map((room) =>
      roomWith(
        room,
        tries.find((t) => t.roomId === room.roomId),
      ),
    ),
  };
}

/**
 * A try with one more change in a room. Only differences from the job are stored, so an undone change disappears.
 */
export function tryRoom(job: Job, tries: JobTry, roomId: string, update: (room: JobRoom) => JobRoom): JobTry {
  const own = job.rooms.find((room) => room.roomId === roomId);
  if (own === undefined) return tries;
  const next = update(
    roomWith(
      own,
      tries.find((t) => t.roomId === roomId),
    ),
  );
  const differs = (a: unknown, b: unknown): boolean => JSON.stringify(a) !== JSON.stringify(b);
  const tried: RoomTry = {
    roomId,
    ...(differs(next.level, own.level) ? { level: next.level } : {}),
    ...(next.materialId === own.materialId ? {} : { materialId: next.materialId }),
    ...(next.primerId === own.primerId ? {} : { primerId: next.primerId }),
    ...(differs(next.pourPlan, own.pourPlan) ? { pourPlan: next.pourPlan } : {}),
  };
  const others = tries.filter((t) => t.roomId !== roomId);
  return Object.keys(tried).length === 1 ? others : [...others, tried];
}

/** A try of one of the quote's options: its levels and materials in the rooms it changes. */
export function tryOption(job: Job, tries: JobTry, option: EstimateChoices['options'][number] | null): JobTry {
  return job.rooms.reduce((triesSoFar, own) => {
    const roomOption = option?.rooms.find((room) => room.roomId === own.roomId);
    return tryRoom(job, triesSoFar, own.roomId, (room) => ({
      ...room,
      level: roomOption?.level ?? own.level,
      materialId: roomOption?.materialId ?? own.materialId,
    }));
  }, tries);
}

/** A try as another option of the quote: levels and materials. Crew and primer belong to the job, not to an option. */
export function optionOfTry(job: Job, tries: JobTry, id: string, name: string): EstimateChoices['options'][number] {
  const tried = withTry(job, tries);
  return {
    id,
    name,
    rooms: tried.rooms
      .filter((room) => tries.some((t) => t.roomId === room.roomId && (t.level !== undefined || t.materialId !== undefined)))
      .map(({ roomId, level, materialId }) => ({ roomId, level, materialId })),
  };
}

/** Enough runs for a median within 1 or 2 minutes; Pour makes thousands. */
const RUNS = 400;
/** The same seed as in Pour, so that the same plan gives the same minutes. */
const SEED = 20;

type Likely = Pick<PourPlan, 'likelyMinutes' | 'likelyVolumeM3'>;
const UNKNOWN: Likely = { likelyMinutes: null, likelyVolumeM3: null };

/** The median simulated duration; null where the plan cannot be laid out. */
function simulated(reading: JobReading, roomId: string): Likely {
  const read = readPour(reading, roomsOfGo(reading, roomId));
  if (!read.ok || !read.value.layout.ok) return UNKNOWN;
  const layout = read.value.layout.value;
  const model = pourModel(layout, read.value.first.crew, read.value.clocks);
  if (!model.ok) return UNKNOWN;
  const { finishMin } = outlookOf(model.value, simulatePour(model.value, { runs: RUNS, seed: SEED, from: 0 }));
  return { likelyMinutes: Math.round(finishMin.p50), likelyVolumeM3: layout.volumeM3 };
}

/** Whether the changes invalidate a room's simulated minutes. */
function needsRuns(job: Job, tries: JobTry, roomId: string): boolean {
  const own = job.rooms.find((room) => room.roomId === roomId);
  return own?.pourPlan?.likelyMinutes != null && tries.some((t) => t.roomId === roomId);
}

/** The what-if job, and the try with its simulated minutes, ready to save. */
export type TriedJob = { readonly reading: JobReading; readonly tries: JobTry };

/**
 * Reads a job with a try. A simulated pour is simulated again, so that both are comparable.
 * @param whole as it is now; never changed
 * @param now instant
 */
export function readTried(whole: WholeJob, tries: JobTry, now: string): TriedJob {
  const again = whole.job.rooms.filter((room) => needsRuns(whole.job, tries, room.roomId)).map((room) => room.roomId);
  const minutesUnknown = again.reduce(
    (triesSoFar, roomId) =>
      tryRoom(whole.job, triesSoFar, roomId, (room) => ({
        ...room,
        pourPlan: room.pourPlan === null ? null : { ...room.pourPlan, ...UNKNOWN },
      })),
    tries,
  );
  const first = readJob({ ...whole, job: withTry(whole.job, minutesUnknown) }, now);
  if (again.length === 0) return { reading: first, tries };
  const known = again.reduce((triesSoFar, roomId) => {
    const likely = simulated(first, roomId);
    return tryRoom(whole.job, triesSoFar, roomId, (room) => ({
      ...room,
      pourPlan: room.pourPlan === null ? null : { ...room.pourPlan, ...likely },
    }));
  }, minutesUnknown);
  return { reading: readJob({ ...whole, job: withTry(whole.job, known) }, now), tries: known };
}
