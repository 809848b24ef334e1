/** How a batch is mixed, placed and finished, and how a fresh floor is kept, for the crew. Common practice where no source is named. */
import type { Crew } from '../book/job.ts';
import type { PowderSheet } from '../book/material.ts';
import { capital } from '../measure/first-letter.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import type { LowerLift } from '../standing/lift-cover.ts';
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
  /** Rooms whose lift is under the last. */
  readonly lower: readonly LowerLift[];
  /** How many rooms the pour has. */
  readonly roomCount: number;
  /** The room poured first has an exit, which its lanes run toward. */
  readonly hasExit: boolean;
  /** The pour covers mats or tubing. */
  readonly overHeat: boolean;
  /** Nothing is stuck into the floor: no metal spikes, no pins. */
  readonly nothingStuckIn: boolean;
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

/** What a floor asks for into which nothing is stuck, and mats or tubing besides. Common practice, no source. */
const NOTHING_STUCK_IN = 'Stick nothing into this floor: no metal spikes or rake pins.';
const OVER_HEAT = 'This floor has mats or tubing. Test resistance or pressure during the pour and after it, and write it down.';

/**
 * How a lift under the last is placed, up to a plane of its own: a rake set at the minimum over the highest spot would leave it there, and too
 * much for the lifts over it. One of the deep places has an edge thinner than the minimum until the next lift covers it. Common practice, no source.
 */
function lowerWords({ lower, roomCount, units, locale }: Pick<MixingInput, 'lower' | 'roomCount' | 'units' | 'locale'>): string[] {
  return lower.map(({ room, mostM, belowFinishM, isDeepOnly }) => {
    const [most, below] = [mostM, belowFinishM].map((m) => formatDepth(m, units, locale));
    const how = isDeepOnly
      ? `fill the deep places only, at most ${most} deep, with the top ${below} below the finish. Let the edge run out. No rake over the high spots.`
      : `set the top of this lift ${below} below the finish, at most ${most} deep.`;
    return roomCount > 1 ? `${room}: ${how}` : capital(how);
  });
}

/** Mixing, testing, placing and finishing of a batch, a sentence or two a line. */
export function mixingRules(input: MixingInput): string[] {
  const { crew, sheet, leastM, clocks, lower, roomCount, hasExit, overHeat, nothingStuckIn, aggregateKg, units, locale } = input;
  const deepCount = lower.filter(({ isDeepOnly }) => isDeepOnly).length;
  const inOthers = (count: number, text: string): string => (count === 0 ? capital(text) : `In the other rooms, ${text}`);
  const least = formatDepth(leastM, units, locale);
  const gauge = inOthers(lower.length, `set the gauge rake over the highest spot at ${least} or more.`);
  const spike = spikeMin(clocks);
  const isSpikeTypical = spike < clocks.healingMin ? clocks.workingTimeTypical : clocks.healingTypical;
  const bags = formatNumber(crew.bagsPerBatch, { most: 1 }, locale);
  return [
    ...(nothingStuckIn ? [NOTHING_STUCK_IN] : []),
    ...(overHeat ? [OVER_HEAT] : []),
    `Mix with a drill at about ${DRILL_RPM} rpm, or as the data sheet says. Scrape the sides and the bottom of the bucket once.`,
    ...(aggregateKg > 0 ? ['Add the aggregate last, once the mix has no lumps.'] : []),
    crew.bagsPerBatch > BAGS_A_BARREL
      ? `${bags} bags per batch are more than one barrel takes. The usual maximum is ${BAGS_A_BARREL}: use a mixer made for more.`
      : `Mix at most ${BAGS_A_BARREL} bags in one barrel.`,
    // A sieve would hold the aggregate back.
    aggregateKg > 0 ? 'A batch with lumps goes in the washout bucket.' : 'Pour through a sieve. Lumps go in the washout bucket.',
    'Never add water to a mixed batch, and never remix one that has begun to set.',
    `Flow ring test on the first batch and each new lot: ${flowRingWords(sheet, units, locale)}. Outside that, check the water before placing more.`,
    'Write down lot and date of the bags and the temperature of the water.',
    `Start with lane 1, ${hasExit ? 'farthest from the exit' : 'on the deep side'}.${lower.length === 0 ? ` ${gauge}` : ''}`,
    ...lowerWords(input),
    ...(lower.length === 0 || lower.length === roomCount ? [] : [gauge]),
    `${nothingStuckIn ? 'Smooth' : 'Spike and smooth'} each batch at once, at the latest ${limitMinutes(spike, locale)} after it is placed${isSpikeTypical ? ' (typical)' : ''}. Never touch it once it has skinned.`,
    ...(deepCount === roomCount ? [] : [inOthers(deepCount, `pour nothing thinner than ${least}. Feather to zero with patch, by hand.`)]),
  ];
}

/** How the floor is kept after the last batch. */
export const AFTER_POUR: readonly string[] = [
  'Keep windows shut, and drafts and direct sun off the floor, for 3 days. Forced air stays off until the floor is hard.',
  'Rinse water and leftovers set in the bucket and go in the trash. Nothing goes in a drain or the yard.',
  'Trim the isolation strip when the floor is hard.',
  'Before other trades come in, cover the floor with breathable paper and hardboard. No rolling loads until the data sheet allows them.',
];
