/** Typical hours of work. Every time is common practice with no source; the pour simulation and the business's own jobs replace them. */
import type { Crew } from '../book/job.ts';
import type { LayerMaterial } from '../book/layer.ts';
import type { Triangular } from '../book/task-times.ts';
import { hoursFor, removalWork } from '../prep/task-hours.ts';
import type { BatchCounts } from './water.ts';

/** Minutes around a pour. */
export const TYPICAL_MINUTES = {
  /** One mixing station, one batch: measure, mix, carry, scrape out. Two of them place twelve batches in 45 minutes. */
  batch: 7.5,
  /** Spreading a batch, where whoever mixes it spreads it too: nobody mixes meanwhile. */
  spread: 0.75,
  setUp: 30,
  washOut: 30,
  /** Rolled or brushed on, a square meter. */
  sealM2: 5,
} as const;

/**
 * The crew a pour plan starts from, and an estimate before there is a plan: three mix and carry by hand, one of four places. With typical
 * times two stations place a batch about every 3 min, too slow for an edge that heals in 8 min. Common practice, no source.
 */
export const USUAL_HANDS = { mixers: 3, helpers: 3 } as const;

/** Mixing stations of a crew without a plan: one person places, and each of the others mixes, up to the usual number. */
export const usualMixers = (helpers: number): number => Math.min(USUAL_HANDS.mixers, Math.max(1, helpers));

/** Duration of a planned pour: simulated, or from the crew's usual times. */
export type PlannedMinutes = { readonly minutes: number; readonly source: 'planned' | 'simulated' };

/** The tasks that hours are estimated by. */
export type TaskKey =
  | ('protect' | 'lead-safe' | 'tests' | 'remove' | 'fasten' | 'vacuum' | 'edges' | 'cracks')
  | ('reinforce' | 'mitigate' | 'prime' | 'stage' | 'set-up' | 'pour' | 'seal');

/** What is done in the hours of a task: meters, square meters, pieces. */
export type TaskAmount =
  | { readonly of: 'room' | 'lead-safe' }
  | { readonly of: 'tests' | 'bags'; readonly count: number }
  | { readonly of: 'removed'; readonly layers: WorkAmounts['removed'] }
  | { readonly of: 'area'; readonly areaM2: number }
  | { readonly of: 'length'; readonly lengthM: number }
  | { readonly of: 'edges'; readonly lengthM: number; readonly dams: number }
  | { readonly of: 'coats'; readonly areaM2: number; readonly coats: readonly number[] };

/** The calculation of a task's hours. A factor is actual hours per typical hour; null for typical ones. */
export type TaskReason =
  | { readonly kind: 'by-amount'; readonly amount: TaskAmount; readonly hours: number; readonly factor: number | null }
  | {
      readonly kind: 'set-ups';
      readonly minutesEach: number;
      readonly pours: number;
      readonly helpers: number;
      readonly factor: number | null;
    }
  | { readonly kind: 'planned'; readonly batches: BatchCounts; readonly planned: PlannedMinutes; readonly helpers: number }
  | { readonly kind: 'typical-pour'; readonly batches: BatchCounts; readonly mixers: number; readonly helpers: number }
  | { readonly kind: 'edges-after-pour' };

/** Hours of one task: the owner's, and the helpers' together. */
export type TaskHours = {
  readonly key: TaskKey;
  readonly ownHours: number;
  readonly helperHours: number;
  readonly why: TaskReason;
  readonly source: 'typical' | 'business' | 'planned' | 'simulated';
};

/** Input of the hours. Meters, square meters, whole bags. */
export type WorkAmounts = {
  readonly areaM2: number;
  /** The floor once for each lift. */
  readonly vacuumM2: number;
  /** Layers that come out, and what the crew takes off of those that stay. */
  readonly removed: readonly { readonly material: LayerMaterial; readonly areaM2: number }[];
  readonly perimeterM: number;
  readonly dams: number;
  readonly crackM: number;
  /** Wood that is screwed down, and plywood over it. */
  readonly fastenM2: number;
  readonly reinforceM2: number;
  /** Coats of each priming: the floor is primed before each lift. */
  readonly primeCoats: readonly number[];
  readonly sealM2: number;
  /** Area under a moisture mitigation system. */
  readonly mitigateM2: number;
  /** Slab moisture tests still to be made. */
  readonly moistureTests: number;
  /** Whether lead-safe work practices apply. */
  readonly leadSafe: boolean;
  readonly bags: number;
  readonly batches: BatchCounts;
  /** Times the crew sets up for a pour of the room and washes out after it. */
  readonly setUps: number;
  readonly mixers: number;
  readonly helpers: number;
  /** The pour's likely time by its plan; null before there is one. */
  readonly planned: PlannedMinutes | null;
  /** Actual hours per typical hour, by task. */
  readonly factors: Readonly<Record<string, number>>;
};

/** Minutes of one batch at a station; of a crew without helpers, its spreading included. */
export const typicalBatchMinutes = (helpers: number): number => TYPICAL_MINUTES.batch + (helpers === 0 ? TYPICAL_MINUTES.spread : 0);

/** Minutes from the first batch to the last: batches shared among the mixing stations. */
export function typicalPourMinutes(batches: number, { mixers, helpers }: Pick<WorkAmounts, 'mixers' | 'helpers'>): number {
  return (batches / Math.max(1, mixers)) * typicalBatchMinutes(helpers);
}

