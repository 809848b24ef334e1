/** The sample data: invented people, properties, and floors, with every figure calculated by the product itself. */
import { findingWords, overrideOf } from '../assess/overrides.ts';
import { roomsOf } from '../standing/job-bundle.ts';
import { type JobReading, readJob } from '../standing/read-job.ts';
import { readPour } from '../standing/read-pour.ts';
import { pouredPlanOf } from '../standing/read-poured.ts';
import { roomCure } from '../standing/room-cure.ts';
import { issueQuoteWithDocument } from '../documents/issue-quote-document.ts';
import { startOfWork, workCalendar } from '../cure/stated-date.ts';
import type { Business } from '../book/business.ts';
import type { Promised } from '../book/cure-record.ts';
import type { Job, Override, SignedItem } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { MadeDocument } from '../book/papers.ts';
import type { Quote } from '../book/quote.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { typicalMaterials } from '../material/typical-materials.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { lineText } from '../prep/line-words.ts';
import { answerQuote } from '../price/quote-state.ts';
import type { Finding } from '../substrate/rule.ts';
import { wordingFor } from '../substrate/wording.ts';
import { FINISHED, finishedPromises, finishedRooms, finishedTests, QUOTED_BEFORE } from './finished-jobs.ts';
import { abaraRooms } from './rooms-abara.ts';
import { lindqvistRooms } from './rooms-lindqvist.ts';
import { odellRooms } from './rooms-odell.ts';
import { ruskRooms } from './rooms-rusk.ts';
import { tremaineRooms } from './rooms-tremaine.ts';
import { givenOut, handoverDocuments, moneyDocuments } from './sample-documents.ts';
import { sampleLedger } from './sample-ledger.ts';
import { sampleJobs, sampleLeads } from './sample-jobs.ts';
import { orderDocuments, withSampleOrder } from './sample-orders.ts';
import { sampleBusiness, sampleCustomers, sampleProperties } from './sample-people.ts';
import { PRIMED_PHOTO, samplePhotos } from './sample-pictures.ts';
import { sampleClearances, sampleLogs, samplePour, samplePromise } from './sample-pours.ts';
import { SAMPLE_ZONE, type SampleClock, sampleClock, stampsAt } from './sample-time.ts';
import { NO_ROWS, type SampleBook, wholeJobOf } from './whole-jobs.ts';

/** First day with prices, in days from today: before the first quote of the finished jobs. */
const PRICED_DAYS = -140;
/** The job with the most records. */
const ABARA = 'sample-job-abara';

type Ground = Pick<SampleBook, 'customers' | 'properties' | 'rooms' | 'materials'> & { readonly business: Business };

/** A job with those of its records that are made already. */
function jobWith(ground: Ground, job: Job, records: Partial<SampleBook> = {}): WholeJob {
  const whole = wholeJobOf({ ...NO_ROWS, ...ground, business: [ground.business], ...records }, job);
  if (whole === null) throw new RangeError(`${job.id} hangs on people that are not in the sample.`);
  return whole;
}

/** The fine underlayment's working and healing time are entered from its data sheet; the other figures stay typical. */
function withOwnTimes(material: Material): Material {
  if (material.id !== 'sample-underlayment-fine' || material.powder === null) return material;
  const span = (least: number, most: number) => ({ value: { least, most }, source: 'bag' as const });
  return { ...material, powder: { ...material.powder, workingTimeMin: span(20, 25), healingMin: span(12, 15) } };
}

/** Rooms with a signed prep list: the day, the hour of the first line, and how many lines at the end are open. */
const SIGNED: Readonly<Record<string, { readonly days: number; readonly hour?: number; readonly open: number }>> = {
  // Its bags are not all bought yet, so they are not staged.
  'sample-family': { days: -1, hour: 13, open: 4 },
  'sample-sunroom': { days: -4, open: 0 },
  'sample-living': { days: -1, open: 0 },
  'sample-back-hall': { days: -8, open: 0 },
  'sample-dining': { days: -6, open: 0 },
  ...Object.fromEntries(FINISHED.map(({ roomId, pourDays }) => [roomId, { days: pourDays, open: 0 }])),
};
const SIGNERS = ['Ros', 'Bea'] as const;

