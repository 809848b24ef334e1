/**
 * Heights the pour changes at doors, stairs and fixtures, with the work and who does it. It is printed on the quote. Common
 * practice; the clearances are the manufacturers'. Who does
 * what is common practice, no source.
 */
import type { Fixture } from '../book/layer.ts';
import type { Opening } from '../book/plan-fields.ts';
import { capital } from '../measure/first-letter.ts';
import { INCH_M } from '../measure/length-units.ts';
import { openingName } from '../plan/openings.ts';
import { type StepNeed, stepNeed } from '../substrate/door-step.ts';

type FixtureWords = { readonly name: string; readonly check: string; readonly who: string };

const WE = 'Our crew';

/** Each fixture: its name, the work its new height needs, and who does it. */
export const FIXTURE_WORDS: Readonly<Record<Fixture, FixtureWords>> = {
  dishwasher: {
    name: 'Dishwasher',
    check: 'Check that it still slides out under the counter. Raise the counter or lower the feet.',
    who: 'Your appliance installer',
  },
  range: { name: 'Range', check: 'Check height to the counter and the anti-tip bracket.', who: 'Your appliance installer' },
  refrigerator: { name: 'Refrigerator recess', check: 'Check the height under the cabinet above.', who: 'Your appliance installer' },
  'base-cabinets': {
    name: 'Base cabinets and island',
    check: 'Pour up to the toe kick, or set the cabinets after the pour. Counter height changes.',
    who: 'Your cabinet installer',
  },
  toilet: { name: 'Toilet', check: 'Remove it, and set the flange on the finished floor. Reset with a new seal.', who: 'Your plumber' },
  'tub-or-shower': { name: 'Tub or shower curb', check: 'Check the curb or apron height above the finished floor.', who: 'Your plumber' },
  'floor-drain': { name: 'Floor drain', check: 'Raise the drain to the finished floor and keep the slope.', who: 'Your plumber' },
  'floor-register': {
    name: 'Floor registers and returns',
    check: 'Extend the boots to the finished floor.',
    who: 'Your HVAC contractor',
  },
  'floor-outlet': { name: 'Floor outlets', check: 'Extend the boxes to the finished floor.', who: 'Your licensed electrician' },
  hatch: { name: 'Hatch', check: 'Raise the frame to the finished floor.', who: 'Your carpenter' },
  cleanout: { name: 'Cleanout', check: 'Extend the cleanout to the finished floor and keep it accessible.', who: 'Your plumber' },
  hearth: {
    name: 'Hearth',
    check: 'Check the step to the hearth and the clearance the code asks for.',
    who: 'Your mason or hearth installer',
  },
  'sliding-door': { name: 'Sliding door track', check: 'Keep the track clear. Check its height above the finished floor.', who: WE },
  'garage-door': {
    name: 'Door to the garage',
    check: 'A fire-rated door is replaced or re-hung, not cut, unless its label allows it.',
    who: 'Your carpenter',
  },
};

/** One line of the schedule. Heights in meters; null while unknown. */
export type HeightLine = {
  readonly name: string;
  /** Height added there; a range where the position is unknown. */
  readonly raise: { readonly leastM: number; readonly mostM: number } | null;
  /** What to do about it. */
  readonly check: string;
  readonly who: string;
};

/** Input of the schedule. */
export type HeightInput = {
  readonly openings: readonly Opening[];
  readonly fixtures: readonly Fixture[];
  readonly hasStair: boolean;
  /** Finish elevation above the substrate over the room, meters; null while there is no estimate. */
  readonly rise: { readonly leastM: number; readonly mostM: number } | null;
  /** The same at the middle of an opening; null where unknown. */
  readonly riseAtM: (opening: Opening) => number | null;
  /** The step from the adjoining floor to the finished floor at an opening, meters; null where it is not known. */
  readonly stepAtM: (opening: Opening) => number | null;
  /** Thickness of the new flooring with adhesive or mortar, meters; 0 while unknown. */
  readonly flooringThicknessM: number;
  /** Whether the new flooring is in that thickness, or none is to come. */
  readonly isFlooringCounted: boolean;
};

