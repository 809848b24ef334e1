/** Input and dates of a room's cure. */
import type { Flooring } from '../book/flooring.ts';
import type { ClearanceTest, CureReading, Promised } from '../book/cure-record.ts';
import type { FlooringLimits } from '../book/job.ts';
import type { MaterialKind, MilestoneKind, PowderSheet } from '../book/material.ts';
import type { Drilling, FlooringRequirement, SharingRoom } from './clearance-tests.ts';
import type { Reason } from './reason.ts';
import type { WorkCalendar } from './stated-date.ts';
import type { Piece } from './temperature-history.ts';

/** The room after the last reading may be so much warmer or colder than assumed. Typical for a heated house. */
export const ASSUMED_SPREAD_C = 2;

/** A lift that cures. */
export type CuringLift = {
  readonly lift: number;
  /** Whether this lift finishes the floor. Until then there are no dates for flooring or furniture. */
  readonly isLastLift: boolean;
  /** When the last of the material was placed, or is planned to be. */
  readonly placedAt: string;
  /** This lift’s depth. */
  readonly depth: { readonly meanM: number; readonly deepestM: number };
  /** New lifts underneath that dry through this one. */
  readonly wetBelowM: number;
};

export type CureInput = CuringLift & {
  readonly sheet: PowderSheet;
  readonly materialKind: MaterialKind;
  readonly flooring: Flooring | null;
  readonly flooringLimits: FlooringLimits | null;
  /** The day it went down, `2026-05-30`; absent or null while it is not known. */
  readonly laidOn?: string | null;
  readonly heated: boolean;
  /** No slab under the pour. */
  readonly overWood: boolean;
  readonly drilling: Drilling;
  /** Floor area of the room; 0 without a drawing. */
  readonly areaM2: number;
  readonly sharing: readonly SharingRoom[];
  /** Where and when people work there; its country decides the clearance tests. */
  readonly place: WorkCalendar;
  readonly readings: readonly CureReading[];
  /** Temperature and humidity (a share) assumed without readings. */
  readonly assumedTempC: number;
  readonly assumedHumidity: number;
  readonly assumedSpreadC: number;
  readonly gaps: 'line' | 'assumed';
  readonly promises: readonly Promised[];
  readonly tests: readonly ClearanceTest[];
};

/** Earliest, likely, latest instants; null where curing stays paused at the assumed temperature. */
export type Dates = {
  readonly earliestAt: string | null;
  readonly likelyAt: string | null;
  readonly latestAt: string | null;
  readonly reason: Reason;
};

export type DatedMilestone = Dates & {
  /** `walk-on`, `cover:resilient`. */
  readonly key: string;
  readonly kind: MilestoneKind;
  readonly flooring: Flooring | null;
  readonly by: 'strength' | 'drying';
  /** The stated date: the latest date, rounded up to a working hour or day. Null while there is no date. */
  readonly statedAt: string | null;
  /** The test required before the flooring, whatever the date. */
  readonly clearanceTest: FlooringRequirement | null;
  /** Wood flooring over radiant heat: no date is before the heat has run (`heat-back.ts`). Absent for any other. */
  readonly afterHeat?: true;
};

/** The history with the assumed temperature, and with it warmer and colder by the spread. */
export type Histories = { readonly likely: readonly Piece[]; readonly warm: readonly Piece[]; readonly cold: readonly Piece[] };
