/** The number of bags, and the chance of running short. */
import type { Found } from '../measure/parsed.ts';
import { normalShareBelow, Z_90 } from '../measure/normal.ts';

/**
 * A volume with uncertainty. One standard deviation where `sdM3` is given; a range reads as the 10th to the 90th
 * percentile.
 */
export type VolumeRange =
  | { readonly likelyM3: number; readonly sdM3: number }
  | { readonly leastM3: number; readonly likelyM3: number; readonly mostM3: number };

/** A bag's yield and its relative standard deviation. */
export type YieldRange = { readonly likelyM3: number; readonly sdShare: number };

/** A count of bags and the chance that the job needs more. */
export type ShortChance = { readonly bags: number; readonly chance: number };

/** The bags a volume takes, with its uncertainty. */
export type BagCount = {
  /** The likely number before rounding up: volume plus waste, divided by the yield. */
  readonly exactBags: number;
  /** 10th and 90th percentile. */
  readonly leastBags: number;
  readonly mostBags: number;
  /** Enough in the chosen share of pours. */
  readonly quotedBags: number;
  readonly percentile: number;
  readonly chanceShort: number;
  /** The chance of running short at each count near the one quoted, falling. */
  readonly curve: readonly ShortChance[];
};

/** The figure that bags cannot be counted with. */
export type BagProblem = 'yield' | 'volume' | 'waste' | 'volume-range' | 'yield-range' | 'percentile';

/** Tolerance for rounding errors, so that they do not add a bag. */
const DUST = 1e-9;
const CURVE_AT_MOST = 31;

/**
 * The bags a volume takes at a chosen percentile. Volume and yield are taken as independent and normal, so the remainder after n
 * bags is normal too, and the chance that it is negative is exact.
 * @param volume in place, with its range
 * @param bag a bag's yield, with its range
 * @param lossShare left in buckets and on the floor outside, as a share of the volume
 * @param percentile the share of pours in which the count is enough, 0.5 to 0.99
 */
export function bagCount(volume: VolumeRange, bag: YieldRange, lossShare: number, percentile: number): Found<BagCount, BagProblem> {
  const wrong = wrongWith(volume.likelyM3, lossShare, bag.likelyM3) ?? wrongRange(volume, bag, percentile);
  if (wrong !== null) return { ok: false, problem: wrong };
  const needM3 = volume.likelyM3 * (1 + lossShare);
  const needSd = spread(volume) * (1 + lossShare);
  const exactBags = needM3 / bag.likelyM3;
  const chanceAt = (bags: number) => chanceShort(needM3, needSd, bag, bags);
  const enoughAt = (share: number) => {
    // Near the need the chance falls with each bag, so the first count that is enough is the smallest.
    let bags = Math.max(0, Math.floor(exactBags / 3));
    const most = 10 + exactBags * 4;
    while (bags < most && chanceAt(bags) > 1 - share + 1e-12) bags += 1;
    return bags;
  };
  const quotedBags = enoughAt(percentile);
  const leastBags = enoughAt(0.1);
  const mostBags = Math.max(enoughAt(0.9), quotedBags);
  const from = Math.max(0, leastBags - 1);
  const to = mostBags + 1;
  const step = Math.max(1, Math.ceil((to - from) / (CURVE_AT_MOST - 1)));
  const counts = new Set([quotedBags]);
  for (let bags = from; bags <= to; bags += step) counts.add(bags);
  const curve = [...counts].sort((a, b) => a - b).map((bags) => ({ bags, chance: chanceAt(bags) }));
  return {
    ok: true,
    value: {
      exactBags,
      leastBags,
      mostBags,
      quotedBags,
      percentile,
      chanceShort: chanceAt(quotedBags),
      curve,
    },
  };
}

/** One standard deviation of a volume, cubic meters. */
export function spread(volume: VolumeRange): number {
  return 'sdM3' in volume ? volume.sdM3 : (volume.mostM3 - volume.leastM3) / (2 * Z_90);
}

function chanceShort(needM3: number, needSdM3: number, bag: YieldRange, bags: number): number {
  const sd = Math.hypot(needSdM3, bags * bag.likelyM3 * bag.sdShare);
  const missing = needM3 - bags * bag.likelyM3;
  if (sd === 0) return missing > needM3 * DUST ? 1 : 0;
  return normalShareBelow(missing / sd);
}

function wrongWith(volumeM3: number, lossShare: number, yieldM3: number): BagProblem | null {
  if (!Number.isFinite(yieldM3) || yieldM3 <= 0) return 'yield';
  if (!Number.isFinite(volumeM3) || volumeM3 < 0) return 'volume';
  if (!Number.isFinite(lossShare) || lossShare < 0 || lossShare > 1) return 'waste';
  return null;
}

function wrongRange(volume: VolumeRange, bag: YieldRange, percentile: number): BagProblem | null {
  const sd = spread(volume);
  if (!Number.isFinite(sd) || sd < 0) return 'volume-range';
  if (!Number.isFinite(bag.sdShare) || bag.sdShare < 0 || bag.sdShare >= 0.3) return 'yield-range';
  if (!(percentile >= 0.5 && percentile <= 0.99)) return 'percentile';
  return null;
}
