/**
 * Reads a whole job: each room's assessment, prep and estimate, and the bundle for the agenda. Screens, Today and the documents
 * use it, so that each figure is computed in one place.
 */
import { roomsOnSlab } from '../substrate/test-counts.ts';
import { nextPourAt } from './room-pour.ts';
import type { WholeJob } from '../book/whole-job.ts';
import type { JobRoom } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { Room } from '../book/room.ts';
import { type Assessment, assessRoom } from '../assess/assess-room.ts';
import { bagsToBring } from '../material/lift-bags.ts';
import type { PrimerNeed } from '../material/primer.ts';
import { type Preparation, prepareRoom } from '../prep/prepare-room.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { nextShare } from '../pour/fill-shares.ts';
import { floorRest } from '../pour/floor-rest.ts';
import { openFloor, roomFloor, type RoomFloor } from '../pour/placed-floor.ts';
import type { RestWork } from '../prep/prep-input.ts';
import { isOnGenerator } from '../prep/site-power.ts';
import { helperCount } from '../pour/crew-names.ts';
import { depositHold } from '../ledger/deposit-hold.ts';
import { ordersHolding } from '../price/change-order.ts';
import { DEPOSIT_HOLD, ORDER_HOLD } from '../prep/pour-held.ts';
import { estimateJob, type JobEstimate } from '../price/estimate-job.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { type JobBundle, type RoomSummary, standingQuote } from './job-bundle.ts';
import { type JobStanding, jobStanding, roomQuote } from './room-standing.ts';
import { figuresOf, type JobFigures, type RoomFigures } from './job-figures.ts';

/** One room of a job for lists: its assessment and prep. */
export type RoomGlance = {
  readonly room: Room;
  readonly jobRoom: JobRoom;
  /** The date set for its next pour; null for none. */
  readonly nextPourAt: string | null;
  /** Null while none is chosen, or the one chosen is gone. */
  readonly material: Material | null;
  readonly primer: Material | null;
  /** What the next pour goes on: the primer that the signed priming line used, else the one chosen; null for none. */
  readonly primedWith: Material | null;
  /** Null for none. */
  readonly moistureSystem: Material | null;
  readonly assessment: Assessment;
  readonly preparation: Preparation;
  /** Bags to bring for its next pour; null while they are not known. */
  readonly nextBags: number | null;
};

/** One room of a job with all results. */
export type RoomReading = RoomGlance & {
  /** The job's own way. */
  readonly estimate: RoomEstimate | null;
};

/** The primer that the next pour of a room goes on; null without one. */
export const nextPrimer = ({ estimate, preparation }: Pick<RoomReading, 'estimate' | 'preparation'>): PrimerNeed | null =>
  (preparation.isOverLift ? estimate?.takeoff.liftPrimer : estimate?.takeoff.primer) ?? null;

/** A job for lists and the agenda: everything but the estimate. */
export type JobGlance = {
  readonly whole: WholeJob;
  readonly rooms: readonly RoomGlance[];
  readonly bundle: JobBundle;
  /** Input of the bundle, which is reused while nothing in it changed. */
  readonly bundleKey: string;
  /** Status of its rooms when it was read. */
  readonly standing: JobStanding;
};

/** A job with all results. */
export type JobReading = Omit<JobGlance, 'rooms'> & {
  readonly estimate: JobEstimate;
  readonly rooms: readonly RoomReading[];
  /** Key of the estimate's input; the same key means the same estimate. */
  readonly estimateKey: string;
};

/** An estimate and the key of its input. */
export type Estimated = Pick<JobReading, 'estimate' | 'estimateKey'>;

/** The day whose prices count for a job read at an instant. */
export const estimateDayOf = (whole: Pick<WholeJob, 'business'>, now: string): string => dayOfInstant(now, whole.business.timeZone);

