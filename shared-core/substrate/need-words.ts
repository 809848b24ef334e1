/** Text of a required test's field: the result, the limit, and how and where it was measured. */
import { formatDay } from '../measure/day.ts';
import { formatListOr, joined } from '../measure/list.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { FloorFacts } from './floor-facts.ts';
import { POROUS_UNDER_SECONDS, JOIST_HOLD_SHARE, pullOffLeastPa } from './measured-tests.ts';
import { DEFLECTION_SPAN_OVER } from './floor-deflection.ts';
import { highestEmissionLb, highestHumidity } from './highest-moisture.ts';
import type { Finding } from './rule.ts';
import { slabLimits, type TestNeed } from './test-needs.ts';
import { lookWords } from './surface-kinds.ts';
import { lastVisit } from './test-kinds.ts';
import type { Wording } from './wording.ts';

/** Text of a required test's field. */
export type NeedWords = {
  /** The reading that decides; null while none counts. */
  readonly value: string | null;
  /** The limit: `max 75%`; empty where none is published. */
  readonly limit: string;
  /** How, where and when: `1⅝″ deep, May 8`. */
  readonly detail: string;
};

/** State of a required test, for its symbol: waiting, started or prep needed, done, or on hold. */
export type NeedStanding = 'waiting' | 'under-way' | 'done' | 'held';

type NeedContext = { readonly wording: Wording; readonly zone: string; readonly locale: string };

const SCRATCH_WORDS = { firm: 'firm', scores: 'scores', dusts: 'dusts', crumbles: 'crumbles' } as const;
const SCRATCH_WORST = ['crumbles', 'dusts', 'scores', 'firm'] as const;
const plural = (count: number, singular: string, pluralForm: string): string => `${count} ${count === 1 ? singular : pluralForm}`;

