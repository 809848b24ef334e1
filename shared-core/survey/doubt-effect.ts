/** The effect of a doubtful reading on the pour: the lowest finish elevation and the volume with it and without it. */
import type { FloorRead } from './read-floor.ts';
import type { ReadingProblem } from './reading-problems.ts';
import { mosaicOf } from './mosaic.ts';
import { reliefFrom } from './relief.ts';
import { surfaceOver } from './surface.ts';

/** Increase of the finish elevation and the volume caused by the readings: meters, cubic meters. */
export type DoubtEffect = { readonly levelM: number; readonly volumeM3: number };

/** Smallest change worth a question: 1/32 in. of elevation, or a share of the volume. */
const LEAST_LEVEL_M = 0.0254 / 32;
const LEAST_SHARE = 0.02;

/** Doubts about a value, which the user settles by confirming or deleting the reading. */
export const isDoubt = ({ kind }: ReadingProblem): boolean => kind === 'departs' || kind === 'two-heights';

/**
 * The effect of readings on a level pour at the minimum thickness over the highest point.
 * @returns null where the other readings span no area, or the change is too small to ask about
 */
export function doubtEffect(floor: FloorRead, readingIds: readonly string[], minimumThicknessM: number): DoubtEffect | null {
  const rest = floor.spots.filter((spot) => !spot.readings.some((reading) => readingIds.includes(reading.id)));
  const { room } = floor;
  const surface = surfaceOver(rest, 2 * Math.hypot(room.rightM - room.leftM, room.bottomM - room.topM) + 1);
  if (surface === null) return null;
  const volumeOver = (mosaic: FloorRead['mosaic']): { levelM: number; volumeM3: number } => {
    const relief = reliefFrom(mosaic, { slopeX: 0, slopeY: 0 });
    const levelM = relief.highestM + minimumThicknessM;
    return { levelM, volumeM3: relief.below(levelM).volumeM3 };
  };
  const [having, without] = [volumeOver(floor.mosaic), volumeOver(mosaicOf(surface, room))];
  const effect = { levelM: having.levelM - without.levelM, volumeM3: having.volumeM3 - without.volumeM3 };
  const isSmall = Math.abs(effect.levelM) < LEAST_LEVEL_M && Math.abs(effect.volumeM3) < LEAST_SHARE * without.volumeM3;
  return isSmall ? null : effect;
}
