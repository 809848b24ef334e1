/** Total water and water per batch, and the batches: each takes a measured bucket of water. */
import type { EffectiveSheet, Span } from './sheet.ts';

/** Batches of the likely volume, and of all the bags that are quoted or brought. */
export type BatchCounts = { readonly likely: number; readonly all: number };

/** The water of a pour. Liters, from the data sheet's minimum to its maximum. */
export type WaterPlan = {
  readonly batches: BatchCounts;
  readonly bagsPerBatch: number;
  readonly perBatchL: Span;
  readonly totalL: Span;
  /** Mixed volume of a whole batch. */
  readonly batchM3: number;
  /** The mixing bucket, liters, when a batch will not fit in it; null when it does. */
  readonly overfilledBucketL: number | null;
};

/** Maximum fill of a bucket that can be mixed without spilling, a share. Common practice, no source. */
export const MIXING_FILL = 0.85;

/** The batches of a number of bags. */
export const batchCount = (bags: number, bagsPerBatch: number): number => Math.ceil(bags / bagsPerBatch - 1e-6);

/** What is mixed, and how: whole bags, bags mixed at once, and the bucket in liters. */
export type Mixing = {
  readonly bags: number;
  /** Bags that the likely volume takes. */
  readonly likelyBags: number;
  readonly bagsPerBatch: number;
  readonly bucketL: number;
  /** Mixed volume per bag with aggregate; null without. */
  readonly mixM3: number | null;
};

/**
 * The water of a pour.
 * @param bags whole bags
 * @param likelyBags bags that the likely volume takes, before rounding
 * @param bagsPerBatch bags mixed at once
 * @param bucketL the mixing bucket's volume, liters
 * @param mixM3 mixed volume per bag with aggregate; null without
 */
export function waterPlan(sheet: EffectiveSheet, { bags, likelyBags, bagsPerBatch, bucketL, mixM3 }: Mixing): WaterPlan {
  const water = sheet.waterL.value;
  const batchM3 = (mixM3 ?? sheet.yieldM3.value) * bagsPerBatch;
  return {
    batches: { likely: batchCount(likelyBags, bagsPerBatch), all: batchCount(bags, bagsPerBatch) },
    bagsPerBatch,
    perBatchL: { least: water.least * bagsPerBatch, most: water.most * bagsPerBatch },
    totalL: { least: water.least * bags, most: water.most * bags },
    batchM3,
    overfilledBucketL: batchM3 * 1000 <= bucketL * MIXING_FILL ? null : bucketL,
  };
}
