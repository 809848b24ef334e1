/**
 * A price range before any measurement, from a floor area and either a guessed depth or the worst gap seen under a level
 * held level. It does not replace a survey; the range is wide on purpose.
 */
import type { BallparkGuess } from '../book/ballpark-guess.ts';
import type { Range } from '../book/fields.ts';
import type { Parsed } from '../measure/parsed.ts';

/**
 * The result of a ballpark. Depths in meters, volumes in cubic meters. Each range is about 80% likely to include the true
 * value.
 */
export type Ballpark = {
  /** Pour depth averaged over the floor. */
  readonly averageDepthM: Range;
  /** Likely deepest point of the pour. */
  readonly deepestM: number;
  /** Volume in place, without waste. */
  readonly volumeM3: Range;
};

/** The terms that turn a volume into bags. */
export type BallparkTerms = {
  /** Minimum thickness over the highest point, meters. */
  readonly minimumThicknessM: number;
  /** Waste factor as a share of the volume. */
  readonly wasteShare: number;
  /** Mixed volume per bag, cubic meters; null when no data sheet is chosen. */
  readonly yieldM3: number | null;
};

/**
 * A floor's average depth below its highest point, as a share of high to low; and how high to low grows from the worst gap
 * with the length of the room in level lengths: no growth where the level spanned the whole dip, proportional on a slope.
 * Common practice, no source: chosen so that the range covers 80% to 95% of the simulated floors in
 * `test/shared-core/survey/ballpark.test.ts`.
 */
const AVERAGE_OF_HIGH_TO_LOW = { least: 0.4, likely: 0.5, most: 0.6 } as const;
const GROWS_WITH_LENGTH = { least: 0.1, likely: 0.4, most: 0.7 } as const;

/**
 * Calculates a wide range of depth, volume, and bags from an area and a guess.
 * @param areaM2 floor area, square meters
 * @param basis a range of average pour depth, or the worst gap under a level of known length, held level
 * @returns the ballpark, or a sentence that says what to enter
 */
export function ballpark(areaM2: number, basis: BallparkGuess, terms: BallparkTerms): Parsed<Ballpark> {
  if (!(areaM2 > 0) || !Number.isFinite(areaM2)) return { ok: false, message: 'Enter the length and width of the room.' };
  const wrong = wrongWith(basis, terms);
  if (wrong !== null) return { ok: false, message: wrong };
  const depth = basis.kind === 'depth' ? fromDepths(basis) : fromGap(basis, areaM2, terms.minimumThicknessM);
  return { ok: true, value: { ...depth, volumeM3: scaled(depth.averageDepthM, areaM2) } };
}

type Depths = Pick<Ballpark, 'averageDepthM' | 'deepestM'>;

function fromDepths({ leastM, mostM }: Extract<BallparkGuess, { kind: 'depth' }>): Depths {
  return { averageDepthM: { least: leastM, likely: (leastM + mostM) / 2, most: mostM }, deepestM: mostM };
}

function fromGap({ gapM, levelLengthM }: Extract<BallparkGuess, { kind: 'gap' }>, areaM2: number, minimumM: number): Depths {
  // The diagonal of a square room of this area is the longest run a slope can have.
  const lengths = Math.max(1, Math.sqrt(2 * areaM2) / levelLengthM);
  const highToLowM = (which: keyof Range): number => gapM * lengths ** GROWS_WITH_LENGTH[which];
  const averageM = (which: keyof Range): number => minimumM + AVERAGE_OF_HIGH_TO_LOW[which] * highToLowM(which);
  return {
    averageDepthM: { least: averageM('least'), likely: averageM('likely'), most: averageM('most') },
    deepestM: minimumM + highToLowM('likely'),
  };
}

const scaled = ({ least, likely, most }: Range, by: number): Range => ({ least: least * by, likely: likely * by, most: most * by });

/** A depth or gap beyond this is a typing error, meters (common practice, no source). */
const DEEPEST_GUESS_M = 0.3;

function wrongWith(basis: BallparkGuess, { minimumThicknessM, wasteShare, yieldM3 }: BallparkTerms): string | null {
  if (yieldM3 !== null && !(yieldM3 > 0)) return 'Enter the yield of one bag on the data sheet.';
  if (!(wasteShare >= 0 && wasteShare <= 1)) return 'Enter a waste factor from 0% to 100%.';
  if (!(minimumThicknessM >= 0)) return 'Enter a minimum thickness of 0 or more.';
  if (basis.kind === 'depth') {
    if (!(basis.leastM > 0 && basis.mostM > 0)) return 'Enter an average pour depth greater than 0.';
    if (basis.leastM > basis.mostM) return 'Enter the smaller depth first.';
    return basis.mostM > DEEPEST_GUESS_M ? 'Enter an average pour depth under 12 in. (300 mm).' : null;
  }
  if (!(basis.gapM > 0)) return 'Enter a gap greater than 0.';
  if (basis.gapM > DEEPEST_GUESS_M) return 'Enter a gap under 12 in. (300 mm).';
  return basis.levelLengthM >= 0.3 && basis.levelLengthM <= 6 ? null : 'Enter the length of the level, from 1 to 20 ft (0.3 to 6 m).';
}
