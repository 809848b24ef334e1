/** Milestones, promised dates and test methods of a cure, as screens and documents name them. */
import type { ClearanceTest } from '../book/cure-record.ts';
import type { MilestoneKind } from '../book/material.ts';
import { FLOORING_NAME } from '../cure/clearance-tests.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import type { PromiseVerdict } from '../cure/promise-verdict.ts';
import { plural } from '../measure/count-words.ts';

const DAY_MS = 86_400_000;

const MILESTONE_NAME: Readonly<Record<Exclude<MilestoneKind, 'cover'>, string>> = {
  'walk-on': 'foot traffic',
  cart: 'rolling loads',
  'next-lift': 'next lift',
  furniture: 'furniture',
  full: 'normal use',
};

/** Name of a milestone: `foot traffic`, `glued wood`. */
export function milestoneName({ kind, flooring }: Pick<DatedMilestone, 'kind' | 'flooring'>): string {
  if (kind !== 'cover') return MILESTONE_NAME[kind];
  return flooring === null ? 'flooring' : FLOORING_NAME[flooring];
}

const counted = (n: number, unit: string): string => `${n} ${n === 1 ? unit : plural(unit)}`;

/** A lateness in words: hours under 2 days, days above, rounded up so that it is never understated. */
function latenessWords(ms: number): string {
  const hours = Math.ceil(ms / 3_600_000);
  return hours < 48 ? counted(hours, 'hour') : counted(Math.ceil(ms / DAY_MS), 'day');
}

/** `On track`, `At risk`, `Likely 3 days late`. */
export function promiseWords({ state, lateByMs }: Pick<PromiseVerdict, 'state' | 'lateByMs'>): string {
  switch (state) {
    case 'on-track':
      return 'On track';
    case 'at-risk':
      return 'At risk';
    case 'late':
      return `Likely ${latenessWords(lateByMs ?? 0)} late`;
    case 'on-hold':
      return 'On hold: no date';
  }
}

/** The name of each method of a clearance test. */
export const METHOD_NAMES: Readonly<Record<ClearanceTest['method'], string>> = {
  'slab-humidity': 'In-slab RH (ASTM F2170)',
  'vapor-emission': 'Calcium chloride (ASTM F1869)',
  meter: 'Moisture meter (ASTM F2659)',
  'wood-moisture': 'Wood moisture content',
  'humidity-hood': 'Surface humidity hood',
  carbide: 'Carbide method (full depth)',
  'manufacturer-method': 'Sealer data sheet method',
};
