/** The table of rules, and asking it about a floor. */
import type { FloorFacts } from './floor-facts.ts';
import type { Finding, Rule, Task, Verdict } from './rule.ts';
import { HAZARD_RULES } from './rules-hazard.ts';
import { MOISTURE_RULES } from './rules-moisture.ts';
import { SITE_RULES } from './rules-site.ts';
import { STRUCTURE_RULES } from './rules-structure.ts';
import { SURFACE_RULES } from './rules-surface.ts';
import type { Wording } from './wording.ts';

/** Every rule, in the order a person should hear of them: what can hurt, what is wet, what is weak, what moves, the day. */
export const RULES: readonly Rule[] = [...HAZARD_RULES, ...MOISTURE_RULES, ...SURFACE_RULES, ...STRUCTURE_RULES, ...SITE_RULES];

const WEIGHT: Readonly<Record<Verdict, number>> = { hold: 0, 'go-with-work': 1, go: 2 };

/** Asks every rule about a floor: holds first, then work, then what is clear; within each, the order of the table. */
export function findingsOf(facts: FloorFacts, wording: Wording): readonly Finding[] {
  return RULES.flatMap((rule) => rule.find(facts, wording)).toSorted((a, b) => WEIGHT[a.verdict] - WEIGHT[b.verdict]);
}

/**
 * How the floor stands in all. It is held when a finding holds the pour for good reason now; findings that hold
 * other work only, such as scraping old paint, leave it pourable with work. No finding at all is no pass.
 */
export function verdictOf(findings: readonly Finding[]): Verdict {
  if (findings.length === 0 || findings.some((finding) => finding.verdict === 'hold' && finding.holds.includes('pour'))) return 'hold';
  return findings.some((finding) => finding.verdict !== 'go') ? 'go-with-work' : 'go';
}

/** The findings that hold one kind of work. */
export function holdsOn(findings: readonly Finding[], task: Task): readonly Finding[] {
  return findings.filter((finding) => finding.holds.includes(task));
}

/** One printed row of the table. */
export type PrintedRule = {
  readonly id: string;
  readonly when: string;
  readonly verdict: Verdict;
  readonly holds: string;
  readonly source: string;
};

/** The table as a person reads it down: condition, verdict, what it holds, source. */
export function printedRules(): readonly PrintedRule[] {
  return RULES.map((rule) => ({
    id: rule.id,
    when: rule.reads,
    verdict: rule.verdict,
    holds: rule.holds.length === 0 ? 'nothing' : rule.holds.join(', '),
    source: rule.source,
  }));
}
