/** When radiant heat comes back on after a pour, and from when wood flooring may go down over it. */
import type { Flooring } from '../book/flooring.ts';
import type { MaterialKind } from '../book/material.ts';
import { addDays } from '../measure/moment.ts';

/** Days off where the data sheet gives nothing. Data sheets give 3 to 28 days, common practice. */
const OFF_DAYS = { cement: 28, gypsum: 7 } as const;

/** Days that the heat runs before wood flooring goes down. NWFA guidelines as quoted in a trade guide. */
export const HEAT_RUNS_DAYS = { least: 5, most: 6 } as const;

/** Days after the pour that radiant heat stays off. @param kinds those of the floor's products; none while not chosen */
export const heatOffDays = (kinds: readonly MaterialKind[]): number =>
  kinds.length > 0 && kinds.every((kind) => kind === 'calcium-sulfate') ? OFF_DAYS.gypsum : OFF_DAYS.cement;

/** Whether flooring over radiant heat waits until the heat has run. */
export const waitsForHeat = (flooring: Flooring | null): boolean => flooring === 'wood-glued' || flooring === 'wood-nailed';

/** When the heat has run as long as wood flooring asks. @param placedAt ISO UTC; @param zone of the property */
export const heatHasRunAt = (placedAt: string, kind: MaterialKind, zone: string): string =>
  addDays(placedAt, heatOffDays([kind]) + HEAT_RUNS_DAYS.most, zone);
