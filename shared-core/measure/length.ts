/** Parses lengths read from a tape or a rod, with exact conversion. */
import { parseMixedNumber, plainFractions } from './fraction.ts';
import { typedLength } from './length-format.ts';
import { FOOT_M, INCH_M } from './length-units.ts';
import type { Parsed } from './parsed.ts';
import { withoutRestated } from './quantity.ts';
import { typingLocale, type UnitSystem } from './unit-system.ts';

/**
 * `wall` is a wall, the side of a room, or a place in it, `length` another distance, `depth` a thickness, a reading, or a
 * step. They differ in the unit of a bare number (US: feet for a wall, otherwise inches) and in the maximum accepted.
 */
export type LengthKind = 'wall' | 'length' | 'depth';

/** Longest wall or distance accepted for a room; a longer one is a typing error. Common practice. */
export const LENGTH_MOST_M = 300;
/** Largest depth, thickness, or rod reading accepted; a leveling rod is at most 5 m long. Common practice. */
export const DEPTH_MOST_M = 5;

/** Units per meter: dividing by this gives the double nearest to the entered value, multiplying by 0.001 does not. */
const METRIC_UNITS: ReadonlyMap<string, number> = new Map([
  ['mm', 1000],
  ['cm', 100],
  ['dm', 10],
  ['m', 1],
]);

function refuse(typed: string, why: string): { readonly ok: false; readonly message: string } {
  return { ok: false, message: `“${typed}”: ${why}` };
}

