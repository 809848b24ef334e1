/** What is wrong in a takeoff, and why its lifts and weight are as they are, in words, for the estimate and its screens. */
import type { NoCoverage } from '../material/containers.ts';
import type { LiftNote } from '../material/lifts.ts';
import type { PrimedSubstrate, PrimerProblem } from '../material/primer.ts';
import type { TakeoffDoubt } from '../material/takeoff-problem.ts';
import type { SheetProblem } from '../material/sheet.ts';
import { MIXING_FILL } from '../material/water.ts';
import type { AddedWeight } from '../material/weight.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatArealMass } from '../measure/mass.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatLoad } from '../measure/pressure.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { formatLiquid, LITER_M3 } from '../measure/volume.ts';
import { whose } from '../substrate/whose-figure.ts';

/** Names of the substrates within a sentence. */
export const SUBSTRATE_WORDS: Readonly<Record<PrimedSubstrate, string>> = {
  porous: 'porous substrates',
  'non-porous': 'non-porous substrates',
  wood: 'wood',
  metal: 'metal',
  tile: 'tile',
};

const BAG_WORDS: Readonly<Record<Extract<TakeoffDoubt, { kind: 'bags' }>['why'], string>> = {
  yield: 'The yield per bag is 0. Enter it from the bag, or weigh a mixed bag.',
  volume: 'The volume is unknown. Draw the room and take readings.',
  waste: 'Enter a waste factor from 0% to 100%.',
  'volume-range': 'The minimum volume is greater than the maximum.',
  'yield-range': 'Enter a yield uncertainty under 30%.',
  percentile: 'Enter a percent from 50 to 99.',
};

/** Why a data sheet cannot be calculated with. */
export const sheetProblemWords = ({ kind, name }: SheetProblem): string =>
  kind === 'not-mixed'
    ? `${name} is not mixed from bags. Choose an underlayment or topping.`
    : `${name}: the yield per bag is 0. Enter it from the bag, or weigh a mixed bag.`;

function primerProblemWords(problem: PrimerProblem): string {
  const { name } = problem;
  if (problem.kind === 'no-coverage') return `${name} has no coverage. Add it to the data sheet, or choose another primer.`;
  if (problem.kind === 'not-entered') return `${name}: enter the area and the coverage.`;
  const names = problem.for.map((substrate) => SUBSTRATE_WORDS[substrate]).join(', ');
  return `${name} is for ${names}, not for ${SUBSTRATE_WORDS[problem.substrate]}. Choose another primer.`;
}

/** A primer that covers the substrate, and not the lifts that are placed over new underlayment. */
function liftPrimerWords(problem: PrimerProblem): string {
  if (problem.kind !== 'other-substrate') return primerProblemWords(problem);
  const names = problem.for.map((substrate) => SUBSTRATE_WORDS[substrate]).join(', ');
  return `${problem.name} is for ${names}. Lifts after the first go on new underlayment, which is porous. Choose a primer for ${SUBSTRATE_WORDS[problem.substrate]} too, or add that use if its data sheet gives it.`;
}

/** What a data sheet does not say of its container. */
export const noCoverageWords = ({ name, container, unit }: NoCoverage): string =>
  `${name} has no coverage per ${container} by ${{ kg: 'weight', L: 'volume', m: 'length', m2: 'area', piece: 'piece' }[unit]}. Add it to the data sheet.`;

const coatWords = (coats: number): string => (coats === 1 ? '1 coat' : `${coats} coats`);

/**
 * The coats of a floor's primings: `2 coats`, `1 coat before each of 2 lifts`.
 * @param coats of each priming, in order
 */
export function primingWords(coats: readonly number[]): string {
  const [first = 1, later] = coats;
  if (later === undefined) return coatWords(first);
  if (later === first) return `${coatWords(first)} before each of ${coats.length} lifts`;
  return `${coatWords(first)} before the first lift and ${coatWords(later)} before each later lift`;
}

