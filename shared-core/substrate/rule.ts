/** A rule of the table: its condition, message, held work, clearance and source. */
import type { HoldDocument } from '../book/job.ts';
import type { FloorFacts } from './floor-facts.ts';
import type { Wording } from './wording.ts';

/** Verdict for a floor: pour it, pour it after some work, or wait. */
export type Verdict = 'go' | 'go-with-work' | 'hold';

/**
 * Work that a finding may hold. `lift-out` removes a bonded layer whole, `pull-up` removes a loose-laid or glued
 * textile layer, `disturb-paint` sands or scrapes paint, `cover` installs the flooring.
 */
export type Task = 'pour' | 'scrape' | 'sand' | 'grind' | 'drill' | 'lift-out' | 'pull-up' | 'disturb-paint' | 'cover';

/** Work that releases dust from a floor. ASTM F2170 clause 7.1: must not be done to old resilient flooring, backing or adhesive. */
export const DISTURBING: readonly Task[] = ['scrape', 'sand', 'grind', 'drill', 'lift-out', 'pull-up'];

/** The same beside what is known to contain it: what lies loose on it comes off after a test pull. Common practice, no source. */
export const DISTURBING_FOUND: readonly Task[] = DISTURBING.filter((task) => task !== 'pull-up');

/** Work that releases dust from a painted or varnished floor. */
export const PAINT_DISTURBING: readonly Task[] = ['scrape', 'sand', 'grind', 'disturb-paint'];

/**
 * What clears a hold. `reason`: a recorded reason is enough. `lab-result`: only a lab result. The others: that
 * document, with who issued it, its number and its date.
 */
export type ClearedBy = 'reason' | 'lab-result' | HoldDocument['kind'];

/** What clears a finding without the work of its message. */
export type OtherWay = { readonly text: string; readonly does: readonly Task[] };

/** The layer, mark, opening or test that a rule applies to, when there are several. */
export type Case = { readonly key?: string; readonly testId?: string };

/** One row of the table. */
export type RuleRow<C extends Case> = {
  readonly id: string;
  /** What the finding is about, after `Hold:` or `Go:`. */
  readonly title: string | ((match: C) => string);
  /** The condition, as printed in the table. */
  readonly reads: string;
  /** Go with work when omitted. */
  readonly verdict?: Verdict;
  /** The cases in which it applies; empty when it does not. `hazards`: the findings on asbestos and lead, with their documents. */
  readonly when: (facts: FloorFacts, hazards: readonly Finding[]) => readonly C[];
  /** Short plain sentences. */
  readonly text: (match: C, wording: Wording, facts: FloorFacts) => string;
  /** Tasks that wait for it; none when omitted. */
  readonly holds?: readonly Task[];
  /** What clears the hold; a reason when omitted. */
  readonly clearedBy?: ClearedBy;
  /** Work the message asks for. Where a hazard holds that work, the finding says to wait instead. */
  readonly does?: readonly Task[] | ((facts: FloorFacts, match: C) => readonly Task[]);
  /** The message where another finding holds that work for good, if something else clears this one. */
  readonly otherwise?: (match: C) => OtherWay;
  /** Path to the field that clears it: `room.layers.<id>.fate`, `room.tests.slab-humidity`, `room.tests.wood-moisture.structure`, `jobRoom.primerId`. */
  readonly lifts: string | ((match: C) => string);
  /** Citation, or `common practice`. */
  readonly source: string | ((match: C) => string);
};

/** One finding of a rule on a floor. */
export type Finding = {
  /** Stable id, made of the rule and what it applies to. */
  readonly key: string;
  readonly ruleId: string;
  readonly verdict: Verdict;
  readonly title: string;
  readonly text: string;
  readonly holds: readonly Task[];
  readonly clearedBy: ClearedBy;
  readonly does: readonly Task[];
  /** Left out once contradictions are resolved. */
  readonly otherwise?: OtherWay;
  readonly lifts: string;
  readonly source: string;
  /** The reading behind the finding, if any. */
  readonly testId: string | null;
};

/** A row ready to be evaluated. */
export type Rule = Required<Pick<RuleRow<Case>, 'id' | 'reads' | 'verdict' | 'holds'>> & {
  readonly clearedBy: ClearedBy;
  /** The citation printed in the table. */
  readonly source: string;
  readonly find: (facts: FloorFacts, wording: Wording, hazards?: readonly Finding[]) => readonly Finding[];
};

/**
 * Makes a row of the table into a rule.
 * @param row the row
 * @param printedSource the citation for the printed table, when the row's citation varies by case
 */
export function rule<C extends Case>(row: RuleRow<C>, printedSource?: string): Rule {
  const textOf = (text: string | ((match: C) => string), match: C): string => (typeof text === 'string' ? text : text(match));
  const { clearedBy = 'reason', verdict = 'go-with-work', holds = [] } = row;
  return {
    id: row.id,
    reads: row.reads,
    verdict,
    holds,
    clearedBy,
    source: printedSource ?? (typeof row.source === 'string' ? row.source : 'the published limit, or the flooring manufacturer’s'),
    find: (facts, wording, hazards = []) =>
      row.when(facts, hazards).map((match) => ({
        key: match.key === undefined ? row.id : `${row.id}:${match.key}`,
        ruleId: row.id,
        verdict,
        title: textOf(row.title, match),
        text: row.text(match, wording, facts),
        holds,
        clearedBy,
        does: typeof row.does === 'function' ? row.does(facts, match) : (row.does ?? []),
        ...(row.otherwise !== undefined && { otherwise: row.otherwise(match) }),
        lifts: textOf(row.lifts, match),
        source: textOf(row.source, match),
        testId: match.testId ?? null,
      })),
  };
}

/** The single case of a rule for the whole floor, or none. */
export function once(applies: boolean): readonly Case[] {
  return applies ? [{}] : [];
}
