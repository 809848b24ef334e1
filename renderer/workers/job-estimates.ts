/**
 * Estimates jobs: small ones in the page, large ones in the worker that reads floors.
 *
 * The last estimate of a job is kept under the versions of every record it depends on (`estimateKeyOf`): the same versions give the same
 * object. A large job asked twice while it is calculated is calculated once.
 */
import { type Estimated, estimateDayOf, estimateKeyOf } from '../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { estimateJob, type EstimateRecords, type JobEstimate } from '../../shared-core/price/estimate-job.ts';
import { surveyOnceOut } from '../../shared-core/survey/once-out.ts';
import { keepAnswer } from '../../shared-core/survey/read-floor.ts';
import { keepSurveyed } from '../../shared-core/survey/survey-room.ts';
import { wrap } from 'comlink';
import type { SurveyWork } from './survey.worker.ts';
import { keepLast } from './keep-last.ts';
import { AT_ONCE, startSurveyWorker, surveyWorker } from './use-survey.ts';

/** Number of jobs whose last estimate is cached between screens. */
const MOST_KEPT = 6;
const cache = new Map<string, Estimated>();
const onItsWay = new Map<string, Promise<Estimated>>();

function remember(jobId: string, estimated: Estimated): Estimated {
  keepLast(cache, jobId, estimated, MOST_KEPT);
  return estimated;
}

/** What an estimate is made from; nothing else of the job goes to the worker. */
const recordsOf = ({ business, property, rooms, job, materials }: WholeJob): EstimateRecords => ({
  business,
  property,
  rooms,
  job,
  materials,
});

/** Keeps the floors of an estimate that was calculated in a worker from these records. */
function keepFloors({ rooms, business }: EstimateRecords, estimate: JobEstimate): void {
  for (const { roomId, survey } of estimate.base.rooms) {
    const room = rooms.find(({ id }) => id === roomId);
    if (room !== undefined) keepSurveyed(room.plan, surveyOnceOut(room.survey, room.layers), business.units, survey);
  }
}

/** The estimate of a job if it is cached or quick; null when the worker has to calculate it. */
export function estimateAtHand(whole: WholeJob, now: string): Estimated | null {
  const day = estimateDayOf(whole, now);
  const estimateKey = estimateKeyOf(whole, day);
  const cached = cache.get(whole.job.id);
  if (cached?.estimateKey === estimateKey) return cached;
  const readings = whole.rooms.reduce((sum, room) => sum + room.survey.readings.length, 0);
  if (readings > AT_ONCE) return null;
  return remember(whole.job.id, { estimate: estimateJob(recordsOf(whole), day), estimateKey });
}

/** The estimate of a job, from the worker when it is large. */
export function estimateOf(whole: WholeJob, now: string): Promise<Estimated> {
  const atHand = estimateAtHand(whole, now);
  if (atHand !== null) return Promise.resolve(atHand);
  const day = estimateDayOf(whole, now);
  const estimateKey = estimateKeyOf(whole, day);
  const name = `${whole.job.id} ${estimateKey}`;
  const before = onItsWay.get(name);
  if (before !== undefined) return before;
  const records = recordsOf(whole);
  const asked = surveyWorker()
    .estimateJob(records, day)
    // Where no worker can start, the page calculates it.
    .catch(() => estimateJob(records, day))
    .then((estimate) => remember(whole.job.id, { estimate, estimateKey }))
    .finally(() => onItsWay.delete(name));
  onItsWay.set(name, asked);
  return asked;
}

/**
 * Estimates jobs in a worker of their own before one is opened, so that opening it finds its figures. The worker ends with the last job,
 * because it holds memory.
 */
export async function estimateAhead(wholes: readonly WholeJob[], now: string): Promise<void> {
  const missing = wholes.filter(({ job }) => !cache.has(job.id)).slice(0, MOST_KEPT - cache.size);
  if (missing.length === 0) return;
  const worker = startSurveyWorker();
  const work = wrap<SurveyWork>(worker);
  try {
    for (const whole of missing) {
      const [day, records] = [estimateDayOf(whole, now), recordsOf(whole)];
      const estimate = await work.estimateJob(records, day);
      // It may have been opened and changed meanwhile.
      if (cache.has(whole.job.id)) continue;
      keepFloors(records, estimate);
      remember(whole.job.id, { estimate, estimateKey: estimateKeyOf(whole, day) });
    }
    for (const { rooms, business } of missing)
      for (const room of rooms)
        if (room.surveyAfter !== null)
          keepAnswer(room.plan, room.surveyAfter, business.units, await work.readFloor(room.plan, room.surveyAfter, business.units));
  } catch {
    // Estimated when it is opened.
  } finally {
    worker.terminate();
  }
}
