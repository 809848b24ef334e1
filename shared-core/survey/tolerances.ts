/**
 * Published flatness tolerances as data, one row per rule, and which of them a floor meets. A limit is stored in the unit of
 * its standard; meters are exact conversions.
 */
import type { Flooring } from '../book/flooring.ts';
import type { FlooringLimits } from '../book/job.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';

/** A gap allowed under a straightedge, meters; `text` as it is published, in `units`, or in both where that is null. */
export type GapLimit = { readonly spanM: number; readonly gapM: number; readonly text: string; readonly units: UnitSystem | null };

export type ToleranceRule = {
  readonly key: string;
  readonly name: string;
  readonly limits: readonly GapLimit[];
  /** `all`: every limit has to be met. `any`: the standard offers them as alternatives. */
  readonly join: 'all' | 'any';
  readonly source: string;
  /**
   * `seen` in the standard or a report quoting it; `second-hand` in trade articles; `memory` has to be confirmed before
   * anyone relies on it.
   */
  readonly sourceStatus: 'seen' | 'second-hand' | 'memory' | 'common practice' | 'stated by the flooring manufacturer';
};

const INCH_M = 0.0254;
const FOOT_M = 0.3048;
const inch = (gapIn: number, spanFt: number, text: string): GapLimit => ({
  spanM: spanFt * FOOT_M,
  gapM: gapIn * INCH_M,
  text,
  units: 'us',
});
const inUnits = ({ gapM, spanM }: Pick<GapLimit, 'gapM' | 'spanM'>, units: UnitSystem): string =>
  units === 'us'
    ? `${formatDepth(gapM, units)} in ${formatLength(spanM, units)}`
    : `${formatNumber(gapM * 1000, { most: 1 })} mm in ${formatNumber(spanM, { most: 2 })} m`;
const metric = (gapMm: number, spanM: number): GapLimit => ({
  spanM,
  gapM: gapMm / 1000,
  text: `${gapMm} mm in ${spanM} m`,
  units: 'metric',
});

/** A limit as it is published, with the same in the business's units where those are others. */
export function limitText(limit: GapLimit, units: UnitSystem): string {
  return limit.units === null || limit.units === units ? limit.text : `${limit.text} (${inUnits(limit, units)})`;
}

/** A line of DIN 18202 Table 3 at 1, 2 and 4 m, not at 0.1 m, because readings are too far apart to measure it. */
const dinRule = (line: 1 | 2 | 3 | 4, name: string, gapsMm: readonly [number, number, number]): ToleranceRule => ({
  key: `din-18202-${line}`,
  name,
  limits: [metric(gapsMm[0], 1), metric(gapsMm[1], 2), metric(gapsMm[2], 4)],
  join: 'all',
  source: 'DIN 18202, Table 3, as reprinted in the screed trade’s handbook in whole millimeters; checked at 1, 2 and 4 m',
  sourceStatus: 'seen',
});

const bsRule = (grade: 1 | 2 | 3, gapMm: number): ToleranceRule => ({
  key: `bs-8204-sr${grade}`,
  name: `BS 8204 SR${grade}`,
  limits: [metric(gapMm, 2)],
  join: 'all',
  source: 'BS 8204, surface regularity below a 2 m straightedge, as published by the Concrete Society',
  sourceStatus: 'seen',
});

const DIN_COUNTRIES: ReadonlySet<string> = new Set(['DE', 'AT', 'CH']);
const BS_COUNTRIES: ReadonlySet<string> = new Set(['GB', 'IE']);

