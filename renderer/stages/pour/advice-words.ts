/** Advice of the pour simulation in words: each change, what it buys, and the sentence to show first. */
import type { PourPlan } from '../../../shared-core/book/job.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatLength } from '../../../shared-core/measure/length-format.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import type { Advice, Change, Judged } from '../../../shared-core/pour/advice.ts';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';

/**
 * A change, ready to begin a sentence: `Add 1 mixing station`.
 * @param now the plan that is changed
 */
export function changeWords(change: Change, now: PourPlan, units: UnitSystem): string {
  const { kind, parts } = change;
  const to = change.plans[0] ?? now;
  switch (kind) {
    case 'none':
      return 'As planned';
    case 'direction':
      return 'Turn the lanes the other way';
    case 'width':
      return `Lanes ${formatLength(to.laneWidthM, units)} wide`;
    case 'pattern':
      return to.pattern === 'one-way' ? 'Fill every lane from the same end' : 'Fill lanes back and forth';
    case 'mixers': {
      const more = to.crew.mixers - now.crew.mixers;
      return more < 0 ? 'Use 1 mixing station fewer' : more === 1 ? 'Add 1 mixing station' : `Add ${more} mixing stations`;
    }
    case 'spreaders':
      return 'Add 1 spreader';
    case 'load':
      return `${to.crew.cartBatches} ${to.crew.cartBatches === 1 ? 'batch' : 'batches'} per cart load`;
    case 'by-hand':
      return 'Carry by hand with 1 more carrier';
    case 'joint':
      return 'Set a dammed joint across the middle';
    case 'two':
      return parts === undefined ? '' : `${changeWords(parts[0], now, units)} and ${lowerFirst(changeWords(parts[1], now, units))}`;
  }
}

type Place = { readonly units: UnitSystem; readonly locale: string };

/** What a change buys: `Add 1 spreader: chance of a cold joint from 9% to 2%.` */
export function judgedWords({ now }: Pick<Advice, 'now'>, j: Judged, { units, locale }: Place): string {
  const parts: string[] = [];
  const percent = (share: number) => formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const minutes = (min: number) => formatDuration(Math.round(min) * 60, locale);
  const [plan] = now.change.plans;
  if (Math.abs(now.coldJoint.share - j.coldJoint.share) >= 0.005) {
    parts.push(`chance of a cold joint from ${percent(now.coldJoint.share)} to ${percent(j.coldJoint.share)}`);
  }
  if (Math.abs(now.tooOld.share - j.tooOld.share) >= 0.005) {
    parts.push(`chance of an old batch from ${percent(now.tooOld.share)} to ${percent(j.tooOld.share)}`);
  }
  if (now.joinMin - j.joinMin >= 1) parts.push(`edges at most ${minutes(j.joinMin)} old instead of ${minutes(now.joinMin)}`);
  if (Math.abs(now.finishMin - j.finishMin) >= 2) {
    parts.push(`done in about ${minutes(j.finishMin)} instead of ${minutes(now.finishMin)}`);
  }
  return `${plan === undefined ? '' : changeWords(j.change, plan, units)}: ${parts.join(', ')}.`;
}

/**
 * The sentence to show first.
 * @param chance acceptable chance of a cold joint and of an old batch
 */
export function summaryWords(advice: Advice, chance: number, place: Place): string {
  const { now, keepsNow, leastCrew: least, better } = advice;
  const { locale } = place;
  const limit = formatPercent(chance, chance < 0.1 && !Number.isInteger(chance * 100) ? 1 : 0, locale);
  const [plan] = now.change.plans;
  if (keepsNow) {
    return least !== null && plan !== undefined && least.change.people < 0
      ? `Both chances stay under ${limit}. ${changeWords(least.change, plan, place.units)} also works.`
      : `The chance of a cold joint and of an old batch stays under ${limit}.`;
  }
  const cold = `Cold joint in ${formatPercent(now.coldJoint.share, 0, locale)} of simulated pours, old batch in ${formatPercent(now.tooOld.share, 0, locale)}.`;
  if (least === null)
    return `${cold} No change tried brings both under ${limit}. Divide the floor into smaller sections with dams, use cooler mix water within the data sheet’s range, or choose a slower-setting product.`;
  const [best] = better;
  return best === undefined ? cold : `${cold} ${judgedWords(advice, best, place)}`;
}
