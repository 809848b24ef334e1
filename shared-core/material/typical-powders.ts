/**
 * Typical powders to start from. Every figure is common practice with no source, marked typical until the data sheet's figure is
 * entered.
 */
import type { Flooring } from '../book/flooring.ts';
import type { Milestone, PowderSheet } from '../book/material.ts';
import { POUND_PER_CUBIC_FOOT_KG_M3 } from '../measure/density.ts';
import { INCH_M } from '../measure/length-units.ts';
import { POUND_KG } from '../measure/mass.ts';
import { PSI_PA } from '../measure/pressure.ts';
import { CUBIC_FOOT_M3, LITER_M3, QUART_M3 } from '../measure/volume.ts';

/** The usual bag size. */
const TYPICAL_BAG_KG = 50 * POUND_KG;

const QUART_L = QUART_M3 / LITER_M3;

const typical = <T>(value: T) => ({ value, source: 'typical' as const });
const span = (least: number, most: number) => typical({ least, most });
const inches = (least: number, most: number) => span(least * INCH_M, most * INCH_M);

function strength(kind: Milestone['kind'], hoursLeast: number, hoursMost: number): Milestone {
  return { kind, flooring: null, hoursLeast, hoursMost, thicknessM: null, by: 'strength', source: 'typical' };
}

function drying(flooring: Flooring, inchesThick: number, daysLeast: number, daysMost: number): Milestone {
  return {
    kind: 'cover',
    flooring,
    hoursLeast: daysLeast * 24,
    hoursMost: daysMost * 24,
    thicknessM: inchesThick * INCH_M,
    by: 'drying',
    source: 'typical',
  };
}

const CEMENT_STRENGTH = [
  strength('walk-on', 3, 4),
  strength('next-lift', 12, 16),
  strength('cart', 20, 24),
  strength('furniture', 60, 72),
  strength('full', 144, 168),
];

const CEMENT_DRYING = [
  drying('tile-small', 0.5, 0.7, 1),
  drying('tile-small', 1, 3, 4.5),
  drying('tile-large', 0.5, 0.7, 1),
  drying('tile-large', 1, 3, 4.5),
  drying('stone-tile', 0.5, 0.7, 1),
  drying('stone-tile', 1, 3, 4.5),
  drying('resilient', 0.25, 1, 2),
  drying('resilient', 0.5, 3, 5),
  drying('resilient', 1, 10, 14),
  drying('wood-glued', 0.25, 1, 3),
  drying('wood-glued', 0.5, 3, 7),
  drying('wood-glued', 1, 7, 14),
  drying('floating', 0.25, 2, 3),
  drying('floating', 0.5, 5, 8),
  drying('carpet', 0.5, 2, 4),
  drying('bare-sealed', 0.5, 3, 7),
];

const COMMON = {
  bagKg: typical(TYPICAL_BAG_KG),
  yieldBasis: 'sheet',
  measuredYieldM3: null,
  mixMinutes: span(2, 3),
  // 50 to 90 °F and 70 °F.
  roomTempC: span(10, 32.2),
  referenceTempC: typical(21.1),
  waterTempC: span(7, 21),
  leastCureTempC: typical(5),
  profileCsp: span(2, 3),
  slabHumidityMost: typical(0.8),
  emissionMostLb: typical(5),
  overHeatLeastM: typical(0.375 * INCH_M),
  pullOffLeastPa: typical(100 * PSI_PA),
  // Ring of 30 by 50 mm, as ASTM C1708 uses it, from memory; the diameter is common practice, no source.
  flowRingM: inches(5, 6),
  lossShare: typical(0.05),
  shelfMonths: typical(9),
  // US bags carry no class of EN 13813.
  enDesignation: null,
} as const satisfies Partial<PowderSheet>;

const density = (poundsPerCubicFoot: number) => typical(poundsPerCubicFoot * POUND_PER_CUBIC_FOOT_KG_M3);

/** A powder by the end of its id. */
export type TypicalPowder = {
  readonly slug: string;
  readonly kind: 'cement-underlayment' | 'deep-fill' | 'cement-topping' | 'calcium-sulfate';
  readonly name: string;
  readonly usdMinor: number;
  readonly powder: PowderSheet;
};

