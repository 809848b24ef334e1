/** Typical figures used where a data sheet gives none. All are common practice with no source and are marked typical. */
import type { FigureSource } from '../book/material.ts';
import { POUND_PER_CUBIC_FOOT_KG_M3 } from '../measure/density.ts';

/** Fallbacks of a powder's sheet. Density: 125 lb/cu ft fresh and 120 hardened; practice says 110 to 130 hardened. */
export const TYPICAL_POWDER = {
  mixMinutes: { least: 2, most: 3 },
  workingTimeMin: { least: 15, most: 20 },
  healingMin: { least: 8, most: 12 },
  densityFreshKgM3: 125 * POUND_PER_CUBIC_FOOT_KG_M3,
  densityHardKgM3: 120 * POUND_PER_CUBIC_FOOT_KG_M3,
  waterTempC: { least: 7, most: 21 },
  shelfMonths: 9,
} as const;

/** Hours at the reference temperature for strength milestones that a data sheet does not give. */
export const TYPICAL_MILESTONE_HOURS = {
  'walk-on': { least: 3, most: 4 },
  cart: { least: 20, most: 24 },
  'next-lift': { least: 12, most: 16 },
  furniture: { least: 60, most: 72 },
  full: { least: 144, most: 168 },
} as const;

/** Relative standard deviation of a bag's yield. */
export const YIELD_SPREAD: Readonly<Record<FigureSource, number>> = { bag: 0.025, typical: 0.04, measured: 0.015 };

/** Density of the aggregate, for its displacement: quartz and granite are about 2650 kg/m³. */
export const AGGREGATE_PARTICLE_KG_M3 = 2650;

/** Densities of removed layers, kg/m³, for disposal and for the weight removed. Typical handbook densities, no source. */
export const LAYER_DENSITY_KG_M3: Readonly<Record<string, number>> = {
  'sheet-flooring': 1300,
  'resilient-tile': 1700,
  'floating-plank': 850,
  carpet: 300,
  'ceramic-tile': 2200,
  'stone-tile': 2600,
  terrazzo: 2400,
  'wood-flooring': 700,
  'adhesive-cutback': 1200,
  'adhesive-other': 1200,
  'adhesive-unknown': 1200,
  thinset: 1800,
  'underlay-felt': 900,
  'foam-pad': 60,
  'paint-or-sealer': 1300,
  'old-leveling': 1900,
  screed: 2000,
  gypsum: 1700,
  boards: 550,
  plywood: 600,
  particleboard: 700,
  osb: 640,
  membrane: 1200,
  'concrete-on-ground': 2400,
  'concrete-suspended': 2400,
  metal: 7850,
  gravel: 1700,
  earth: 1700,
};

/** Taken for a layer whose material is not listed or not known. */
export const UNKNOWN_LAYER_DENSITY_KG_M3 = 1800;
/** Taken for disposal of a thin layer whose thickness was not measured: a few coats, what a scraper leaves, a sheet. Common practice, no source. */
export const THIN_LAYER_THICKNESS_M: Readonly<Record<string, number>> = {
  'paint-or-sealer': 0.0003,
  'adhesive-cutback': 0.001,
  'adhesive-other': 0.001,
  'adhesive-unknown': 0.001,
  'underlay-felt': 0.001,
};
/** Taken for disposal of any other layer whose thickness was not measured, and of the loose skin of a slab; a load is credited nothing for it. */
export const UNKNOWN_LAYER_THICKNESS_M = 0.006;
