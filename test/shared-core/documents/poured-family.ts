/** The family room of the sample, poured as a test says. */
import { type Pour, type PourEvent, pourEventSchema, pourSchema } from '../../../shared-core/book/pour-record.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { middleJoint } from '../../../shared-core/standing/edit-pour-plan.ts';
import { firstPourPlan, readPour } from '../../../shared-core/standing/read-pour.ts';
import { pouredPlanOf } from '../../../shared-core/standing/read-poured.ts';
import { sampleAt } from '../../sample-at.ts';

export const NOW = '2026-05-12T12:00:00.000Z';
export const ROOM = 'sample-family';
const jobs = wholeJobsOf(sampleAt(NOW));

/** A job of the sample before its pours. */
export const jobOf = (id: string) => {
  const found = jobs.find((w) => w.job.id === id);
  if (found === undefined) throw new Error(`The sample has the job ${id}.`);
  return { ...found, pours: [] as Pour[], pourEvents: [] as PourEvent[] };
};
export const family = jobOf('sample-job-lindqvist');

/** An instant so many minutes after 10 am, at the property, of a day in May. */
export const at = (day: string, min: number): string => new Date(Date.parse(`2026-05-${day}T14:00:00.000Z`) + min * 60_000).toISOString();

/** The pour that comes next, from the job's records. */
export function nextPour(reading: JobReading, id: string, day: string): Pour {
  const read = readPour(reading, [ROOM]);
  if (!read.ok || !read.value.layout.ok) throw new Error('The family room can be laid out.');
  return pourSchema.parse({
    ...{ id, createdAt: at(day, 0), changedAt: at(day, 0), deletedAt: null, jobId: family.job.id, roomIds: [ROOM], lift: 1 },
    ...{ materialId: read.value.material.id, startedAt: at(day, 0), finishedAt: at(day, 200), fromPaper: false, notes: '' },
    ...{ bagsOnSite: 60, bagsPlanned: read.value.bagsNeeded, asPoured: pouredPlanOf(read.value, []) },
  });
}

/** The log of a pour, its entries numbered in their order. */
export const logOf = (pourId: string, lines: readonly Record<string, unknown>[]): PourEvent[] =>
  lines.map((line, i) => pourEventSchema.parse({ id: `${pourId}-${i + 1}`, pourId, seq: i + 1, estimated: false, ...line }));

/** A batch of two bags placed in the family room. */
export const placed = (instant: string, batch: number) => ({ kind: 'placed', batch, roomId: ROOM, lane: null, bags: 2, instant });

/** All of the family room placed in one pour on May 13, then these entries. */
export function pouredFamily(...more: readonly Record<string, unknown>[]) {
  const pour = nextPour(readJob(family, NOW), 'pour-a', '13');
  const batches = pour.asPoured.layout?.batches ?? [];
  const pourEvents = logOf('pour-a', [
    ...batches.map(({ number, bags }, i) => ({ ...placed(at('13', 2 * i), number), bags })),
    { kind: 'finished', bagsLeft: null, floor: 'whole', instant: at('13', 200) },
    ...more,
  ]);
  return { ...family, pours: [pour], pourEvents };
}

/** The family room with a dammed joint across its middle, this section of it to be poured next. */
export const ofSection = (whole: typeof family, section: number) => {
  const reading = readJob(whole, NOW);
  const [roomReading] = reading.rooms.filter(({ room }) => room.id === ROOM);
  if (roomReading === undefined) throw new Error('The job has the family room.');
  const plan = roomReading.jobRoom.pourPlan ?? firstPourPlan(roomReading, whole);
  const joint = middleJoint(roomReading, plan, 'joint-1');
  const pourPlan = { ...plan, joints: joint === null ? [] : [joint], section };
  return { ...whole, job: { ...whole.job, rooms: whole.job.rooms.map((room) => (room.roomId === ROOM ? { ...room, pourPlan } : room)) } };
};

/** The batches of a pour, one every two minutes, then these entries, then its end. */
const wholeLog = (pour: Pour, day: string, floor: 'whole' | 'partly', more: readonly Record<string, unknown>[] = []) =>
  logOf(pour.id, [
    ...(pour.asPoured.layout?.batches ?? []).map(({ number, bags }, i) => ({ ...placed(at(day, 2 * i), number), bags })),
    ...more,
    { kind: 'finished', bagsLeft: null, floor, instant: at(day, 200) },
  ]);

/** The first of two sections of the family room placed whole on May 13, with these entries besides. */
export function firstSection(...more: readonly Record<string, unknown>[]) {
  const whole = ofSection(family, 1);
  const pour = nextPour(readJob(whole, NOW), 'pour-a', '13');
  return { ...whole, pours: [pour], pourEvents: wholeLog(pour, '13', 'partly', more) };
}

/** Both sections of the family room placed, on May 13 and on May 20. */
export function bothSections() {
  const first = firstSection();
  const whole = ofSection(first, 2);
  const second = nextPour(readJob(whole, at('20', 0)), 'pour-b', '20');
  return { ...whole, pours: [...first.pours, second], pourEvents: [...first.pourEvents, ...wholeLog(second, '20', 'whole')] };
}
