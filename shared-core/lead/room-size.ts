/** Reads the sizes of rooms in a line about a call: `12x14`, `12'6" by 14'`, `12 6 1/2 x 14-3`, `150 x 168 inches`. */
import { parseLength } from '../measure/length.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { FOOT_SIGN, INCH_SIGN, LAYER_WORD, OF_DEPTH, ROOM_WORD } from './trade-words.ts';

const WHOLE = String.raw`\d+(?:[.,]\d+)?`;
const MIXED = String.raw`\d+(?:\s*-\s*|\s+)\d+/\d+`;
/** Of the fractions of a foot only the half is usual. In `12x14 3/8, tile` the rest is a gap. */
const HALF = String.raw`\d+(?:\s*-\s*|\s+)1/2`;
const TIMES = String.raw`\s*(?:x|×|by)\s*`;
/** Where a number ends for certain: `14 1/2, tile`, but not `14 1/2 out`. */
const END = String.raw`(?=\s*(?:[,;.]|$|\s{2}))`;
/** Inches after the second side. In `12x14 in the back` there are none. */
const INCHES = String.raw`(?:["”″]|inch(?:es)?\b|in\.|in\b(?!\s+[a-z]))`;
const KIND = String.raw`(?:(?:an?|the|old|new|existing|worn|cracked|loose|asbestos|asphalt|quarry|carpet|composition|cement|walk-in|big|small|sliding|patio|front|back)\s+)*`;
const PIECE_WORD = String.raw`(?:tiles?|porcelain|ceramic|vinyl|vct|lv[pt]|planks?|parquet|stone|marble|slate|travertine|granite|t\s?(?:&|and)\s?g|tongue|boards?|joists?|studs?|sleepers?|subfloor|plywood|ply|osb|sheets?)`;
/** After feet `in` is inches before a floor or the next room, as in `13 ft 6 in vinyl`, but not in `13 ft 6 in the back` or `13 ft 2 in max`. */
const FURTHER_INCHES = String.raw`(?:${INCHES}|in\b(?=\s+(?:(?:bare\s+)?${KIND}${LAYER_WORD}\b|and(?:\s+${ROOM_WORD}\b|\s{2}))))`;
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
  // The first side has its inches, so these are inches too.
  String.raw`(?<=${FOOT_SIGN}[\s\d./-]*${INCH_SIGN}${TIMES})\d+\s*${FOOT_SIGN}\s*-?\s*(?:${MIXED}|${WHOLE})\s*in(?!\s+(?:${OF_DEPTH}|over\b))`,
  String.raw`\d+\s*${FOOT_SIGN}(?:\s*-?\s*(?:${MIXED}|${WHOLE})\s*${FURTHER_INCHES}|-?\d+(?![\d/])|\s*-?\s*(?:${MIXED}|${WHOLE})${END})`,
  // A fraction before the sign may be a gap, `12x14 1/2" low`, unless the first side has the sign too.
  String.raw`(?<=${INCH_SIGN}${TIMES})${MIXED}\s*${INCHES}`,
  String.raw`${WHOLE}\s*${INCHES}`,
  String.raw`(?:\d+-\d+(?:\s+|-)\d+/\d+|${CALLED_OUT}|(?<=\d/\d+${TIMES})${MIXED}|${HALF})${END}`,
  String.raw`(?:${MIXED})\s*${FOOT_SIGN}`,
  String.raw`\d+-\d+`,
  String.raw`${WHOLE}\s*(?:${METRIC}|${FOOT_SIGN})?`,
].join('|');
/** Two sides, as those of a room. `0142` is the end of a phone number. */
export const SIZE = new RegExp(String.raw`(?<![\w/.])(?!0\d{3}(?!\d))(${FIRST})${TIMES}(${SECOND})(?![\w/])`, 'i');

