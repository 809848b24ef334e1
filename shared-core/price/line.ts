/** A line of an estimate: what, how much, what it costs and why. */
import type { EstimateChoices } from '../book/job.ts';
import type { FigureSource } from '../book/material.ts';

/** What a line is for tax and for the range: bought, worked, or neither. */
export type LineKind = 'material' | 'labor' | 'other';

/** Where a line's figures come from: the sheet, the business's own costs, a simulated pour, or a person's own entry. */
export type LineSource = FigureSource | 'business' | 'planned' | 'simulated' | 'entered';

const ADDED = 'added/';

/** The key of a line that a person added. */
export function addedKey(id: string): string {
  return `${ADDED}${id}`;
}

/** True for the key of such a line. */
export function isAdded(lineKey: string): boolean {
  return lineKey.startsWith(ADDED);
}

/** Units a line's quantity is in, always SI inside. */
export type LineUnit = 'bag' | 'container' | 'L' | 'kg' | 'm' | 'm2' | 'm3' | 'h' | 'km' | 'job';

/** A line before anything is asked for it. Amounts in whole minor units. */
export type CostLine = {
  /** Stable: the room (with the option that changes it) and the thing, `hall-id/bags`. */
  readonly key: string;
  readonly roomId: string | null;
  readonly kind: LineKind;
  readonly name: string;
  readonly quantity: number;
  readonly unit: LineUnit;
  /** The quantity as it is read, in the business's units. */
  readonly quantityWords: string;
  /** Cost of one unit; null where a line mixes rates. */
  readonly unitCostMinor: number | null;
  readonly costMinor: number;
  /** What it would cost at the least and the most of the estimate's own range. */
  readonly leastCostMinor: number;
  readonly mostCostMinor: number;
  readonly taxId: string | null;
  /** What went in and how it was calculated, in words. */
  readonly reason: string;
  readonly source: LineSource;
};

/** A line with its price. */
export type PricedLine = CostLine & {
  /** What was calculated before a person changed it. */
  readonly calculatedCostMinor: number;
  readonly calculatedPriceMinor: number;
  readonly priceMinor: number;
  /** Its part of the discount, and what is left to tax. */
  readonly discountMinor: number;
  readonly netMinor: number;
  /** Null when tax is rounded once a rate. */
  readonly taxMinor: number | null;
  readonly override: EstimateChoices['overrides'][number] | null;
  readonly leftOut: boolean;
};
