/** A whole estimate from the records: the one call behind the estimate, the quote, the options and the what-if. */
import { sharedCutWords } from '../survey/cut-words.ts';
import type { Business } from '../book/business.ts';
import type { EstimateChoices, Job } from '../book/job.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { hoursOfClock } from '../measure/clock-time.ts';
import { type JobTakeoff, jobTakeoff } from '../material/job-takeoff.ts';
import { surfaceHours, type TaskHours } from '../material/crew-hours.ts';
import { shoppingList } from '../material/shopping.ts';
import type { NoCoverage } from '../material/containers.ts';
import type { Problem } from './problem.ts';
import { noCoverageWords } from './takeoff-words.ts';
import { estimateRoom, type RoomContext, type RoomEstimate, type RoomWay } from './estimate-room.ts';
import { type PricedJob, priceJob } from './price-job.ts';
import { BASE_OPTION_ID } from './quote-state.ts';

/** The records an estimate is made from; a quote's frozen record is one of these. Of the rooms, those the job names are used. */
export type EstimateRecords = Pick<WholeJob, 'business' | 'property' | 'rooms' | 'job' | 'materials'>;

/** One option of the job with all figures. */
export type OptionEstimate = {
  /** `base` for the job's own choices, else the option's id. */
  readonly id: string;
  readonly name: string;
  readonly rooms: readonly RoomEstimate[];
  readonly takeoff: JobTakeoff;
  readonly price: PricedJob;
  /** Days on site: entered, or those of the prep beforehand and one per lift. */
  readonly days: number;
  /** Worst gap under the usual straightedge to be expected once it is poured, over all rooms, meters. Null without a survey. */
  readonly flatnessReachedM: number | null;
  /** Whether every room is flat enough for its flooring; null where none is chosen. */
  readonly flatEnough: boolean | null;
  readonly problems: readonly Problem[];
};

/** The job's own option and up to two more. */
export type JobEstimate = {
  readonly base: OptionEstimate;
  /** The job's own option first. */
  readonly options: readonly OptionEstimate[];
  readonly suggested: OptionEstimate;
  /** True when nothing required for a quote is missing. */
  readonly ready: boolean;
};

type Option = EstimateChoices['options'][number];

/**
 * Estimates a job.
 * @param records the business, the property, its rooms, the job and the data sheets
 * @param day of the prices used, `2026-05-12`. A test too old on it does not count.
 * @param resultsDay the latest day of a test or a lab result, where it is not the day of the prices
 */
export function estimateJob(records: EstimateRecords, day: string, resultsDay = day): JobEstimate {
  const days = { day, resultsDay };
  const base = estimateOption(records, days, null);
  const others = records.job.estimate.options.map((option) => estimateOption(records, days, option));
  const options = [base, ...others];
  const suggested = options.find((option) => option.id === records.job.estimate.suggestedOptionId) ?? base;
  return { base, options, suggested, ready: options.every((option) => !option.problems.some((problem) => problem.stops)) };
}

function estimateOption(records: EstimateRecords, days: Pick<RoomContext, 'day' | 'resultsDay'>, option: Option | null): OptionEstimate {
  const { business, property, job, materials } = records;
  const changed = new Map<string, RoomWay>((option?.rooms ?? []).map(({ roomId, level, materialId }) => [roomId, { level, materialId }]));
  const missing: Problem[] = [];
  const rooms = job.rooms.flatMap((jobRoom) => {
    const room = records.rooms.find((r) => r.id === jobRoom.roomId);
    if (room === undefined) {
      missing.push({
        key: `room:${jobRoom.roomId}`,
        roomId: jobRoom.roomId,
        message: 'A room of this job is no longer at the property. Unarchive it, or remove it from the job.',
        stops: true,
      });
      return [];
    }
    const own: RoomWay = { level: jobRoom.level, materialId: jobRoom.materialId };
    const other = changed.get(room.id);
    const roomWay: RoomWay = other === undefined ? own : { level: other.level, materialId: other.materialId ?? own.materialId };
    return [estimateRoom(room, jobRoom, roomWay, { business, property, job, rooms: records.rooms, materials, ...days })];
  });
  const takeoffs = rooms.map((room) => room.takeoff);
  const taken = jobTakeoff(takeoffs);
  const toBuy = shoppingList(takeoffs, job.estimate.added, materials);
  const daysOnSite = job.estimate.daysOnSite ?? usualDays(rooms, business);
  const price = priceJob({
    business,
    materials,
    rooms: takeoffs,
    roomKey: (roomId) => (option !== null && changed.has(roomId) ? `${option.id}/${roomId}` : roomId),
    added: job.estimate.added,
    travelKm: property.travelKm,
    days: daysOnSite,
    day: days.day,
    choices: job.estimate,
    areaM2: taken.areaM2,
    meanDepthM: meanDepthOver(takeoffs),
    knownKeys: knownKeys(job),
  });
  const verdicts = rooms.flatMap(({ flatness }) => flatness?.forFlooring ?? []);
  const gaps = rooms.flatMap(({ flatness }) => (flatness === null ? [] : [flatness.expectedM]));
  return {
    id: option?.id ?? BASE_OPTION_ID,
    name: option?.name ?? baseName(job, rooms),
    rooms,
    takeoff: taken,
    price,
    days: daysOnSite,
    flatnessReachedM: gaps.length === 0 ? null : Math.max(...gaps),
    flatEnough: verdicts.length === 0 ? null : verdicts.every((verdict) => verdict.meets),
    problems: [...missing, ...rooms.flatMap((room) => room.problems), ...toBuy.problems.map(uncovered), ...price.problems],
  };
}

