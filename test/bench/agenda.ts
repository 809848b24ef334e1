/** The agenda over 2,000 jobs with about ten dates each, after one changed: updating it beside calculating it whole. */
import { type Agenda, agenda } from '../../shared-core/agenda/agenda.ts';
import type { JobBundle } from '../../shared-core/standing/job-bundle.ts';
import { todayList } from '../../shared-core/agenda/today.ts';
import { BUSINESS, bundle, pour, promised, summary, visit } from '../shared-core/agenda/bundle-fixture.ts';

const JOBS = 2000;
const NOW = '2026-05-12T11:05:00.000Z';
const DAY_MS = 86_400_000;

export type BenchRow = {
  readonly what: string;
  readonly ms: number /** Times faster than the plainest way; null for that way itself. */;
  readonly ratio: number | null;
};
export type BenchResult = { readonly title: string; readonly rows: readonly BenchRow[]; readonly notes: readonly string[] };

const instantOf = (day: number, hour: number): string =>
  new Date(Date.parse('2026-05-01T00:00:00Z') + day * DAY_MS + hour * 3_600_000).toISOString();

/** A job with a curing hall and a kitchen to pour: prep, pour, foot traffic, flooring, test, visits, handover. */
function job(i: number, shift: number): JobBundle {
  const id = `n${i}`;
  const day = (i % 60) + shift;
  const [hall, kitchen] = [`hall-${id}`, `kitch-${id}`];
  return bundle({
    id,
    line: `${i} Ferry Street`,
    rooms: [
      { roomId: hall, name: 'Hall' },
      { roomId: kitchen, name: 'Kitchen', pourAt: instantOf(day + 6, 14), primedAt: instantOf(day + 6, 2) },
    ],
    job: { prepVisitAt: instantOf(day + 5, 13), handoverAt: instantOf(day + 30, 20), quotePromisedOn: null },
    pours: [pour(`pour-${id}`, [hall], instantOf(day, 13), instantOf(day, 16))],
    promises: [promised(`prom-${id}`, hall, instantOf(day + 8, 20))],
    visits: [
      visit(`va-${id}`, 'day-after', instantOf(day + 7, 13), [kitchen]),
      visit(`vb-${id}`, 'thirty-days', instantOf(day + 36, 13), [kitchen]),
    ],
    summaries: [summary(hall), summary(kitchen, { prepOpen: 2, prepNext: 'seal the gaps' })],
  });
}

function timed<T>(work: () => T): { ms: number; value: T } {
  const start = performance.now();
  const value = work();
  return { ms: performance.now() - start, value };
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

/** Measures, and checks that both ways give the same result. */
export function run(): BenchResult {
  const bundles = Array.from({ length: JOBS }, (_, i) => job(i, 0));
  const whole: Agenda = agenda(bundles, BUSINESS, null);
  const quick: number[] = [];
  const plain: number[] = [];
  const list: number[] = [];
  for (let k = 0; k < 3; k++) {
    const changed = job(k * 311, k + 1);
    const next = bundles.map((b, i) => (i === k * 311 ? changed : b));
    const updating = timed(() => agenda(next, BUSINESS, whole));
    const fresh = timed(() => agenda(next, BUSINESS, null));
    if (
      updating.value.entries.length !== fresh.value.entries.length ||
      updating.value.entries.some((e, i) => e.key !== fresh.value.entries[i]?.key)
    ) {
      throw new Error('The agenda kept from before is not the one worked out afresh.');
    }
    quick.push(updating.ms);
    plain.push(fresh.ms);
    list.push(timed(() => todayList(updating.value, NOW)).ms);
  }
  const [quickMs, plainMs] = [median(quick), median(plain)];
  return {
    title: `Agenda over ${JOBS} jobs, ${whole.entries.length} entries, one job changed`,
    rows: [
      { what: 'all jobs worked out again', ms: plainMs, ratio: null },
      { what: 'only the changed job', ms: quickMs, ratio: plainMs / quickMs },
      { what: 'Today’s list from it', ms: median(list), ratio: null },
    ],
    notes: ['Both ways give the same entries in the same order; checked in every run.'],
  };
}
