/** Material price per unit area against common prices, to catch typos by a factor of ten. */
import { SQUARE_FOOT_M2 } from '../measure/area.ts';
import { INCH_M } from '../measure/length-units.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { exact, over, roundHalfUp, times } from './exact.ts';
import { formatMoney } from './money.ts';

/** Material alone at 3/8 in, US cents per square foot. Common practice, no source. */
export const COMMON_MATERIAL = { currency: 'USD', thicknessM: 0.375 * INCH_M, leastMinor: 200, mostMinor: 300 } as const;
/** Beyond this factor outside the band a figure is likely a typo. */
const SLIP_FACTOR = 3;

/** A price per unit area. */
export type PerArea = {
  readonly verdict: 'usual' | 'below' | 'above' | 'slip' | 'no-band';
  readonly message: string;
};

/** Everything before tax, what the bags alone cost, the area, and the mean depth: null when the fill is not known. */
export type PricedArea = {
  readonly priceMinor: number;
  readonly materialCostMinor: number;
  readonly areaM2: number;
  readonly meanDepthM: number | null;
};

/**
 * The price per unit area, and the material's price against common practice. @param priceMinor total before tax @param
 * materialCostMinor cost of the bags
 * @param meanDepthM null when the fill is not known
 */
export function pricePerArea(
  { priceMinor, materialCostMinor, areaM2, meanDepthM }: PricedArea,
  currency: string,
  units: UnitSystem,
  locale?: string,
): PerArea | null {
  if (!(areaM2 > 0)) return null;
  const unit = units === 'us' ? exact(SQUARE_FOOT_M2) : exact(1);
  const minor = roundHalfUp(over(times(exact(priceMinor), unit), exact(areaM2)));
  const unitName = units === 'us' ? 'per sq ft' : 'per m²';
  const plain = `${formatMoney(minor, currency, locale)} ${unitName} in total.`;
  if (currency !== COMMON_MATERIAL.currency || meanDepthM === null || !(meanDepthM > 0) || materialCostMinor === 0) {
    return { verdict: 'no-band', message: plain };
  }
  const a = times(times(exact(materialCostMinor), exact(SQUARE_FOOT_M2)), exact(COMMON_MATERIAL.thicknessM));
  const common = roundHalfUp(over(a, times(exact(areaM2), exact(meanDepthM))));
  const verdict = verdictOf(common);
  const text = `${formatMoney(common, currency, locale)} per sq ft for material at ⅜ in. Common practice is ${formatMoney(COMMON_MATERIAL.leastMinor, currency, locale, 'whole')} to ${formatMoney(COMMON_MATERIAL.mostMinor, currency, locale, 'whole')}`;
  const tail = verdict === 'slip' ? '. Check for a typo in the bag price, the yield and the room sizes.' : '.';
  return { verdict, message: `${plain} ${text}${tail}` };
}

function verdictOf(common: number): PerArea['verdict'] {
  if (common > COMMON_MATERIAL.mostMinor * SLIP_FACTOR || common * SLIP_FACTOR < COMMON_MATERIAL.leastMinor) return 'slip';
  if (common < COMMON_MATERIAL.leastMinor) return 'below';
  return common > COMMON_MATERIAL.mostMinor ? 'above' : 'usual';
}
