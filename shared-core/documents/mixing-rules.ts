/** How a batch is mixed, placed and finished, and how a fresh floor is kept, for the crew. Common practice where no source is named. */
import type { Crew } from '../book/job.ts';
import type { PowderSheet } from '../book/material.ts';
import { capital } from '../measure/first-letter.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import type { DeepFill } from '../standing/lift-cover.ts';
import type { PourClocks } from '../pour/clocks.ts';
import { spikeMin } from '../pour/work-clock.ts';
import { limitMinutes } from './staging.ts';

/** Speed of a mixing drill, rpm. Common practice, no source. */
export const DRILL_RPM = 650;
/** Bags that one barrel takes at most. A tile trade magazine on mixing self-levelers, October 2019. */
export const BAGS_A_BARREL = 2;

/** What the rules are read from. */
export type MixingInput = {
  readonly crew: Pick<Crew, 'bagsPerBatch'>;
  readonly sheet: Pick<PowderSheet, 'flowRingM'>;
  /** Minimum thickness here: the data sheet's, or its greater one over wood or heat. Meters. */
  readonly leastM: number;
  readonly clocks: Pick<PourClocks, 'healingMin' | 'healingTypical' | 'workingTimeMin' | 'workingTimeTypical'>;
  /** Rooms whose lift only fills the deep places. */
  readonly deep: readonly DeepFill[];
  /** How many rooms the pour has. */
  readonly roomCount: number;
  /** The room poured first has an exit, which its lanes run toward. */
  readonly hasExit: boolean;
  /** The pour covers mats or tubing. */
  readonly overHeat: boolean;
  /** Aggregate in each bag, kg; 0 without. */
  readonly aggregateKg: number;
  readonly units: UnitSystem;
  readonly locale?: string;
};

/** The diameter a flow ring test passes at: `5″ to 6″, typical`. */
export function flowRingWords({ flowRingM }: Pick<PowderSheet, 'flowRingM'>, units: UnitSystem, locale?: string): string {
  if (flowRingM === undefined || flowRingM === null) return 'the data sheet’s diameter';
  const { least, most } = flowRingM.value;
  const span = `${formatDepth(least, units, locale)} to ${formatDepth(most, units, locale)}`;
  return flowRingM.source === 'typical' ? `${span}, typical` : span;
}

/** What a pour over mats or tubing asks for besides. Common practice, no source. */
const OVER_HEAT =
  'This floor has mats or tubing: no metal spikes or rake pins. Test resistance or pressure during the pour and after it, and write it down.';

/**
 * How a lift is placed that only fills the deep places: a rake set over the high spots would overfill it, and its edge is thinner than the
 * minimum until the next lift covers it. Common practice, no source.
 */
function deepWords({ deep, roomCount, units, locale }: Pick<MixingInput, 'deep' | 'roomCount' | 'units' | 'locale'>): string[] {
  return deep.map(({ room, mostM, belowFinishM }) => {
    const [most, below] = [mostM, belowFinishM].map((m) => formatDepth(m, units, locale));
    return `${roomCount > 1 ? `${room}: fill` : 'Fill'} the deep places only, at most ${most} deep, with the top ${below} below the finish. Let the edge run out. No rake over the high spots.`;
  });
}

/** Mixing, testing, placing and finishing of a batch, a sentence or two a line. */
export function mixingRules(input: MixingInput): string[] {
  const { crew, sheet, leastM, clocks, deep, roomCount, hasExit, overHeat, aggregateKg, units, locale } = input;
  const isAllDeep = deep.length === roomCount;
  const others = deep.length === 0 ? '' : 'In the other rooms, ';
  const least = formatDepth(leastM, units, locale);
  const gauge = `${capital(`${others}set`)} the gauge rake over the highest spot at ${least} or more.`;
  const spike = spikeMin(clocks);
  const isSpikeTypical = spike < clocks.healingMin ? clocks.workingTimeTypical : clocks.healingTypical;
  const bags = formatNumber(crew.bagsPerBatch, { most: 1 }, locale);
  return [
    ...(overHeat ? [OVER_HEAT] : []),
    `Mix with a drill at about ${DRILL_RPM} rpm, or as the data sheet says. Scrape the sides and the bottom of the bucket once.`,
    ...(aggregateKg > 0 ? ['Add the aggregate last, once the mix has no lumps.'] : []),
    crew.bagsPerBatch > BAGS_A_BARREL
      ? `${bags} bags per batch are more than one barrel takes. The usual maximum is ${BAGS_A_BARREL}: use a mixer made for more.`
      : `Mix at most ${BAGS_A_BARREL} bags in one barrel.`,
    'Pour through a sieve. Lumps go in the washout bucket.',
    'Never add water to a mixed batch, and never remix one that has begun to set.',
    `Flow ring test on the first batch and each new lot: ${flowRingWords(sheet, units, locale)}. Outside that, check the water before placing more.`,
    'Write down lot and date of the bags and the temperature of the water.',
    `Start with lane 1, ${hasExit ? 'farthest from the exit' : 'on the deep side'}.${deep.length === 0 ? ` ${gauge}` : ''}`,
    ...deepWords(input),
    ...(deep.length === 0 || isAllDeep ? [] : [gauge]),
    `${overHeat ? 'Smooth' : 'Spike and smooth'} each batch at once, at the latest ${limitMinutes(spike, locale)} after it is placed${isSpikeTypical ? ' (typical)' : ''}. Never touch it once it has skinned.`,
    ...(isAllDeep ? [] : [`${capital(`${others}pour`)} nothing thinner than ${least}. Feather to zero with patch, by hand.`]),
  ];
}

/** How the floor is kept after the last batch. */
export const AFTER_POUR: readonly string[] = [
  'Keep windows shut, and drafts and direct sun off the floor, for 3 days. Forced air stays off until the floor is hard.',
  'Rinse water and leftovers set in the bucket and go in the trash. Nothing goes in a drain or the yard.',
  'Trim the isolation strip when the floor is hard.',
  'Before other trades come in, cover the floor with breathable paper and hardboard. No rolling loads until the data sheet allows them.',
];
