/**
 * A whole job read at once: each room's assessment, prep and estimate from the records, and the bundle the agenda works on.
 * Screens, Today and the documents all start here, so that no figure is worked out in two places.
 */
import type { WholeJob } from '../book/whole-job.ts';
import type { JobRoom } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { Room } from '../book/room.ts';
import { type Assessment, assessRoom } from '../climate/assess-room.ts';
import { type Preparation, prepareRoom } from '../climate/prepare-room.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { helpersOf } from '../pour/crew-names.ts';
import { lineSays } from '../prep/line-words.ts';
import { estimateJob, type JobEstimate } from '../price/estimate-job.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { wordingFor } from '../substrate/wording.ts';
import type { JobBundle, RoomSummary } from './job-bundle.ts';

/** One room of a job with all that is worked out about it. */
export type RoomReading = {
  readonly room: Room;
  readonly jobRoom: JobRoom;
  /** Null while none is chosen, or the one chosen is gone. */
  readonly material: Material | null;
  readonly primer: Material | null;
  readonly assessment: Assessment;
  readonly preparation: Preparation;
  /** The job's own way. */
  readonly estimate: RoomEstimate | null;
};

/** A job with all that is worked out about it. */
export type JobReading = {
  readonly whole: WholeJob;
  readonly estimate: JobEstimate;
  readonly rooms: readonly RoomReading[];
  readonly bundle: JobBundle;
  /** What the estimate was made from: as long as it is the same, so is the estimate. */
  readonly estimateKey: string;
  /** The same for the bundle, which stays the same object while nothing in it changed. */
  readonly bundleKey: string;
};

/** An estimate and what it was made from. */
export type Estimated = Pick<JobReading, 'estimate' | 'estimateKey'>;

/** The day whose prices count for a job read at an instant. */
export const estimateDayOf = (whole: Pick<WholeJob, 'business'>, now: string): string => dayOfInstant(now, whole.business.timeZone);

/** Ids and change stamps of every record an estimate hangs on: the same key, the same estimate. */
export function estimateKeyOf(whole: WholeJob, day: string): string {
  const records = [whole.business, whole.property, whole.job, ...whole.rooms, ...whole.materials];
  return [day, ...records.map((record) => `${record.id}@${record.changedAt}`)].join(' ');
}

/** Change stamps of every record in a bundle, and what was worked out for it. */
function bundleKeyOf(whole: WholeJob, summaries: readonly RoomSummary[]): string {
  const records = [
    whole.client,
    ...whole.quotes,
    ...whole.pours,
    ...whole.cureLogs,
    ...whole.promises,
    ...whole.coverTests,
    ...whole.visits,
  ];
  const events = `${whole.pourEvents.length}/${whole.pourEvents.at(-1)?.id ?? ''}`;
  return [estimateKeyOf(whole, ''), events, ...records.map((r) => `${r.id}@${r.changedAt}`), JSON.stringify(summaries)].join(' ');
}

/** The survey at the level chosen, where there is one. */
function levelOf(estimate: RoomEstimate | null) {
  return estimate === null || estimate.survey.state === 'waiting' ? null : estimate.survey.level;
}

function readRoom(whole: WholeJob, jobRoom: JobRoom, room: Room, estimate: RoomEstimate | null, now: string): RoomReading {
  const { business, property, job } = whole;
  const byId = (id: string | null) => (id === null ? null : (whole.materials.find((m) => m.id === id && m.deletedAt === null) ?? null));
  const material = byId(jobRoom.materialId);
  const primer = byId(jobRoom.primerId);
  const level = levelOf(estimate);
  const taken = estimate?.takeoff ?? null;
  const assessment = assessRoom({
    room,
    jobRoom,
    property,
    units: business.units,
    locale: business.locale,
    material,
    primer,
    addedLoadPa: taken?.weight?.netPa ?? null,
    finishedLevelM: level?.levelM ?? null,
    now,
  });
  const ground = level !== null && level.highSpotsAreGround ? level.highSpots : [];
  const need = taken?.primer ?? null;
  const preparation = prepareRoom({
    room,
    jobRoom,
    assessment,
    locale: business.locale,
    grind:
      ground.length === 0
        ? null
        : {
            areaM2: ground.reduce((sum, spot) => sum + spot.areaM2, 0),
            spots: ground.length,
            deepestM: Math.max(...ground.map((spot) => spot.depthM)),
          },
    primer:
      need === null
        ? null
        : {
            coats: need.coats,
            liters: need.spreadL,
            waterParts: need.waterParts,
            dryHoursLeast: need.dryHours.least,
            dryHoursMost: need.dryHours.most,
          },
    bags: taken?.bags?.quotedBags ?? null,
    waterL: taken?.water?.totalL.most ?? null,
    helpers: helpersOf(job.crewNames, business.ownerName).length,
    now,
  });
  return { room, jobRoom, material, primer, assessment, preparation, estimate };
}