/** Cement underlayment fine and deep, cement topping, calcium sulfate. */
export const TYPICAL_POWDERS: readonly TypicalPowder[] = [
  {
    slug: 'underlayment-fine',
    kind: 'cement-underlayment',
    name: 'Self-leveling underlayment, fine',
    usdMinor: 3400,
    powder: {
      ...COMMON,
      yieldM3: typical(0.45 * CUBIC_FOOT_M3),
      waterL: span(5 * QUART_L, 5.25 * QUART_L),
      workingTimeMin: span(15, 20),
      healingMin: span(8, 12),
      liftM: inches(1 / 8, 1),
      liftExtendedM: inches(0.75, 2),
      aggregateShare: typical(0.5),
      densityFreshKgM3: density(131),
      densityHardKgM3: density(120),
      strengthPa: typical(4300 * PSI_PA),
      bondsTo: ['concrete', 'plywood', 'tile', 'old-leveling'],
      overWoodLeastM: typical(0.375 * INCH_M),
      milestones: [...CEMENT_STRENGTH, ...CEMENT_DRYING],
      wearsBare: false,
    },
  },
  {
    slug: 'underlayment-deep',
    kind: 'deep-fill',
    name: 'Self-leveling underlayment, deep',
    usdMinor: 3200,
    powder: {
      ...COMMON,
      yieldM3: typical(0.43 * CUBIC_FOOT_M3),
      waterL: span(4 * QUART_L, 4.5 * QUART_L),
      workingTimeMin: span(15, 20),
      healingMin: span(8, 12),
      liftM: inches(3 / 8, 3),
      liftExtendedM: inches(1, 5),
      aggregateShare: typical(0.5),
      densityFreshKgM3: density(134),
      densityHardKgM3: density(124),
      strengthPa: typical(4000 * PSI_PA),
      bondsTo: ['concrete', 'tile', 'old-leveling'],
      milestones: [...CEMENT_STRENGTH, ...CEMENT_DRYING],
      wearsBare: false,
    },
  },
  {
    slug: 'topping',
    kind: 'cement-topping',
    name: 'Self-leveling topping (wear surface)',
    usdMinor: 4600,
    powder: {
      ...COMMON,
      yieldM3: typical(0.43 * CUBIC_FOOT_M3),
      waterL: span(4.5 * QUART_L, 5 * QUART_L),
      workingTimeMin: span(15, 20),
      healingMin: span(8, 12),
      profileCsp: span(3, 5),
      pullOffLeastPa: typical(200 * PSI_PA),
      liftM: inches(1 / 4, 1.5),
      liftExtendedM: null,
      aggregateShare: null,
      densityFreshKgM3: density(136),
      densityHardKgM3: density(126),
      strengthPa: typical(5500 * PSI_PA),
      bondsTo: ['concrete'],
      milestones: [...CEMENT_STRENGTH, drying('bare-sealed', 0.375, 2, 4), drying('bare-sealed', 1, 5, 8)],
      wearsBare: true,
    },
  },
  {
    slug: 'calcium-sulfate',
    kind: 'calcium-sulfate',
    name: 'Gypsum-based underlayment',
    usdMinor: 3600,
    powder: {
      ...COMMON,
      yieldM3: typical(0.46 * CUBIC_FOOT_M3),
      waterL: span(4.75 * QUART_L, 5.5 * QUART_L),
      workingTimeMin: span(25, 30),
      healingMin: span(15, 20),
      liftM: inches(1 / 8, 2),
      liftExtendedM: null,
      aggregateShare: null,
      densityFreshKgM3: density(130),
      densityHardKgM3: density(115),
      strengthPa: typical(4600 * PSI_PA),
      bondsTo: ['concrete', 'gypsum', 'tile'],
      // Thick gypsum underlayment over wood, ASTM F2419 practice: 3/4 in.
      overWoodLeastM: typical(0.75 * INCH_M),
      milestones: [
        strength('walk-on', 3, 6),
        strength('next-lift', 24, 48),
        strength('cart', 24, 48),
        strength('furniture', 72, 96),
        strength('full', 144, 168),
        drying('tile-small', 0.5, 5, 7),
        drying('resilient', 0.5, 7, 14),
        drying('wood-glued', 0.5, 10, 16),
        drying('carpet', 0.5, 5, 10),
      ],
      wearsBare: false,
    },
  },
];
