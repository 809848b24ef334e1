/**
 * Everything the rules look at, gathered once from the records. Figures that other parts compute (area, weight
 * added, dew point, evaporation) come in as plain values; null is always “not known”, never “fine”.
 */
import type { Flooring } from '../book/flooring.ts';
import type { FlooringLimits, LevelChoice } from '../book/job.ts';
import type { Circumstances, FloorTest, Layer } from '../book/layer.ts';
import type { MaterialKind, PowderSheet } from '../book/material.ts';
import type { Mark, Opening } from '../book/plan-fields.ts';
import { isFlooringPresumed, isSurfacingPresumed, labAnswer, type LabAnswer } from './asbestos.ts';
import { whyTestDoesNotCount } from './counting-tests.ts';
import { FLOORING_DEMANDS, type FlooringDemand, limitsInForce, type LimitsInForce } from './flooring-demands.ts';
import { type Absorption, absorptionOfAll } from './drop-absorption.ts';
import { type Bounce, bounceOf } from './floor-bounce.ts';
import { isStale } from './test-counts.ts';
import { type TestNeed, testNeeds } from './test-needs.ts';
import { lastVisit, type TestOf, testsOf } from './tests-of.ts';
import type { Wording } from './wording.ts';

/** The day's air over the floor, with what `climate` makes of it. */
export type AirFacts = {
  readonly test: TestOf<'air'>;
  readonly dewPointC: number | null;
  readonly marginC: number | null;
  readonly marginLeastC: number;
  readonly marginPasses: boolean;
  readonly marginRule: string;
  /** Null while the air's speed is not written. */
  readonly evaporationKgM2H: number | null;
  readonly condenses: boolean;
};

/** The powder chosen, as far as the floor's fitness hangs on it. */
export type ProductFacts = { readonly kind: MaterialKind; readonly powder: PowderSheet };

/** What the records say about a room's floor. */
export type FloorInput = {
  readonly layers: readonly Layer[];
  readonly tests: readonly FloorTest[];
  readonly marks: readonly Mark[];
  readonly openings: readonly Opening[];
  readonly circumstances: Circumstances;
  readonly hasDrain: boolean;
  readonly areaM2: number | null;
  readonly yearBuilt: number | null;
  readonly flooring: Flooring | null;
  readonly flooringLimits: FlooringLimits | null;
  readonly levelMode: LevelChoice['mode'];
  readonly product: ProductFacts | null;
  /** Kind of what is put down before the pour; null while none is chosen. */
  readonly primerKind: MaterialKind | null;
  /** What the pour adds, pascals; null while there is no estimate. */
  readonly addedLoadPa: number | null;
  /** The finished level on the scale of the openings' heights; null while it is not decided. */
  readonly finishedLevelM: number | null;
  readonly air: AirFacts | null;
  readonly now: string;
  /** The day it is at the property, `2026-05-12`. */
  readonly today: string;
};

/** A layer with what is presumed and known about it. */
export type LayerFacts = { readonly layer: Layer; readonly presumed: boolean; readonly lab: LabAnswer };

/** The facts the rules read. */
export type FloorFacts = FloorInput & {
  readonly layerFacts: readonly LayerFacts[];
  readonly kept: readonly Layer[];
  /** What is poured on; null when nothing stays or nothing is described. */
  readonly top: Layer | null;
  readonly demand: FlooringDemand | null;
  readonly limits: LimitsInForce;
  readonly needs: readonly TestNeed[];
  readonly coatingPresumed: boolean;
  readonly coatingLab: LabAnswer;
  readonly paintLab: LabAnswer;
  /** Tests not too old to go by, whether or not they were made the right way. */
  readonly recent: readonly FloorTest[];
  /** Readings of the last visit that count and are fresh. */
  readonly humidity: readonly TestOf<'slab-humidity'>[];
  readonly dishes: readonly TestOf<'moisture-dish'>[];
  readonly wood: Readonly<Record<'boards' | 'structure' | 'flooring', readonly number[]>>;
  readonly absorption: Absorption | null;
  readonly looks: readonly TestOf<'surface-look'>['is'][number][];
  readonly bounce: { readonly test: TestOf<'floor-bounce'>; readonly answer: Bounce } | null;
  readonly isSuspended: boolean;
};

/** Gathers what the rules look at. */
export function floorFacts(input: FloorInput, wording: Pick<Wording, 'depth'>): FloorFacts {
  const kept = input.layers.filter((layer) => layer.fate === 'keep');
  const demand = input.flooring === null ? null : FLOORING_DEMANDS[input.flooring];
  const limits = limitsInForce(input.flooring, input.flooringLimits);
  const recent = input.tests.filter((test) => !isStale(test.kind, test.takenAt, input.now));
  const good = recent.filter((test) => whyTestDoesNotCount(test, input.layers, wording) === null);
  const woodOf = (part: 'boards' | 'structure' | 'flooring'): readonly number[] => {
    const ofPart = testsOf(good, 'wood-moisture').filter((test) => test.part === part);
    return lastVisit(ofPart, 'wood-moisture').flatMap((test) => test.readings);
  };
  const bounceTest = testsOf(good, 'floor-bounce').at(-1) ?? null;
  return {
    ...input,
    layerFacts: input.layers.map((layer) => ({
      layer,
      presumed: isFlooringPresumed(layer),
      lab: labAnswer(input.tests, 'asbestos', layer.id, input.today),
    })),
    kept,
    top: kept[0] ?? null,
    demand,
    limits,
    needs: testNeeds({ ...input, kept, demand, limits }, wording),
    coatingPresumed: input.circumstances.texturedCoating === true && isSurfacingPresumed(input.yearBuilt),
    coatingLab: labAnswer(input.tests, 'asbestos', null, input.today),
    paintLab: labAnswer(input.tests, 'lead-paint', null, input.today),
    recent,
    humidity: lastVisit(good, 'slab-humidity'),
    dishes: lastVisit(good, 'moisture-dish'),
    wood: { boards: woodOf('boards'), structure: woodOf('structure'), flooring: woodOf('flooring') },
    absorption: absorptionOfAll(lastVisit(good, 'drop-absorption')),
    looks: [...new Set(testsOf(good, 'surface-look').at(-1)?.is ?? [])].toSorted(),
    bounce: bounceTest === null ? null : { test: bounceTest, answer: bounceOf(bounceTest, input.addedLoadPa ?? 0) },
    isSuspended: kept.some((layer) => layer.material === 'joists' || layer.material === 'concrete-suspended'),
  };
}