/** Usual sizes of tile, plank and lumber in inches, and of sheets in feet. Common practice, no source. */
const PIECES: ReadonlySet<string> = new Set([
  ...[4, 6, 8, 9, 12, 13, 16, 18, 20, 24, 32, 36, 48].map((side) => `${side}x${side}`),
  ...'3x6 4x8 4x12 6x12 6x24 6x36 6x48 8x36 8x48 9x36 9x48 12x24 12x48 18x36 24x48'.split(' '),
  ...'1x3 1x4 1x6 2x4 2x6 2x8 2x10 2x12'.split(' '),
]);
/** Finds a word right after or right before a size. In `4x20 door 6x7` and `no tub 12x14 kitchen` the word is not of the first size. */
const beside = (word: string) => ({
  after: new RegExp(String.raw`^\s*${KIND}${word}(?!\w|\s+${SIZE.source})`, 'i'),
  before: new RegExp(String.raw`\b${word}\s*(?:(?:is|are)\s+|:\s*)?$`, 'i'),
});
const LARGE = beside(String.raw`large[\s-]format(?:\s+[a-z]+)?`);
const PIECE = beside(PIECE_WORD);
const FIXTURE = beside(
  String.raw`(?:(?:kitchen\s+)?islands?|peninsula|showers?|(?:bath)?tubs?|vanity|doors?|doorway|windows?|slider|hearth|rugs?|cabinets?|counters?)`,
);
const BEFORE_ROOM = new RegExp(String.raw`^\s*${ROOM_WORD}\b`, 'i');
const AFTER_ROOM = new RegExp(String.raw`\b${ROOM_WORD}:?\s+$`, 'i');
/** A small bath, 5 by 8 ft. A size right after the word for a room is the room’s from here on, whatever follows. Common practice, no source. */
const LEAST_ROOM_M2 = 3.71;

/** The words before and after a size. */
type Around = { readonly before: string; readonly after: string };

/** Tile and plank are sold by inches up to 24 wide: what is no wider is not a room. Common practice, no source. */
const TILE_MOST_M = 0.61;

/** Whether a size is that of a tile, a board or a fixture: `12x24 tile`, `2x6 T&G`, `3x5 island`. In `12x14 tile` it is the room’s. */
function isOfPart(isPiece: boolean, [widthM, lengthM]: readonly [number, number], { before, after }: Around): boolean {
  const isOf = (word: ReturnType<typeof beside>): boolean =>
    word.after.test(after) || (word.before.test(before) && !BEFORE_ROOM.test(after));
  if (isOf(LARGE)) return true;
  if (isPiece && isOf(PIECE)) return true;
  return isOf(FIXTURE) && !(AFTER_ROOM.test(before) && widthM * lengthM > LEAST_ROOM_M2);
}

const ONE_UNIT = new RegExp(String.raw`^[\d.,\s/-]+(${FOOT_SIGN}|${INCH_SIGN}|${METRIC})$`, 'i');
const NO_UNIT = new RegExp(String.raw`^(?:${MIXED}|${WHOLE})$`);
const unitOf = (side: string): string => ONE_UNIT.exec(side)?.[1] ?? '';

/**
 * The sides of a room in meters, null for one that cannot be read. A bare number has the unit of the other side, or else is feet, in metric
 * meters.
 * @param sides the two sides as typed
 * @param around the words before and after them
 * @returns null where the size is that of a tile, a plank or a fixture
 */
export function readSize(
  sides: readonly [string, string],
  { units, locale }: { readonly units: UnitSystem; readonly locale: string },
  around: Around,
): { readonly widthM: number | null; readonly lengthM: number | null } | null {
  const [first, second] = [sides[0].trim(), sides[1].trim()];
  const meters = (side: string, other: string): number | null => {
    const read = parseLength(NO_UNIT.test(side) ? `${side} ${unitOf(other)}` : side, units, 'wall', locale);
    return read.ok && read.value > 0 ? read.value : null;
  };
  const [widthM, lengthM] = [meters(first, second), meters(second, first)];
  const isPiece = units === 'us' && [`${first}x${second}`, `${second}x${first}`].some((size) => PIECES.has(size));
  if (isOfPart(isPiece, [widthM ?? 0, lengthM ?? 0], around)) return null;
  const isInches = [first, second].some((side) => /^(?:["”″]|in)/i.test(unitOf(side)));
  return isInches && Math.min(widthM ?? 0, lengthM ?? 0) < TILE_MOST_M ? null : { widthM, lengthM };
}
