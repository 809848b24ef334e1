/** Ten thousand runs of a 60-batch pour on one core, beside the same pour written for a general-purpose library. */
import { pourModel } from '../../shared-core/pour/crew-model.ts';
import { outlookOf } from '../../shared-core/pour/outlook.ts';
import { simulatePour } from '../../shared-core/pour/simulate.ts';
import { clocksAt } from '../../shared-core/pour/clocks.ts';
import { TYPICAL_CREW } from '../../shared-core/pour/typical-crew.ts';
import { generalPour } from '../reference/pour-simjs.ts';
import { bay, laidOut, rectangle } from '../shared-core/pour/floors.ts';

export type BenchRow = { readonly what: string; readonly ms: number; readonly ratio: number | null };
export type BenchResult = { readonly title: string; readonly rows: readonly BenchRow[]; readonly notes: readonly string[] };

const RUNS = 10_000;
const BATCHES = 60;

function timed<T>(work: () => T): { readonly ms: number; readonly value: T } {
  const start = performance.now();
  const value = work();
  return { ms: performance.now() - start, value };
}

const mean = (values: ArrayLike<number>): number => Array.from(values).reduce((sum, v) => sum + v, 0) / values.length;

/** Measures, and checks that both give the same average finish and that speed targets are met. */
export function run(): BenchResult {
  const layout = laidOut([bay('room', rectangle(8, 6, 6), (BATCHES * 0.0127) / 48)], 0.0127);
  const crew = { ...TYPICAL_CREW, carry: 'by-hand' as const, carriers: 1, stoppagesPerHour: 0 };
  const byHand = pourModel(layout, crew, clocksAt(null, 21.1));
  const byCart = pourModel(layout, TYPICAL_CREW, clocksAt(null, 21.1));
  if (!byHand.ok || !byCart.ok || layout.batches.length !== BATCHES) throw new Error('The pour of the measurement does not stand.');
  simulatePour(byHand.value, { runs: 500, seed: 2, from: 0 });
  const before = process.memoryUsage().rss;
  const ours = timed(() => simulatePour(byHand.value, { runs: RUNS, seed: 1, from: 0 }));
  const cart = timed(() => simulatePour(byCart.value, { runs: RUNS, seed: 1, from: 0 }));
  const summed = timed(() => outlookOf(byCart.value, cart.value));
  const memoryMb = (process.memoryUsage().rss - before) / 1e6;
  const general = timed(() => generalPour(byHand.value, RUNS, 1));
  const [a, b] = [mean(ours.value.finishMin), mean(general.value.finishMin)];
  if (Math.abs(a / b - 1) > 0.005) throw new Error(`The two disagree on the mean finish: ${a} and ${b} minutes.`);
  const row = (label: string, ms: number, ratio: number | null): BenchRow => ({ what: label, ms, ratio });
  return {
    title: `${RUNS} runs of a pour of ${BATCHES} batches`,
    rows: [
      row('general-purpose library (simjs), by hand', general.ms, null),
      row('ours, by hand, join ages as well', ours.ms, general.ms / ours.ms),
      row('ours, from a cart with stoppages', cart.ms, null),
      row('summing up', summed.ms, null),
    ],
    notes: [
      `Mean finish ${a.toFixed(2)} min here, ${b.toFixed(2)} min there.`,
      `Memory taken: ${memoryMb.toFixed(0)} MB.`,
      `Aims: under a second (${ours.ms < 1000 ? 'met' : 'missed'}), five times faster (${general.ms / ours.ms >= 5 ? 'met' : 'missed'}).`,
    ],
  };
}