/** Ids and change stamps of every record an estimate depends on: the same key, the same estimate. */
export function estimateKeyOf(whole: WholeJob, day: string): string {
  const records = [whole.business, whole.property, whole.job, ...whole.rooms, ...whole.materials];
  return [day, ...records.map((record) => `${record.id}@${record.changedAt}`)].join(' ');
}

/**
 * What a job's figures were worked out from. A day alone changes none of them: only a price that begins on it or a lab's answer
 * that is of it does.
 */
export function figuresStampOf(whole: WholeJob, day: string): string {
  const turns = [
    ...whole.materials.flatMap((m) => m.prices.map((price) => price.from)),
    ...whole.rooms.flatMap((room) => room.tests.flatMap((test) => (test.kind === 'lab' ? (test.resultOn ?? []) : []))),
  ];
  return estimateKeyOf(
    whole,
    turns.filter((turn) => turn <= day).reduce((latest, turn) => (turn > latest ? turn : latest), ''),
  );
}

/** Change stamps of every record in a bundle, and what was worked out for it. */
function bundleKeyOf(whole: WholeJob, summaries: readonly RoomSummary[]): string {
  const records = [
    whole.customer,
    ...whole.quotes,
    ...whole.pours,
    ...whole.cureLogs,
    ...whole.promises,
    ...whole.clearanceTests,
    ...whole.visits,
    ...whole.ledger,
  ];
  const events = `${whole.pourEvents.length}/${whole.pourEvents.at(-1)?.id ?? ''}`;
  return [estimateKeyOf(whole, ''), events, ...records.map((r) => `${r.id}@${r.changedAt}`), JSON.stringify(summaries)].join(' ');
}

const lastStart = (poured: WholeJob['pours'], now: string): string =>
  poured
    .flatMap(({ startedAt }) => startedAt ?? [])
    .sort()
    .at(-1) ?? now;

function readRoom(whole: WholeJob, jobRoom: JobRoom, room: Room, figures: RoomFigures | null, now: string): RoomGlance {
  const { business, property, job } = whole;
  const byId = (id: string | null) => (id === null ? null : (whole.materials.find((m) => m.id === id) ?? null));
  const material = byId(jobRoom.materialId);
  const primer = byId(jobRoom.primerId);
  const moistureSystem = byId(jobRoom.moistureSystemId ?? null);
  const placed = roomFloor(whole.pours, whole.pourEvents, room.id);
  const poured = placed.pours;
  const lastPouredAt =
    poured
      .map((p) => p.finishedAt ?? '')
      .sort()
      .at(-1) ?? null;
  const floor = poured.length === 0 ? null : placed;
  // A pour knows its own number of lifts.
  const liftsPlanned = floor?.liftsPlanned ?? figures?.lifts ?? 1;
  const share = floor === null || floor.extent !== 'partly' || floor.lift?.extent === 'whole' ? 1 : (floorRest(floor)?.openShare ?? 1);
  const hasNextPour = floor !== null && (floor.extent !== 'whole' || floor.liftsWhole < liftsPlanned);
  const isPoured = floor !== null && floor.running === null && !hasNextPour;
  // What the next pour goes on; on a floor that is poured whole, what the last one did.
  const liftsUnder = hasNextPour ? floor.liftsWhole : (floor?.lift?.lift ?? 1) - 1;
  const nextBags = bagsOfNext(figures, room, jobRoom, floor, liftsUnder + 1);
  const need = (liftsUnder > 0 ? figures?.liftPrimer : figures?.primer) ?? null;
  const assessment = assessRoom({
    room,
    onSlab: roomsOnSlab(room, whole.rooms, job.rooms),
    jobRoom,
    property,
    units: business.units,
    locale: business.locale,
    material,
    hasMoistureSystem: moistureSystem !== null,
    addedLoadPa: figures?.addedLoadPa ?? null,
    depth:
      figures?.depth == null
        ? null
        : {
            leastM: figures.depth.leastM,
            mostM: figures.depth.deepestM,
            ...(room.ballpark !== null && room.survey.readings.length === 0 ? { isBallpark: true } : {}),
          },
    cutMostM: figures?.grind == null ? null : Math.min(figures.grind.deepestM, jobRoom.level.grindMostM),
    lifts: figures?.lifts ?? null,
    isPouredOver: floor !== null,
    // A floor that is poured whole is judged as of its last pour: a test goes no older under it.
    lastPouredAt: isPoured ? (floor.pours.at(-2)?.finishedAt ?? null) : lastPouredAt,
    doorSteps: figures?.doorSteps ?? {},
    now,
    // A placed floor is judged as it was when its pour started: a test made in time for it does not grow old afterwards.
    asOf: poured.length === 0 || hasNextPour ? now : lastStart(poured, now),
  });
  const preparation = prepareRoom({
    room,
    jobRoom,
    assessment,
    units: business.units,
    locale: business.locale,
    grind: figures?.grind ?? null,
    primer: need === null ? null : { ...need, liters: (need.liters ?? 0) * share },
    bags: nextBags,
    waterL: nextBags === null || figures?.bagWaterL == null ? null : nextBags * figures.bagWaterL,
    helpers: helperCount(jobRoom.pourPlan, job.crewNames, business),
    onGenerator: isOnGenerator(property),
    rest: floor === null ? null : restWork(floor, now),
    openShare: share,
    liftsUnder,
    lastPouredAt,
    hasNextPour,
    isPoured,
    isQuoted: ['issued', 'accepted'].includes(roomQuote(standingQuote(whole), room.id, now)),
    waitingOrders: ordersHolding(whole.quotes, room.id).map((order) => order.number),
    deposit: poured.length > 0 ? null : (depositHold(whole.quotes, whole.ledger, business)?.text ?? null),
    now,
  });
  const primedIds = new Set(
    preparation.lines.find(({ key }) => key === 'prime')?.signature?.used?.map(({ materialId }) => materialId) ?? [],
  );
  return {
    room,
    jobRoom,
    nextPourAt: nextPourAt(jobRoom, { finishedAt: lastPouredAt }, property.timeZone),
    material,
    primer,
    primedWith: whole.materials.find(({ id, kind }) => kind === 'primer' && primedIds.has(id)) ?? primer,
    moistureSystem,
    assessment,
    preparation,
    nextBags,
  };
}

