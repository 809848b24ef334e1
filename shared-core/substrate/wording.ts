/** Formats figures for findings and the checklist in the business's units, with the formats of `measure`. */
import type { UnitSystem } from '../book/business.ts';
import { formatArea } from '../measure/area.ts';
import { formatDepth, formatInches, formatLength } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatLoad, formatStrength } from '../measure/pressure.ts';
import { formatTemperature, formatTemperatureDifference } from '../measure/temperature.ts';
import { LB_FT2_KG_M2 } from '../measure/mass.ts';
import { emissionGM2Day } from './measured-tests.ts';

/** A formatter for each kind of figure. */
export type Wording = {
  readonly units: UnitSystem;
  readonly area: (areaM2: number) => string;
  readonly length: (lengthM: number) => string;
  readonly depth: (depthM: number) => string;
  /** A depth less than another one, also where both round to the same: `just under 3/8 in.` */
  readonly depthUnder: (depthM: number, wantedM: number) => string;
  /** A depth greater than another one, also where both round to the same: `just over 1/4 in.` */
  readonly depthOver: (depthM: number, mostM: number) => string;
  /** A length that the trade gives in inches: `6 in.`, `150 mm`. */
  readonly inches: (inches: number) => string;
  readonly temp: (tempC: number) => string;
  /** With one decimal, since a whole degree would hide a near miss. */
  readonly closeTemp: (tempC: number) => string;
  readonly tempGap: (differenceK: number) => string;
  /** A share as a percentage, with a decimal only if needed. */
  readonly share: (share: number) => string;
  readonly load: (loadPa: number) => string;
  readonly strength: (strengthPa: number) => string;
  readonly emission: (lb: number) => string;
  readonly evaporation: (kgM2H: number) => string;
  readonly number: (value: number, decimals?: number) => string;
};

/** The wording of one business. @param locale BCP 47 tag, for the decimal sign */
export function wordingFor(units: UnitSystem, locale: string): Wording {
  const us = units === 'us';
  const beside =
    (side: 'under' | 'over') =>
    (depthM: number, otherM: number): string => {
      const [words, other] = [formatDepth(depthM, units, locale), formatDepth(otherM, units, locale)];
      return words === other ? `just ${side} ${other}` : words;
    };
  return {
    units,
    area: (areaM2) => formatArea(areaM2, units, locale),
    length: (lengthM) => formatLength(lengthM, units, locale),
    depth: (depthM) => formatDepth(depthM, units, locale),
    depthUnder: beside('under'),
    depthOver: beside('over'),
    inches: (inches) => formatInches(inches, units),
    temp: (tempC) => formatTemperature(tempC, units, locale),
    closeTemp: (tempC) => formatTemperature(tempC, units, locale, 1),
    tempGap: (differenceK) => formatTemperatureDifference(differenceK, units, locale),
    share: (share) => formatPercent(share, Number.isInteger(Math.round(share * 1000) / 10) ? 0 : 1, locale),
    load: (loadPa) => formatLoad(loadPa, units, locale),
    strength: (strengthPa) => formatStrength(strengthPa, units, locale),
    emission: (lb) =>
      us
        ? `${formatNumber(lb, { most: 2 }, locale)} lb/1,000 sq ft/24 h`
        : `${formatNumber(emissionGM2Day(lb), { most: 1 }, locale)} g/m²/24 h`,
    evaporation: (kgM2H) =>
      us ? `${formatNumber(kgM2H / LB_FT2_KG_M2, { most: 2 }, locale)} lb/sq ft/h` : `${formatNumber(kgM2H, { most: 2 }, locale)} kg/m²/h`,
    number: (value, decimals = 0) => formatNumber(value, { most: decimals }, locale),
  };
}
