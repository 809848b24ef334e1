/** What keeps a room's takeoff from being complete, or is doubtful in it. */
import type { BagProblem } from './bag-count.ts';
import type { LiftNote } from './lifts.ts';
import type { PrimerProblem } from './primer.ts';
import type { SheetProblem } from './sheet.ts';
import type { AddedWeight } from './weight.ts';

/** One problem by its kind; meters, cubic meters, liters. */
export type TakeoffDoubt =
  | { readonly kind: 'no-survey' | 'no-material' | 'no-primer' }
  | { readonly kind: 'sheet'; readonly why: SheetProblem }
  | { readonly kind: 'primer' | 'lift-primer'; readonly why: PrimerProblem }
  | { readonly kind: 'bags'; readonly why: BagProblem }
  | { readonly kind: 'bucket'; readonly batchM3: number; readonly bagsPerBatch: number; readonly bucketL: number }
  | { readonly kind: 'weight'; readonly weight: AddedWeight }
  | Extract<LiftNote, { kind: 'too-thin' }>;

/** A problem; `stops` is true when a figure is missing because of it, so that no quote can be issued. */
export type TakeoffProblem = TakeoffDoubt & { readonly stops: boolean };