/** Bags to bring for the next pour of a room, or of its last one on a floor that is poured whole; null while they are not known. */
function bagsOfNext(
  figures: RoomFigures | null,
  { plan }: Room,
  { pourPlan }: JobRoom,
  floor: RoomFloor | null,
  lift: number,
): number | null {
  if (figures === null || figures.bags === null || figures.exactBags === null) return null;
  const open = floor?.lift?.extent === 'partly' ? openFloor(floor) : null;
  const share = nextShare(figures.fillShares, { plan, pourPlan }, lift, open);
  return share === null ? null : bagsToBring({ quotedBags: figures.bags, exactBags: figures.exactBags }, figures.exactBags * share);
}

/** Prep left on a poured floor; null without any. */
function restWork(floor: RoomFloor, now: string): RestWork | null {
  const rest = floorRest(floor);
  if (rest === null) return null;
  const { openM2, jointM, sinceAt, patches, toCheckM2, toCheckBatches } = rest;
  const sinceHours = sinceAt === null ? null : Math.max(0, Math.round((Date.parse(now) - Date.parse(sinceAt)) / 3_600_000));
  return { openM2, jointM, sinceHours, patches, toCheckM2, toCheckBatches };
}

function summaryOf(reading: RoomGlance, figures: RoomFigures | null, whole: WholeJob): RoomSummary {
  const { room, assessment, preparation } = reading;
  // After the pour, holds on the pour no longer apply.
  const isPoured = roomFloor(whole.pours, whole.pourEvents, room.id).pours.length > 0;
  const overridden = new Set(assessment.overrides.map((o) => o.key));
  const neededLines = preparation.lines.filter((line) => line.item !== null);
  const open = neededLines.filter((line) => line.state !== 'signed');
  const first = open[0]?.item ?? null;
  const lab = room.tests
    .flatMap((test) => (test.kind === 'lab' && test.state === 'sent' && test.dueOn !== null ? [test.dueOn] : []))
    .sort();
  return {
    roomId: room.id,
    planDrawn: room.plan.outline.length >= 3,
    readingsTaken: room.survey.readings.length,
    // Tests before a pour do not expire after it.
    testsWanting: assessment.needs.filter((need) => (isPoured ? need.state === 'missing' : need.state !== 'enough') && !need.onTheDay)
      .length,
    holds: [
      ...(isPoured ? [] : ordersHolding(whole.quotes, room.id)).map(({ number }) => ({
        key: `${ORDER_HOLD}${number}`,
        why: `change order ${number} is not signed`,
        liftsOn: null,
      })),
      ...assessment.holdsPour
        .filter((finding) => !isPoured && finding.verdict === 'hold' && !(finding.clearedBy === 'reason' && overridden.has(finding.key)))
        .map((finding) => ({
          key: finding.key,
          why: finding.title,
          liftsOn: finding.lifts.includes('lab') ? (lab[0] ?? null) : null,
        })),
      ...preparation.holds
        .filter((hold) => hold.key === DEPOSIT_HOLD && hold.overridden === null)
        .map(({ key }) => ({
          key,
          why: `${depositHold(whole.quotes, whole.ledger, whole.business)?.what} is not received`,
          liftsOn: null,
        })),
    ],
    overridden: isPoured ? 0 : preparation.holds.filter((hold) => hold.overridden !== null).length,
    prepOpen: open.length,
    prepTotal: neededLines.length,
    prepNext: first?.what ?? null,
    bags: figures?.bags ?? null,
    nextBags: reading.nextBags,
    unsettled: figures?.unsettled ?? null,
    lifts: figures?.lifts ?? null,
    pourMinutes: figures?.pourMinutes ?? null,
    fillShares: figures?.fillShares ?? [],
    liftBreak: figures?.liftBreak ?? null,
    depth: figures?.depth ?? null,
  };
}

