/**
 * Hours of work before anything was simulated or learned. Every time here is common practice with no source and is
 * shown as typical; the pour's own simulation and the business's own record replace them.
 */
import { formatArea } from '../measure/area.ts';
import { formatDuration, MINUTE_S } from '../measure/duration.ts';
import { formatLength } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';

/** Minutes of one person, by what is done. */
export const TYPICAL_MINUTES = {
  /** Protect the way in, clear the room. */
  protect: 30,
  removeM2: 15,
  vacuumM2: 2,
  perimeterM: 1.5,
  damEach: 12,
  crackM: 6,
  reinforceM2: 4,
  primeCoatM2: 2.5,
  sealM2: 5,
  /** Wheeling in and stacking one bag. */
  stageBag: 1,
  /** One mixing station, one batch: measure, mix, carry, scrape out. Two of them put twelve batches down in 45 minutes. */
  batch: 7.5,
  setUp: 30,
  washOut: 30,
} as const;

/** Two mix, one places. Common practice, no source. */
export const TYPICAL_CREW = { mixers: 2, helpers: 2 } as const;

/** Hours of one task: the owner's, and the helpers' together. */
export type TaskHours = {
  readonly key: 'protect' | 'remove' | 'vacuum' | 'edges' | 'cracks' | 'reinforce' | 'prime' | 'stage' | 'pour' | 'set-up' | 'seal';
  readonly name: string;
  readonly ownHours: number;
  readonly helperHours: number;
  /** What it was reckoned from, in words. */
  readonly why: string;
  readonly source: 'typical' | 'simulated';
};

/** What the hours are reckoned from. Metres, square metres, whole bags. */
export type WorkAmounts = {
  readonly areaM2: number;
  readonly removedM2: number;
  readonly perimeterM: number;
  readonly dams: number;
  readonly crackM: number;
  readonly reinforceM2: number;
  readonly primeCoats: number;
  readonly sealM2: number;
  readonly bags: number;
  readonly batches: number;
  readonly lifts: number;
  readonly mixers: number;
  readonly helpers: number;
  /** The simulation's likely time for the pour; null before there is a plan. */
  readonly simulatedPourMin: number | null;
};

/** Minutes from the first batch to the last: batches shared among the mixing stations. */
export function typicalPourMinutes(batches: number, mixers: number): number {
  return (batches / Math.max(1, mixers)) * TYPICAL_MINUTES.batch;
}

/** The hours of one room, task by task; tasks that take none are left out. */
export function taskHours(work: WorkAmounts, units: UnitSystem, locale?: string): TaskHours[] {
  const m = TYPICAL_MINUTES;
  const min = (value: number) => formatDuration(value * MINUTE_S, locale);
  const num = (value: number) => formatNumber(value, { most: 0 }, locale);
  const area = (value: number) => formatArea(value, units, locale);
  const task = (key: TaskHours['key'], name: string, minutes: number, amount: string): TaskHours[] =>
    minutes > 0
      ? [{ key, name, ownHours: minutes / 60, helperHours: 0, why: `${amount} in ${min(minutes)}, typical`, source: 'typical' }]
      : [];
  const pourMin = work.simulatedPourMin ?? typicalPourMinutes(work.batches, work.mixers);
  const pours = Math.max(work.bags > 0 ? 1 : 0, work.lifts);
  const people = (key: TaskHours['key'], name: string, minutes: number, why: string, source: TaskHours['source']): TaskHours[] =>
    minutes > 0 ? [{ key, name, ownHours: minutes / 60, helperHours: (minutes / 60) * work.helpers, why, source }] : [];
  const crew = `${num(work.helpers)} ${work.helpers === 1 ? 'helper' : 'helpers'} beside the owner`;
  return [
    ...task('protect', 'Protect and clear', m.protect, 'the room and the way in'),
    ...task('remove', 'Take up the old floor', work.removedM2 * m.removeM2, area(work.removedM2)),
    ...task('vacuum', 'Vacuum', work.areaM2 * m.vacuumM2, area(work.areaM2)),
    ...task(
      'edges',
      'Perimeter strip and dams',
      work.perimeterM * m.perimeterM + work.dams * m.damEach,
      `${formatLength(work.perimeterM, units, locale)} of strip and ${num(work.dams)} dams`,
    ),
    ...task('cracks', 'Fill cracks', work.crackM * m.crackM, formatLength(work.crackM, units, locale)),
    ...task('reinforce', 'Lay reinforcement', work.reinforceM2 * m.reinforceM2, area(work.reinforceM2)),
    ...task(
      'prime',
      'Prime',
      work.areaM2 * work.primeCoats * m.primeCoatM2,
      `${area(work.areaM2)}, ${num(work.primeCoats)} ${work.primeCoats === 1 ? 'coat' : 'coats'}`,
    ),
    ...task('stage', 'Bring in and stack', work.bags * m.stageBag, `${num(work.bags)} bags`),
    ...people(
      'set-up',
      'Set up and wash out',
      pours * (m.setUp + m.washOut),
      `${min(m.setUp + m.washOut)} for each of ${num(pours)} ${pours === 1 ? 'pour' : 'pours'}, ${crew}, typical`,
      'typical',
    ),
    ...people(
      'pour',
      'Pour',
      pourMin,
      work.simulatedPourMin === null
        ? `${num(work.batches)} batches at ${formatNumber(m.batch, { most: 1 }, locale)} min over ${num(work.mixers)} mixing, ${crew}, typical`
        : `${min(pourMin)} by the pour plan, ${crew}`,
      work.simulatedPourMin === null ? 'typical' : 'simulated',
    ),
    ...task('seal', 'Seal', work.sealM2 * m.sealM2, area(work.sealM2)),
  ];
}
