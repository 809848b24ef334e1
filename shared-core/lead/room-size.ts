/** Reads the sizes of rooms in a line about a call: `12x14`, `12'6" by 14'`, `12 6 1/2 x 14-3`, `150 x 168 inches`. */
import { parseLength } from '../measure/length.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { FOOT_SIGN, INCH_SIGN } from './trade-words.ts';

const WHOLE = String.raw`\d+(?:[.,]\d+)?`;
const MIXED = String.raw`\d+(?:\s*-\s*|\s+)\d+/\d+`;
/** Of the fractions of a foot only the half is usual. In `12x14 3/8, tile` the rest is a gap. */
const HALF = String.raw`\d+(?:\s*-\s*|\s+)1/2`;
const TIMES = String.raw`\s*(?:x|×|by)\s*`;
/** Where a number ends for certain: `14 1/2, tile`, but not `14 1/2 out`. */
const END = String.raw`(?=\s*(?:[,;.]|$|\s{2}))`;
/** Inches after the second side. In `12x14 in the back` there are none. */
const INCHES = String.raw`(?:["”″]|inch(?:es)?\b|in\.|in\b(?!\s+[a-z]))`;
const METRIC = String.raw`(?:m|cm)\b`;
/**
 * Feet and inches as called out, `12 6 1/2`. Without a fraction the first number may count or name the room, `bedroom 2 10x12`, and so may one
 * below 3 with it.
 */
const CALLED_OUT = String.raw`(?:[3-9]|\d{2,3})\s+(?:\d|1[01])\s+\d+/\d+`;
const FIRST = [
  String.raw`\d+\s*${FOOT_SIGN}\s*-?\s*(?:(?:${MIXED}|${WHOLE})\s*${INCH_SIGN}?)?`,
  String.raw`(?:${MIXED}|${WHOLE})\s*(?:${INCH_SIGN}|${FOOT_SIGN})`,
  String.raw`\d+-\d+(?:(?:\s+|-)\d+/\d+)?`,
  CALLED_OUT,
  MIXED,
  String.raw`${WHOLE}\s*(?:${METRIC})?`,
].join('|');
const SECOND = [
  String.raw`\d+\s*${FOOT_SIGN}(?:\s*-?\s*(?:${MIXED}|${WHOLE})\s*${INCHES}|-?\d+(?![\d/])|\s*-?\s*(?:${MIXED}|${WHOLE})${END})`,
  // A fraction before the sign may be a gap, `12x14 1/2" low`, unless the first side has the sign too.
  String.raw`(?<=${INCH_SIGN}${TIMES})${MIXED}\s*${INCHES}`,
  String.raw`${WHOLE}\s*${INCHES}`,
  String.raw`(?:\d+-\d+(?:\s+|-)\d+/\d+|${CALLED_OUT}|(?<=\d/\d+${TIMES})${MIXED}|${HALF})${END}`,
  String.raw`(?:${MIXED})\s*${FOOT_SIGN}`,
  String.raw`\d+-\d+`,
  String.raw`${WHOLE}\s*(?:${METRIC}|${FOOT_SIGN})?`,
].join('|');
/** The two sides of a room. `joists 2x10` is none. */
export const SIZE = new RegExp(String.raw`(?<![\w/.]|\bjoists?\s+)(?!2\s?x\s?\d+\s+joists?\b)(${FIRST})${TIMES}(${SECOND})(?![\w/])`, 'i');
/** Tile and plank are sold by inches up to 24 wide: what is no wider is not a room. Common practice, no source. */
const TILE_MOST_M = 0.61;

const ONE_UNIT = new RegExp(String.raw`^[\d.,\s/-]+(${FOOT_SIGN}|${INCH_SIGN}|${METRIC})$`, 'i');
const NO_UNIT = new RegExp(String.raw`^(?:${MIXED}|${WHOLE})$`);
const unitOf = (side: string): string => ONE_UNIT.exec(side)?.[1] ?? '';

/**
 * The sides of a room in meters, null for one that cannot be read. A bare number has the unit of the other side, or else is feet, in metric
 * meters.
 * @param sides the two sides as typed
 * @returns null where the size is that of a tile or a plank
 */
export function readSize(
  sides: readonly [string, string],
  { units, locale }: { readonly units: UnitSystem; readonly locale: string },
): { readonly widthM: number | null; readonly lengthM: number | null } | null {
  const [first, second] = [sides[0].trim(), sides[1].trim()];
  const meters = (side: string, other: string): number | null => {
    const read = parseLength(NO_UNIT.test(side) ? `${side} ${unitOf(other)}` : side, units, 'wall', locale);
    return read.ok && read.value > 0 ? read.value : null;
  };
  const [widthM, lengthM] = [meters(first, second), meters(second, first)];
  const isInches = [first, second].some((side) => /^(?:["”″]|in)/i.test(unitOf(side)));
  return isInches && Math.min(widthM ?? 0, lengthM ?? 0) < TILE_MOST_M ? null : { widthM, lengthM };
}
