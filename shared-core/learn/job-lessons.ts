/** Results over finished jobs: earnings by kind of floor, size and customer source, and tasks and dates against the plan. */
import type { Lead } from '../book/lead.ts';
import type { Room } from '../book/room.ts';
import type { WholeJob } from '../book/whole-job.ts';
import type { TaskKey } from '../material/crew-hours.ts';
import { TASK_NAMES } from '../price/hours-words.ts';
import { capital } from '../measure/first-letter.ts';
import { glanceJob } from '../standing/read-job.ts';
import { acceptedOption, type JobReview, jobReview } from './job-review.ts';
import { type Proposal, proposals } from './proposals.ts';
import type { Promised } from '../book/cure-record.ts';
import { isByHours } from '../cure/clearance-tests.ts';
import { standingPromises } from '../cure/promise-verdict.ts';

export type FloorKind = 'concrete' | 'wood' | 'mixed' | 'other';

/** One finished job beside its estimate. */
export type PastJob = {
  readonly floor: FloorKind;
  readonly areaM2: number;
  /** Where the customer heard of the business, without a name: `Referral`. Empty while not recorded. */
  readonly source: string;
  readonly review: JobReview;
  /** For each task both estimated and done: hours taken over hours estimated, and the factor the estimate had used. */
  readonly ratios: readonly { readonly task: TaskKey; readonly times: number }[];
  /** Days from each promised date to the test that cleared the floor; negative when it was early. */
  readonly missedDays: readonly number[];
};

const SLABS: ReadonlySet<string> = new Set(['concrete-on-ground', 'concrete-suspended', 'screed', 'gypsum', 'terrazzo']);
const WOODS: ReadonlySet<string> = new Set(['plywood', 'osb', 'boards', 'particleboard', 'wood-flooring']);

/** What the rooms are poured over: concrete, wood, both, or neither. */
export function floorKind(rooms: readonly Pick<Room, 'layers'>[]): FloorKind {
  const kinds = new Set(
    rooms.map(({ layers }): FloorKind => {
      const underlying = layers.filter((layer) => layer.fate === 'keep');
      if (underlying.some(({ material }) => SLABS.has(material))) return 'concrete';
      return underlying.some(({ material }) => WOODS.has(material)) ? 'wood' : 'other';
    }),
  );
  const [only] = kinds;
  return kinds.size > 1 ? 'mixed' : (only ?? 'other');
}

/**
 * Reads one finished job.
 * @param leads leads of the business; the one the job came from names the source
 * @param now instant
 */
export function pastJob(whole: WholeJob, leads: readonly Lead[], now: string): PastJob {
  const { job, quotes, rooms } = whole;
  const option = acceptedOption(quotes);
  const review = jobReview(whole);
  return {
    floor: floorKind(rooms),
    areaM2: (option?.rooms ?? []).reduce((sum, room) => sum + room.areaM2, 0),
    source: sourceOf(leads.find((lead) => lead.jobId === job.id)),
    review,
    ratios: ratiosOf(whole, review),
    missedDays: missedDays(whole, now),
  };
}

/** `Referral` from `referral: Ann Doyle`. */
const sourceOf = (lead: Lead | undefined): string => capital(lead?.source.split(':')[0]?.trim() ?? '');

/** Tasks with fewer estimated hours are left out, because rounding is larger than any difference. */
const LEAST_HOURS = 0.25;

function ratiosOf({ quotes }: WholeJob, { hours }: JobReview): PastJob['ratios'] {
  const factors = quotes.findLast((quote) => quote.state === 'accepted')?.frozen.business.taskFactors ?? {};
  return (Object.keys(TASK_NAMES) as TaskKey[]).flatMap((task) => {
    const row = hours.find((candidate) => candidate.task === TASK_NAMES[task]);
    if (row === undefined || row.actual === null || row.estimated === null || row.estimated < LEAST_HOURS) return [];
    return [{ task, times: (row.actual / row.estimated) * (factors[task] ?? 1) }];
  });
}

function missedDays(whole: WholeJob, now: string): readonly number[] {
  const { standing } = glanceJob(whole, [], now);
  return promiseMisses(whole.promises, ({ roomId, flooring }) => {
    const chosen = whole.job.rooms.find((room) => room.roomId === roomId)?.flooring ?? null;
    // Cleared by the hours of a data sheet, or for other flooring, it passed no test by that day.
    if (chosen === null || isByHours(chosen, whole.business.address.country) || (flooring ?? chosen) !== chosen) return null;
    return standing.rooms.find((room) => room.roomId === roomId)?.clearedFrom ?? null;
  });
}

/** The middle value, or the middle of the two; null without any. */
function median(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const [low, high] = [sorted[Math.floor((sorted.length - 1) / 2)], sorted[Math.ceil((sorted.length - 1) / 2)]];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}

/** Jobs of one group with what they earned per owner hour. */
export type EarnedGroup = { readonly name: string; readonly perHourMinor: readonly number[]; readonly medianMinor: number };

/** Groups jobs; those whose earnings are not known are left out, and the best paid group comes first. */
export function earnedBy(jobs: readonly PastJob[], nameOf: (job: PastJob) => string): EarnedGroup[] {
  const groups = new Map<string, number[]>();
  for (const job of jobs) {
    const perHour = job.review.ownerHourMinor.actual;
    if (perHour !== null) groups.set(nameOf(job), [...(groups.get(nameOf(job)) ?? []), perHour]);
  }
  return [...groups]
    .map(([name, perHourMinor]) => ({ name, perHourMinor, medianMinor: Math.round(median(perHourMinor) ?? 0) }))
    .sort((a, b) => b.medianMinor - a.medianMinor || a.name.localeCompare(b.name));
}

/**
 * Suggested hours by task, over finished jobs. The pour itself has its own suggestion, from the pour log.
 * @param factors those in use
 */
export function taskProposals(jobs: readonly PastJob[], factors: Readonly<Record<string, number>>, locale: string): readonly Proposal[] {
  const tasks = (Object.keys(TASK_NAMES) as TaskKey[]).filter((task) => task !== 'pour');
  return proposals(
    tasks.flatMap((task) => {
      const values = jobs.flatMap(({ ratios }) => ratios.filter((ratio) => ratio.task === task).map(({ times }) => times));
      return values.length === 0 ? [] : [{ kind: 'prep-hours' as const, task, before: factors[task] ?? 1, values }];
    }),
    locale,
  );
}

/**
 * Days from each promise to the test that cleared the floor; negative when it was dry before.
 * @param passedAt when the promised floor passed; null leaves the promise out
 */
export function promiseMisses(promises: readonly Promised[], passedAt: (promise: Promised) => string | null): readonly number[] {
  const byRoom = new Map<string, Promised[]>();
  for (const p of promises) byRoom.set(p.roomId, [...(byRoom.get(p.roomId) ?? []), p]);
  return [...byRoom.values()].flatMap((own) =>
    standingPromises(own).flatMap((p) => {
      if (p.milestone !== 'cover') return [];
      const instant = passedAt(p);
      return instant === null ? [] : [(Date.parse(instant) - Date.parse(p.promisedFor)) / 86_400_000];
    }),
  );
}
