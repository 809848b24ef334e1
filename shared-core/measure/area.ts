/** Areas: square feet or square meters. */
import { FOOT_M, INCH_M, YARD_M } from './length-units.ts';
import { formatNumber } from './number.ts';
import { parseLength } from './length.ts';
import type { Parsed } from './parsed.ts';
import { quantityParser, spellings, unitsIn, withoutRestated } from './quantity.ts';
import type { UnitSystem } from './unit-system.ts';

/** One square foot, square meters, exactly. NIST SP 811, appendix B.8. */
export const SQUARE_FOOT_M2 = FOOT_M ** 2;

const UNITS = spellings([
  [SQUARE_FOOT_M2, 'sq ft', 'sqft', 'sf', 'ft2', 'sq feet', 'sq foot'],
  [INCH_M ** 2, 'sq in', 'in2', 'sq inches', 'sq inch'],
  [YARD_M ** 2, 'sq yd', 'yd2', 'sq yards', 'sq yard'],
  // British spellings are accepted too, because people enter them.
  [1, 'm2', 'sq m', 'sqm', 'sq meters', 'sq metres', 'sq meter', 'sq metre'],
  [1e-4, 'cm2', 'sq cm'],
]);

const areaIn = quantityParser({
  what: 'an area',
  units: UNITS,
  us: { bare: SQUARE_FOOT_M2, example: '148 sq ft' },
  metric: { bare: 1, example: '13.7 m²' },
  most: 1e5,
});

/** Two sides of a sheet or a roll. */
const SIDES = /^([^x×]*\d[^x×]*?)\s*(?:x|×|\bby\b)\s*([^x×]*\d[^x×]*)$/i;

/**
 * The text of the first side with its unit, and the units by which the second is read. Of two bare sides both are feet or meters. The
 * first takes the unit of the second, and the second is in the feet or meters of the first. Null where a side can be in another unit:
 * rolls are sold in inches by feet (common practice, no source).
 */
function sidesInUnits(first: string, second: string, units: UnitSystem): readonly [first: string, secondIn: UnitSystem] | null {
  const [before, behind] = [unitsIn(first), unitsIn(second)];
  if ((before.length === 0) === (behind.length === 0)) return [first, units];
  const one = parseLength(`1 ${before[0] ?? behind[0]}`, units, 'wall');
  const isFeet = one.ok && one.value === FOOT_M;
  if (before.length === 0) return isFeet || behind.length > 1 ? null : [`${first} ${behind[0]}`, units];
  if (isFeet) return [first, 'us'];
  return one.ok && one.value === 1 ? [first, 'metric'] : null;
}

/**
 * Parses an area in square meters, or two sides: `38" x 150'`. A bare number is square feet or square meters by the units. One side
 * without a unit is refused where the unit of the other does not tell it.
 */
export function parseArea(text: string, units: UnitSystem, locale?: string): Parsed<number> {
  const [, first, second] = SIDES.exec(withoutRestated(text)) ?? [];
  if (first === undefined || second === undefined) return areaIn(text, units, locale);
  const sides = sidesInUnits(first, second, units);
  if (sides === null) {
    const example = units === 'us' ? `38" x 150'` : '100 cm x 50 m';
    return { ok: false, message: `“${text.trim()}”: only one side has a unit. Enter both units, such as ${example}.` };
  }
  const [width, length] = [parseLength(sides[0], units, 'wall', locale), parseLength(second, sides[1], 'wall', locale)];
  if (!width.ok) return width;
  return length.ok ? { ok: true, value: width.value * length.value } : length;
}

const CENTIMETER2_M2 = 1e-4;

/**
 * Formats an area: whole square feet (one decimal below 10, square inches below 1) or square meters to one decimal (two
 * below 10, square centimeters below 0.1).
 */
export function formatArea(areaM2: number, units: UnitSystem, locale?: string): string {
  const small = (value: number): string => formatNumber(value, { most: Math.abs(value) < 10 ? 1 : 0 }, locale);
  if (units === 'metric') {
    if (areaM2 > 0 && areaM2 < 0.1) return `${small(areaM2 / CENTIMETER2_M2)} cm²`;
    return `${formatNumber(areaM2, { most: Math.abs(areaM2) < 10 ? 2 : 1 }, locale)} m²`;
  }
  const squareFeet = areaM2 / SQUARE_FOOT_M2;
  if (squareFeet > 0 && squareFeet < 1) return `${small(areaM2 / INCH_M ** 2)} sq in`;
  return `${formatNumber(squareFeet, { most: Math.abs(squareFeet) < 10 ? 1 : 0 }, locale)} sq ft`;
}
