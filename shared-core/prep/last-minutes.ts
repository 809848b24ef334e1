/** The last five minutes before the first bag: a short list, ticked aloud. Common practice, no source. */
import type { Crew } from '../book/job.ts';
import type { CautionId } from '../substrate/cautions.ts';
import { outletWords } from './cart-outlet.ts';

/** What the list counts. Null: not planned yet, and the line says so. */
export type LastMinutesInput = {
  readonly bagsPlanned: number | null;
  /** Measured buckets of water, one a batch. */
  readonly buckets: number | null;
  readonly mixers: number | null;
  readonly helpers: number | null;
  readonly lanes: number | null;
  readonly dams: number;
  readonly carry: 'by-hand' | 'cart' | null;
  /** How the cart's outlet closes; null or absent while not noted. */
  readonly outlet?: Crew['outlet'];
  readonly heatedFloor: boolean;
};

/** One line to tick. */
export type LastMinute = { readonly key: string; readonly says: string; readonly note: string | null; readonly caution: CautionId | null };

const counted = (value: number | null, one: string, many: string): string =>
  value === null ? `${many}, number not planned yet` : `${value} ${value === 1 ? one : many}`;

/** The lines to tick before the first bag, with the plan's counts. Keys are stable. */
export function lastMinutes(input: LastMinutesInput): readonly LastMinute[] {
  const line = (key: string, says: string, caution: CautionId | null = null, note: string | null = null): LastMinute => ({
    key,
    says,
    note,
    caution,
  });
  return [
    line('windows', 'Windows, doors and vents shut'),
    input.heatedFloor
      ? line('heat', 'Floor heating off and the floor cool, as the sheet says')
      : line('heat', 'Room as warm as the sheet says, no draft from heaters'),
    input.dams > 0
      ? line('dams', `${counted(input.dams, 'dam', 'dams')} tight, strip up all round`)
      : line('dams', 'Strip up all round, no gap left open'),
    line('bags', `${counted(input.bagsPlanned, 'bag', 'bags')} counted aloud against the plan`, 'lifting'),
    line('water', `${counted(input.buckets, 'bucket', 'buckets')} of measured water, counted against the plan`),
    line('mixers', `${counted(input.mixers, 'mixer', 'mixers')} run, paddles clean, a spare at hand`, 'electricity'),
    line('tools', 'Spiked shoes, gauge rake and smoother at hand', 'wet-cement'),
    ...(input.carry === 'cart'
      ? [
          line('outlet', 'Cart outlet closed, and tried with water', null, outletWords(input.outlet)),
          line('wheels', 'Cart’s wheels and the way under them good for the full load', 'floor-weight'),
        ]
      : []),
    line('way-out', 'Way out clear, nobody poured in', 'slips'),
    line(
      'helpers',
      input.helpers === 0
        ? `Order of ${counted(input.lanes, 'lane', 'lanes')} gone through once more, alone`
        : `${counted(input.helpers, 'helper', 'helpers')} told their station and the order of ${counted(input.lanes, 'lane', 'lanes')}`,
    ),
  ];
}

/** The lines not ticked yet. @param ticked keys of the lines ticked */
export function stillToTick(lines: readonly LastMinute[], ticked: readonly string[]): readonly LastMinute[] {
  return lines.filter((line) => !ticked.includes(line.key));
}
