/** Input of the checklist. Null is unknown. */
import type { UnitSystem } from '../measure/unit-system.ts';
import type { CautionId } from '../substrate/cautions.ts';
import type { FloorFacts } from '../substrate/floor-facts.ts';
import { isConcrete } from '../substrate/layer-words.ts';
import { isHeated } from '../substrate/radiant.ts';
import type { Finding } from '../substrate/rule.ts';
import type { AfterLift, PrepItem } from './prep-item.ts';

/** Work left on a floor that is partly placed or has defects. */
export type RestWork = {
  /** Floor still to place, and the length of placed edges it meets. */
  readonly openM2: number;
  readonly jointM: number;
  /** Whole hours since the floor at the edges was placed; null where the log does not say. */
  readonly sinceHours: number | null;
  readonly patches: readonly { readonly defect: 'pinholes' | 'ridge' | 'hollow' | 'low-spot'; readonly areaM2: number }[];
  /** Suspect floor without a named defect. */
  readonly toCheckM2: number;
  readonly toCheckBatches: readonly number[];
};

/** Records and quantities behind a checklist. */
export type PrepInput = {
  readonly facts: FloorFacts;
  readonly findings: readonly Finding[];
  /** For lengths within a line. */
  readonly units: UnitSystem;
  /** Walls and cutouts together, meters. */
  readonly perimeterM: number | null;
  /** Grinding of high spots; null without any. */
  readonly grind: { readonly areaM2: number; readonly spots: number; readonly deepestM: number } | null;
  /** The primer by its data sheet for this substrate. `liters` for all coats, water included. */
  readonly primer: {
    readonly coats: number;
    readonly liters: number | null;
    readonly waterParts: number;
    readonly dryHoursLeast: number;
    readonly dryHoursMost: number;
  } | null;
  /** Areas of layers and marks that cover part of the room, m², by id. */
  readonly areasM2: Readonly<Record<string, number>>;
  /** Lengths of marks drawn as lines, m, by id. */
  readonly lengthsM: Readonly<Record<string, number>>;
  readonly bags: number | null;
  readonly waterL: number | null;
  readonly helpers: number;
  /** Whether the mix is brought in by cart. */
  readonly byCart: boolean;
  /** Whether the power on site comes from a generator. Absent is no. */
  readonly onGenerator?: boolean;
  /** Null or absent before any pour, and where the floor is placed whole and sound. */
  readonly rest?: RestWork | null;
  /** Share of the floor that the next pour is placed on. Absent is 1. */
  readonly openShare?: number;
  /** Lifts that are placed under the next pour. Absent is 0. */
  readonly liftsUnder?: number;
};

/** A line as it is written down; what it leaves out is filled in by {@link item}. */
export type PrepDraft = Pick<PrepItem, 'key' | 'phase' | 'what' | 'why'> & Partial<PrepItem>;

/** What a lift makes of the lines of a phase that do not say so themselves. */
const AFTER_LIFT: Readonly<Record<PrepItem['phase'], AfterLift>> = {
  protect: 'stays',
  remove: 'buried',
  'make-sound': 'buried',
  surface: 'buried',
  edges: 'stays',
  prime: 'again',
  'pour-day': 'again',
};

/** Fills in the defaults of a line: own crew, required before the pour. */
export function item(line: PrepDraft): PrepItem {
  const afterLift = AFTER_LIFT[line.phase];
  return { amount: null, who: 'own-crew', holdsPour: true, afterLift, tasks: [], cautions: [], dust: null, hours: null, on: [], ...line };
}

/** Where the next pour goes. */
export type NextPour = Pick<PrepInput, 'openShare' | 'liftsUnder'>;

/** Whether the next pour goes on a lift that is already placed. */
export const isOverLift = ({ liftsUnder = 0 }: NextPour): boolean => liftsUnder > 0;

/** Share of the floor where the next pour goes on the substrate: 0 from the second lift on. */
export const bareShare = (pour: NextPour): number => (isOverLift(pour) ? 0 : (pour.openShare ?? 1));

/** The findings of some rules, for the lines that answer them. */
export function findingsOfRules(input: PrepInput, ...ruleIds: readonly string[]): readonly Finding[] {
  return input.findings.filter((finding) => ruleIds.includes(finding.ruleId));
}

/** Whether any finding is of one of these rules. */
export const has = (input: PrepInput, ...ruleIds: readonly string[]): boolean => findingsOfRules(input, ...ruleIds).length > 0;

/** Whether no machine may cut into the new floor: there is heat in or under it, or a finding holds grinding. */
export const isCutByHand = ({ facts, findings }: PrepInput): boolean =>
  isHeated(facts.heat) || findings.some(({ holds }) => holds.includes('grind'));

/** The caution of work that drills, chips or saws into a slab; none where no slab stays. */
export const slabCaution = ({ kept }: FloorFacts): readonly CautionId[] =>
  kept.some(({ material }) => isConcrete(material)) ? ['tendons'] : [];

/** An area as an amount; none while it is unknown. */
export const squareMeters = (areaM2: number | null): PrepItem['amount'] => (areaM2 === null ? null : { value: areaM2, unit: 'm2' });
/** A length as an amount; none while it is unknown. */
export const meters = (lengthM: number | null): PrepItem['amount'] => (lengthM === null ? null : { value: lengthM, unit: 'm' });
