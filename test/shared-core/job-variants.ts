/** The sample's jobs, and changes of them that say what the sample does not reach. */
import type { JobRoom } from '../../shared-core/book/job.ts';
import type { FloorTest } from '../../shared-core/book/layer.ts';
import type { Room } from '../../shared-core/book/room.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { wholeJobsOf } from '../../shared-core/sample/whole-jobs.ts';
import { scaleOf } from '../../shared-core/survey/scale.ts';
import { sampleAt } from '../sample-at.ts';

export const NOW = '2026-11-13T15:00:00.000Z';
export const LATER = '2027-01-08T15:00:00.000Z';

let wholes: readonly WholeJob[] | null = null;
/** A job of the sample by its number; a copy that a test may change. */
export function wholeOf(jobNumber: string): WholeJob {
  wholes ??= wholeJobsOf(sampleAt(NOW));
  const whole = wholes.find((one) => one.job.number === jobNumber);
  if (whole === undefined) throw new Error(`The sample has no job ${jobNumber}.`);
  return structuredClone(whole);
}
const withRooms = (whole: WholeJob, change: (room: Room) => Partial<Room>): WholeJob => ({
  ...whole,
  rooms: whole.rooms.map((room) => ({ ...room, ...change(room) })),
  houseRooms: whole.houseRooms.map((room) => ({ ...room, ...change(room) })),
});
const withJobRooms = (whole: WholeJob, change: (jobRoom: JobRoom, room: Room | undefined) => Partial<JobRoom>): WholeJob => ({
  ...whole,
  job: {
    ...whole.job,
    rooms: whole.job.rooms.map((jobRoom) => ({
      ...jobRoom,
      ...change(
        jobRoom,
        whole.rooms.find(({ id }) => id === jobRoom.roomId),
      ),
    })),
  },
});

const wet = (test: FloorTest): FloorTest => {
  switch (test.kind) {
    case 'slab-humidity':
      return { ...test, relativeHumidity: 0.93 };
    case 'moisture-dish':
      return { ...test, massAfterG: test.massAfterG * 1.3 };
    case 'wood-moisture':
      return { ...test, readings: test.readings.map((share) => share + 0.08) };
    case 'surface-ph':
      return { ...test, ph: 12.4 };
    case 'pull-off':
      return { ...test, stressPa: 0.4e6 };
    case 'scratch':
      return { ...test, result: 'crumbles' };
    case 'air':
      return { ...test, airTempC: 6, relativeHumidity: 0.9, surfaceTempC: 5 };
    case 'floor-deflection':
      return { ...test, spanM: test.spanM * 1.6 };
    case 'surface-look':
      return { ...test, is: ['dusty', 'oily', 'curing-compound'] };
    case 'drop-absorption':
      return { ...test, seconds: null };
    case 'lab':
      return { ...test, state: 'found' };
  }
};

/** What is changed, the job, the change, and when the job is read. */
export const VARIANTS: readonly (readonly [name: string, jobNumber: string, change: (whole: WholeJob) => WholeJob, now: string])[] = [
  [
    'in metric units, euros and German dates, priced by margin',
    '26-031',
    (whole) => ({
      ...whole,
      business: {
        ...whole.business,
        units: 'metric',
        locale: 'de-DE',
        currency: 'EUR',
        paper: 'a4',
        pricing: { ...whole.business.pricing, method: 'margin', share: 0.3, rounding: 'total', minimumChargeMinor: 900_000 },
      },
    }),
    NOW,
  ],
  ['eight weeks later, open', '26-028', (whole) => whole, LATER],
  ['with every test out of range', '26-029', (whole) => withRooms(whole, ({ tests }) => ({ tests: tests.map(wet) })), NOW],
  ['with every test out of range, over wood', '26-031', (whole) => withRooms(whole, ({ tests }) => ({ tests: tests.map(wet) })), NOW],
  [
    'before anything was measured or tested',
    '26-031',
    (whole) =>
      withRooms(whole, ({ survey }) => ({
        tests: [],
        layers: [],
        survey: { ...survey, readings: [], takenAt: null },
        ballpark: { kind: 'depth', leastM: 0.006, mostM: 0.02 },
      })),
    NOW,
  ],
  [
    'three times as uneven, in lifts',
    '26-022',
    (whole) =>
      withRooms(whole, ({ survey }) => ({
        survey: { ...survey, readings: survey.readings.map((reading) => ({ ...reading, valueM: reading.valueM * 4 })) },
      })),
    NOW,
  ],
  [
    'over radiant heat and below grade, with fixtures, under nailed wood',
    '26-022',
    (whole) =>
      withJobRooms(
        withRooms(whole, ({ circumstances }) => ({
          circumstances: {
            ...circumstances,
            radiantHeat: 'in-floor',
            belowGrade: true,
            vaporRetarder: 'absent',
            slopeToDrain: true,
            outdoorsOrWet: true,
            paintedTrim: 'to-be-disturbed',
            baseboardHeightM: 0.14,
            allowedExtraLoadPa: 120,
            loadStatedBy: 'the plans',
            texturedCoating: true,
            structureSigns: ['sag', 'heave'],
            gasAppliance: true,
            fixtures: ['dishwasher', 'toilet', 'floor-drain', 'floor-register', 'garage-door'],
          },
        })),
        ({ level }) => ({ flooring: 'wood-nailed', level: { ...level, grindMostM: 0.006 } }),
      ),
    NOW,
  ],
  [
    'following the floor, under large tile, with a ramp in the last room',
    '26-031',
    (whole) =>
      withJobRooms(whole, ({ roomId, level }, room) => ({
        flooring: 'tile-large',
        level:
          roomId === whole.job.rooms.at(-1)?.roomId
            ? {
                ...level,
                mode: 'ramp',
                rampThrough: [
                  { point: { xM: 0, yM: 0 }, heightM: 0.02 },
                  { point: { xM: 2, yM: 0 }, heightM: 0.03 },
                  { point: { xM: 0, yM: 2 }, heightM: 0.02 },
                ],
                ...(room === undefined ? {} : { scale: scaleOf(room.survey) }),
              }
            : { ...level, mode: 'follow', followThicknessM: 0.009 },
      })),
    NOW,
  ],
];
