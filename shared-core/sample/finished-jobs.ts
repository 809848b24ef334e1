/** The sample's finished jobs: three floors in one row of stores, each with a different ending in the ledger. Invented. */
import type { ClearanceTest, Promised } from '../book/cure-record.ts';
import type { Flooring } from '../book/flooring.ts';
import { newLead, newRoom } from '../book/new-records.ts';
import type { Lead } from '../book/lead.ts';
import type { Room } from '../book/room.ts';
import { door, rectangle, samplePlan, sampleSurvey, surveyAfter } from './sample-floor.ts';
import { sampleClearances, samplePromise } from './sample-pours.ts';
import type { SampleClock } from './sample-time.ts';
import {
  air,
  atThreePlaces,
  CONCRETE_GROUND,
  drops,
  humid,
  layers,
  type LayerWords,
  QUIET,
  scratch,
  wood,
  looked,
  joists,
} from './sample-tests.ts';

/** One finished job: its room, its days from today, and the outcome of its account. */
export type FinishedJob = {
  readonly jobId: string;
  readonly serial: number;
  readonly title: string;
  readonly roomId: string;
  readonly roomName: string;
  readonly sizeFt: readonly [number, number];
  readonly floor: readonly LayerWords[];
  readonly flooring: Flooring;
  readonly primerId: string;
  /** Minimum thickness of the pour, inches: over wood the data sheet requires more. */
  readonly leastIn: number;
  /** Day of the pour, from today; the quote was issued 20 days before it, and the handover was 14 days after. */
  readonly pourDays: number;
  readonly source: string;
  /** Extra hours for removing the old floor, beyond the estimate. */
  readonly slower: number;
  readonly ending: 'paid' | 'refunded' | 'overdue';
  /** References of the payments: of the deposit, of the first on the balance, and of the rest. */
  readonly references: readonly [string, string, string?];
};

export const FINISHED_CUSTOMER = 'sample-calder';
export const FINISHED_HOUSE = 'sample-calder-row';
export const QUOTED_BEFORE = 20;
export const HANDED_OVER_AFTER = 14;
/** Days from the pour to the readings of the new floor. */
const READ_AFTER = 2;

const WOOD_FLOOR: readonly LayerWords[] = [
  { material: 'carpet', yearInstalled: 2004, inches: 0.4, fate: 'remove' },
  { material: 'plywood', yearInstalled: 1987, inches: 0.75, fate: 'keep' },
  { material: 'joists', yearInstalled: 1987, inches: 9.25, fate: 'keep' },
];
const onConcrete = (old: LayerWords): readonly LayerWords[] => [old, { ...CONCRETE_GROUND, yearInstalled: 1987 }];

export const FINISHED: readonly FinishedJob[] = [
  {
    ...{ jobId: 'sample-job-shop', serial: 11, title: 'showroom', roomId: 'sample-shop', roomName: 'Showroom' },
    ...{ sizeFt: [20, 14], floor: onConcrete({ material: 'floating-plank', yearInstalled: 2009, inches: 0.31, fate: 'remove' }) },
    ...{
      flooring: 'resilient',
      primerId: 'sample-primer-porous',
      leastIn: 0.125,
      pourDays: -75,
      source: 'referral',
      slower: 1.35,
      ending: 'paid',
      references: ['1180', '1194', '1203'],
    },
  },
  {
    ...{ jobId: 'sample-job-office', serial: 15, title: 'back office', roomId: 'sample-office', roomName: 'Back office' },
    ...{ sizeFt: [12, 10], floor: WOOD_FLOOR, flooring: 'resilient', primerId: 'sample-primer-wood', leastIn: 0.375 },
    ...{ pourDays: -62, source: 'website', slower: 1.5, ending: 'refunded', references: ['1186', '1209', '1215'] },
  },
  {
    ...{ jobId: 'sample-job-corridor', serial: 19, title: 'corridor', roomId: 'sample-corridor', roomName: 'Corridor' },
    ...{ sizeFt: [22, 6], floor: onConcrete({ material: 'carpet', yearInstalled: 2004, inches: 0.4, fate: 'remove' }) },
    ...{
      flooring: 'resilient',
      primerId: 'sample-primer-porous',
      leastIn: 0.125,
      pourDays: -48,
      source: 'referral',
      slower: 1.4,
      ending: 'overdue',
      references: ['1191', 'T-3307'],
    },
  },
];