/** Every rule, in one list for review and correction. */
export const TOLERANCE_RULES: readonly ToleranceRule[] = [
  {
    key: 'ansi-a108-02-large',
    name: 'Tile with an edge of 15 in. or more',
    limits: [inch(1 / 8, 10, '1/8 in. in 10 ft'), inch(1 / 16, 2, '1/16 in. in 24 in.')],
    join: 'all',
    source: 'ANSI A108.02, 4.2.2, as quoted in two trade articles',
    sourceStatus: 'second-hand',
  },
  {
    key: 'ansi-a108-02',
    name: 'Tile under 15 in. on all edges',
    limits: [inch(1 / 4, 10, '1/4 in. in 10 ft'), inch(1 / 16, 1, '1/16 in. in 1 ft')],
    join: 'all',
    source: 'ANSI A108.02, as quoted in the US Access Board’s surface roughness report',
    sourceStatus: 'seen',
  },
  {
    key: 'nwfa-nailed',
    name: 'Wood floor nailed with 1-1/2 in. fasteners or longer',
    limits: [inch(1 / 4, 10, '1/4 in. in 10 ft'), inch(3 / 16, 6, '3/16 in. in 6 ft')],
    join: 'any',
    source: 'NWFA installation guidelines, chapter 4 part III, as quoted in trade articles',
    sourceStatus: 'second-hand',
  },
  {
    key: 'nwfa-glued',
    name: 'Wood floor glued, or nailed with shorter fasteners',
    limits: [inch(3 / 16, 10, '3/16 in. in 10 ft'), inch(1 / 8, 6, '1/8 in. in 6 ft')],
    join: 'any',
    source: 'NWFA installation guidelines, chapter 4 part III, as quoted in trade articles',
    sourceStatus: 'second-hand',
  },
  {
    key: 'nwfa-concrete',
    name: 'Wood or floating floor on concrete or cement',
    limits: [inch(1 / 8, 6, '1/8 in. in 6 ft'), inch(3 / 16, 10, '3/16 in. in 10 ft')],
    join: 'all',
    source: 'NWFA installation guidelines, chapter 5 part I, as quoted in a trade article',
    sourceStatus: 'second-hand',
  },
  {
    key: 'astm-f710',
    name: 'Resilient flooring on concrete or cement',
    limits: [inch(3 / 16, 10, '3/16 in. in 10 ft')],
    join: 'all',
    source: 'ASTM F710; confirm in the flooring’s data sheet',
    sourceStatus: 'memory',
  },
  {
    key: 'usual-bare',
    name: 'Floor left bare',
    limits: [inch(3 / 16, 10, '3/16 in. in 10 ft')],
    join: 'all',
    source: 'typical, common practice; the owner decides',
    sourceStatus: 'common practice',
  },
  {
    key: 'usual-carpet',
    name: 'Carpet',
    limits: [inch(1 / 4, 10, '1/4 in. in 10 ft')],
    join: 'all',
    source: 'typical, common practice; the carpet’s data sheet decides',
    sourceStatus: 'common practice',
  },
  bsRule(1, 3),
  bsRule(2, 5),
  bsRule(3, 10),
  dinRule(1, 'DIN 18202 line 1, unfinished slab tops', [15, 17, 20]),
  dinRule(2, 'DIN 18202 line 2, unfinished, raised requirement', [8, 9, 12]),
  dinRule(3, 'DIN 18202 line 3, finished floors and screeds for coverings', [4, 6, 10]),
  // At 1 m this is 3 in one reprint and 2 in another.
  dinRule(4, 'DIN 18202 line 4, finished, raised requirement', [3, 5, 9]),
];

/** Which rules apply to a flooring in the US. */
export const RULES_FOR: Readonly<Record<Flooring, readonly string[]>> = {
  'bare-sealed': ['usual-bare'],
  resilient: ['astm-f710'],
  'tile-small': ['ansi-a108-02'],
  'tile-large': ['ansi-a108-02-large'],
  'stone-tile': ['ansi-a108-02-large'],
  // On the new floor; the two figures of `nwfa-glued`, both of which are to be met.
  'wood-glued': ['nwfa-concrete'],
  'wood-nailed': ['nwfa-nailed'],
  floating: ['nwfa-concrete'],
  carpet: ['usual-carpet'],
};

