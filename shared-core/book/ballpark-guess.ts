/** The guess about a floor before it is measured: a range of depth, or the largest gap under a level. */
import { z } from 'zod';
import { positive } from './fields.ts';

export const ballparkGuessSchema = z.discriminatedUnion('kind', [
  /** Average pour depth from the shallowest to the deepest guess, meters. */
  z.strictObject({ kind: z.literal('depth'), leastM: positive, mostM: positive }),
  /** Worst gap under a level of this length with its bubble centered, meters. */
  z.strictObject({ kind: z.literal('gap'), gapM: positive, levelLengthM: positive }),
]);
export type BallparkGuess = z.infer<typeof ballparkGuessSchema>;