/** The checklist of a room, signed line by line through the morning. */
function signedBy(reading: JobReading, roomId: string, clock: SampleClock): SignedItem[] {
  const plan = SIGNED[roomId];
  const room = reading.rooms.find((r) => r.room.id === roomId);
  if (plan === undefined || room === undefined) return [];
  const { units, locale } = reading.whole.business;
  const lines = room.preparation.lines.flatMap((line) =>
    line.item === null ? [] : [{ key: line.key, text: lineText(line.item, wordingFor(units, locale), locale) }],
  );
  return lines.slice(0, lines.length - plan.open).map(({ key, text }, i) => ({
    itemKey: key,
    doneAt: clock.instantAt(
      plan.days,
      `${String((plan.hour ?? 6) + Math.floor(i / 6)).padStart(2, '0')}:${String((i % 6) * 10).padStart(2, '0')}`,
    ),
    initials: SIGNERS[i % SIGNERS.length] ?? 'Ros',
    note: '',
    signedText: text.slice(0, 200),
    photoIds: roomId === 'sample-living' && key.startsWith('prime') ? [PRIMED_PHOTO] : [],
    withdrawnAt: null,
  }));
}

/** The firm's certification, recorded before the quote, for a floor whose finish counts as lead paint. */
const leadFirm = (findings: readonly Finding[], clock: SampleClock): Override[] =>
  findings
    .filter(({ verdict, clearedBy }) => verdict === 'hold' && clearedBy === 'lead-firm')
    .map((finding) =>
      overrideOf(
        { key: finding.key, text: findingWords(finding) },
        {
          why: 'We are a certified firm and work lead-safe.',
          initials: 'RT',
          document: { kind: 'lead-firm', issuedBy: 'EPA', number: '26-0417', datedOn: clock.day(-200) },
        },
        clock.instantAt(-25, '09:30'),
      ),
    );

/** The job with the documents its lead paint holds require; unchanged where it has none. */
function withLeadDocuments(ground: Ground, job: Job, clock: SampleClock, now: string): Job {
  const { rooms } = readJob(jobWith(ground, job), now);
  const overridesOf = (id: string): Override[] => leadFirm(rooms.find(({ room }) => room.id === id)?.assessment.findings ?? [], clock);
  return { ...job, rooms: job.rooms.map((r) => (SIGNED[r.roomId] === undefined ? r : { ...r, overrides: overridesOf(r.roomId) })) };
}

function withPrep(ground: Ground, before: Job, clock: SampleClock, now: string): Job {
  const job = withLeadDocuments(ground, before, clock, now);
  const reading = readJob(jobWith(ground, job), now);
  return {
    ...job,
    rooms: job.rooms.map((r) => {
      const plan = SIGNED[r.roomId];
      const signed = signedBy(reading, r.roomId, clock);
      if (plan === undefined) return r;
      const read = reading.rooms.find((room) => room.room.id === r.roomId);
      const primedAt = signed.find(({ itemKey }) => itemKey.startsWith('prime'))?.doneAt ?? null;
      return {
        ...r,
        signed,
        primedAt,
        primerCoatsDone: read?.estimate?.takeoff.primer?.coats ?? 0,
      };
    }),
  };
}

type Issue = { readonly jobId: string; readonly days: number; readonly acceptedBy: string | null };
const ISSUED: readonly Issue[] = [
  { jobId: 'sample-job-tremaine', days: -28, acceptedBy: null },
  { jobId: ABARA, days: -24, acceptedBy: 'Adaeze Abara' },
  { jobId: 'sample-job-lindqvist', days: -18, acceptedBy: 'Maja Lindqvist' },
  ...FINISHED.map(({ jobId, pourDays }) => ({ jobId, days: pourDays - QUOTED_BEFORE, acceptedBy: 'Nell Castor' })),
];

/** The rooms as they were at an instant, because a quote contains no test made after it. */
function knownAt(ground: Ground, instant: string): Ground {
  const rooms = ground.rooms.map((room) => ({
    ...room,
    tests: room.tests.filter((t) => t.takenAt <= instant),
    surveyAfter: room.surveyAfter !== null && (room.surveyAfter.takenAt ?? '') <= instant ? room.surveyAfter : null,
  }));
  return { ...ground, rooms };
}