/** Why the lifts of a room are as they are. */
export function liftNoteWords(note: LiftNote, units: UnitSystem, locale?: string): string {
  const show = (m: number) => formatDepth(m, units, locale);
  switch (note.kind) {
    case 'several':
      return `${show(note.deepestM)} at the deepest point is over the maximum lift of ${show(note.liftM)}. Place ${note.count} lifts, deep areas first.`;
    case 'aggregate':
      return `With aggregate, a lift is ${show(note.leastM)} to ${show(note.mostM)}.`;
    case 'cap':
      return `The last lift is a cap of ${show(note.capM)} without aggregate. Prime the aggregate first.`;
    case 'too-shallow-for-aggregate':
      return `No aggregate: with its cap it needs a minimum depth of ${show(note.leastM)}. Here it is ${show(note.shallowestM)}.`;
    case 'no-aggregate':
      return 'The data sheet allows no aggregate.';
    case 'too-thin':
      return `The shallowest point is ${show(note.shallowestM)}. The ${whose(note)} minimum is ${show(note.leastM)}.`;
  }
}

/** A batch that cannot be mixed in its bucket without spilling. */
export function overfilledWords(
  { batchM3, bagsPerBatch, bucketL }: Omit<Extract<TakeoffDoubt, { kind: 'bucket' }>, 'kind'>,
  units: UnitSystem,
  locale?: string,
): string {
  const [batch, bucket] = [batchM3 / LITER_M3, bucketL].map((liters) => formatLiquid(liters, units, locale));
  const help = bagsPerBatch > 1 ? 'Mix fewer bags at once, or use a larger bucket.' : 'Use a larger bucket.';
  return `A batch of ${batch} fills a bucket of ${bucket} over ${formatPercent(MIXING_FILL, 0, locale)}, and spills when it is mixed. ${help}`;
}

/** What the pour adds to the floor, and the allowance. */
export function weightWords(
  { meanKgM2, mostKgM2, removedKgM2, removedAllOverKgM2, laidKgM2, allowedPa, within }: AddedWeight,
  units: UnitSystem,
  locale?: string,
): string {
  const show = (kgM2: number) => formatArealMass(kgM2, units, locale);
  const less =
    removedKgM2 === 0
      ? ''
      : removedKgM2 === removedAllOverKgM2
        ? `, less ${show(removedKgM2)} removed`
        : `. ${show(removedKgM2)} is removed on average, and ${show(removedAllOverKgM2)} over the whole room, which is what counts at the deepest point`;
  const adds = `The pour adds ${show(meanKgM2)} on average, ${show(mostKgM2)} at the deepest point${less}.${laidKgM2 === 0 ? '' : ` New layers add ${show(laidKgM2)}.`}`;
  if (allowedPa === null) return `${adds} This is not a structural check. On a suspended floor, ask a structural engineer.`;
  const allowance = formatLoad(allowedPa, units, locale);
  return within === true
    ? `${adds} The allowance entered is ${allowance}.`
    : `${adds} That is over the allowance of ${allowance}. Pour thinner, remove more, or ask a structural engineer.`;
}

/** What is missing or doubtful in the takeoff of a room. */
export function doubtWords(doubt: TakeoffDoubt, units: UnitSystem, locale?: string): string {
  switch (doubt.kind) {
    case 'no-survey':
      return 'the volume is unknown. Draw the room and take readings.';
    case 'no-material':
      return 'no material is chosen. Choose its data sheet.';
    case 'no-primer':
      return 'no primer is chosen. Nearly every floor needs one. Choose its data sheet.';
    case 'sheet':
      return sheetProblemWords(doubt.why);
    case 'primer':
      return primerProblemWords(doubt.why);
    case 'lift-primer':
      return liftPrimerWords(doubt.why);
    case 'bags':
      return BAG_WORDS[doubt.why];
    case 'bucket':
      return overfilledWords(doubt, units, locale);
    case 'weight':
      return weightWords(doubt.weight, units, locale);
    case 'too-thin':
      return liftNoteWords(doubt, units, locale);
  }
}
