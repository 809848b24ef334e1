/** A floor's flatness for the screens and the handover sheet: gaps under a straightedge and the rules they meet. */
import { widestNearby, worstGap, type WorstGap } from './flatness.ts';
import { lineLayer } from './profile-lines.ts';
import type { FloorRead } from './read-floor.ts';
import {
  type FlatnessDemand,
  judge,
  manufacturersRule,
  publishedRules,
  rulesFor,
  type ToleranceRule,
  type ToleranceVerdict,
} from './tolerances.ts';

export type FloorFlatness = {
  /** Under the chosen straightedge. */
  readonly worst: WorstGap;
  /** Under every straightedge that a rule names, by length. */
  readonly gaps: readonly WorstGap[];
  readonly highToLowM: number;
  /** The rules that apply to the flooring, the manufacturer's own first; empty without flooring. */
  readonly forFlooring: readonly ToleranceVerdict[];
  /** Every published rule for the business's country. */
  readonly all: readonly ToleranceVerdict[];
  readonly linesLaid: number;
};

/** Default straightedge length: 10 ft, which most rules name. */
export const USUAL_STRAIGHTEDGE_M = 3.048;

/** Rates a floor for flooring. Independent of the finish elevation, because a tilt changes no gap. */
export function floorFlatness(
  floor: Pick<FloorRead, 'profiles' | 'surface' | 'room' | 'highestM' | 'lowestM'>,
  straightedgeM: number,
  demand: FlatnessDemand,
): FloorFlatness {
  const published = publishedRules(demand.country);
  const manufacturers = manufacturersRule(demand.flooringLimits);
  const rules = manufacturers ? [manufacturers, ...published] : published;
  const spans = new Set([straightedgeM, ...rules.flatMap((rule) => rule.limits.map((limit) => limit.spanM))]);
  const gaps = gapsByLength(floor, [...spans]);
  const judged = (rule: ToleranceRule): ToleranceVerdict => judge(rule, (spanM) => gaps.get(spanM)?.gapM ?? Number.NaN);
  const all = published.map(judged);
  const forFlooring = rulesFor(demand).map(judged);
  return {
    worst: gaps.get(straightedgeM) ?? worstGap(floor.profiles, straightedgeM),
    gaps: [...gaps.values()],
    highToLowM: floor.highestM - floor.lowestM,
    forFlooring,
    all,
    linesLaid: floor.profiles.lineCount,
  };
}

type Profiled = Pick<FloorRead, 'profiles' | 'surface' | 'room'>;

/** Caches the gaps of a floor's profiles by the requested lengths, because several screens and options rate the same floor. */
const gapCache = new WeakMap<Profiled['profiles'], Map<string, ReadonlyMap<number, WorstGap>>>();

/** Keeps the gaps of a floor that was rated on another thread. */
export function keepGaps(profiles: Profiled['profiles'], gaps: FloorFlatness['gaps']): void {
  const known = gapCache.get(profiles) ?? new Map<string, ReadonlyMap<number, WorstGap>>();
  gapCache.set(profiles, known.set(keyOf(gaps.map(({ spanM }) => spanM)), new Map(gaps.map((gap) => [gap.spanM, gap]))));
}

const keyOf = (lengths: readonly number[]): string => lengths.join(' ');

/** Gaps by straightedge length, the shortest first; each search starts from the one before. */
function gapsByLength({ profiles, surface, room }: Profiled, spans: readonly number[]): ReadonlyMap<number, WorstGap> {
  const lengths = [...spans].sort((a, b) => a - b);
  const earlier = gapCache.get(profiles)?.get(keyOf(lengths));
  if (earlier !== undefined) return earlier;
  const gaps = new Map<number, WorstGap>();
  const layer = lineLayer(surface, room);
  let before: WorstGap | null = null;
  for (const spanM of lengths) {
    before = widestNearby(layer, worstGap(profiles, spanM, before));
    gaps.set(spanM, before);
  }
  keepGaps(profiles, [...gaps.values()]);
  return gaps;
}
