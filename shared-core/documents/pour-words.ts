/** What pour mode asks about an entry, and what is wrong with the plan of a pour, in words. */
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { formatLiquid } from '../measure/volume.ts';
import type { CartOverload } from '../pour/cart.ts';
import type { PourClocks } from '../pour/clocks.ts';
import type { StationOver } from '../pour/crew-names.ts';
import type { PourProblem } from '../pour/layout.ts';
import type { PaperProblem } from '../pour/paper-log.ts';
import type { PourQuestion, StackCount } from '../pour/pour-commands.ts';
import { deepFills } from '../standing/lift-cover.ts';
import type { PourReading, ReadPourProblem } from '../standing/read-pour.ts';
import { minutesWords } from './log-words.ts';
import { ownerWord } from '../substrate/whose-figure.ts';

const bags = (count: number): string => `${count} ${count === 1 ? 'bag' : 'bags'}`;

/**
 * Compares the stack with the log: `60 bags on site, 6 used: the log has 54 left and you counted 57.` After a count that differed, what is left
 * is no longer what was brought less what was used, and the sentence says so.
 */
export function stackWords({ bagsBrought, bagsUsed, bagsLeft, counted }: StackCount): string {
  const stack = `${bags(bagsBrought)} on site, ${bagsUsed} used`;
  const isRecounted = Math.abs(bagsBrought - bagsUsed - bagsLeft) > 1e-6;
  return isRecounted
    ? `${stack}. By the last count ${bagsLeft} should be left, and you counted ${counted}.`
    : `${stack}: the log has ${bagsLeft} left and you counted ${counted}.`;
}

/** The question before an entry is logged that looks like a mistake. */
export function questionWords(question: PourQuestion): string {
  switch (question.kind) {
    case 'mixed-twice':
      return `Batch ${question.batch} was logged less than a second ago. Is this another batch?`;
    case 'placed-twice':
      return `A batch was logged less than a second ago. Was batch ${question.batch} placed too?`;
    case 'mixed-short':
      return `The log has ${question.bagsLeft} of ${question.bags} bags left. Log batch ${question.batch} anyway?`;
    case 'placed-short':
      return `The log had ${question.bagsLeft} of ${question.bags} bags left. Log batch ${question.batch} anyway?`;
    case 'undone-before':
      return `Batch ${question.batch} was logged ${minutesWords(question.minutesAgo)} ago and undone. Restore it with that time?`;
    case 'none-placed':
      return 'No batch is placed yet. Is the lane finished anyway?';
    case 'lane-late':
      return `Was lane ${question.lane} full after batch ${question.batch}? Yes puts the batches after it in the next lane.`;
    case 'count-differs':
      return `The log has ${bags(question.bagsLeft)} left and you counted ${question.counted}. Use the count?`;
    case 'still-mixed':
      return `Batch ${question.batch} is mixed and not placed. Finish the pour anyway?`;
    case 'end-count-differs':
      return `${stackWords(question)} Finish with your count?`;
  }
}

/** The lift of a pour; empty where there is only one: `lift 1 of 2, deep areas`. */
export function liftWords(read: Pick<PourReading, 'lift' | 'lifts' | 'rooms'>): string {
  const { number, of } = read.lift;
  return of < 2 ? '' : `lift ${Math.min(number, of)} of ${of}, ${deepFills(read).length === 0 ? 'all of the floor' : 'deep areas'}`;
}

