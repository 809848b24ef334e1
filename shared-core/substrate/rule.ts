/** A rule of the table: what it looks at, what it says, what it holds, and where it is published. */
import type { FloorFacts } from './floor-facts.ts';
import type { Wording } from './wording.ts';

/** How a floor stands: pour it, pour it after some work, or wait. */
export type Verdict = 'go' | 'go-with-work' | 'hold';

/** Work that a finding may hold. `disturb-paint` is sanding or scraping paint; `cover` is laying the covering. */
export type Task = 'pour' | 'scrape' | 'sand' | 'grind' | 'drill' | 'lift-out' | 'disturb-paint' | 'cover';

/** Work that frees dust from a floor. ASTM F2170 clause 7.1: not to be done to old resilient flooring, backing or adhesive. */
export const DISTURBING: readonly Task[] = ['scrape', 'sand', 'grind', 'drill', 'lift-out'];

/** Where a rule applies: the layer, mark, opening or test it applies to, if it is one among several. */
export type Case = { readonly key?: string; readonly testId?: string };

/** One row of the table. */
export type RuleRow<C extends Case> = {
  readonly id: string;
  /** What the finding is about, after `Hold:` or `Go:`. */
  readonly title: string | ((found: C) => string);
  /** The condition, for someone reading down the table. */
  readonly reads: string;
  readonly verdict: Verdict;
  /** The cases in which it applies; none when it does not. */
  readonly when: (facts: FloorFacts) => readonly C[];
  /** One or two plain sentences. */
  readonly says: (found: C, wording: Wording, facts: FloorFacts) => string;
  readonly holds: readonly Task[];
  /** Path to the field that lifts it: `room.layers.<id>.fate`, `room.tests.slab-humidity`, `jobRoom.primerId`. */
  readonly lifts: string | ((found: C) => string);
  /** Citation, or `common practice`. A figure not read at its source says `from memory`. */
  readonly source: string | ((found: C) => string);
};

/** What a rule found on a floor. */
export type Finding = {
  /** Stable: the rule, and what it applies to. */
  readonly key: string;
  readonly ruleId: string;
  readonly verdict: Verdict;
  readonly title: string;
  readonly says: string;
  readonly holds: readonly Task[];
  readonly lifts: string;
  readonly source: string;
  /** The reading it came from, when it came from one. */
  readonly testId: string | null;
};

/** A row ready to be asked. */
export type Rule = Pick<RuleRow<Case>, 'id' | 'reads' | 'verdict' | 'holds'> & {
  /** The citation as printed in the table. */
  readonly source: string;
  readonly find: (facts: FloorFacts, wording: Wording) => readonly Finding[];
};

/**
 * Makes a row of the table into a rule.
 * @param row the row
 * @param printedSource the citation for the printed table, where the row's own differs from case to case
 */
export function rule<C extends Case>(row: RuleRow<C>, printedSource?: string): Rule {
  const told = (text: string | ((found: C) => string), found: C): string => (typeof text === 'string' ? text : text(found));
  return {
    id: row.id,
    reads: row.reads,
    verdict: row.verdict,
    holds: row.holds,
    source: printedSource ?? (typeof row.source === 'string' ? row.source : 'the published limit, or the covering’s maker'),
    find: (facts, wording) =>
      row.when(facts).map((found) => ({
        key: found.key === undefined ? row.id : `${row.id}:${found.key}`,
        ruleId: row.id,
        verdict: row.verdict,
        title: told(row.title, found),
        says: row.says(found, wording, facts),
        holds: row.holds,
        lifts: told(row.lifts, found),
        source: told(row.source, found),
        testId: found.testId ?? null,
      })),
  };
}

/** A rule for the whole floor applies once or not at all. */
export function once(applies: boolean): readonly Case[] {
  return applies ? [{}] : [];
}