/** Converts spelled-out and typographic unit signs to `'`, `"`, `mm`, `cm`, `m`. */
function plainUnits(text: string): string {
  return plainFractions(
    text
      .replace(/[′’‘´`]/g, "'")
      .replace(/[″”“]|''/g, '"')
      .replace(/[\u2212\u2013\u2014]/g, '-')
      .replace(/[\u00a0\u202f\u2009]/g, ' '),
  )
    .toLowerCase()
    .replace(/(?<![a-z])(?:lf|(?:lin(?:\.|eal|ear)?\s+)?(?:feet|foot|ft))\.?(?![a-z])/g, "'")
    .replace(/(?<![a-z])(inches|inch|in)\.?(?![a-z])/g, '"')
    .replace(/(?<![a-z])(millimet(?:er|re)s?)(?![a-z])/g, 'mm')
    .replace(/(?<![a-z])(centimet(?:er|re)s?)(?![a-z])/g, 'cm')
    .replace(/(?<![a-z])(met(?:er|re)s?)(?![a-z])/g, 'm')
    .trim();
}

function feetAndInches(typed: string, feetText: string, inchText: string, locale: string | undefined): Parsed<number> {
  const feet = parseMixedNumber(feetText, locale);
  if (!feet.ok) return refuse(typed, 'the feet are not a number. Enter it like 12\' 4 1/2".');
  if (inchText === '') return { ok: true, value: feet.value * FOOT_M };
  const inches = parseMixedNumber(inchText, locale);
  if (!inches.ok)
    return inches.message.includes('zero') ? inches : refuse(typed, 'the inches are not a number. Enter it like 12\' 4 1/2".');
  if (!Number.isInteger(feet.value)) return refuse(typed, 'feet with a fraction take no inches. Enter it like 12\' 4 1/2".');
  const together = feet.value * FOOT_M + inches.value * INCH_M;
  if (inches.value >= 12) return refuse(typed, `inches go up to 11. Did you mean ${typedLength(together, 'us')}?`);
  return { ok: true, value: together };
}

function metricTerms(typed: string, plain: string, locale: string | undefined): Parsed<number> {
  let sum = 0;
  let lastPerMeter = 0;
  let read = 0;
  for (const term of plain.matchAll(/([^a-z]*)([a-z]+)/g)) {
    const perMeter = METRIC_UNITS.get(term[2] ?? '');
    if (perMeter === undefined) return refuse(typed, `“${term[2]}” is not a unit of length here. Use m, cm, mm, ft or in.`);
    if (perMeter <= lastPerMeter) return refuse(typed, 'enter the larger unit first. Enter it like 3.76 m.');
    const value = parseMixedNumber(term[1] ?? '', locale);
    if (!value.ok) return value;
    sum += value.value / perMeter;
    lastPerMeter = perMeter;
    read += term[0].length;
  }
  if (read < plain.length) return refuse(typed, 'the last number has no unit. Enter it like 3.76 m or 376 cm.');
  return { ok: true, value: sum };
}

function unsigned(typed: string, plain: string, units: UnitSystem, kind: LengthKind, locale: string | undefined): Parsed<number> {
  const imperial = /['"]/.test(plain);
  if (!/\d/.test(plain)) return refuse(typed, 'enter a number, such as 12\' 4 1/2" or 3.76 m.');
  if (imperial && /[a-z]/.test(plain)) return refuse(typed, 'this mixes feet or inches with another unit. Use one of them.');
  if (imperial) {
    const both = /^([^'"]*)'\s*-?\s*([^'"]*?)\s*"?$/.exec(plain);
    if (both !== null) return feetAndInches(typed, both[1] ?? '', both[2] ?? '', locale);
    const inches = /^([^'"]*)"$/.exec(plain);
    if (inches === null) return refuse(typed, 'enter feet first, then inches. Enter it like 12\' 4 1/2".');
    const value = parseMixedNumber(inches[1] ?? '', locale);
    return value.ok ? { ok: true, value: value.value * INCH_M } : value;
  }
  if (/[a-z]/.test(plain)) return metricTerms(typed, plain, locale);
  const dashed = /^(\d+)\s*-\s*(\d+(?:[.,]\d+)?(?:\s*-?\s+\d+\/\d+|-\d+\/\d+)?)$/.exec(plain);
  if (dashed !== null) {
    if (units === 'metric') return refuse(typed, 'two numbers with a hyphen are feet and inches. Enter meters, such as 3.76 m.');
    return feetAndInches(typed, dashed[1] ?? '', dashed[2] ?? '', locale);
  }
  // 14 0, 14 6, 14 6 1/2: feet and inches as called out on site.
  const calledOut = units === 'us' && kind === 'wall' ? /^(\d+)\s+(\d+(?:[.,]\d+)?(?:\s+\d+\/\d+)?)$/.exec(plain) : null;
  if (calledOut !== null) return feetAndInches(typed, calledOut[1] ?? '', calledOut[2] ?? '', locale);
  const value = parseMixedNumber(plain, locale);
  if (!value.ok) return value;
  if (units === 'us') return { ok: true, value: value.value * (kind === 'wall' ? FOOT_M : INCH_M) };
  return { ok: true, value: kind === 'depth' ? value.value / 1000 : value.value };
}

function withinReason(typed: string, valueM: number, units: UnitSystem, kind: LengthKind): Parsed<number> {
  const most = kind === 'depth' ? DEPTH_MOST_M : LENGTH_MOST_M;
  if (Math.abs(valueM) <= most) return { ok: true, value: valueM };
  const limit = units === 'us' ? `${Math.floor(most / FOOT_M)}'` : `${most} m`;
  const bareNumber = /^[\d.,\s]+$/.test(typed);
  const hint = bareNumber && units === 'metric' && kind !== 'depth' ? ` A number alone is meters. For centimeters enter ${typed} cm.` : '';
  return refuse(typed, `the maximum is ${limit}.${hint}`);
}

/**
 * Parses a length with a direction, such as a height above or below a mark: a sign before it, or `up` or `down` after it.
 * @param units sets the unit of a bare number, as in `parseLength`
 * @param kind the kind of length
 * @param locale BCP 47 tag that sets the decimal sign; without it, either sign is accepted
 */
export function parseSignedLength(text: string, units: UnitSystem, kind: LengthKind, locale?: string): Parsed<number> {
  const typed = text.trim();
  const match = /^([+-]?)\s*(.*?)\s*(up|down)?$/.exec(plainUnits(withoutRestated(text)));
  const body = match?.[2] ?? '';
  if (body === '') return { ok: false, message: units === 'us' ? 'Enter a length, such as 1 3/8".' : 'Enter a length, such as 35 mm.' };
  const value = unsigned(typed, body, units, kind, typingLocale(units, locale));
  if (!value.ok) return value;
  const isDown = (match?.[1] === '-') !== (match?.[3] === 'down');
  return withinReason(typed, isDown && value.value !== 0 ? -value.value : value.value, units, kind);
}

/**
 * Parses a length in meters: `12' 4 1/2"`, `12'4½"`, `12-4 1/2`, `12 ft 4 in`, `3/8`, `3.76 m`, `376 cm`, `3 m 76 cm`, `3,76
 * m`.
 *
 * A bare number in US units is feet for a wall, inches otherwise; for a wall `14 6` is 14 ft 6 in. In metric it is meters,
 * for a depth millimeters.
 * Zero is accepted; a negative length is refused.
 * @param units sets the unit of a bare number
 * @param kind a wall, another length, or a depth, thickness, or reading
 * @param locale BCP 47 tag that sets the decimal sign; without it, either sign is accepted
 */
export function parseLength(text: string, units: UnitSystem, kind: LengthKind, locale?: string): Parsed<number> {
  const value = parseSignedLength(text, units, kind, locale);
  if (value.ok && value.value < 0) return refuse(text.trim(), 'this cannot be less than zero.');
  return value;
}
