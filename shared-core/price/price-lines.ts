/** From cost lines to prices: overrides, markup or margin, rounding by line or once over all. */
import type { Pricing } from '../book/business.ts';
import type { EstimateChoices } from '../book/job.ts';
import { apportion } from './apportion.ts';
import { roundHalfUp, sumExact, type Exact } from './exact.ts';
import { certainCost, type CostLine, type PricedLine } from './line.ts';
import { priceOf } from './markup.ts';

type Overrides = EstimateChoices['overrides'];

/** Costs after overrides. */
export function withOverrides(lines: readonly CostLine[], overrides: Overrides): CostLine[] {
  const byKey = new Map(overrides.map((override) => [override.lineKey, override]));
  return lines.map((line) => {
    const override = byKey.get(line.key);
    if (override === undefined) return line;
    const costMinor = override.leftOut ? 0 : (override.costMinor ?? line.costMinor);
    const isChanged = override.leftOut || override.costMinor !== null;
    return isChanged ? { ...line, ...certainCost(costMinor) } : line;
  });
}

/**
 * Prices the lines. Each price is rounded; where the setting is `total`, the exact prices are added, rounded once and shared
 * out again, so that the lines still add to what is asked.
 * @param calculated lines as calculated, before any override
 * @param overrides entered prices are used unchanged @param factor cost to price @param rounding the business's setting
 */
export function priceLines(
  calculated: readonly CostLine[],
  overrides: Overrides,
  factor: Exact,
  rounding: Pricing['rounding'],
): PricedLine[] {
  const byKey = new Map(overrides.map((override) => [override.lineKey, override]));
  const lines = withOverrides(calculated, overrides);
  const calculatedPrices = rounded(calculated, factor, rounding);
  const fixed = lines.map((line) => {
    const override = byKey.get(line.key);
    if (override === undefined) return null;
    return override.leftOut ? 0 : override.priceMinor;
  });
  const free = lines.filter((_, index) => fixed[index] === null || fixed[index] === undefined);
  const freePrices = rounded(free, factor, rounding);
  let next = 0;
  return lines.map((line, index) => {
    const priceMinor = fixed[index] ?? freePrices[next++] ?? 0;
    const before = calculated[index];
    const override = byKey.get(line.key) ?? null;
    return {
      ...line,
      calculatedCostMinor: before?.costMinor ?? line.costMinor,
      calculatedPriceMinor: calculatedPrices[index] ?? 0,
      priceMinor,
      netMinor: priceMinor,
      override,
      leftOut: override?.leftOut ?? false,
    };
  });
}

function rounded(lines: readonly CostLine[], factor: Exact, rounding: Pricing['rounding']): number[] {
  const prices = lines.map((line) => priceOf(line.costMinor, factor));
  return rounding === 'total' ? apportion(roundHalfUp(sumExact(prices)), prices) : prices.map(roundHalfUp);
}
