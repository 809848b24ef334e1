/** The sample's jobs before any calculation: their rooms, flooring, data sheets, and finish elevations. */
import type { Flooring } from '../book/flooring.ts';
import type { Job, JobRoom } from '../book/job.ts';
import { jobNumber, newJob, newJobRoom, newLevelChoice, newLead } from '../book/new-records.ts';
import { INCH_M } from '../measure/length-units.ts';
import { celsiusFromFahrenheit } from '../measure/temperature.ts';
import { TYPICAL_CREW } from '../pour/typical-crew.ts';
import {
  FINISHED,
  FINISHED_CUSTOMER,
  FINISHED_HOUSE,
  type FinishedJob,
  HANDED_OVER_AFTER,
  QUOTED_BEFORE,
  finishedLeads,
} from './finished-jobs.ts';
import type { SampleClock } from './sample-time.ts';
import type { Lead } from '../book/lead.ts';

const FINE = 'sample-underlayment-fine';

type RoomWords = {
  readonly id: string;
  readonly flooring: Flooring | null;
  readonly materialId?: string | null;
  readonly primerId?: string | null;
  readonly grindMostIn?: number;
  readonly leastIn?: number;
  readonly followIn?: number;
  readonly pourAt?: string | null;
  readonly assumedF?: number;
  readonly handedOverAt?: string;
};

function jobRoom(words: RoomWords, airAt: string): JobRoom {
  const level = newLevelChoice();
  const pourAt = words.pourAt ?? null;
  return {
    ...newJobRoom(words.id),
    flooring: words.flooring,
    materialId: words.materialId === undefined ? FINE : words.materialId,
    primerId: words.primerId ?? null,
    level: {
      ...level,
      grindMostM: (words.grindMostIn ?? 0) * INCH_M,
      leastThicknessM: (words.leastIn ?? 0.125) * INCH_M,
      ...(words.followIn === undefined ? {} : { mode: 'follow' as const, followThicknessM: words.followIn * INCH_M }),
    },
    pourAt,
    pourPlan:
      pourAt === null
        ? null
        : {
            laneWidthM: 0.9144,
            angleDeg: 90,
            pattern: 'one-way',
            wayOutId: null,
            joints: [],
            // Short of hands, so that the crew advice has something to report.
            crew: { ...TYPICAL_CREW, bagsPerBatch: 2, carry: 'by-hand', carriers: 1 },
          },
    expectedAir: { tempC: celsiusFromFahrenheit(words.assumedF ?? 66), relativeHumidity: 0.5, enteredAt: airAt },
    handedOverAt: words.handedOverAt ?? null,
    ...(words.handedOverAt === undefined ? {} : { handedOverTo: 'Nell Castor' }),
  };
}

type JobWords = {
  readonly id: string;
  /** Of its number, after the year of the day it was created. */
  readonly serial: number;
  readonly title: string;
  readonly customerId: string;
  readonly propertyId: string;
  readonly bornDays: number;
  readonly rooms: readonly RoomWords[];
  readonly more: Partial<Job>;
};

const CREW = ['Ros Teague', 'Bea Lorne', 'Ike Marsh'];

