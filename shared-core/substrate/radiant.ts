/** Radiant heat of a floor: none, in the floor under the pour, or covered by the pour. */
import type { Circumstances, Layer } from '../book/layer.ts';
import type { PowderSheet } from '../book/material.ts';
import { INCH_M } from '../measure/length-units.ts';
import { heatOnTop } from '../survey/heat-on-top.ts';
import { isTypicalFigure } from './whose-figure.ts';

/** Radiant heat. Where there is some in the floor and in the pour, that in the pour. `in-pour`: covered by the pour, kind unknown. */
export type Heat = NonNullable<Circumstances['radiantHeat']> | 'in-pour';

/** What of a room decides where its radiant heat is. */
export type HeatedRoom = { readonly circumstances: Pick<Circumstances, 'radiantHeat'>; readonly layers: readonly Layer[] };

/** Whether mats or tubing lie on the floor, under the pour. */
export const isHeatLaid = (keptLayers: readonly Layer[]): boolean => heatOnTop(keptLayers).length > 0;

/** Whether heat on top of the floor was there before this work, so that others fastened the wood under it, or nobody did. */
export const isHeatFoundLaid = (layers: readonly Layer[]): boolean => heatOnTop(layers).some(({ laid }) => laid === undefined);

/**
 * The heat entered, where the layers do not say otherwise. Heat as the top layer is covered by the pour, whatever was entered; an
 * answer tells only its kind.
 */
function heatOf(circumstances: Pick<Circumstances, 'radiantHeat'>, keptLayers: readonly Layer[]): Heat {
  const entered = circumstances.radiantHeat ?? 'unknown';
  if (isHeatLaid(keptLayers)) return isHeatInPour(entered) ? entered : 'in-pour';
  const isNamed = entered !== 'none' && entered !== 'unknown';
  return !isNamed && keptLayers.some((layer) => layer.material === 'radiant-heating') ? 'in-floor' : entered;
}

/** The radiant heat of a room. */
export const roomHeat = ({ circumstances, layers }: HeatedRoom): Heat =>
  heatOf(
    circumstances,
    layers.filter((layer) => layer.fate === 'keep'),
  );

/**
 * Whether there is heat in the floor under the pour: entered so, or a heating layer that stays below another. Mats planned for the
 * pour do not change that. Heat that lies on top is covered by the pour, whatever was entered.
 */
export const isHeatInFloor = ({ circumstances, layers }: HeatedRoom): boolean => {
  const kept = layers.filter((layer) => layer.fate === 'keep');
  const isEntered = circumstances.radiantHeat === 'in-floor' && !isHeatLaid(kept);
  const onTop = heatOnTop(kept);
  return isEntered || kept.some((layer) => layer.material === 'radiant-heating' && !onTop.includes(layer));
};

/** Whether the pour covers the heat. */
export const isHeatInPour = (heat: Heat): boolean => heat === 'electric-in-pour' || heat === 'hydronic-in-pour' || heat === 'in-pour';

/** Cover over a heating cable or tube that data sheets require: 3/8 in. Typical, common practice (1/4 to 3/8 in.). */
export const COVER_OVER_HEAT_M = 0.375 * INCH_M;
/** Thickness of an electric mat: 1/8 in. Typical, common practice, no source. */
const MAT_M = 0.125 * INCH_M;
/** Thickness of tubing: 5/8 in., the outside of 1/2 in. PEX tubing. Typical; ASTM F876, from memory. */
const TUBING_M = 0.625 * INCH_M;

/** The pour depth that mats or tubing need, from the floor they lie on, meters: their thickness and the cover over it. */
export type HeatDepth = {
  readonly coverM: number;
  /** The cover is not from a data sheet. */
  readonly isCoverTypical: boolean;
  readonly thicknessM: number;
  /** The thickness is not recorded. */
  readonly isTypical: boolean;
  readonly leastM: number;
};

/** The pour depth that the heat needs; null where the pour covers none. @param powder the data sheet, for its cover; null without one */
export function heatDepth(
  { heat, layers }: { readonly heat: Heat; readonly layers: readonly Layer[] },
  powder: Pick<PowderSheet, 'overHeatLeastM'> | null,
): HeatDepth | null {
  if (!isHeatInPour(heat)) return null;
  const coverM = powder?.overHeatLeastM?.value ?? COVER_OVER_HEAT_M;
  const recorded = heatOnTop(layers).map((layer) => layer.thicknessM);
  const isTypical = recorded.length === 0 || recorded.includes(null);
  const typicalM = !isTypical ? 0 : heat === 'electric-in-pour' ? MAT_M : TUBING_M;
  const thicknessM = Math.max(typicalM, ...recorded.map((m) => m ?? 0));
  return { coverM, isCoverTypical: isTypicalFigure(powder?.overHeatLeastM), thicknessM, isTypical, leastM: coverM + thicknessM };
}

/** Whether a placed part of the floor already covers the heat. */
export const isHeatBuried = (facts: { readonly heat: Heat; readonly isPouredOver: boolean }): boolean =>
  facts.isPouredOver && isHeatInPour(facts.heat);

/** Whether there is heat in the floor or laid on it. */
export const isHeatUnder = (room: HeatedRoom): boolean =>
  isHeatInFloor(room) || isHeatLaid(room.layers.filter((layer) => layer.fate === 'keep'));

/** Whether there is heat under a tool on this floor: in the floor, laid on it, or in its placed part. */
export const isOverHeat = (facts: HeatedRoom & { readonly heat: Heat; readonly isPouredOver: boolean }): boolean =>
  isHeatUnder(facts) || isHeatBuried(facts);

/** Whether mats or tubing that the pour covers are down, on the floor or in its placed part. */
export const isHeatDown = (facts: { readonly heat: Heat; readonly isPouredOver: boolean; readonly kept: readonly Layer[] }): boolean =>
  isHeatLaid(facts.kept) || isHeatBuried(facts);

/** Whether a hole in the floor may hit heat: there is some in or on the floor, or it is not recorded. */
export const mayHitHeat = (room: HeatedRoom): boolean => isHeatUnder(room) || roomHeat(room) === 'unknown';

/** Whether the floor has or will have radiant heat. */
export const isHeated = (heat: Heat): boolean => heat === 'in-floor' || isHeatInPour(heat);
