/** What stands ready before the first bag is opened, with counts, and what goes into each batch. */
import { countWords } from '../measure/count-words.ts';
import type { Crew } from '../book/job.ts';
import type { PowderSheet } from '../book/material.ts';
import { generatorDistance } from '../substrate/cautions.ts';
import { outletWords } from '../prep/cart-outlet.ts';
import { cartOverload } from '../pour/cart.ts';
import { formatDuration } from '../measure/duration.ts';
import { formatMass } from '../measure/mass.ts';
import { formatTemperature } from '../measure/temperature.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { formatLiquid, formatWaterLimits } from '../measure/volume.ts';
import { formatNumber } from '../measure/number.ts';
import type { PourClocks } from '../pour/clocks.ts';
import { batchesOf, type PourLayout } from '../pour/layout.ts';
import { batchWords } from '../price/batch-words.ts';
import { bagsWords } from './log-words.ts';
import { cartOverloadWords, outsideWords } from './pour-words.ts';

/** Bags in one stack on a wood floor: ten 50 lb bags load about 250 psf, so four. Common practice, no source. */
export const BAGS_A_STACK = 4;
/** Buckets of measured water kept ahead of each mixer: common practice. */
const BUCKETS_AHEAD = 3;

/** Buckets of measured water that stand filled before the first batch. The others are filled during the pour. */
export const bucketsAhead = ({ batches }: Pick<PourLayout, 'batches'>, { mixers }: Pick<Crew, 'mixers'>): number =>
  Math.min(batches.length, mixers * BUCKETS_AHEAD);

export type StagingItem = {
  readonly key: 'bags' | 'aggregate' | 'water' | 'wash' | 'power' | 'cart' | 'tools' | 'way-out' | 'skin' | 'dust';
  readonly count: number | null;
  readonly words: string;
};

export type BatchRecipe = {
  readonly bags: number;
  /** The most water of a batch, as it is measured. */
  readonly waterMost: string;
  readonly words: string;
};

export type StagingChoice = {
  readonly units: UnitSystem;
  readonly locale: string;
  readonly bagsOnSite: number;
  /** Aggregate in each bag, kg; 0 without. */
  readonly aggregateKg: number;
  /** The floor is of wood on joists. */
  readonly onJoists: boolean;
  /** Nothing is stuck into the floor: no metal spikes, no pins. */
  readonly nothingStuckIn: boolean;
  /** The power on site comes from a generator. */
  readonly onGenerator: boolean;
};

/** What the mix is tested and poured with. A sieve would hold aggregate back. */
export const toolsInHand = (aggregateKg: number): string => `${aggregateKg > 0 ? 'Flow' : 'Sieve, flow'} ring, thermometer, timer`;

