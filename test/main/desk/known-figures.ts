/**
 * What may be printed about a job: every number with a unit and every day of its records and of what is computed from them, with the sums
 * that documents state, worked out here by plain arithmetic.
 */
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { pourMinutes, readPour } from '../../../shared-core/standing/read-pour.ts';
import { shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { dayIn, knownIn, type Known } from './figures.ts';

/** Fixed figures of the program's own sentences, each with where it comes from. */
export const CONSTANTS: readonly (readonly [text: string, source: string])[] = [
  ['99%', '29 CFR 1926.1153 Table 1: filter of a dust collector'],
  ['6 sq ft', '40 CFR 745.83: minor repair'],
  ['250 psf', 'ten 50 lb bags on a pallet of two square feet, arithmetic'],
  ['60 °F', 'room temperature asked for, common practice, no source'],
  ['75 °F', 'room temperature asked for, common practice, no source'],
  ['5 °F', 'margin over the dew point, coating practice'],
  ['75%', 'ASTM F710: default limit of the relative humidity in a slab'],
  ['12%', 'NWFA guidelines: usual limit of a subfloor'],
  ['midnight', '16 CFR 429.1: notice of cancellation'],
  ['20 days', '16 CFR 429.1: notice of cancellation'],
  ['60 days', '40 CFR 745.84: lead pamphlet'],
  ['6 ft', '40 CFR 745.85(a)(2)(i)(D): floor covered around the work'],
  ['20 ft', 'CPSC on portable generators: distance from openings'],
  ['28 days', 'ASTM C109: age of the compressive strength stated'],
  ['1978', '40 CFR 745.80: housing built before'],
  ['911', 'emergency number'],
  ['650', 'speed of a mixing drill, common practice, no source'],
  ['25', '29 CFR 1926.1153 Table 1: air flow of a shroud, cfm for each inch of wheel'],
  ['80%', 'typical limit of an underlayment’s data sheet'],
];

/** Every partial sum of a list, the whole of it last. */
function partialSums(values: readonly number[]): number[] {
  let sum = 0;
  return [0, ...values].map((value) => (sum += value));
}

/** The money a job's documents may state: sums of its ledger and its contract, and what is left between them. */
function moneyOf({ quotes, ledger }: Pick<WholeJob, 'quotes' | 'ledger'>): number[] {
  const live = ledger.filter((entry) => entry.deletedAt === null && (!('voidedAt' in entry) || entry.voidedAt === null));
  const byDay = live.toSorted((a, b) => a.onDay.localeCompare(b.onDay) || a.createdAt.localeCompare(b.createdAt));
  const signed = (entry: LedgerEntry): number => {
    if (entry.kind === 'invoice') return entry.totalMinor;
    if (entry.kind === 'refund') return entry.amountMinor;
    return entry.kind === 'payment' || entry.kind === 'credit' || entry.kind === 'write-off' ? -entry.amountMinor : 0;
  };
  const balances = partialSums(byDay.map(signed));
  const invoiced = partialSums(byDay.flatMap((entry) => (entry.kind === 'invoice' ? [entry.totalMinor] : [])));
  const received = partialSums(byDay.flatMap((entry) => (entry.kind === 'payment' || entry.kind === 'refund' ? [-signed(entry)] : [])));
  const contracts = quotes.flatMap((quote) => partialSums([quote.totalMinor, ...quote.orders.map((order) => order.totalMinor)]).slice(1));
  const left = contracts.flatMap((total) => [...invoiced, ...received].map((part) => total - part));
  return [...balances, ...invoiced, ...received, ...contracts, ...left].flatMap((minor) => [minor, -minor]);
}

/** What the materials of the shopping list cost, one by one and together. */
function shoppingMoney(reading: JobReading): number[] {
  const costs = shoppingFor(reading, reading.estimate.suggested).list.items.map(({ materialId, containers }) => {
    const price = reading.whole.materials
      .find(({ id }) => id === materialId)
      ?.prices.toSorted((a, b) => a.from.localeCompare(b.from))
      .at(-1);
    return [price?.minor ?? 0, (price?.minor ?? 0) * (containers ?? 0)] as const;
  });
  return [...costs.flat(), ...partialSums(costs.map(([, cost]) => cost))];
}

/** Dew point by the Magnus form (Sonntag 1990: 17.62 and 243.12 °C), and how far the floor is above it, in °F. */
function dewMarginF({
  airTempC,
  relativeHumidity,
  surfaceTempC,
}: {
  readonly airTempC: number;
  readonly relativeHumidity: number;
  readonly surfaceTempC: number;
}): number {
  const gamma = Math.log(relativeHumidity) + (17.62 * airTempC) / (243.12 + airTempC);
  return (surfaceTempC - (243.12 * gamma) / (17.62 - gamma)) * 1.8;
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

/** Percents and temperatures from the tests of a job. */
function testFigures({ rooms, clearanceTests, cureLogs }: WholeJob): {
  readonly percent: number[];
  readonly difference: number[];
  readonly temperature: number[];
} {
  const tests = rooms.flatMap((room) => room.tests);
  const wood = tests.flatMap((test) => (test.kind === 'wood-moisture' ? [mean(test.readings), Math.max(...test.readings)] : []));
  const byDay = new Map<string, number[]>();
  for (const log of cureLogs)
    for (const { instant, relativeHumidity } of log.readings) {
      const day = `${log.roomId} ${new Intl.DateTimeFormat('en-CA', { timeZone: 'America/New_York' }).format(new Date(instant))}`;
      if (relativeHumidity !== null) byDay.set(day, [...(byDay.get(day) ?? []), relativeHumidity]);
    }
  return {
    percent: [...wood, ...clearanceTests.map(({ value }) => value), ...[...byDay.values()].map(mean)].map((share) => share * 100),
    difference: tests.flatMap((test) =>
      test.kind === 'air' && test.surfaceTempC !== null ? [dewMarginF({ ...test, surfaceTempC: test.surfaceTempC })] : [],
    ),
    temperature: cureLogs.flatMap((log) => log.readings.map(({ tempC }) => tempC * 1.8 + 32)),
  };
}

/** The day months after another, by the calendar of JavaScript's Date. */
function monthsAfter(day: string, months: number): string {
  const date = new Date(`${day}T00:00:00Z`);
  date.setUTCMonth(date.getUTCMonth() + months);
  return date.toISOString().slice(0, 10);
}

/** Width and depth of the placed rooms together, inches. */
function extents({ rooms }: WholeJob): number[] {
  const placed = rooms.map(({ plan }) => plan.outline.map(({ xM, yM }) => [xM + plan.placedAt.xM, yM + plan.placedAt.yM] as const));
  const spans = (points: readonly (readonly [number, number])[]): number[] =>
    [0, 1].map((axis) => Math.max(...points.map((p) => p[axis] ?? 0)) - Math.min(...points.map((p) => p[axis] ?? 0)));
  const all = [...placed, placed.flat()].filter((points) => points.length > 0);
  return all.flatMap(spans).map((m) => m / 0.0254);
}

/** Bags and batches of each lane of the pours that can be planned. */
function laneFigures(reading: JobReading): { readonly bags: number[]; readonly count: number[]; readonly duration: number[] } {
  const read = reading.rooms.flatMap(({ room }) => {
    const pour = readPour(reading, [room.id]);
    return pour.ok && pour.value.layout.ok
      ? [
          {
            yieldM3: pour.value.bagYieldM3,
            layout: pour.value.layout.value,
            needed: pour.value.bagsNeeded,
            bring: pour.value.bagsToBring,
            minutes: pourMinutes(pour.value, pour.value.layout.value),
            clocks: pour.value.clocks,
          },
        ]
      : [];
  });
  return {
    bags: read.flatMap(({ yieldM3, layout, needed, bring }) => [
      needed,
      bring,
      ...layout.lanes.map((lane) => Math.max(0.1, lane.volumeM3 / yieldM3)),
    ]),
    count: read.flatMap(({ layout, bring }) => [layout.batches.length, layout.lanes.length, Math.ceil(bring / layout.bagsPerBatch)]),
    duration: read.flatMap(({ minutes, clocks, layout }) =>
      [minutes, minutes / layout.batches.length, Math.floor(clocks.workingTimeMin), Math.floor(clocks.healingMin)].map((min) => min * 60),
    ),
  };
}

/** Bags of each pour as they were logged: each batch, and what was left. */
function loggedBags({ pours, pourEvents }: WholeJob): number[] {
  return pours.flatMap((pour) => {
    const bags = pourEvents.flatMap((event) => (event.pourId === pour.id && event.kind === 'placed' ? [event.bags] : []));
    return [...partialSums(bags), pour.bagsOnSite - bags.reduce((sum, one) => sum + one, 0)];
  });
}

/** Everything that may be printed about a job at `now`. */
export function knownOfJob(reading: JobReading, now: string): Known {
  const { whole } = reading;
  const zone = whole.property.timeZone;
  const pours = reading.rooms.map(({ room }) => readPour(reading, [room.id]));
  const known = knownIn([whole, reading.estimate, reading.rooms, jobReadingCures(reading), pours, now], zone);
  const { numbers, days } = known;
  const tests = testFigures(whole);
  const lanes = laneFigures(reading);
  const surveys = whole.rooms.map((room) => room.survey.readings.length);
  numbers.money.push(...moneyOf(whole), ...shoppingMoney(reading));
  const totals = reading.estimate.options.map((option) => option.price.totalMinor);
  numbers.money.push(...totals.flatMap((a) => totals.map((b) => a - b)));
  numbers.percent.push(...tests.percent);
  numbers.difference.push(...tests.difference);
  numbers.temperature.push(...tests.temperature);
  numbers.length.push(...extents(whole));
  numbers.bags.push(...lanes.bags, ...loggedBags(whole));
  numbers.count.push(...lanes.count, ...partialSums(surveys));
  // Batches, lanes and prep lines are numbered from 1.
  const mostOf = Math.max(...lanes.count, ...reading.rooms.map(({ preparation }) => preparation.lines.length));
  numbers.plain.push(...Array.from({ length: mostOf }, (_, i) => i + 1));
  numbers.duration.push(...lanes.duration);
  numbers.duration.push(
    ...whole.ledger.flatMap((entry) => (entry.kind === 'invoice' ? [(Date.parse(dayIn(now, zone)) - Date.parse(entry.dueOn)) / 1000] : [])),
  );
  const months = whole.business.contract.warrantyMonths;
  if (months !== null)
    for (const { handedOverAt } of whole.job.rooms) if (handedOverAt !== null) days.add(monthsAfter(dayIn(handedOverAt, zone), months));
  return known;
}