/** Text of a required test's field. @param context wording, and the time zone of the property, for the day of the reading */
export function needWords(need: TestNeed, facts: FloorFacts, context: NeedContext): NeedWords {
  const { wording: w } = context;
  const accepted = facts.recent.filter((test) => need.accepts.includes(test.kind));
  const day = (dated: readonly { readonly takenAt: string }[]): string => {
    const last = dated
      .map((test) => test.takenAt)
      .sort()
      .at(-1);
    return last === undefined ? '' : formatDay(dayOfInstant(last, context.zone), 'short', context.locale);
  };
  switch (need.id) {
    case 'slab-moisture': {
      const counts = (kind: 'slab-humidity' | 'moisture-dish'): boolean => need.accepts.includes(kind);
      const wettest = counts('slab-humidity') ? highestHumidity(facts.humidity) : null;
      const emission = counts('moisture-dish') ? highestEmissionLb(facts.dishes) : null;
      const { slabHumidity, emissionLb } = slabLimits(facts);
      if (wettest === null && emission !== null)
        return {
          value: w.emission(emission.value),
          limit: emissionLb === null ? '' : `max ${w.emission(emissionLb)}`,
          detail: joined([plural(facts.dishes.length, 'test', 'tests'), day(facts.dishes)]),
        };
      const wettestTest = facts.humidity.find((test) => test.id === wettest?.testId);
      return {
        value: wettest === null ? null : w.share(wettest.value),
        limit: slabHumidity === null ? '' : `max ${w.share(slabHumidity)}`,
        detail:
          wettestTest === undefined
            ? formatListOr([...(counts('slab-humidity') ? ['RH probe'] : []), ...(counts('moisture-dish') ? ['calcium chloride'] : [])])
            : joined([`${w.depth(wettestTest.depthM)} deep`, day(facts.humidity)]),
      };
    }
    case 'wood-boards':
    case 'wood-structure': {
      const readings = facts.wood[need.id === 'wood-boards' ? 'boards' : 'structure'];
      const limit = need.id === 'wood-boards' ? (facts.limits.woodMoisture?.value ?? null) : JOIST_HOLD_SHARE;
      return {
        value: readings.length === 0 ? null : w.share(Math.max(...readings)),
        limit: limit === null ? '' : `max ${w.share(limit)}`,
        detail:
          readings.length === 0
            ? `meter, in ${plural(need.wanted, 'place', 'places')}`
            : `meter, in ${plural(readings.length, 'place', 'places')}`,
      };
    }
    case 'absorption': {
      const drops = lastVisit(facts.recent, 'drop-absorption');
      const stayed = drops.some((drop) => drop.seconds === null);
      const slowest = Math.max(0, ...drops.map((drop) => drop.seconds ?? 0));
      return {
        value: drops.length === 0 ? null : stayed ? 'drop stayed' : `absorbed in ${w.number(slowest)} s`,
        limit:
          facts.absorption === null
            ? `porous if absorbed in ${POROUS_UNDER_SECONDS} s`
            : facts.absorption === 'porous'
              ? 'porous'
              : 'non-porous',
        detail: drops.length === 0 ? 'water drops' : joined([plural(drops.length, 'drop', 'drops'), day(drops)]),
      };
    }
    case 'surface-strength': {
      const pulls = lastVisit(facts.recent, 'pull-off');
      const scratches = lastVisit(facts.recent, 'scratch');
      const weakest = pulls.length === 0 ? null : Math.min(...pulls.map((pull) => pull.stressPa));
      const worst = SCRATCH_WORST.find((result) => scratches.some((scratch) => scratch.result === result));
      return {
        value: weakest !== null ? w.strength(weakest) : worst === undefined ? null : SCRATCH_WORDS[worst],
        limit: weakest === null ? 'firm' : `min ${w.strength(pullOffLeastPa(facts.product, facts.hasMoistureSystem))}`,
        detail:
          accepted.length === 0
            ? 'scratch or pull-off'
            : joined([
                weakest === null
                  ? plural(scratches.length, 'scratch test', 'scratch tests')
                  : plural(pulls.length, 'pull-off', 'pull-offs'),
                day(accepted),
              ]),
      };
    }
    case 'surface-look':
      return {
        value: facts.looks.length === 0 ? null : facts.looks.map(lookWords).join(', '),
        limit: 'sound and clean',
        detail: day(lastVisit(facts.recent, 'surface-look')),
      };
    case 'deflection':
      return {
        value: facts.deflection === null ? null : `L/${w.number(Math.floor(facts.deflection.answer.liveSpanOver))}`,
        limit: `min L/${facts.demand?.spanOver ?? DEFLECTION_SPAN_OVER}`,
        detail:
          facts.deflection === null
            ? 'span and joist size'
            : `span ${w.length(facts.deflection.test.spanM)}, ${w.depth(facts.deflection.test.spacingM)} on center`,
      };
    case 'air': {
      const { air } = facts;
      return {
        value: air === null ? null : joined([w.temp(air.test.airTempC), w.share(air.test.relativeHumidity)]),
        limit: air === null ? 'floor above the dew point' : `min ${w.tempGap(air.marginLeastC)} above dew point`,
        detail: air === null || air.marginC === null ? 'on the day of the pour' : `${w.tempGap(air.marginC)} above dew point`,
      };
    }
  }
}

/** Whether the wood part that this test covers is over its limit. */
function isWet(need: TestNeed, facts: FloorFacts): boolean {
  if (need.id === 'wood-structure') return facts.wood.structure.some((share) => share > JOIST_HOLD_SHARE + 1e-9);
  const limit = facts.limits.woodMoisture;
  return need.id === 'wood-boards' && limit !== null && facts.wood.boards.some((share) => share > limit.value + 1e-9);
}

/** State of a required test. Enough readings are not enough; their results decide. */
export function needStanding(need: TestNeed, facts: FloorFacts, findings: readonly Finding[]): NeedStanding {
  const ids = new Set(facts.recent.filter((test) => need.accepts.includes(test.kind)).map((test) => test.id));
  const about = findings.filter((finding) => finding.testId !== null && ids.has(finding.testId));
  if (about.some((finding) => finding.verdict === 'hold') || isWet(need, facts)) return 'held';
  if (need.state === 'missing' || need.state === 'stale') return 'waiting';
  const wantsWork =
    about.some((finding) => finding.verdict === 'go-with-work') ||
    (need.id === 'surface-look' && !facts.looks.every((look) => look === 'sound-clean'));
  return need.state === 'few' || wantsWork ? 'under-way' : 'done';
}
