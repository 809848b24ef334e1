/** A line of the prep checklist. */
import type { Layer } from '../book/layer.ts';
import { plural } from '../measure/count-words.ts';
import { INCH_M } from '../measure/length-units.ts';
import type { CautionId } from '../substrate/cautions.ts';
import type { Task } from '../substrate/rule.ts';
import type { DustTask } from '../substrate/silica.ts';
import type { Wording } from '../substrate/wording.ts';

/** The phases of the work, in order. */
export const PHASES = ['protect', 'remove', 'make-sound', 'surface', 'edges', 'prime', 'pour-day'] as const;
export type Phase = (typeof PHASES)[number];

/** What a lift makes of the work under it: it is done again for the next lift, cannot be done any more, or neither. */
export type AfterLift = 'again' | 'buried' | 'stays';

/** A quantity: in SI, or a count. */
export type Amount = { readonly value: number; readonly unit: 'm2' | 'm' | 'L' | Counted };
type Counted = 'bag' | 'helper' | 'place';

/** A prep line: the work, the reason, the quantity and who does it. */
export type PrepItem = {
  /** Stable between derivations, because signatures refer to it. */
  readonly key: string;
  readonly phase: Phase;
  readonly what: string;
  readonly why: string;
  readonly amount: Amount | null;
  /** `licensed-only`: a firm with the license or certification the rules ask for. */
  readonly who: 'own-crew' | 'licensed-only';
  /** Whether the pour waits for it. */
  readonly holdsPour: boolean;
  readonly afterLift: AfterLift;
  /** Its kinds of work, so that a hold on such work applies to the line. */
  readonly tasks: readonly Task[];
  readonly cautions: readonly CautionId[];
  /** The most dusty tool it is done with, for respirator and controls; null without silica dust. */
  readonly dust: DustTask | null;
  /** Own crew's hours, typical until learned; null where others do it or it is unknown. */
  readonly hours: number | null;
  /** Marks and openings of the plan it is about, for drawing. */
  readonly on: readonly string[];
};

/** The key of the line that removes a layer. */
export const removalKey = ({ id }: Pick<Layer, 'id'>): string => `remove:${id}`;

/** The key of the line that scrapes adhesive that stays. */
export const scrapingKey = ({ id }: Pick<Layer, 'id'>): string => `scrape:${id}`;

/** An amount as text; empty without one. */
export function amountText(amount: Amount | null, wording: Wording, liters: (volumeL: number) => string): string {
  if (amount === null) return '';
  switch (amount.unit) {
    case 'm2':
      return wording.area(amount.value);
    case 'm':
      // A strip or a dam is cut to the inch.
      return wording.length(wording.units === 'us' ? Math.round(amount.value / INCH_M) * INCH_M : amount.value);
    case 'L':
      return liters(amount.value);
    case 'bag':
    case 'helper':
    case 'place':
      return `${wording.number(amount.value)} ${amount.value === 1 ? amount.unit : plural(amount.unit)}`;
  }
}