/**
 * Reads a job as lists take it.
 * @param figures what its estimate says of each room, made from the same records
 * @param before the same job as it was read before: its bundle is kept while nothing in it has changed
 * @param now instant; tests go stale and primer clocks run by it
 */
export function glanceJob(whole: WholeJob, figures: JobFigures, now: string, before: JobGlance | null = null): JobGlance {
  const figuresOf = (roomId: string): RoomFigures | null => figures.find((f) => f.roomId === roomId) ?? null;
  const rooms = whole.job.rooms.flatMap((jobRoom): RoomGlance[] => {
    const room = whole.rooms.find((r) => r.id === jobRoom.roomId);
    return room === undefined ? [] : [readRoom(whole, jobRoom, room, figuresOf(room.id), now)];
  });
  const summaries = rooms.map((reading) => summaryOf(reading, figuresOf(reading.room.id), whole));
  const bundleKey = bundleKeyOf(whole, summaries);
  const bundle = before?.bundleKey === bundleKey ? before.bundle : { ...whole, summaries };
  return { whole, rooms, bundle, bundleKey, standing: jobStanding(bundle, whole.business, now) };
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
  return readEstimated(whole, now, { estimate: estimateJob(whole, day), estimateKey }, before);
}

/**
 * Reads a job whose estimate is made elsewhere. It may be of records a moment older, while a newer one is on its way: the
 * reading's key says which.
 */
export function readEstimated(whole: WholeJob, now: string, estimated: Estimated, before: JobReading | null = null): JobReading {
  const { estimate, estimateKey } = estimated;
  const glance = glanceJob(whole, figuresOf(estimate), now, before);
  const rooms = glance.rooms.map((glance) => ({
    ...glance,
    estimate: estimate.base.rooms.find((r) => r.roomId === glance.room.id) ?? null,
  }));
  return { ...glance, rooms, estimate, estimateKey };
}