type IssuedQuote = { readonly quote: Quote; readonly document: MadeDocument };

/** A quote issued on its day with its document, and accepted two days later where `acceptedBy` is set. */
function issued(ground: Ground, job: Job, issue: Issue, clock: SampleClock): IssuedQuote {
  const instant = clock.instantAt(issue.days, '16:20');
  const outcome = issueQuoteWithDocument(readJob(jobWith(knownAt(ground, instant), job), instant), {
    id: `sample-quote-${job.number}`,
    instant,
    by: ground.business.ownerName,
    note: '',
  });
  if (!outcome.ok) throw new RangeError(`The quote of ${job.number} cannot be issued: ${outcome.message}`);
  const { quote, tree } = outcome.value;
  const document = givenOut({
    id: `sample-document-${job.number}`,
    jobId: job.id,
    kind: 'quote',
    revision: quote.revision,
    tree,
    instant,
    by: 'email',
    quoteId: quote.id,
  });
  if (issue.acceptedBy === null) return { quote, document };
  const answered = answerQuote(quote, {
    state: 'accepted',
    instant: clock.instantAt(issue.days + 2, '18:05'),
    by: issue.acceptedBy,
    note: '',
    optionId: null,
  });
  if (!answered.ok) throw new RangeError(answered.message);
  return { quote: withSampleOrder(answered.value, clock), document };
}

type Poured = { readonly jobId: string; readonly roomId: string; readonly days: number; readonly clock: string };
const POURED: readonly Poured[] = [
  { jobId: 'sample-job-lindqvist', roomId: 'sample-sunroom', days: -4, clock: '10:10' },
  { jobId: ABARA, roomId: 'sample-back-hall', days: -8, clock: '12:00' },
  { jobId: ABARA, roomId: 'sample-dining', days: -6, clock: '12:40' },
  { jobId: ABARA, roomId: 'sample-living', days: -1, clock: '14:00' },
  ...FINISHED.map(({ jobId, roomId, pourDays }) => ({ jobId, roomId, days: pourDays, clock: '10:00' })),
];

function poured(ground: Ground, jobs: readonly Job[], clock: SampleClock, now: string): Pick<SampleBook, 'pours' | 'pourEvents'> {
  const all = POURED.flatMap((pour) => {
    const job = jobs.find((j) => j.id === pour.jobId);
    if (job === undefined) return [];
    const reading = readJob(jobWith(knownAt(ground, clock.instantAt(pour.days, pour.clock)), job), now);
    const room = reading.rooms.find((r) => r.room.id === pour.roomId);
    const read = readPour(reading, [pour.roomId]);
    const bags = room?.estimate?.takeoff.bags?.quotedBags ?? 0;
    if (!read.ok) throw new RangeError(`The sample cannot pour ${pour.roomId}: ${read.problem.kind}`);
    return [
      samplePour({
        jobId: pour.jobId,
        roomId: pour.roomId,
        startedAt: clock.instantAt(pour.days, pour.clock),
        bags,
        bagsPerBatch: 2,
        materialId: room?.jobRoom.materialId ?? '',
        asPoured: pouredPlanOf(read.value, reading.whole.materials),
      }),
    ];
  });
  return { pours: all.map((p) => p.pour), pourEvents: all.flatMap((p) => p.events) };
}

type SamplePromise = { readonly roomId: string; readonly flooring: 'wood-glued' | 'resilient'; readonly daysOff: number };
/** Dates promised when the quote was accepted: one on track, one at risk, one late after a cold night. */
const SAMPLE_PROMISES: readonly SamplePromise[] = [
  { roomId: 'sample-back-hall', flooring: 'resilient', daysOff: 8 },
  { roomId: 'sample-dining', flooring: 'wood-glued', daysOff: 1 },
  { roomId: 'sample-living', flooring: 'wood-glued', daysOff: -3 },
];

