/** What a date of strength or drying was computed from. */
import type { Milestone } from '../book/material.ts';
import type { LogSummary } from './log-summary.ts';

/** Measured and assumed air of the room. */
export type AirUsed = Pick<LogSummary, 'leastC' | 'mostC' | 'readings' | 'hoursStoodStill'> & {
  readonly assumedTempC: number;
  readonly assumedSpreadC: number;
  readonly leastCureTempC: number;
};

/** Hours a floor of one depth dries in the reference air, and whether the data sheet or the published screed rules say so. */
export type DryingHours = {
  readonly least: number;
  readonly most: number;
  readonly from: 'sheet' | 'beyond-sheet' | 'published';
};

/** `referenceC` is the temperature the hours stand for; `qK` the range of activation energy over the gas constant, kelvin. */
export type Reason = { readonly referenceC: number; readonly air: AirUsed } & (
  | ({ readonly kind: 'strength'; readonly qK: { readonly least: number; readonly most: number } } & Pick<
      Milestone,
      'hoursLeast' | 'hoursMost' | 'source'
    >)
  | {
      readonly kind: 'drying';
      readonly hours: DryingHours;
      readonly referenceHumidity: number;
      readonly depth: { readonly meanM: number; readonly deepestM: number };
      readonly wetBelowM: number;
      readonly assumedHumidity: number;
    }
);
