/** The table of rules, and its evaluation on a floor. */
import { formatListOr } from '../measure/list.ts';
import type { FloorFacts } from './floor-facts.ts';
import type { Finding, Rule, Task, Verdict } from './rule.ts';
import { HAZARD_RULES } from './rules-hazard.ts';
import { MOISTURE_RULES } from './rules-moisture.ts';
import { SITE_RULES } from './rules-site.ts';
import { STRUCTURE_RULES } from './rules-structure.ts';
import { SURFACE_RULES } from './rules-surface.ts';
import type { Wording } from './wording.ts';

const OTHER_RULES: readonly Rule[] = [...MOISTURE_RULES, ...SURFACE_RULES, ...STRUCTURE_RULES, ...SITE_RULES];
/** Every rule in reading order: hazards, moisture, surface, structure, site. */
export const RULES: readonly Rule[] = [...HAZARD_RULES, ...OTHER_RULES];

const WEIGHT: Readonly<Record<Verdict, number>> = { hold: 0, 'go-with-work': 1, go: 2 };

/** Rules that prohibit work for safety. Other findings never ask for work that one of these holds. */
const RULES_OUT_WORK: ReadonlySet<string> = new Set([
  ...HAZARD_RULES.map((rule) => rule.id),
  'radiant-heat',
  'radiant-unknown',
  'heat-laid',
  'resilient-top',
]);

/** Those of them that no question, test or clearance lifts: what they rule out is done another way. */
const RULES_OUT_FOR_GOOD: ReadonlySet<string> = new Set(['asbestos-found-stays', 'radiant-heat', 'heat-laid', 'resilient-top']);

const WORK_WORDS: Readonly<Record<Task, string>> = {
  pour: 'the pour',
  scrape: 'scraping',
  sand: 'sanding',
  grind: 'grinding',
  drill: 'drilling',
  'lift-out': 'removal',
  'pull-up': 'pulling up flooring',
  'disturb-paint': 'disturbing paint',
  cover: 'installing flooring',
};

/** Fastening over heat in the floor. Common practice, no source. */
const OVER_HEAT = 'Otherwise fasten only clear of the radiant heat, once it is located.';

/**
 * A finding whose advice another finding prohibits for good gives its other way. Where it is prohibited for now, it says to wait for
 * that finding, so that findings never contradict each other.
 */
function withoutContradiction({ otherwise, ...finding }: Finding, allFindings: readonly Finding[]): Finding {
  const holdersOf = (does: readonly Task[]): readonly Finding[] =>
    allFindings.filter(
      (other) => other.key !== finding.key && RULES_OUT_WORK.has(other.ruleId) && does.some((task) => other.holds.includes(task)),
    );
  const holders = holdersOf(finding.does);
  const lasting = holders.find(({ ruleId }) => RULES_OUT_FOR_GOOD.has(ruleId));
  const workOf = ({ holds }: Finding): string =>
    formatListOr(finding.does.filter((task) => holds.includes(task)).map((task) => WORK_WORDS[task]));
  if (otherwise !== undefined && lasting !== undefined && holdersOf(otherwise.does).length === 0) {
    // Heat in the floor can be located, and the price has the fastening clear of it.
    const isLocatable = holders.every(({ ruleId }) => ruleId === 'radiant-heat');
    const why = isLocatable ? OVER_HEAT : `No ${workOf(lasting)} here: “${lasting.title}” rules it out.`;
    return { ...finding, text: `${otherwise.text} ${why}`, does: otherwise.does };
  }
  const [holder] = holders;
  if (holder === undefined) return finding;
  // Heat is never settled: the checklist has a surface worked by hand.
  const isHeat = holders.every(({ ruleId }) => ruleId === 'radiant-heat' || ruleId === 'heat-laid');
  if (isHeat && !finding.does.includes('drill'))
    return { ...finding, text: `No ${workOf(holder)} here: “${holder.title}” rules it out. Work by hand.`, does: [] };
  if (isHeat && holder.ruleId === 'radiant-heat')
    return { ...finding, text: 'No drilling over the radiant heat. Fasten only clear of it, once it is located.', does: [] };
  // Also printed on the quote.
  return { ...finding, text: `No ${workOf(holder)} here until “${holder.title}” is settled.`, does: [] };
}

/**
 * Evaluates every rule on a floor: holds first, then work, then what is clear; within each, the order of the table.
 * @param cleared applies recorded documents to the findings before contradictions are resolved
 */
export function findingsOf(
  facts: FloorFacts,
  wording: Wording,
  cleared: (found: readonly Finding[]) => readonly Finding[] = (found) => found,
): readonly Finding[] {
  const hazards = cleared(HAZARD_RULES.flatMap((rule) => rule.find(facts, wording)));
  const found = [...hazards, ...cleared(OTHER_RULES.flatMap((rule) => rule.find(facts, wording, hazards)))];
  return found.map((finding) => withoutContradiction(finding, found)).toSorted((a, b) => WEIGHT[a.verdict] - WEIGHT[b.verdict]);
}

/**
 * The verdict for the floor. A hold on the pour puts it on hold; findings that hold only other work, such as scraping old paint,
 * leave it pourable after work. No findings do not mean it passed.
 */
export function verdictOf(findings: readonly Finding[]): Verdict {
  if (findings.length === 0 || findings.some((finding) => finding.verdict === 'hold' && finding.holds.includes('pour'))) return 'hold';
  return findings.some((finding) => finding.verdict !== 'go') ? 'go-with-work' : 'go';
}

/** The findings that hold one kind of work. */
export function holdsOn(findings: readonly Finding[], task: Task): readonly Finding[] {
  return findings.filter((finding) => finding.holds.includes(task));
}
