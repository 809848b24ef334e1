/** The family room of the sample, poured as a test says. */
import { type Pour, type PourEvent, pourEventSchema, pourSchema } from '../../../shared-core/book/pour-record.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
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
    ...{ bagsOnSite: 60, bagsPlanned: read.value.bagsNeeded, asPoured: pouredPlanOf(read.value) },
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
