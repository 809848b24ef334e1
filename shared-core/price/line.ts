/** A line of an estimate: item, quantity, cost and reason. */
import type { EstimateChoices } from '../book/job.ts';
import type { FigureSource } from '../book/material.ts';

/** What a line is for tax and for the range: bought, worked, or neither. */
export type LineKind = 'material' | 'labor' | 'other';

/** Source of a line's figures: the data sheet, the business's costs, a simulated pour, or an entry by hand. */
export type LineSource = FigureSource | 'business' | 'planned' | 'simulated' | 'entered';

const ADDED = 'added/';

/** The key of a line added by hand. */
export function addedKey(id: string): string {
  return `${ADDED}${id}`;
}

/** True for the key of such a line. */
export function isAdded(lineKey: string): boolean {
  return lineKey.startsWith(ADDED);
}

/** The last part of the keys of materials that rooms share in whole containers. */
export const POOLED = { primer: 'primer', aggregate: 'aggregate', mitigation: 'mitigation' } as const;

/** Whether a line is a room's share of whole containers, so that its price moves with the other rooms. */
export function isPooled(lineKey: string): boolean {
  return Object.values(POOLED).some((last) => lineKey.endsWith(`/${last}`));
}

/** Units a line's quantity is in, always SI inside. */
export type LineUnit = 'bag' | 'container' | 'L' | 'kg' | 'm' | 'm2' | 'm3' | 'h' | 'km' | 'job';

/** A line before pricing. Amounts in whole minor units. */
export type CostLine = {
  /** Stable: the room (with the option that changes it) and the thing, `hall-id/bags`. */
  readonly key: string;
  readonly roomId: string | null;
  readonly kind: LineKind;
  readonly name: string;
  readonly unit: LineUnit;
  /** The quantity as text, in the business's units. */
  readonly quantityWords: string;
  readonly costMinor: number;
  /** Cost at the minimum and maximum of the estimate's range. */
  readonly leastCostMinor: number;
  readonly mostCostMinor: number;
  readonly taxId: string | null;
  /** The inputs and the calculation, in words. */
  readonly reason: string;
  readonly source: LineSource;
};

/** A cost without a range. */
export const certainCost = (costMinor: number): Pick<CostLine, 'costMinor' | 'leastCostMinor' | 'mostCostMinor'> => ({
  costMinor,
  leastCostMinor: costMinor,
  mostCostMinor: costMinor,
});

/** A line with its price. */
export type PricedLine = CostLine & {
  /** The calculated values before an override. */
  readonly calculatedCostMinor: number;
  readonly calculatedPriceMinor: number;
  readonly priceMinor: number;
  readonly netMinor: number;
  readonly override: EstimateChoices['overrides'][number] | null;
  readonly leftOut: boolean;
};