/** Tasks of the day of a pour and after it. The others come before it. */
const OF_POUR_DAY: readonly TaskHours['key'][] = ['stage', 'set-up', 'pour', 'seal'];

/**
 * Days on site: one for each section of each lift, and before them as many as the owner's hours of prep need, priced by the hour or by the
 * area, at the company's working hours; at least one. Common practice, no source.
 */
function usualDays(rooms: readonly RoomEstimate[], { hours: { from, to } }: Business): number {
  const takeoffs = rooms.map(({ takeoff }) => takeoff);
  const lifts = Math.max(1, ...takeoffs.map((room) => room.lifts?.count ?? 0));
  // Rooms at the same section of the same lift are poured on the same day.
  const daysOf = (lift: number): number => Math.max(1, ...rooms.map(({ fillShares }) => fillShares[lift]?.length ?? 0));
  const pours = Array.from({ length: lifts }, (_, lift) => daysOf(lift)).reduce((sum, days) => sum + days, 0);
  const prep = takeoffs.flatMap(({ hours }) => hours).filter(({ key }) => !OF_POUR_DAY.includes(key));
  const onSurface = takeoffs.reduce((sum, room) => sum + surfaceHours(room), 0);
  const prepHours = prep.reduce((sum, { ownHours }) => sum + ownHours, onSurface);
  return Math.max(1, Math.ceil(prepHours / (hoursOfClock(to) - hoursOfClock(from)) - 1e-9)) + pours;
}

const uncovered = (problem: NoCoverage): Problem => ({
  key: `shopping:${problem.materialId}`,
  roomId: null,
  message: noCoverageWords(problem),
  stops: false,
});

/** An override may belong to another option's line, so only one that fits no option is reported. */
function knownKeys(job: Job): (key: string) => boolean {
  const firsts = job.estimate.options.map((option) => `${option.id}/`);
  const rooms = job.rooms.map((room) => `${room.roomId}/`);
  return (key) =>
    firsts.some((first) => key.startsWith(first)) || rooms.some((first) => key.startsWith(first) && job.estimate.options.length > 0);
}

/** Mean depth over all rooms, meters; null while no room can be calculated. */
function meanDepthOver(rooms: readonly JobTakeoff['rooms'][number][]): number | null {
  const known = rooms.flatMap(({ room: { depths, areaM2 } }) => (depths === null || areaM2 === 0 ? [] : [{ areaM2, meanM: depths.meanM }]));
  if (known.length === 0) return null;
  const areaM2 = known.reduce((sum, room) => sum + room.areaM2, 0);
  return known.reduce((sum, room) => sum + room.areaM2 * room.meanM, 0) / areaM2;
}

/** Name of the job's own option, by most of its rooms. */
function baseName(job: Job, rooms: readonly RoomEstimate[]): string {
  const modes = new Set(job.rooms.map(({ level }) => (level.mode === 'level' && level.grindMostM > 0 ? 'grind' : level.mode)));
  // Rooms without grinding beside one with grinding count as the same.
  if (modes.has('grind')) modes.delete('level');
  if (modes.size > 1) return 'As planned';
  const [only] = modes;
  switch (only) {
    case 'grind':
      return `${sharedCutWords(rooms.filter(({ level }) => level.grindMostM > 0).map(({ takeoff }) => takeoff.room.cut)).verbFirst}, then level`;
    case 'follow':
      return 'Follow the floor';
    case 'ramp':
      return 'Ramp';
    default:
      return 'Level';
  }
}