type SurfaceAreas = {
  readonly room: { readonly abradeM2: number; readonly grind: { readonly areaM2: number } };
  readonly betweenLiftsM2: number;
};

/** Hours on site of the work on the surface that is priced by its area and so is in no task: abraded, also between lifts, and high spots cut down. */
export const surfaceHours = ({ room: { abradeM2, grind }, betweenLiftsM2 }: SurfaceAreas): number =>
  hoursFor('abrade', abradeM2 + betweenLiftsM2) + hoursFor('grindSpot', grind.areaM2);

/** The hours of one room by task; tasks without hours are left out. */
export function taskHours(work: WorkAmounts): TaskHours[] {
  const task = (key: TaskKey, typicalHours: number, amount: TaskAmount): TaskHours[] => {
    const factor = work.factors[key] ?? null;
    const hours = typicalHours * (factor ?? 1);
    const why: TaskReason = { kind: 'by-amount', amount, hours, factor };
    return hours > 0 ? [{ key, ownHours: hours, helperHours: 0, why, source: factor === null ? 'typical' : 'business' }] : [];
  };
  const together = (key: TaskKey, minutes: number, why: TaskReason, source: TaskHours['source']): TaskHours[] =>
    minutes > 0 ? [{ key, ownHours: minutes / 60, helperHours: (minutes / 60) * work.helpers, why, source }] : [];
  const { areaM2, batches, helpers, mixers, planned } = work;
  const setUpFactor = work.factors['set-up'] ?? null;
  const minutesEach = (TYPICAL_MINUTES.setUp + TYPICAL_MINUTES.washOut) * (setUpFactor ?? 1);
  const removedHours = work.removed.reduce((sum, layer) => sum + hoursFor(removalWork(layer.material), layer.areaM2), 0);
  const area = (m2: number): TaskAmount => ({ of: 'area', areaM2: m2 });
  return [
    ...task('protect', hoursFor('clear', areaM2) + hoursFor('dustControl', 1), { of: 'room' }),
    ...task('lead-safe', work.leadSafe ? hoursFor('leadContain', 1) + hoursFor('leadVerify', 1) : 0, { of: 'lead-safe' }),
    ...task('tests', work.moistureTests > 0 ? hoursFor('moistureTest', work.moistureTests) + hoursFor('readTests', 1) : 0, {
      of: 'tests',
      count: work.moistureTests,
    }),
    ...task('remove', removedHours, { of: 'removed', layers: work.removed.filter(({ areaM2 }) => areaM2 > 0) }),
    ...task('fasten', hoursFor('refasten', work.fastenM2), area(work.fastenM2)),
    ...task('vacuum', hoursFor('vacuum', work.vacuumM2), area(work.vacuumM2)),
    ...task('edges', hoursFor('isolationStrip', work.perimeterM) + hoursFor('dam', work.dams), {
      of: 'edges',
      lengthM: work.perimeterM,
      dams: work.dams,
    }),
    ...task('cracks', hoursFor('fillCrack', work.crackM), { of: 'length', lengthM: work.crackM }),
    ...task('reinforce', hoursFor('reinforce', work.reinforceM2), area(work.reinforceM2)),
    // Its sand is broadcast and vacuumed.
    ...task('mitigate', hoursFor('moistureSystem', work.mitigateM2) + hoursFor('vacuum', work.mitigateM2), area(work.mitigateM2)),
    ...task('prime', hoursFor('primeCoat', areaM2 * work.primeCoats.reduce((sum, coats) => sum + coats, 0)), {
      ...{ of: 'coats', areaM2, coats: work.primeCoats },
    }),
    ...task('stage', hoursFor('stageBag', work.bags), { of: 'bags', count: work.bags }),
    ...together(
      'set-up',
      work.setUps * minutesEach,
      { kind: 'set-ups', minutesEach, pours: work.setUps, helpers, factor: setUpFactor },
      setUpFactor === null ? 'typical' : 'business',
    ),
    ...(planned === null
      ? together('pour', typicalPourMinutes(batches.all, work), { kind: 'typical-pour', batches, mixers, helpers }, 'typical')
      : together('pour', planned.minutes, { kind: 'planned', batches, planned, helpers }, planned.source)),
    ...task('seal', (work.sealM2 * TYPICAL_MINUTES.sealM2) / 60, area(work.sealM2)),
  ];
}

/** Average of a task time, a triangular distribution, in minutes. */
export const averageMin = ({ least, usual, most }: Triangular): number => (least + usual + most) / 3;

/**
 * A pour's likely minutes from the averages of a crew's task times, before it was simulated: the mixing stations share the
 * batches, a cart waits while it empties, and stoppages occur at their rate.
 */
export function crewPourMinutes(crew: Crew, batches: number): number {
  if (batches <= 0) return 0;
  const station = averageMin(crew.measureMin) + averageMin(crew.mixMin) + averageMin(crew.scrapeMin);
  const spread = averageMin(crew.spreadMin);
  // Whoever carries a batch that nobody else spreads does not mix or carry meanwhile.
  const turn = averageMin(crew.carryMin) + (crew.spreaders === 0 ? spread : 0);
  const cycle = crew.carriers === 0 ? station + turn : station;
  const loads = crew.carry === 'cart' ? Math.ceil(batches / crew.cartBatches) : 0;
  const working = (batches / crew.mixers) * cycle + loads * averageMin(crew.emptyMin) + (crew.spreaders === 0 ? 0 : spread);
  return working * (1 + (crew.stoppagesPerHour / 60) * averageMin(crew.stoppageMin));
}