/** Why a pour cannot be read, laid out or crewed, and what to do. */
export function pourProblemWords(problem: PourProblem | ReadPourProblem): string {
  switch (problem.kind) {
    case 'no-rooms':
      return 'Select the rooms of this pour.';
    case 'no-product':
      return `Choose a product for ${problem.room} on Estimate.`;
    case 'no-estimate':
      return `${problem.room} has no estimate yet. Take readings and choose a finish elevation.`;
    case 'other-product':
      return `${problem.room} uses a different product than ${problem.lead}. Pour it separately.`;
    case 'other-mix':
      return `Only one of ${problem.room} and ${problem.lead} has aggregate in this lift. Pour them separately.`;
    case 'depth-unknown':
      return `The pour depth of ${problem.room} is unknown. ${problem.why ?? 'Take readings first.'}`;
    case 'lifts-apart':
      return `${problem.rooms.map(({ name, lift }) => `${name} is at lift ${lift}`).join(' and ')}. Pour them separately.`;
    case 'no-sheet-stored':
      return 'The product of this pour has no data sheet.';
    case 'rooms-removed':
      return 'The rooms of this pour are no longer in the job.';
    case 'no-batch-size':
      return 'Enter the bags per batch and the yield per bag.';
    case 'no-floor':
      return 'No floor to pour. Draw the room, or check the dammed joints.';
    case 'no-depth':
      return 'The pour has no depth. Check the finish elevation and the minimum thickness.';
    case 'no-mixer':
      return 'Enter at least one mixing station.';
    case 'no-spreader':
      return 'Enter at least one person spreading: the cart needs one.';
    case 'no-batch':
      return 'Lay out the pour first.';
    case 'no-load':
      return 'Enter how many batches the cart holds.';
    case 'no-times':
      return 'Enter the minutes for measuring, mixing or scraping out.';
    case 'no-layout-stored':
      return 'This pour was started without a layout.';
    case 'too-many-batches':
      return `That is ${problem.batches} batches, more than one pour can have. Check the depth and the bags per batch, or divide the floor.`;
    case 'not-drawn':
      return `${problem.room} is not drawn yet. Draw it, then plan the pour.`;
    case 'lanes-do-not-fit':
      return `Lanes of that width do not fit in ${problem.room}. Choose a width of a few feet, or about a meter.`;
  }
}

/** Said of a crew of one. Common practice, no source. */
export const ALONE_WORDS =
  'Alone, you mix, carry, and spread by turns. The working time on most data sheets then allows only a small room.';

const PAPER_PROBLEMS: Readonly<Record<Exclude<PaperProblem['kind'], 'not-numbered' | 'repeated'>, string>> = {
  'range-backward': 'the last batch of the line comes before its first.',
  'no-bags': 'enter the bags per batch.',
  'no-time': 'the time cannot be read. Enter it like 9:40.',
  'out-of-order':
    'the time is before that of the line above, or more than 12 hours after it. Put the lines in the order the batches were placed.',
};

/** What is wrong with a line of a handwritten log, and what to enter. */
export function paperProblemWords({ kind, line, batch, repeated }: PaperProblem): string {
  if (kind === 'not-numbered') return `Line ${line}: number the batches from 1.`;
  return `Line ${line}, batch ${batch}: ${kind === 'repeated' ? `batch ${repeated} is already in a line above.` : PAPER_PROBLEMS[kind]}`;
}

/** A load that does not fit in the cart, and how many batches to load. */
export function cartOverloadWords({ batches, loadL, holdsL, fit }: CartOverload, units: UnitSystem, locale?: string): string {
  const n = (value: number) => formatNumber(value, { most: 0 }, locale);
  const load = `${n(batches)} batches are ${formatLiquid(loadL, units, locale)}, and the cart holds ${formatLiquid(holdsL, units, locale)}`;
  return fit === 0 ? `${load}: not even one batch goes in.` : `${load}: load ${n(fit)}.`;
}

/** More people named for a station than the plan has there. */
export const stationOverWords = ({ station, named, planned }: StationOver): string =>
  `${named} ${named === 1 ? 'is' : 'are'} named for ${station}, and the plan has ${planned}.`;

/** What to do where the room is outside the temperatures for pouring, before the pour or while it runs; null where it is not. */
export function outsideWords(
  { outside, roomTypical }: Pick<PourClocks, 'outside' | 'roomTypical'>,
  when: 'before' | 'running' = 'before',
): string | null {
  const own = ownerWord(roomTypical);
  if (outside === null) return null;
  if (when === 'running')
    return outside === 'colder'
      ? `Colder than the ${own} minimum. Warm the room with no draft on the wet floor and no fuel-burning heater, or stop at a dam.`
      : `Warmer than the ${own} maximum: it sets sooner. Shade and cool the room, with no draft on the wet floor.`;
  return outside === 'colder'
    ? `The room is colder than the ${own} minimum. Warm it before you pour.`
    : `The room is warmer than the ${own} maximum. Cool it, or pour early in the day.`;
}
