/** Figures from finished pours: the waste factor that would have matched the bags used, and the pace. */
import type { JobReading } from '../standing/read-job.ts';
import { type PourReading } from '../standing/read-pour.ts';
import { readPourRecord } from '../standing/read-poured.ts';
import type { TaskTimes } from '../book/task-times.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { pourModel } from '../pour/crew-model.ts';
import { isPlacedAsPlanned } from '../pour/placed-floor.ts';
import { NO_PLAN, pourState, type PourState } from '../pour/pour-state.ts';
import { simulatePour } from '../pour/simulate.ts';
import { proposals, type Proposal } from './proposals.ts';

/** One finished pour beside what was calculated for it. */
export type PastPour = {
  readonly pourId: string;
  readonly rooms: readonly string[];
  readonly finishedAt: string;
  readonly bagsUsed: number;
  readonly bagsPlanned: number;
  /** Waste factor, as a share, that would have matched the bags used; null when the floor was not fully placed. */
  readonly lossShare: number | null;
  /** Waste factor the pour was planned with, as a share. */
  readonly plannedLossShare: number;
  /** Minutes from one batch to the next, the mean of the pour; null under three batches or when times are estimates. */
  readonly minutesABatch: number | null;
  /** The same calculated from the crew's times; null when the plan can no longer be read. */
  readonly calculatedMinutes: number | null;
};

/** Enough runs for a mean pace within about 1%. */
const PACE_RUNS = 200;
const PACE_SEED = 7;
/** Minimum number of batches for a pace. */
const LEAST_BATCHES = 3;
/** Minimum number of bags: below it, rounding to whole bags is larger than any waste. */
const LEAST_BAGS = 10;

/**
 * The finished pours of a job, compared with the business's figures.
 * @param times the times by task that plans start from now: pace is set against them, whatever the plan said then
 */
export function pastPours(reading: JobReading, times: TaskTimes): readonly PastPour[] {
  const { whole } = reading;
  return whole.pours.flatMap((pour): PastPour[] => {
    if (pour.deletedAt !== null || pour.finishedAt === null) return [];
    const asked = readPourRecord(reading, pour);
    const read = asked.ok ? asked.value : null;
    const events = whole.pourEvents.filter((event) => event.pourId === pour.id);
    const plan = read?.recordPlan ?? NO_PLAN;
    const state = pourState(plan, pour, events, pour.finishedAt);
    const names = whole.rooms.filter((room) => pour.roomIds.includes(room.id)).map((room) => room.name);
    return [
      {
        pourId: pour.id,
        rooms: names,
        finishedAt: pour.finishedAt,
        bagsUsed: state.bagsUsed,
        bagsPlanned: pour.bagsPlanned,
        lossShare: lossOf(pour, events, state, read),
        plannedLossShare: pour.asPoured.lossShare,
        minutesABatch: minutesOf(pour, state),
        calculatedMinutes: read === null ? null : calculatedOf(read, times, isByLoad(state)),
      },
    ];
  });
}

/** Bags planned include the waste factor of the time, so bags used over bags planned gives the right one. */
function lossOf(pour: Pour, events: readonly PourEvent[], state: PourState, read: PourReading | null): number | null {
  if (read === null || !read.layout.ok || pour.bagsPlanned < LEAST_BAGS || state.bagsUsed <= 0) return null;
  // A pour that stopped before its end gives no waste factor.
  if (!isPlacedAsPlanned(pour, events)) return null;
  if (state.bagsUsed < 0.7 * pour.bagsPlanned || state.bagsUsed > 1.6 * pour.bagsPlanned) return null;
  // Whole bags were planned; the plan gives the fraction of the last one.
  const planned = read.bagsNeeded === pour.bagsPlanned ? read.layout.value.volumeM3 / read.bagYieldM3 : pour.bagsPlanned - 0.5;
  return (1 + read.lossShare) * (state.bagsUsed / planned) - 1;
}

function minutesOf(pour: Pour, state: PourState): number | null {
  const placed = state.batches.flatMap((b) => (b.placedMin === null || b.estimated ? [] : [b.placedMin]));
  if (pour.fromPaper || placed.length < LEAST_BATCHES) return null;
  return (Math.max(...placed) - Math.min(...placed)) / (placed.length - 1);
}

/** Whether the batches of a cart are logged together when it is empty. */
const isByLoad = ({ entries }: PourState): boolean =>
  entries.some(({ event, undone }) => !undone && event.kind === 'placed' && event.sameCart === true);

/**
 * The mean step between landings of the plan's crew at given times by task, stoppages counted, minutes.
 * @param byLoad whether the batches of a load are logged when its last one lands, as the pour it is set against was
 */
function calculatedOf(read: PourReading, times: TaskTimes, byLoad: boolean): number | null {
  if (!read.layout.ok || read.layout.value.batches.length < LEAST_BATCHES) return null;
  const model = pourModel(read.layout.value, { ...read.first.crew, ...times }, read.clocks);
  if (!model.ok) return null;
  const r = simulatePour(model.value, { runs: PACE_RUNS, seed: PACE_SEED, from: 0 });
  let sum = 0;
  for (let run = 0; run < r.runs; run++) {
    const placed = r.placedMin.subarray(run * r.batches, (run + 1) * r.batches);
    const firstMin = byLoad ? Math.max(...placed.subarray(0, Math.min(r.batches, read.first.crew.cartBatches))) : Math.min(...placed);
    sum += (Math.max(...placed) - firstMin) / (r.batches - 1);
  }
  return sum / r.runs;
}

/**
 * Suggestions from past pours: the waste factor and the task times. Nothing changes without the user. The waste factor is drawn toward the
 * one those pours were planned with, so that accepting it, and asking again, gives the same one.
 */
export function pourProposals(
  pours: readonly PastPour[],
  usualLossShare: number,
  locale?: string,
): { readonly loss: Proposal; readonly pace: Proposal } {
  const known = <T>(values: readonly (T | null)[]): T[] => values.filter((v): v is T => v !== null);
  const paces = pours.map((p) => (p.minutesABatch === null || p.calculatedMinutes === null ? null : p.minutesABatch / p.calculatedMinutes));
  const wasted = pours.filter((p) => p.lossShare !== null);
  const both = proposals(
    [
      {
        ...{ kind: 'loss', task: null, before: usualLossShare },
        prior: wasted.length === 0 ? usualLossShare : wasted.reduce((sum, p) => sum + p.plannedLossShare, 0) / wasted.length,
        values: known(wasted.map((p) => p.lossShare)),
      },
      { kind: 'pace', task: null, before: 1, values: known(paces) },
    ],
    locale,
  );
  const proposalOf = (kind: 'loss' | 'pace'): Proposal => {
    const proposal = both.find((p) => p.kind === kind);
    if (proposal === undefined) throw new Error(`No proposal of the kind ${kind} came back.`);
    return proposal;
  };
  return { loss: proposalOf('loss'), pace: proposalOf('pace') };
}

/** Scales all task times except stoppages. */
export function scaledTimes(times: TaskTimes, factor: number): TaskTimes {
  const scaled = (t: TaskTimes['mixMin']) => ({ least: t.least * factor, usual: t.usual * factor, most: t.most * factor });
  return {
    ...times,
    measureMin: scaled(times.measureMin),
    mixMin: scaled(times.mixMin),
    scrapeMin: scaled(times.scrapeMin),
    carryMin: scaled(times.carryMin),
    spreadMin: scaled(times.spreadMin),
    emptyMin: scaled(times.emptyMin),
  };
}