const OUTSIDE_WORDS: Readonly<Partial<Record<Opening['kind'], Pick<HeightLine, 'check' | 'who'>>>> = {
  'exterior-door': { check: 'Check the height of the sill, the door swing, and the weatherstrip.', who: WE },
  'sliding-door': { check: 'Check the height of the track.', who: WE },
};

const STEP_WORK: Readonly<Record<StepNeed, string>> = {
  none: 'The step to the adjoining floor needs no transition.',
  transition: 'Add a transition to the adjoining floor.',
  reducer: 'Add a threshold reducer to the adjoining floor, or a ramp where local code asks for one.',
  ramp: 'Build a ramp to the adjoining floor, or a step that local code allows.',
};

/** Most that is cut off the bottom of a door: the solid rail of a hollow-core door is hardly higher. Common practice, no source. */
const UNDERCUT_MOST_M = 1.5 * INCH_M;

/** Heights are told to a sixteenth of an inch: less than half of it is no change. */
const NO_CHANGE_M = INCH_M / 32;

/** The work at an opening. A door inside that the pour does not raise waits for the flooring, or has more room than before. */
function openingWords(
  { kind }: Opening,
  raise: HeightLine['raise'],
  stepM: number | null,
  isFlooringCounted: boolean,
): Pick<HeightLine, 'check' | 'who'> {
  const outside = OUTSIDE_WORDS[kind];
  if (outside !== undefined) return outside;
  const isDoor = kind === 'doorway';
  const isRaised = raise === null || raise.mostM >= NO_CHANGE_M;
  const installer = 'Your flooring installer';
  if (!isRaised && !isFlooringCounted)
    return { check: `Check the ${isDoor ? 'door' : 'transition'} once the flooring is chosen.`, who: installer };
  const need = stepM === null ? 'transition' : stepNeed(stepM);
  // A small step may grow with flooring that is still to come.
  const step = STEP_WORK[need === 'none' && !isFlooringCounted ? 'transition' : need];
  if (!isDoor) return { check: step, who: installer };
  if (!isRaised) return { check: `Check the gap under the door. ${step}`, who: installer };
  const isUndercut = raise === null || raise.leastM <= UNDERCUT_MOST_M + 1e-9;
  const door = isUndercut
    ? 'Undercut the door and jambs, or re-hang the door.'
    : 'Raise the door and its frame, or replace them. This is too much to undercut.';
  return { check: `${door} ${step}`, who: 'Your carpenter and flooring installer' };
}

/** IRC R311.7.5.1: risers of one flight differ by 3/8 in at most; local code decides. */
const STAIR_CHECK = 'Measure every riser, flooring included. Local code limits how much the risers of one flight may differ.';

/** The height schedule, openings first. Empty where the room has nothing whose height changes. */
export function heightSchedule(input: HeightInput): readonly HeightLine[] {
  const plus = (m: number): number => m + input.flooringThicknessM;
  const anywhere = input.rise === null ? null : { leastM: plus(input.rise.leastM), mostM: plus(input.rise.mostM) };
  const doors = input.openings.map((opening): HeightLine => {
    const riseM = input.riseAtM(opening);
    const name = openingName(opening);
    const raise = riseM === null ? anywhere : { leastM: plus(riseM), mostM: plus(riseM) };
    return { name: capital(name), raise, ...openingWords(opening, raise, input.stepAtM(opening), input.isFlooringCounted) };
  });
  const stair: readonly HeightLine[] = input.hasStair
    ? [{ name: 'Stair', raise: anywhere, check: STAIR_CHECK, who: 'We measure. Your carpenter changes risers.' }]
    : [];
  const fixtures = input.fixtures.toSorted().map((fixture): HeightLine => ({ raise: anywhere, ...FIXTURE_WORDS[fixture] }));
  return [...doors, ...stair, ...fixtures];
}