/** Things to stage and to check, in the order they are set out. */
export function stagingOf(layout: PourLayout, crew: Crew, sheet: PowderSheet, choice: StagingChoice): StagingItem[] {
  const { units, locale } = choice;
  const needed = Math.ceil(layout.volumeM3 / (layout.batchM3 / layout.bagsPerBatch) - 1e-6);
  const spare = choice.bagsOnSite - needed;
  const stacks = Math.ceil(choice.bagsOnSite / BAGS_A_STACK);
  const batches = layout.batches.length;
  const counts = batchesOf({ bagsToBring: choice.bagsOnSite }, layout);
  const buckets = bucketsAhead(layout, crew);
  const spreaders = crew.spreaders || crew.carriers || crew.mixers;
  // Water for every bag that is there, as the prep line asks.
  const waterL = Math.max(needed, choice.bagsOnSite) * sheet.waterL.value.most;
  const byCart = crew.carry === 'cart';
  const n = (value: number) => formatNumber(value, { most: 0 }, locale);
  const spareWords = spare === 0 ? '' : `, ${n(Math.abs(spare))} ${spare > 0 ? 'more than' : 'short of'} the ${n(needed)} planned`;
  const over = cartOverload(crew, layout.batchM3);
  const loadKg = crew.cartBatches * crew.bagsPerBatch * (sheet.bagKg.value + sheet.waterL.value.most + choice.aggregateKg);
  return [
    {
      key: 'bags',
      count: choice.bagsOnSite,
      words: `${bagsWords(choice.bagsOnSite, locale)} in ${countWords(stacks, 'stack', locale)} of up to ${BAGS_A_STACK} beside the mixers${spareWords}. Total ${formatMass(choice.bagsOnSite * sheet.bagKg.value, units, locale)}. On a suspended floor spread the stacks out, along bearing walls.`,
    },
    ...(choice.aggregateKg > 0
      ? [
          {
            key: 'aggregate' as const,
            count: null,
            words: `${formatMass(Math.max(needed, choice.bagsOnSite) * choice.aggregateKg, units, locale)} of washed, dry aggregate, weighed out ${formatMass(crew.bagsPerBatch * choice.aggregateKg, units, locale)} per batch.`,
          },
        ]
      : []),
    {
      key: 'water',
      count: buckets,
      words: `${countWords(buckets, 'bucket', locale)} of measured water filled ahead. 1 per batch: ${batchWords(counts, locale)}. ${formatLiquid(waterL, units, locale)} total. Mark the fill line on each.`,
    },
    {
      key: 'wash',
      count: crew.mixers + 1,
      words: `${n(crew.mixers + 1)} washout buckets, away from drains. Let the rest set, then put it in the trash.`,
    },
    {
      key: 'power',
      count: crew.mixers,
      words: `${n(crew.mixers)} ${crew.mixers === 1 ? 'mixing drill' : 'mixing drills'}, ${crew.mixers > 1 ? 'each ' : ''}on its own GFCI circuit. Keep cords off the wet floor.${choice.onGenerator ? ` Run the generator outdoors, ${generatorDistance(choice)} or more from doors, windows and vents: its exhaust kills.` : ''}`,
    },
    ...(byCart
      ? [
          {
            key: 'cart' as const,
            count: Math.ceil(batches / crew.cartBatches),
            words: `Cart: ${countWords(Math.ceil(batches / crew.cartBatches), 'trip', locale)} of up to ${countWords(crew.cartBatches, 'batch', locale)}, ${formatMass(loadKg, units, locale)} per full load. Walk the path and the turns.${choice.onJoists ? ' On joists lay plywood runways and lighten the loads.' : ''} Test the outlet with water. ${outletWords(crew.outlet)}${over === null ? '' : ` ${cartOverloadWords(over, units, locale)}`}`,
          },
        ]
      : []),
    {
      key: 'tools',
      count: spreaders,
      words: `${countWords(spreaders, 'spreader', locale)} with ${choice.nothingStuckIn ? '' : 'spiked shoes, '}knee boards, gauge rake and smoother. ${toolsInHand(choice.aggregateKg)}. ${choice.nothingStuckIn ? 'No metal spikes or pins in this floor.' : 'Spiked roller if the data sheet asks for it.'}`,
    },
    { key: 'way-out', count: null, words: 'Walk the exit. The last lane ends there. Do not cross wet floor.' },
    {
      key: 'skin',
      count: null,
      words: 'Gloves, eye protection, long sleeves, clean rinse water. Wet cement burns before it hurts. Rinse at once.',
    },
    {
      key: 'dust',
      count: null,
      words:
        'Open bags low, with a vacuum at the mouth. Wear a NIOSH-approved, fit-tested respirator as the data sheet and local rules require.',
    },
  ];
}

/** What goes into each full batch. Water never exceeds the data sheet’s maximum. */
export function recipeOf(
  crew: Crew,
  sheet: PowderSheet,
  choice: Omit<StagingChoice, 'bagsOnSite' | 'onJoists' | 'nothingStuckIn' | 'onGenerator'>,
): BatchRecipe {
  const { units, locale, aggregateKg } = choice;
  const bags = crew.bagsPerBatch;
  const { least, most } = sheet.waterL.value;
  const mix = sheet.mixMinutes?.value ?? null;
  const water = formatWaterLimits({ least: bags * least, most: bags * most }, units, locale);
  const minutes = mix
    ? mix.least === mix.most
      ? formatDuration(mix.most * 60, locale)
      : `${formatDuration(mix.least * 60, locale)} to ${formatDuration(mix.most * 60, locale)}`
    : null;
  const aggregate = aggregateKg > 0 ? ` Then ${formatMass(bags * aggregateKg, units, locale)} of aggregate.` : '';
  const waterTemp = sheet.waterTempC?.value;
  const temp = waterTemp
    ? ` Water at ${formatTemperature(waterTemp.least, units, locale)} to ${formatTemperature(waterTemp.most, units, locale)}.`
    : '';
  return {
    bags,
    waterMost: water.most,
    words: `${water.span} of water first, then ${formatNumber(bags, { most: 1 }, locale)} ${bags === 1 ? 'bag' : 'bags'}. ${minutes ? `Mix ${minutes}` : 'Mix as the data sheet says'}.${aggregate}${temp} Never add more water.`,
  };
}

/** A time that must not be passed, in whole minutes: never rounded up. */
export const limitMinutes = (min: number, locale?: string): string => formatDuration(Math.floor(min) * 60, locale);

/** What stops a pour, for the pour-day sheet. @param overHeat whether it covers mats or tubing */
export function stopRules(clocks: PourClocks, overHeat: boolean, locale?: string): string[] {
  const outside = outsideWords(clocks);
  return [
    `A batch is over ${limitMinutes(clocks.workingTimeMin, locale)} old${clocks.workingTimeTypical ? ' (typical)' : ''}. Throw it out.`,
    `A wet edge is close to ${limitMinutes(clocks.healingMin, locale)} old${clocks.healingTypical ? ' (typical)' : ''}. Set a dam and stop there.`,
    'Power is lost or a cord is wet. Make it safe, then stop at the next lane end.',
    'A batch has wrong water or lumps. Keep it off the floor.',
    ...(overHeat ? ['The resistance or the pressure of the heat changes. Call its installer before you go on.'] : []),
    ...(outside === null ? [] : [outside]),
  ];
}
