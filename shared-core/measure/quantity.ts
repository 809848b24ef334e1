/** Parses one quantity with its unit: the shared parser of area, volume, mass, and the rest. */
import { parseMixedNumber } from './fraction.ts';
import { formatNumber } from './number.ts';
import type { Parsed } from './parsed.ts';
import { typingLocale, type UnitSystem } from './unit-system.ts';

/** How to parse one kind of quantity. */
type QuantityReading = {
  /** Name with its article, for sentences: `an area`. */
  readonly what: string;
  /** Every accepted spelling, in lower case with single spaces and plain digits, and its size in SI. */
  readonly units: ReadonlyMap<string, number>;
  /** Maximum accepted, SI. */
  readonly most: number;
  /** Which value of a range to enter where one is needed, and why; any one without it. */
  readonly ofRange?: string;
} & Readonly<Record<UnitSystem, Bare>>;
/** SI size of a bare number, and an example for the error message: `148 sq ft`. */
type Bare = { readonly bare: number; readonly example: string };

/** Builds the map of spellings from rows of a size and its spellings. */
export function spellings(rows: readonly (readonly [size: number, ...names: string[]])[]): ReadonlyMap<string, number> {
  return new Map(rows.flatMap(([size, ...names]) => names.map((name): [string, number] => [name, size])));
}

/** What stands in brackets behind a unit, with a figure and a unit of its own. */
const RESTATED = /(?<=[a-z][23]?\.?|[°º'"′″’”%#²³])(?<!\d\s*(?:up|down))\s*\((?=[^()]*\d)(?=[^()]*[a-z°º'"′″’”%#])([^()]*)\)/gi;

/** Words of a figure in other units, or of how it was measured. `min` is none: it is also a minimum. */
const RESTATING = new Set(
  `about approx at by or per to x astm bag
  in inch inches ft foot feet lf yd yard yards mil mils mm cm dm m km meter meters metre metres µm micron microns sq square sqft sf
  cu cubic cuft cf gal gals gallon gallons qt qts quart quarts pt pint pints fl l liter liters litre litres ml
  oz ounce ounces lb lbs pound pounds g gram grams kg kgs ton tons t tonne tonnes psi psf pcf n kn pa kpa mpa
  f c fahrenheit celsius deg degree degrees rh pct percent h hr hrs hour hours mins minute minutes s sec second seconds
  d day days wk wks week weeks mo mos month months yr yrs year years mph`.split(/\s+/),
);

/**
 * A text without the same figure in other units, in brackets behind its unit: `50 lb (22.7 kg)`, `50°F (10°C) to 90°F (32°C)`. Brackets
 * behind a number without a unit stay, and so do those with other words, such as `(2 coats)`.
 */
export const withoutRestated = (text: string): string =>
  text
    .replace(RESTATED, (whole, said: string) =>
      (said.match(/[a-zµ]+/gi) ?? []).every((word) => RESTATING.has(word.toLowerCase())) ? '' : whole,
    )
    .trim();

/** The units and words in a text, without its figures: `'` and `"` of `4' 6"`; none of a bare number. */
export const unitsIn = (text: string): readonly string[] => text.match(/[^\d.,\s/⁄½¼¾⅛⅜⅝⅞⅓⅔⁰¹⁴-⁹₀-₉+\-\u2212–—]+/g) ?? [];

/** Two figures with a hyphen, a dash or `to` between them, each perhaps with a unit. */
const RANGE = /\d[^\d\-–—]*(?:-|–|—|\bto\b)\s*\.?\d/i;

/** Normalizes a unit to lower case, plain digits, no periods, single spaces. */
export function plainUnit(text: string): string {
  return text
    .toLowerCase()
    .replaceAll('²', '2')
    .replaceAll('³', '3')
    .replaceAll('.', '')
    .replace(/[\s\u00a0\u202f]+/g, ' ')
    .replace(/ ?\/ ?| per /g, '/')
    .replace('square ', 'sq ')
    .replace('cubic ', 'cu ')
    .trim();
}

/**
 * A parser of a quantity with an optional unit, zero or more, in SI. It takes the entered text, the business's units for a bare number,
 * and a BCP 47 tag that sets the decimal sign.
 */
export const quantityParser =
  (reading: QuantityReading) =>
  (text: string, units: UnitSystem, locale?: string): Parsed<number> =>
    parseQuantity(text, { ...reading, ...reading[units] }, typingLocale(units, locale));

function parseQuantity(text: string, reading: Omit<QuantityReading, UnitSystem> & Bare, locale?: string): Parsed<number> {
  const typed = text.trim();
  if (typed === '') return { ok: false, message: `Enter ${reading.what}, such as ${reading.example}.` };
  const match =
    /^([+\-\u2212]?)\s*((?:[\d.,\s\u00a0\u202f/⁄½¼¾⅛⅜⅝⅞⅓⅔⁰¹⁴-⁹₀-₉]|(?<=\d\s*)-(?=\s*\d))*?)\s*([^\d\s.,/⁄+\-\u2212½¼¾⅛⅜⅝⅞⅓⅔⁰¹⁴-⁹₀-₉].*)?$/.exec(
      withoutRestated(typed),
    );
  const figure = match?.[2] ?? '';
  if (match === null || !/[\d½¼¾⅛⅜⅝⅞⅓⅔]/.test(figure)) {
    return { ok: false, message: `“${typed}”: this is not ${reading.what}. Enter it like ${reading.example}.` };
  }
  if (match[1] !== '' && match[1] !== '+') return { ok: false, message: `“${typed}”: this cannot be less than zero.` };
  const number = parseMixedNumber(figure, locale);
  const unit = match[3] ?? '';
  const size = unit === '' ? reading.bare : reading.units.get(plainUnit(unit));
  if ((!number.ok || (size === undefined && /\d/.test(unit))) && RANGE.test(typed))
    return { ok: false, message: `“${typed}”: this is a range. ${reading.ofRange ?? 'Enter one value'}, such as ${reading.example}.` };
  if (size === undefined) {
    return {
      ok: false,
      message: `“${typed}”: “${unit}” is not a unit of ${reading.what.replace(/^an? /, '')} here. Enter it like ${reading.example}.`,
    };
  }
  if (!number.ok) return number;
  const value = number.value * size;
  if (value > reading.most) return { ok: false, message: `“${typed}”: this is too large. Check the unit, as in ${reading.example}.` };
  return { ok: true, value };
}

/** Formats a value in its unit with fewer decimals as it grows: two below 1, one below 10, none above. */
export function formatScaled(value: number, unit: string, locale?: string): string {
  const size = Math.abs(value);
  return `${formatNumber(value, { most: size < 1 ? 2 : size < 10 ? 1 : 0 }, locale)} ${unit}`;
}