function summaryOf(reading: RoomReading, whole: WholeJob): RoomSummary {
  const { room, jobRoom, assessment, preparation, estimate } = reading;
  const { units, locale } = whole.business;
  const wording = wordingFor(units, locale);
  // Once it is poured, what stood before the pour holds nothing any more.
  const isPoured = whole.pours.some((p) => p.finishedAt !== null && p.deletedAt === null && p.roomIds.includes(room.id));
  const overridden = new Set(jobRoom.overrides.map((o) => o.key));
  const wanted = preparation.lines.filter((line) => line.item !== null);
  const open = wanted.filter((line) => line.state !== 'signed');
  const first = open[0]?.item ?? null;
  const lab = room.tests
    .flatMap((test) => (test.kind === 'laboratory' && test.state === 'sent' && test.dueOn !== null ? [test.dueOn] : []))
    .sort();
  const taken = estimate?.takeoff ?? null;
  const depths = taken?.room.depths ?? null;
  return {
    roomId: room.id,
    planDrawn: room.plan.outline.length >= 3,
    readingsTaken: room.survey.readings.length,
    holds: assessment.holdsPour
      .filter((finding) => !isPoured && finding.verdict === 'hold' && !overridden.has(finding.key))
      .map((finding) => ({
        key: finding.key,
        why: finding.title,
        liftsOn: finding.lifts.includes('laboratory') ? (lab[0] ?? null) : null,
      })),
    prepOpen: open.length,
    prepTotal: wanted.length,
    prepNext: first === null ? null : lineSays(first, wording, locale),
    bags: taken?.bags?.quotedBags ?? null,
    pourMinutes: taken === null || taken.bags === null ? null : taken.pourMinutes,
    depth: depths === null ? null : { meanM: depths.meanM, deepestM: depths.mostM },
  };
}

/**
 * Reads a job.
 * @param before the same job as it was read before: its estimate is kept while nothing it hangs on has changed
 * @param now instant; tests go stale and primer clocks run by it
 */
export function readJob(whole: WholeJob, now: string, before: JobReading | null = null): JobReading {
  const day = estimateDayOf(whole, now);
  const estimateKey = estimateKeyOf(whole, day);
  if (before?.estimateKey === estimateKey) return readEstimated(whole, now, before, before);
  const materials = whole.materials.filter((m) => m.deletedAt === null);
  return readEstimated(whole, now, { estimate: estimateJob({ ...whole, materials }, day), estimateKey }, before);
}

/**
 * Reads a job whose estimate is made elsewhere. It may be of records a moment older, while a newer one is on its way: the
 * reading's key says which.
 */
export function readEstimated(whole: WholeJob, now: string, estimated: Estimated, before: JobReading | null = null): JobReading {
  const { estimate, estimateKey } = estimated;
  const rooms = whole.job.rooms.flatMap((jobRoom): RoomReading[] => {
    const room = whole.rooms.find((r) => r.id === jobRoom.roomId);
    if (room === undefined) return [];
    return [readRoom(whole, jobRoom, room, estimate.base.rooms.find((r) => r.roomId === room.id) ?? null, now)];
  });
  const fresh: JobBundle = {
    job: whole.job,
    client: whole.client,
    property: whole.property,
    rooms: whole.rooms,
    materials: whole.materials,
    quotes: whole.quotes,
    pours: whole.pours,
    pourEvents: whole.pourEvents,
    logs: whole.cureLogs,
    promises: whole.promises,
    tests: whole.coverTests,
    visits: whole.visits,
    summaries: rooms.map((reading) => summaryOf(reading, whole)),
  };
  const bundleKey = bundleKeyOf(whole, fresh.summaries);
  const bundle = before?.bundleKey === bundleKey ? before.bundle : fresh;
  return { whole, estimate, rooms, bundle, estimateKey, bundleKey };
}
