/** A running pour of the sample's family room put into the book with its log, so that a journey starts where the trouble does. */
import type { Page } from '@playwright/test';
import { type Pour, type PourEvent, pourEventSchema, pourSchema } from '../../shared-core/book/pour-record.ts';
import { sampleBook } from '../../shared-core/sample/sample-book.ts';
import { wholeJobsOf } from '../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../shared-core/standing/read-job.ts';
import { readPour } from '../../shared-core/standing/read-pour.ts';
import { pouredPlanOf } from '../../shared-core/standing/read-poured.ts';
import { expect } from './open-book.ts';
import { putRows } from './stored-rows.ts';
import { toSheet } from './open-sample.ts';

export const ROOM = 'sample-family';
export const JOB = 'sample-job-lindqvist';

/** An entry and how many minutes ago it was made. */
export type Ago = readonly [number, Record<string, unknown>];

/** Batches of two bags in turn, a minute and a half apart, the last one so many minutes ago. */
export const placed = (from: number, to: number, lastAgo: number): Ago[] =>
  Array.from({ length: to - from + 1 }, (_, i) => [
    lastAgo + 1.5 * (to - from - i),
    { kind: 'placed', batch: from + i, roomId: ROOM, lane: null, bags: 2 },
  ]);

export const laneDone = (lane: number, ago: number): Ago => [ago, { kind: 'lane-finished', roomId: ROOM, lane }];

let seq = 0;
const entries = (log: readonly Ago[], now: number): PourEvent[] =>
  [...log]
    .sort((a, b) => b[0] - a[0])
    .map(([ago, event]) => {
      seq += 1;
      const instant = new Date(now - ago * 60_000).toISOString();
      return pourEventSchema.parse({ id: `prepared-${seq}`, pourId: 'prepared-pour', seq, instant, estimated: false, ...event });
    });

/** Writes past the program; the page is opened again. */
async function putPour(page: Page, pour: Pour | null, events: readonly PourEvent[]): Promise<void> {
  await putRows(page, { pours: pour === null ? [] : [pour], pourEvents: events });
  await toSheet(page, '/pour/prepared-pour');
  await page.reload();
  await expect(page.getByRole('heading', { level: 1, name: 'Pour: Family room' })).toBeAttached();
}

type Planned = Pick<Pour, 'materialId' | 'bagsPlanned' | 'asPoured'>;
let planned: Planned | null = null;
/** What the room's plan gives a pour, the same on any day; read once in this process. */
function plannedPour(now: string): Planned {
  if (planned !== null) return planned;
  const whole = wholeJobsOf(sampleBook(now)).find((w) => w.job.id === JOB);
  const read = whole === undefined ? null : readPour(readJob({ ...whole, pours: [], pourEvents: [] }, now), [ROOM]);
  if (read === null || !read.ok) throw new Error('The family room can be planned.');
  planned = { materialId: read.value.material.id, bagsPlanned: read.value.bagsNeeded, asPoured: pouredPlanOf(read.value, []) };
  return planned;
}

/** Opens pour mode with a pour of the sample data in the book: one just started, or with a log one that began two hours ago. */
export async function runPour(page: Page, bagsOnSite: number, log: readonly Ago[] = []): Promise<void> {
  const startedAgo = log.length === 0 ? 0 : 120;
  const nowMs = await page.evaluate(() => Date.now());
  const startedAt = new Date(nowMs - startedAgo * 60_000).toISOString();
  const pour = pourSchema.parse({
    ...plannedPour(new Date(nowMs).toISOString()),
    ...{ id: 'prepared-pour', createdAt: startedAt, changedAt: startedAt, deletedAt: null, jobId: JOB, roomIds: [ROOM], lift: 1 },
    ...{ startedAt, finishedAt: null, bagsOnSite, fromPaper: false, notes: '' },
  });
  await putPour(page, pour, entries([[startedAgo, { kind: 'started' }], ...log], nowMs));
}

/** Half an hour on, with more of the log, as if the crew had gone on. Needs the page's clock installed. */
export async function goOn(page: Page, log: readonly Ago[]): Promise<void> {
  await page.clock.fastForward(30 * 60_000);
  const nowMs = await page.evaluate(() => Date.now());
  const later = entries(log, nowMs).map((event) => ({ ...event, seq: event.seq + 100 }));
  await putPour(page, null, later);
}

/** To a stage of the job. */
export const toStage = (page: Page, stage: string): Promise<void> => toSheet(page, `/jobs/${JOB}/${stage}/${ROOM}`);
