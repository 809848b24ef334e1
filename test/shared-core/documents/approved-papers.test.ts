/**
 * Every document of the sample data, word by word, as it was last read and approved: a guard against a change that nobody meant. Whether
 * a figure is right is checked elsewhere, against published values. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/documents/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import type { FloorTest } from '../../../shared-core/book/layer.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { dayShoppingPaper, issuedPapers, jobPapers, type NamedPaper } from './paper-set.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { treeDump } from './tree-dump.ts';

const NOW = '2026-11-13T15:00:00.000Z';
const LATER = '2027-01-08T15:00:00.000Z';

function wholeOf(jobNumber: string): WholeJob {
  const whole = wholeJobsOf(sampleAt(NOW)).find((one) => one.job.number === jobNumber);
  if (whole === undefined) throw new Error(`The sample has no job ${jobNumber}.`);
  return whole;
}
const approved = (name: string): string => `./approved/${name}.txt`;
const papersOf = (whole: WholeJob, now: string): readonly NamedPaper[] => jobPapers(readJob(whole, now), now);
/** A draft is read beside its quote. */
const kindOf = ({ kind }: NamedPaper): string => kind.replace('-draft', '');

type Dumped = { readonly name: string; readonly kind: string; readonly lines: readonly string[] };
const dumped = (papers: readonly NamedPaper[]): readonly Dumped[] =>
  papers.map((paper) => ({ name: paper.name, kind: kindOf(paper), lines: treeDump(paper.tree).split('\n') }));
const asItIs = new Map<string, readonly Dumped[]>();
function jobAsItIs(jobNumber: string): readonly Dumped[] {
  const papers = asItIs.get(jobNumber) ?? dumped(papersOf(wholeOf(jobNumber), NOW));
  asItIs.set(jobNumber, papers);
  return papers;
}

/** Documents without the lines of earlier documents of the same kind. */
function fresh(papers: readonly Dumped[], earlier: readonly Dumped[]): string {
  const seen = new Map<string, Set<string>>();
  for (const { kind, lines } of earlier) seen.set(kind, new Set([...(seen.get(kind) ?? []), ...lines]));
  return papers
    .map(({ kind, lines }) => {
      const before = seen.get(kind) ?? new Set();
      seen.set(kind, new Set([...before, ...lines]));
      return lines.filter((line, i) => i === 0 || line === '' || !before.has(line)).join('\n');
    })
    .join('\n');
}

/** What a variant says that the job as it is does not, document by document. */
function difference(jobNumber: string, variant: WholeJob, now: string): string {
  return dumped(papersOf(variant, now))
    .map(({ name, lines: all }) => {
      const before = new Set(jobAsItIs(jobNumber).find((paper) => paper.name === name)?.lines);
      const lines = all.filter((line) => !before.has(line));
      return `= ${name}: ${lines.length} of ${all.length} lines\n${lines.join('\n')}\n`;
    })
    .join('\n');
}

/** Documents of other jobs repeat what those of these two say. */
const FIRST_JOBS = ['26-031', '26-028'];

describe('the documents of the sample', () => {
  it.each([...FIRST_JOBS, '26-029', '26-024', '26-022'])('job %s', async (jobNumber) => {
    const earlier = FIRST_JOBS.slice(0, FIRST_JOBS.includes(jobNumber) ? FIRST_JOBS.indexOf(jobNumber) : FIRST_JOBS.length);
    const whole = wholeOf(jobNumber);
    const papers = dumped([...papersOf(whole, NOW), ...issuedPapers(sampleAt(NOW), whole.job.id)]);
    await expect(fresh(papers, earlier.flatMap(jobAsItIs))).toMatchFileSnapshot(approved(jobNumber));
  });

  it('the shopping list of a day', async () => {
    const readings = wholeJobsOf(sampleAt(NOW)).map((whole) => readJob(whole, NOW));
    await expect(treeDump(dayShoppingPaper(readings, NOW).tree)).toMatchFileSnapshot(approved('day-shopping-list'));
  });
});

const withRooms = (whole: WholeJob, change: (room: Room) => Partial<Room>): WholeJob => ({
  ...whole,
  rooms: whole.rooms.map((room) => ({ ...room, ...change(room) })),
  houseRooms: whole.houseRooms.map((room) => ({ ...room, ...change(room) })),
});
const withJobRooms = (whole: WholeJob, change: (jobRoom: JobRoom) => Partial<JobRoom>): WholeJob => ({
  ...whole,
  job: { ...whole.job, rooms: whole.job.rooms.map((jobRoom) => ({ ...jobRoom, ...change(jobRoom) })) },
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

/** Each changes a job of the sample, so that its documents say what the sample does not reach. */
const VARIANTS: readonly (readonly [name: string, jobNumber: string, change: (whole: WholeJob) => WholeJob, now: string])[] = [
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
      withJobRooms(whole, ({ roomId, level }) => ({
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
              }
            : { ...level, mode: 'follow', followThicknessM: 0.009 },
      })),
    NOW,
  ],
];

describe('what other jobs say', () => {
  it.each(VARIANTS)('%s (job %s)', async (name, jobNumber, change, now) => {
    const file = name.replaceAll(/[^a-z]+/gi, '-');
    await expect(difference(jobNumber, change(wholeOf(jobNumber)), now)).toMatchFileSnapshot(approved(file));
  });
});
