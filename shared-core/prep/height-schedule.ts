/**
 * What the pour raises and by how much: doors, stairs and fixtures, with what is to be done and who does it. It goes on the
 * quote, so that no door binds and no appliance is walled in. Common practice; the clearances are the fixture makers'.
 */
import type { Fixture } from '../book/layer.ts';
import type { Opening } from '../book/plan-fields.ts';

type FixtureWords = { readonly name: string; readonly check: string };

/** Each fixture: its name, and what its new height needs. */
export const FIXTURE_WORDS: Readonly<Record<Fixture, FixtureWords>> = {
  dishwasher: { name: 'Dishwasher', check: 'Check that it still slides out under the counter. Raise the counter or lower the feet.' },
  range: { name: 'Range', check: 'Check height to the counter and the anti-tip bracket.' },
  refrigerator: { name: 'Refrigerator recess', check: 'Check the height under the cabinet above.' },
  'base-cabinets': {
    name: 'Base cabinets and island',
    check: 'Pour up to the toe kick, or set the cabinets after the pour. Counter height changes.',
  },
  toilet: { name: 'Toilet', check: 'Remove it, and set the flange on the finished floor. Reset with a new seal.' },
  'tub-or-shower': { name: 'Tub or shower curb', check: 'Check the curb or apron height above the finished floor.' },
  'floor-drain': { name: 'Floor drain', check: 'Raise the drain to the finished floor and keep the slope.' },
  'floor-register': { name: 'Floor registers and returns', check: 'Extend the boots to the finished floor.' },
  'floor-outlet': { name: 'Floor outlets', check: 'A licensed electrician extends the boxes to the finished floor.' },
  hatch: { name: 'Hatch', check: 'Raise the frame to the finished floor.' },
  cleanout: { name: 'Cleanout', check: 'Extend the cleanout to the finished floor and keep it accessible.' },
  hearth: { name: 'Hearth', check: 'Check the step to the hearth and the clearance the code asks for.' },
  'sliding-door': { name: 'Sliding door track', check: 'Keep the track clear and above the finished floor.' },
  'garage-door': { name: 'Door to the garage', check: 'A fire-rated door is replaced or re-hung, not cut, unless its label allows it.' },
};

/** One line of the schedule. Heights in meters; null while unknown. */
export type HeightLine = {
  readonly key: string;
  readonly name: string;
  /** How far the pour raises the floor there: a range where the place is not known. */
  readonly raise: { readonly leastM: number; readonly mostM: number } | null;
  readonly check: string;
};

/** What the schedule is made from. */
export type HeightInput = {
  readonly openings: readonly Opening[];
  readonly fixtures: readonly Fixture[];
  readonly hasStair: boolean;
  /** Pour depth over the room, meters; null while there is no estimate. */
  readonly depth: { readonly leastM: number; readonly mostM: number } | null;
  /** Pour depth at the middle of an opening, meters; null where unknown. */
  readonly depthAtM: (opening: Opening) => number | null;
  /** Thickness of the new flooring with its bed, meters; 0 while unknown. */
  readonly flooringThicknessM: number;
};

const OPENING_CHECKS: Readonly<Record<Opening['kind'], string>> = {
  doorway: 'Undercut the door and jambs, or re-hang the door. Add a transition to the adjoining floor.',
  'open-side': 'Add a transition to the adjoining floor.',
  'exterior-door': 'Keep the floor below the sill. Check door swing and weatherstrip.',
  'sliding-door': 'Keep the floor below the track.',
};

/** The height schedule, openings first. Empty where the room has nothing whose height changes. */
export function heightSchedule(input: HeightInput): readonly HeightLine[] {
  const plus = (m: number): number => m + input.flooringThicknessM;
  const anywhere = input.depth === null ? null : { leastM: plus(input.depth.leastM), mostM: plus(input.depth.mostM) };
  const doors = input.openings.map((opening): HeightLine => {
    const depthM = input.depthAtM(opening);
    const name = opening.name.trim() === '' ? opening.kind.replace('-', ' ') : opening.name.trim();
    return {
      key: `opening:${opening.id}`,
      name: name.charAt(0).toUpperCase() + name.slice(1),
      raise: depthM === null ? anywhere : { leastM: plus(depthM), mostM: plus(depthM) },
      check: OPENING_CHECKS[opening.kind],
    };
  });
  const stair: readonly HeightLine[] = input.hasStair
    ? [{ key: 'stair', name: 'Stair', raise: anywhere, check: 'Measure every riser. One flight may differ by 3/8 in. (IRC R311.7.5.1).' }]
    : [];
  const fixtures = input.fixtures.toSorted().map((fixture): HeightLine => {
    const { name, check } = FIXTURE_WORDS[fixture];
    return { key: `fixture:${fixture}`, name, raise: anywhere, check };
  });
  return [...doors, ...stair, ...fixtures];
}
