/** A test a floor needs, in the words of its field: what was read, what it is held to, how and where it was read. */
import { formatDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { FloorFacts } from './floor-facts.ts';
import { POROUS_UNDER_SECONDS } from './drop-absorption.ts';
import { DEFLECTION_SPAN_OVER } from './floor-bounce.ts';
import { highestEmissionLb, highestHumidity } from './highest-moisture.ts';
import type { Finding } from './rule.ts';
import { PH_WITHIN, PULL_OFF_LEAST_PA } from './surface-strength.ts';
import type { TestNeed } from './test-needs.ts';
import { lastVisit } from './tests-of.ts';
import type { Wording } from './wording.ts';

/** What a need's field says. */
export type NeedWords = {
  /** The reading that decides; null while there is none that counts. */
  readonly value: string | null;
  /** What it is held to: `at most 75 %`; empty where nothing is published. */
  readonly limit: string;
  /** How, where and when: `3 holes, 1⅝″ deep, May 8`. */
  readonly detail: string;
};

/** How a need stands, for its shape: asked for, begun or wanting work, fine, or holding the work. */
export type NeedStanding = 'waiting' | 'under-way' | 'done' | 'held';

type Told = { readonly wording: Wording; readonly zone: string; readonly locale: string };

const SCRATCH_WORDS = { firm: 'stays firm', scores: 'scores', dusts: 'dusts', crumbles: 'crumbles' } as const;
const SCRATCH_WORST = ['crumbles', 'dusts', 'scores', 'firm'] as const;
const plural = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;
const joined = (parts: readonly string[]): string => parts.filter((part) => part !== '').join(', ');

/** What the need's field says. @param zone time zone of the property, for the day of the reading */
export function needWords(need: TestNeed, facts: FloorFacts, told: Told): NeedWords {
  const { wording: w } = told;
  const made = facts.recent.filter((test) => need.accepts.includes(test.kind));
  const day = (of: readonly { readonly takenAt: string }[]): string => {
    const last = of
      .map((test) => test.takenAt)
      .sort()
      .at(-1);
    return last === undefined ? '' : formatDay(dayOfInstant(last, told.zone), 'short', told.locale);
  };
  switch (need.id) {
    case 'slab-moisture': {
      const wettest = highestHumidity(facts.humidity);
      const emission = highestEmissionLb(facts.dishes);
      const { slabHumidity, emissionLb } = facts.limits;
      if (wettest === null && emission !== null)
        return {
          value: w.emission(emission.value),
          limit: emissionLb === null ? '' : `at most ${w.emission(emissionLb.value)}`,
          detail: joined([plural(facts.dishes.length, 'dish', 'dishes'), day(facts.dishes)]),
        };
      const at = facts.humidity.find((test) => test.id === wettest?.testId);
      return {
        value: wettest === null ? null : w.share(wettest.value),
        limit: slabHumidity === null ? '' : `at most ${w.share(slabHumidity.value)}`,
        detail: at === undefined ? 'probe or dish' : joined([`${w.depth(at.depthM)} deep`, day(facts.humidity)]),
      };
    }
    case 'wood-boards':
    case 'wood-structure': {
      const readings = facts.wood[need.id === 'wood-boards' ? 'boards' : 'structure'];
      const limit = facts.limits.woodMoisture;
      return {
        value: readings.length === 0 ? null : w.share(Math.max(...readings)),
        limit: limit === null ? '' : `at most ${w.share(limit.value)}`,
        detail:
          readings.length === 0
            ? `pins, in ${plural(need.wanted, 'place', 'places')}`
            : `pins, in ${plural(readings.length, 'place', 'places')}`,
      };
    }
    case 'absorption': {
      const drops = lastVisit(facts.recent, 'drop-absorption');
      const stayed = drops.some((drop) => drop.seconds === null);
      const slowest = Math.max(0, ...drops.map((drop) => drop.seconds ?? 0));
      return {
        value: drops.length === 0 ? null : stayed ? 'still there' : `gone in ${w.number(slowest)} s`,
        limit:
          facts.absorption === null
            ? `gone in ${POROUS_UNDER_SECONDS} s: it drinks`
            : facts.absorption === 'porous'
              ? 'it drinks'
              : 'it is closed',
        detail: drops.length === 0 ? 'drops of water' : joined([plural(drops.length, 'drop', 'drops'), day(drops)]),
      };
    }
    case 'surface-strength': {
      const pulls = lastVisit(facts.recent, 'pull-off');
      const scratches = lastVisit(facts.recent, 'scratch');
      const weakest = pulls.length === 0 ? null : Math.min(...pulls.map((pull) => pull.stressPa));
      const worst = SCRATCH_WORST.find((result) => scratches.some((scratch) => scratch.result === result));
      return {
        value: weakest !== null ? w.strength(weakest) : worst === undefined ? null : SCRATCH_WORDS[worst],
        limit: weakest === null ? 'stays firm' : `at least ${w.strength(PULL_OFF_LEAST_PA)}`,
        detail:
          made.length === 0
            ? 'scratch or pull-off'
            : joined([
                weakest === null ? plural(scratches.length, 'scratch', 'scratches') : plural(pulls.length, 'pull', 'pulls'),
                day(made),
              ]),
      };
    }
    case 'surface-ph': {
      const readings = lastVisit(facts.recent, 'surface-ph');
      // The reading farthest from the middle of what is allowed decides.
      const middle = (PH_WITHIN.least + PH_WITHIN.most) / 2;
      const farthest = [...readings].sort((a, b) => Math.abs(b.ph - middle) - Math.abs(a.ph - middle))[0];
      return {
        value: farthest === undefined ? null : `pH ${w.number(farthest.ph, 1)}`,
        limit: `pH ${PH_WITHIN.least} to ${PH_WITHIN.most}`,
        detail: joined([readings.length === 0 ? 'paper on a puddle' : plural(readings.length, 'place', 'places'), day(readings)]),
      };
    }
    case 'surface-look':
      return {
        value: facts.looks.length === 0 ? null : facts.looks.join(', ').replaceAll('-', ' and '),
        limit: 'sound and clean',
        detail: day(lastVisit(facts.recent, 'surface-look')),
      };
    case 'bounce':
      return {
        value: facts.bounce === null ? null : `L/${w.number(Math.floor(facts.bounce.answer.liveSpanOver))}`,
        limit: `at least L/${DEFLECTION_SPAN_OVER}`,
        detail:
          facts.bounce === null
            ? 'span and size'
            : `span ${w.length(facts.bounce.test.spanM)}, every ${w.depth(facts.bounce.test.spacingM)}`,
      };
    case 'air': {
      const { air } = facts;
      return {
        value: air === null ? null : joined([w.temp(air.test.airTempC), w.share(air.test.relativeHumidity)]),
        limit: air === null ? 'floor clear of the dew point' : `floor ${w.tempGap(air.marginLeastC)} over dew`,
        detail: air === null || air.marginC === null ? 'on the day of the pour' : `it is ${w.tempGap(air.marginC)} over`,
      };
    }
  }
}

/** Whether the need's own part of the timber is what a finding of wet timber is about. */
function isWet(need: TestNeed, facts: FloorFacts): boolean {
  const part = need.id === 'wood-boards' ? 'boards' : need.id === 'wood-structure' ? 'structure' : null;
  const limit = facts.limits.woodMoisture;
  return part !== null && limit !== null && facts.wood[part].some((share) => share > limit.value + 1e-9);
}

/** How a need stands: enough readings are not yet good readings, and what they say decides. */
export function needStanding(need: TestNeed, facts: FloorFacts, findings: readonly Finding[]): NeedStanding {
  const ids = new Set(facts.recent.filter((test) => need.accepts.includes(test.kind)).map((test) => test.id));
  const about = findings.filter((finding) => finding.testId !== null && ids.has(finding.testId));
  if (about.some((finding) => finding.verdict === 'hold') || isWet(need, facts)) return 'held';
  if (need.state === 'missing' || need.state === 'stale') return 'waiting';
  const wantsWork =
    about.some((finding) => finding.verdict === 'go-with-work') ||
    (need.id === 'surface-look' && !facts.looks.every((is) => is === 'sound-clean'));
  return need.state === 'few' || wantsWork ? 'under-way' : 'done';
}
