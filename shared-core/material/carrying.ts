/** Lifting by hand in a job: the lifting equation as a caution, and the effect of a cart or a second person. */
import { INCH_M } from '../measure/length-units.ts';
import { liftingIndex, weightLimitKg, type LiftPosture, type LiftingDuration } from './lifting.ts';

/** What is carried. */
export type Carrying = {
  readonly bags: number;
  readonly bagKg: number;
  readonly batches: number;
  readonly aggregateKg: number;
  readonly waterKg: number;
  /** Minutes over which the bags are lifted, for the frequency. */
  readonly liftMinutes: number;
};

/** One way of lifting a bag, with its lifting index. */
export type LiftingWay = { readonly loadKg: number; readonly limitKg: number; readonly index: number | null };

/** The weight, the lifts, and the index of each way of lifting a bag. */
export type CarryingCaution = {
  readonly totalKg: number;
  /** Each bag twice (van to stack, stack to bucket), each batch and bucket of water once. */
  readonly lifts: number;
  /** One person from the floor, one from a cart at knuckle height, two people from the floor. */
  readonly ways: { readonly alone: LiftingWay; readonly cart: LiftingWay; readonly two: LiftingWay };
};

/** Van to stack, stack to bucket. Common practice, no source. */
const TIMES_A_BAG = 2;
/** From a stack on the floor to the bucket's rim, held at arm's bend. Common practice, no source. */
const FROM_FLOOR = { horizontalM: 15 * INCH_M, originM: 8 * INCH_M, heightM: 8 * INCH_M, travelM: 22 * INCH_M } as const;
/** From a cart or a table at knuckle height, close to the body. Common practice, no source. */
const FROM_CART = { horizontalM: 12 * INCH_M, originM: 30 * INCH_M, heightM: 30 * INCH_M, travelM: 10 * INCH_M } as const;

/** The carrying of a job. */
export function carryingCaution(carrying: Carrying): CarryingCaution {
  const totalKg = carrying.bags * carrying.bagKg + carrying.waterKg + carrying.aggregateKg;
  const lifts = Math.ceil(carrying.bags) * TIMES_A_BAG + carrying.batches * 2;
  const liftsPerMinute = carrying.liftMinutes > 0 ? carrying.bags / carrying.liftMinutes : 0;
  const duration: LiftingDuration = carrying.liftMinutes <= 60 ? 'short' : carrying.liftMinutes <= 120 ? 'moderate' : 'long';
  const liftingWay = (from: typeof FROM_FLOOR | typeof FROM_CART, loadKg: number): LiftingWay => {
    const posture: LiftPosture = { ...from, twistDeg: 0, liftsPerMinute, duration, coupling: 'fair' };
    const limitKg = weightLimitKg(posture);
    return { loadKg, limitKg, index: liftingIndex(loadKg, limitKg) };
  };
  return {
    totalKg,
    lifts,
    ways: {
      alone: liftingWay(FROM_FLOOR, carrying.bagKg),
      cart: liftingWay(FROM_CART, carrying.bagKg),
      // The equation does not cover two people; an even share is common practice, no source.
      two: liftingWay(FROM_FLOOR, carrying.bagKg / 2),
    },
  };
}