/** BS 8204 grade by flooring. The assignment is common practice, no source. */
const BS_RULES: Readonly<Record<Flooring, string>> = {
  'bare-sealed': 'bs-8204-sr2',
  resilient: 'bs-8204-sr1',
  'tile-small': 'bs-8204-sr2',
  'tile-large': 'bs-8204-sr1',
  'stone-tile': 'bs-8204-sr1',
  'wood-glued': 'bs-8204-sr1',
  'wood-nailed': 'bs-8204-sr2',
  floating: 'bs-8204-sr1',
  carpet: 'bs-8204-sr3',
};

/** The flatness requirement of a floor: its flooring, the manufacturer's own limit, and the business's country (ISO 3166). */
export type FlatnessDemand = {
  readonly flooring: Flooring | null;
  readonly flooringLimits: FlooringLimits | null;
  readonly country: string;
};

/** The published rules for the business's country: DIN and BS in their countries, US rules elsewhere. */
export function publishedRules(country: string): readonly ToleranceRule[] {
  const standardOf = (rule: ToleranceRule): 'din' | 'bs' | 'us' =>
    rule.key.startsWith('din-') ? 'din' : rule.key.startsWith('bs-') ? 'bs' : 'us';
  const standard = DIN_COUNTRIES.has(country) ? 'din' : BS_COUNTRIES.has(country) ? 'bs' : 'us';
  return TOLERANCE_RULES.filter((rule) => standardOf(rule) === standard);
}

/** The flooring manufacturer's own limit as a rule; null when the manufacturer states none. It replaces the published ones. */
export function manufacturersRule(limits: FlooringLimits | null): ToleranceRule | null {
  if (!limits || limits.flatnessGapM === null || limits.flatnessSpanM === null) return null;
  const { flatnessGapM: gapM, flatnessSpanM: spanM } = limits;
  const limit = { spanM, gapM };
  return {
    key: 'manufacturers-own',
    name: 'Flooring manufacturer’s limit',
    limits: [{ ...limit, text: `${inUnits(limit, 'us')} (${inUnits(limit, 'metric')})`, units: null }],
    join: 'all',
    source: limits.statedIn || 'flooring data sheet',
    sourceStatus: 'stated by the flooring manufacturer',
  };
}

/** The rules for a floor under flooring: the manufacturer's own figure if there is one, otherwise the published ones. */
export function rulesFor({ flooring, flooringLimits, country }: FlatnessDemand): readonly ToleranceRule[] {
  if (flooring === null) return [];
  const manufacturers = manufacturersRule(flooringLimits);
  if (manufacturers !== null) return [manufacturers];
  const us = RULES_FOR[flooring];
  const keys = DIN_COUNTRIES.has(country) ? ['din-18202-3'] : BS_COUNTRIES.has(country) ? [BS_RULES[flooring]] : us;
  return keys.flatMap((key) => TOLERANCE_RULES.find((rule) => rule.key === key) ?? []);
}

/** The verdict of a rule on a floor: each limit with the gap measured under that straightedge. */
export type ToleranceVerdict = {
  readonly rule: ToleranceRule;
  readonly meets: boolean;
  readonly checks: readonly { readonly limit: GapLimit; readonly gapM: number; readonly meets: boolean }[];
};

/** Whether a floor meets a rule; `gapUnder` gives its worst gap in meters under a straightedge of a length in meters. */
export function judge(rule: ToleranceRule, gapUnder: (spanM: number) => number): ToleranceVerdict {
  const checks = rule.limits.map((limit) => {
    const gapM = gapUnder(limit.spanM);
    // A gap equal to the limit meets it; a nanometer covers rounding of inches.
    return { limit, gapM, meets: gapM <= limit.gapM + 1e-9 };
  });
  return { rule, meets: rule.join === 'all' ? checks.every((check) => check.meets) : checks.some((check) => check.meets), checks };
}
