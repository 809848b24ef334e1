/** Depth and volume of a pour up to a plane over the floor, after grinding where that is allowed. */
import type { Relief } from './relief.ts';

/** The figures of a pour. Meters, square meters, cubic meters. */
export type Fill = {
  /** ∫ max(0, level − floor), with the floor ground where grinding is allowed. */
  readonly volumeM3: number;
  /** Area that gets any pour depth: the rate at which the volume grows with the finish elevation, where nothing is ground. */
  readonly coveredM2: number;
  readonly leastDepthM: number;
  readonly meanDepthM: number;
  readonly greatestDepthM: number;
  readonly groundM2: number;
  readonly removedM3: number;
};

/** Minimum thickness over high spots and maximum grinding of them, meters. */
export type FillTerms = { readonly leastThicknessM: number; readonly grindMostM: number };

/**
 * The pour up to height `levelM` on a relief. With grinding, a spot above the level minus the minimum thickness is ground
 * down to it, by no more than `grindMostM`; its depth becomes max(0, d, min(t, d + g)) where d is the depth before.
 */
export function fillTo(relief: Relief, levelM: number, terms: FillTerms): Fill {
  const { leastThicknessM: t, grindMostM: g } = terms;
  const deep = relief.below(levelM + g);
  const volumeM3 = deeperM3(relief, levelM, terms, 0);
  const groundTo = relief.below(levelM - t);
  const groundMost = relief.below(levelM - t + g);
  const groundM2 = g === 0 ? 0 : Math.max(0, relief.areaM2 - groundTo.areaM2);
  // ∫ min(g, max(0, z − c)) = ∫ max(0, z − c) − ∫ max(0, z − c − g), and ∫ max(0, z − c) = ∫ z − c·A + ∫ max(0, c − z).
  const removedM3 = g === 0 ? 0 : Math.max(0, groundTo.volumeM3 - groundMost.volumeM3 + g * relief.areaM2);
  const before = levelM - relief.highestM;
  const leastDepthM = Math.max(0, before, Math.min(t, before + g));
  return {
    volumeM3: Math.max(0, volumeM3),
    coveredM2: deep.areaM2,
    leastDepthM,
    meanDepthM: Math.max(0, volumeM3) / relief.areaM2,
    greatestDepthM: Math.max(0, levelM - relief.lowestM, Math.min(t, levelM - relief.lowestM + g)),
    groundM2,
    removedM3,
  };
}

/** The part of the same pour that lies deeper than `depthM`: ∫ max(0, depth − depthM), cubic meters. */
export function deeperM3(relief: Relief, levelM: number, { leastThicknessM: t, grindMostM: g }: FillTerms, depthM: number): number {
  if (g === 0 || depthM >= t) return relief.below(levelM - depthM).volumeM3;
  const upTo = relief.below(levelM + g - depthM).volumeM3 - relief.below(levelM + g - t).volumeM3;
  return upTo + relief.below(levelM - t).volumeM3;
}