/** Tests of the first visit, and those repeated the day before the pour and on its morning. */
function testsOf({ roomId, floor, pourDays }: FinishedJob, read: string, clock: SampleClock): Room['tests'] {
  const both = [
    ...atThreePlaces(scratch(`${roomId}-t1`, read)),
    looked(`${roomId}-t2`, read, 'sound-clean'),
    ...atThreePlaces(drops(`${roomId}-t3`, read, 30)),
    air(`${roomId}-t9`, clock.instantAt(pourDays, '06:30'), 66, 0.5, 64),
  ];
  if (floor !== WOOD_FLOOR)
    return [...both, humid(`${roomId}-t4`, read, 0.7), humid(`${roomId}-t5`, read, 0.71), humid(`${roomId}-t6`, read, 0.69)];
  return [
    ...both,
    wood(`${roomId}-t4`, read, 'boards', [0.1, 0.104, 0.098, 0.102, 0.101, 0.1]),
    wood(`${roomId}-t5`, read, 'structure', [0.11, 0.108, 0.111, 0.109]),
    wood(`${roomId}-t7`, clock.instantAt(pourDays - 1, '15:00'), 'boards', [0.1, 0.102, 0.099, 0.101, 0.1, 0.1]),
    wood(`${roomId}-t8`, clock.instantAt(pourDays - 1, '15:00'), 'structure', [0.108, 0.107, 0.11, 0.109]),
    joists(`${roomId}-t6`, read),
  ];
}

/** The rooms of the finished jobs, side by side. */
export function finishedRooms(clock: SampleClock): Room[] {
  let leftFt = 0;
  return FINISHED.map((job) => {
    const [widthFt, depthFt] = job.sizeFt;
    const read = clock.instantAt(job.pourDays - QUOTED_BEFORE - 2, '10:00');
    const exit = door(`${job.roomId}-door`, 'back door', [0, 1, 3, 0.9], { kind: 'exterior-door', adjoiningFlooring: 'concrete' });
    const plan = samplePlan(rectangle(widthFt, depthFt), [leftFt, 0], [exit]);
    leftFt += widthFt;
    return {
      ...newRoom({ id: job.roomId, now: read }, FINISHED_HOUSE, job.roomName),
      plan,
      layers: layers(job.roomId, job.floor),
      survey: sampleSurvey(
        plan,
        { tiltXIn: 0.2, tiltYIn: 0.1, swells: [{ xFt: widthFt / 2, yFt: depthFt / 2, radiusFt: 4, heightIn: -0.4 }] },
        read,
        job.roomId,
      ),
      surveyAfter: surveyAfter(plan, clock.instantAt(job.pourDays + READ_AFTER, '09:20'), job.roomId),
      tests: testsOf(job, read, clock),
      circumstances: {
        ...QUIET,
        ...(job.floor === WOOD_FLOOR
          ? { vaporRetarder: null, allowedExtraLoadPa: 1200, loadStatedBy: 'structural engineer’s letter 2187' }
          : {}),
      },
    };
  });
}

/** The lead of each job. */
export function finishedLeads(clock: SampleClock): Lead[] {
  return FINISHED.map((job) => ({
    ...newLead(
      { id: `sample-lead-${job.roomId.replace('sample-', '')}`, now: clock.instantAt(job.pourDays - 30, '10:15') },
      FINISHED_CUSTOMER,
    ),
    propertyId: FINISHED_HOUSE,
    jobId: job.jobId,
    source: job.source,
    state: 'won',
    closedAt: clock.instantAt(job.pourDays - QUOTED_BEFORE + 2, '18:05'),
  }));
}

/** The date promised for each floor: a day or two before it passed its test. */
export function finishedPromises(clock: SampleClock): Promised[] {
  return FINISHED.map(({ jobId, roomId, flooring, pourDays }, i) =>
    samplePromise({
      ...{ jobId, roomId, flooring, milestone: 'cover', madeAt: clock.instantAt(pourDays - QUOTED_BEFORE + 2, '18:10'), to: 'Nell Castor' },
      promisedFor: clock.instantAt(pourDays + HANDED_OVER_AFTER - 1 - (i % 2), '08:00'),
    }),
  );
}

/** The tests that cleared each floor: three, as floors of this size need. */
export function finishedTests(clock: SampleClock): ClearanceTest[] {
  return FINISHED.flatMap(({ jobId, roomId, flooring, pourDays, floor }) =>
    sampleClearances({
      ...{ jobId, roomId, flooring, takenAt: clock.instantAt(pourDays + HANDED_OVER_AFTER, '08:30') },
      ...(floor === WOOD_FLOOR
        ? { method: 'wood-moisture', values: [0.09, 0.085, 0.088] }
        : { method: 'slab-humidity', values: [0.7, 0.68, 0.69] }),
    }),
  );
}
