/** A floor's flatness as the screens and the handover sheet show it: gaps by straightedge, and the rules it meets. */
import type { Covering } from '../book/covering.ts';
import type { CoveringLimits } from '../book/job.ts';
import { type Profiles, worstGap, type WorstGap } from './flatness.ts';
import type { FloorRead } from './read-floor.ts';
import { judge, makersRule, RULES_FOR, TOLERANCE_RULES, type ToleranceVerdict } from './tolerances.ts';

export type FloorFlatness = {
  /** Under the straightedge chosen. */
  readonly worst: WorstGap;
  /** Under every straightedge a rule asks for, by length. */
  readonly gaps: readonly WorstGap[];
  readonly highToLowM: number;
  /** The rules that speak for the covering, its maker's own first; empty without a covering. */
  readonly forCovering: readonly ToleranceVerdict[];
  /** Every published rule. */
  readonly all: readonly ToleranceVerdict[];
  readonly linesLaid: number;
};

/** The length of straightedge used where none is chosen: 10 ft, which most rules name. */
export const USUAL_STRAIGHTEDGE_M = 3.048;

/** Rates a floor for a covering. Independent of any level: a tilt changes no gap. */
export function floorFlatness(
  floor: Pick<FloorRead, 'profiles' | 'highestM' | 'lowestM'>,
  straightedgeM: number,
  covering: Covering | null,
  limits: CoveringLimits | null,
): FloorFlatness {
  const gapUnder = gapsByLength(floor.profiles);
  const own = makersRule(limits);
  const worst = gapUnder(straightedgeM);
  const judged = (rule: Parameters<typeof judge>[0]): ToleranceVerdict => judge(rule, (spanM) => gapUnder(spanM).gapM);
  const all = TOLERANCE_RULES.map(judged);
  const published = covering === null ? [] : RULES_FOR[covering];
  const forCovering = [
    ...(own && covering !== null ? [judged(own)] : []),
    ...published.flatMap((key) => all.find((verdict) => verdict.rule.key === key) ?? []),
  ];
  const spans = new Set([straightedgeM, ...[...all, ...forCovering].flatMap(({ rule }) => rule.limits.map((limit) => limit.spanM))]);
  return {
    worst,
    gaps: [...spans].sort((a, b) => a - b).map(gapUnder),
    highToLowM: floor.highestM - floor.lowestM,
    forCovering,
    all,
    linesLaid: floor.profiles.lineCount,
  };
}

function gapsByLength(profiles: Profiles): (spanM: number) => WorstGap {
  const known = new Map<number, WorstGap>();
  return (spanM) => {
    const before = known.get(spanM);
    if (before) return before;
    const gap = worstGap(profiles, spanM);
    known.set(spanM, gap);
    return gap;
  };
}