function jobWords(clock: SampleClock): JobWords[] {
  return [
    {
      id: 'sample-job-odell',
      serial: 31,
      title: 'hall and laundry, ready for oak',
      customerId: 'sample-odell',
      propertyId: 'sample-pennant-hill',
      bornDays: -9,
      rooms: [
        { id: 'sample-hall', flooring: 'wood-glued', primerId: 'sample-primer-wood', grindMostIn: 0.375 },
        { id: 'sample-laundry', flooring: 'tile-small', primerId: 'sample-primer-non-porous' },
      ],
      more: {
        quotePromisedOn: clock.day(-1),
        crewNames: CREW.slice(0, 2),
        estimate: {
          overrides: [],
          added: [],
          discountMinor: 0,
          discountNote: '',
          options: [
            {
              id: 'sample-odell-skim',
              name: 'Follow the floor',
              rooms: [
                {
                  roomId: 'sample-hall',
                  level: { ...newLevelChoice(), mode: 'follow', followThicknessM: 0.1875 * INCH_M },
                  materialId: null,
                },
              ],
            },
            {
              id: 'sample-odell-fill',
              name: 'Level without sanding',
              rooms: [{ roomId: 'sample-hall', level: newLevelChoice(), materialId: null }],
            },
          ],
          suggestedOptionId: 'base',
          daysOnSite: null,
          stages: [
            { name: 'Deposit', share: 0.3, due: 'on-acceptance' },
            { name: 'Balance due', share: 0.7, due: 'on-handover' },
          ],
        },
      },
    },
    {
      id: 'sample-job-rusk',
      serial: 29,
      title: 'basement and storage room',
      customerId: 'sample-rusk',
      propertyId: 'sample-ferry-street',
      bornDays: -8,
      rooms: [
        { id: 'sample-basement', flooring: 'resilient', primerId: 'sample-primer-porous' },
        { id: 'sample-storage', flooring: null, materialId: null },
      ],
      more: {},
    },
    {
      id: 'sample-job-lindqvist',
      serial: 28,
      title: 'family room and sunroom',
      customerId: 'sample-lindqvist',
      propertyId: 'sample-coopers-wharf',
      bornDays: -20,
      rooms: [
        { id: 'sample-family', flooring: 'wood-glued', primerId: 'sample-primer-porous', pourAt: clock.instantAt(0, '09:40') },
        {
          id: 'sample-sunroom',
          flooring: 'tile-large',
          primerId: 'sample-primer-non-porous',
          pourAt: clock.instantAt(-4, '10:10'),
        },
      ],
      more: { crewNames: CREW, prepVisitAt: clock.instantAt(-1, '08:00') },
    },
    {
      id: 'sample-job-abara',
      serial: 24,
      title: 'living room, back hall, and dining room',
      customerId: 'sample-abara',
      propertyId: 'sample-sallow-lane',
      bornDays: -30,
      rooms: [
        {
          id: 'sample-living',
          flooring: 'wood-glued',
          primerId: 'sample-primer-porous',
          pourAt: clock.instantAt(-1, '14:00'),
          assumedF: 64,
        },
        {
          ...{ id: 'sample-back-hall', flooring: 'resilient', primerId: 'sample-primer-porous' },
          ...{ pourAt: clock.instantAt(-8, '12:00') },
        },
        {
          id: 'sample-dining',
          flooring: 'wood-glued',
          primerId: 'sample-primer-porous',
          pourAt: clock.instantAt(-6, '12:40'),
          assumedF: 64,
        },
      ],
      more: { crewNames: CREW.slice(0, 2), prepVisitAt: clock.instantAt(-9, '08:00'), handoverAt: clock.instantAt(0, '17:30') },
    },
    {
      id: 'sample-job-tremaine',
      serial: 22,
      title: 'workshop floor',
      customerId: 'sample-tremaine',
      propertyId: 'sample-old-orchard',
      bornDays: -34,
      rooms: [
        {
          id: 'sample-workshop',
          flooring: 'bare-sealed',
          materialId: 'sample-topping',
          leastIn: 0.25,
          primerId: 'sample-primer-porous',
          pourAt: clock.instantAt(20, '08:30'),
        },
      ],
      more: { crewNames: CREW },
    },
    ...FINISHED.map((job) => finishedWords(job, clock)),
  ];
}

function finishedWords(job: FinishedJob, clock: SampleClock): JobWords {
  const handedOverAt = clock.instantAt(job.pourDays + HANDED_OVER_AFTER, '16:00');
  return {
    ...{ id: job.jobId, serial: job.serial, title: job.title, customerId: FINISHED_CUSTOMER, propertyId: FINISHED_HOUSE },
    bornDays: job.pourDays - QUOTED_BEFORE - 5,
    rooms: [
      {
        ...{ id: job.roomId, flooring: job.flooring, primerId: job.primerId, leastIn: job.leastIn },
        ...{ pourAt: clock.instantAt(job.pourDays, '10:00'), handedOverAt },
      },
    ],
    more: { state: 'finished', crewNames: CREW.slice(0, 2), handoverAt: handedOverAt },
  };
}

/** The jobs, newest number first. */
export function sampleJobs(clock: SampleClock): Job[] {
  return jobWords(clock).map(({ id, serial, title, customerId, propertyId, bornDays, rooms, more }) => ({
    ...newJob(
      { id, now: clock.instantAt(bornDays, '09:00') },
      {
        number: jobNumber(Number(clock.day(bornDays).slice(0, 4)), serial),
        title,
        customerId,
        propertyId,
        roomIds: rooms.map((r) => r.id),
        depositShare: 0.3,
      },
    ),
    ...more,
    rooms: rooms.map((room) => jobRoom(room, clock.instantAt(-20, '12:00'))),
  }));
}

/** The invented leads around the sample's day. */
export function sampleLeads(clock: SampleClock): Lead[] {
  const leadOn = (id: string, customerId: string, days: number): Lead => newLead({ id, now: clock.instantAt(days, '10:15') }, customerId);
  return [
    {
      ...leadOn('sample-lead-haldane', 'sample-haldane', -2),
      source: 'referral',
      next: { step: 'call-back', day: clock.day(0), clock: '16:00' },
      notes: 'Utility room and hall, about 150 sq ft. Sheet flooring over a slab. Wants plank by the end of next month.',
    },
    {
      ...leadOn('sample-lead-brandt', 'sample-brandt', -30),
      source: 'website',
      state: 'lost',
      closedAt: clock.instantAt(-9, '11:30'),
      reason: 'Chose to replace the subfloor instead.',
    },
    ...finishedLeads(clock),
  ];
}