/** The dates promised to the customer, offset in days from those the product expects now. */
function promisesOf(
  ground: Ground,
  jobs: readonly Job[],
  records: Pick<SampleBook, 'pours' | 'pourEvents' | 'cureLogs'>,
  clock: SampleClock,
  now: string,
): Promised[] {
  const job = jobs.find((j) => j.id === ABARA);
  if (job === undefined) return [];
  const { bundle } = readJob(jobWith(ground, job, records), now);
  return SAMPLE_PROMISES.flatMap(({ roomId, flooring, daysOff }) => {
    const facts = roomsOf(bundle).find((r) => r.room.id === roomId);
    const likelyAt = facts === undefined ? null : (roomCure(bundle, facts, ground.business)?.schedule.cover?.likelyAt ?? null);
    if (likelyAt === null) return [];
    return [
      samplePromise({
        jobId: job.id,
        roomId,
        milestone: 'cover',
        flooring,
        promisedFor: startOfWork(addDaysToDay(dayOfInstant(likelyAt, SAMPLE_ZONE), daysOff), workCalendar(ground.business, SAMPLE_ZONE)),
        madeAt: clock.instantAt(-22, '18:10'),
        to: 'Adaeze Abara',
      }),
    ];
  });
}

/**
 * The sample data around a day.
 * @param now the instant it is opened: pours, promises, and visits are dated relative to it
 */
export function sampleBook(now: string): SampleBook {
  const clock = sampleClock(now);
  const createdAt = clock.instantAt(-40, '09:00');
  const ground: Ground = {
    business: sampleBusiness(createdAt),
    customers: sampleCustomers(createdAt),
    properties: sampleProperties(createdAt),
    rooms: [odellRooms, abaraRooms, lindqvistRooms, ruskRooms, tremaineRooms, finishedRooms].flatMap((of) => of(clock)),
    materials: typicalMaterials((slug) => `sample-${slug}`, clock.instantAt(PRICED_DAYS, '09:00'), SAMPLE_ZONE).map(withOwnTimes),
  };
  const jobs = sampleJobs(clock).map((job) => withPrep(ground, job, clock, now));
  const { pours, pourEvents } = poured(ground, jobs, clock, now);
  const cureLogs = sampleLogs(clock, now);
  const quotes = ISSUED.flatMap((issue) => jobs.filter((job) => job.id === issue.jobId).map((job) => issued(ground, job, issue, clock)));
  const orders = quotes.flatMap(({ quote }) => orderDocuments(quote));
  const ledger = sampleLedger(
    {
      quotes: quotes.map(({ quote }) => quote),
      business: ground.business,
      materials: ground.materials,
      properties: ground.properties,
      jobs,
      pours,
      events: pourEvents,
    },
    clock,
  );
  const promises = [...promisesOf(ground, jobs, { pours, pourEvents, cureLogs }, clock, now), ...finishedPromises(clock)];
  const clearanceTests = [
    ...sampleClearances({
      ...{ jobId: ABARA, roomId: 'sample-back-hall', flooring: 'resilient', method: 'slab-humidity', values: [0.71, 0.68, 0.7] },
      takenAt: clock.past(0, '06:20'),
    }),
    ...finishedTests(clock),
  ];
  const records = { quotes: quotes.map(({ quote }) => quote), pours, pourEvents, promises, clearanceTests, ledger };
  const later = jobs.flatMap((job) => {
    const whole = jobWith(ground, job, records);
    return [...moneyDocuments(whole), ...handoverDocuments(whole)];
  });
  return {
    business: [ground.business],
    customers: ground.customers,
    properties: ground.properties,
    rooms: ground.rooms,
    jobs,
    leads: sampleLeads(clock),
    materials: ground.materials,
    ...records,
    cureLogs,
    visits: [
      {
        ...stampsAt('sample-visit-living', createdAt),
        jobId: ABARA,
        roomIds: ['sample-living'],
        kind: 'day-after',
        title: 'Check the edges',
        instant: clock.instantAt(0, '17:00'),
        minutes: 30,
        doneAt: null,
        cause: '',
        fix: '',
        notes: '',
        photoIds: [],
        sequence: 0,
        cancelledAt: null,
      },
    ],
    documents: [...quotes.map(({ document }) => document), ...orders, ...later],
    photos: samplePhotos(clock),
    calendarEntries: [],
  };
}
