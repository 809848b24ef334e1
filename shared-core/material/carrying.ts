/** Lifting by hand in a job: the lifting equation as a caution, and the effect of a cart or a second person. */
import { INCH_M } from '../measure/length-units.ts';
import { formatMass } from '../measure/mass.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { liftingIndex, weightLimit, type LiftPosture, INDEX_LIMITS, type LiftingDuration } from './lifting.ts';

/** What is carried. */
export type Carrying = {
  readonly bags: number;
  readonly bagKg: number;
  readonly batches: number;
  readonly batchKg: number;
  readonly aggregateKg: number;
  readonly waterKg: number;
  /** Minutes over which the bags are lifted, for the frequency. */
  readonly liftMinutes: number;
};

/** One way of lifting a bag, with its lifting index. */
export type LiftingWay = { readonly name: string; readonly loadKg: number; readonly limitKg: number; readonly index: number | null };

/** The result as figures and as a sentence. */
export type CarryingCaution = {
  readonly totalKg: number;
  /** Each bag twice (van to stack, stack to bucket), each batch and bucket of water once. */
  readonly lifts: number;
  readonly ways: readonly LiftingWay[];
  readonly message: string;
};

/** Van to stack, stack to bucket. Common practice, no source. */
const TIMES_A_BAG = 2;
/** From a stack on the floor to the bucket's rim, held at arm's bend. Common practice, no source. */
const FROM_FLOOR = { horizontalM: 15 * INCH_M, originM: 8 * INCH_M, heightM: 8 * INCH_M, travelM: 22 * INCH_M } as const;
/** From a cart or a table at knuckle height, close to the body. Common practice, no source. */
const FROM_CART = { horizontalM: 12 * INCH_M, originM: 30 * INCH_M, heightM: 30 * INCH_M, travelM: 10 * INCH_M } as const;

/** The carrying of a job. */
export function carryingCaution(carrying: Carrying, units: UnitSystem, locale?: string): CarryingCaution {
  const totalKg = carrying.bags * carrying.bagKg + carrying.waterKg + carrying.aggregateKg;
  const lifts = Math.ceil(carrying.bags) * TIMES_A_BAG + carrying.batches * 2;
  const liftsPerMinute = carrying.liftMinutes > 0 ? carrying.bags / carrying.liftMinutes : 0;
  const duration: LiftingDuration = carrying.liftMinutes <= 60 ? 'short' : carrying.liftMinutes <= 120 ? 'moderate' : 'long';
  const liftingWay = (name: string, from: typeof FROM_FLOOR | typeof FROM_CART, loadKg: number): LiftingWay => {
    const posture: LiftPosture = { ...from, twistDeg: 0, liftsPerMinute, duration, coupling: 'fair' };
    const limit = weightLimit(posture);
    return { name, loadKg, limitKg: limit.limitKg, index: liftingIndex(loadKg, limit) };
  };
  const alone = liftingWay('one person, from the floor', FROM_FLOOR, carrying.bagKg);
  const cart = liftingWay('one person, from a cart at knuckle height', FROM_CART, carrying.bagKg);
  // The equation does not cover two people; an even share is common practice, no source.
  const two = liftingWay('two people, from the floor', FROM_FLOOR, carrying.bagKg / 2);
  return { totalKg, lifts, ways: [alone, cart, two], message: inWords({ totalKg, lifts, alone, cart, two }, units, locale) };
}

function inWords(
  {
    totalKg,
    lifts,
    alone,
    cart,
    two,
  }: { readonly totalKg: number; readonly lifts: number; readonly alone: LiftingWay; readonly cart: LiftingWay; readonly two: LiftingWay },
  units: UnitSystem,
  locale?: string,
): string {
  const show = (kg: number) => formatMass(kg, units, locale);
  const times = (liftingWay: LiftingWay) =>
    liftingWay.index === null ? 'no limit' : `${formatNumber(liftingWay.index, { least: 1, most: 1 }, locale)} times`;
  const carry = `${show(totalKg)} to carry in, ${formatNumber(lifts, { most: 0 }, locale)} lifts by hand.`;
  if (alone.index !== null && alone.index <= INDEX_LIMITS.some) {
    return `${carry} A bag of ${show(alone.loadKg)} from the floor is within the ${show(alone.limitKg)} the NIOSH lifting equation allows.`;
  }
  const risk = alone.index === null || alone.index > INDEX_LIMITS.nearlyAll ? 'nearly all' : 'some';
  return (
    `${carry} A bag of ${show(alone.loadKg)} from the floor is ${times(alone)} the ${show(alone.limitKg)} of the NIOSH lifting equation, a risk for ${risk} people. ` +
    `From a cart at knuckle height it is ${times(cart)}, and for two people ${times(two)}.`
  );
}
