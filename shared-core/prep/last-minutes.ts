/** The pre-pour checklist: a short list checked aloud before the first bag. Common practice, no source. */
import { isOfTheDay } from '../assess/overrides.ts';
import { capital } from '../measure/first-letter.ts';
import type { Crew, JobRoom } from '../book/job.ts';
import type { CautionId } from '../substrate/cautions.ts';
import { outletWords } from './cart-outlet.ts';

/** Counts for the list. Null while not planned; the line then says so. */
export type LastMinutesInput = {
  readonly bagsPlanned: number | null;
  /** Measured buckets of water, one per batch. */
  readonly buckets: number | null;
  readonly mixers: number | null;
  readonly helpers: number | null;
  readonly lanes: number | null;
  readonly dams: number;
  /** Highest dam needed: the deepest pour at an edge and a margin, as text; null where the depth is not known. */
  readonly damHeight: string | null;
  readonly carry: 'by-hand' | 'cart' | null;
  /** How the cart's outlet closes; null or absent while not recorded. */
  readonly outlet?: Crew['outlet'];
  readonly heatedFloor: boolean;
  /** The pour covers mats or tubing. */
  readonly overHeat: boolean;
  /** Nothing is stuck into the floor: no metal spikes, no pins. */
  readonly nothingStuckIn: boolean;
  /** The lift only fills the deep places: no rake runs over the floor. */
  readonly deepOnly: boolean;
  /** The mix has aggregate, which a sieve would hold back. */
  readonly withAggregate: boolean;
};

/** One line to check. */
export type LastMinute = { readonly key: string; readonly text: string; readonly note: string | null; readonly caution: CautionId | null };

const counted = (value: number | null, singular: string, plural: string): string =>
  value === null ? `${plural} (number not planned yet)` : `${value} ${value === 1 ? singular : plural}`;

/** The lines to check before the first bag, with the plan's counts. Keys are stable. */
export function lastMinutes(input: LastMinutesInput): readonly LastMinute[] {
  const line = (key: string, text: string, caution: CautionId | null = null, note: string | null = null): LastMinute => ({
    key,
    text,
    note,
    caution,
  });
  const depthTool = input.deepOnly ? `height ${input.nothingStuckIn ? 'markers' : 'pins'}` : 'gauge rake';
  const lanes = counted(input.lanes, 'lane', 'lanes');
  return [
    line('windows', 'Windows, doors and registers closed, no sun on the floor'),
    input.heatedFloor
      ? line('heat', 'Radiant heat off and the floor cool, as the data sheet says')
      : line('heat', 'Room at the data sheet’s temperature, no draft from heaters'),
    ...(input.overHeat
      ? [line('heat-test', 'Mats’ resistance or tubing’s pressure tested and written down, alarm or gauge in view', 'electricity')]
      : []),
    line('gaps', 'Gaps, cracks, pipe holes, and wall edges sealed, drains capped, strip up'),
    ...(input.dams > 0
      ? [
          line(
            'dams',
            `${counted(input.dams, 'dam', 'dams')} tight${input.damHeight === null ? '' : `, at least ${input.damHeight} high`}`,
            null,
            `Rigid board or foam, ${input.nothingStuckIn ? 'glued down' : 'fastened'}, and sealed at the floor and both ends.`,
          ),
        ]
      : []),
    line('primer', 'Primer clear and dry, no puddles'),
    line('bags', `${counted(input.bagsPlanned, 'bag', 'bags')} counted aloud, lots and dates written down`, 'lifting'),
    line('water', `${counted(input.buckets, 'bucket', 'buckets')} of measured water counted, temperature checked`),
    line('mixers', `${counted(input.mixers, 'mixer', 'mixers')} tested on GFCI, paddles clean, a spare ready`, 'electricity'),
    line(
      'tools',
      `${input.nothingStuckIn ? capital(depthTool) : `Spiked shoes, ${depthTool}`} set, smoother, flow ring, ${input.withAggregate ? '' : 'sieve, '}timer, rinse water${input.nothingStuckIn ? '. No metal spikes or rake pins' : ''}`,
      'wet-cement',
    ),
    ...(input.carry === 'cart'
      ? [
          line('outlet', 'Cart outlet closed and tested with water', null, outletWords(input.outlet)),
          line('wheels', 'Cart wheels and the floor under them fit for the full load', 'floor-weight'),
        ]
      : []),
    line('way-out', 'Exit clear, no one trapped behind wet floor', 'slips'),
    line(
      'helpers',
      input.helpers === 0
        ? `Order of ${lanes} reviewed`
        : `${counted(input.helpers, 'helper', 'helpers')} briefed on station and order of ${lanes}`,
    ),
  ];
}

type Tick = JobRoom['lastMinutes'][number];

/**
 * The checks that count: of a line that still reads the same, made on the day of this pour. A dam or an outlet checked for another day has to
 * be checked again.
 * @param lastEnd when the last pour of the room ended; null before any
 */
export function ticksInForce(ticks: readonly Tick[], lines: readonly LastMinute[], lastEnd: string | null, now: string): readonly Tick[] {
  return ticks.filter(
    ({ itemKey, text, instant }) =>
      (lastEnd === null || instant > lastEnd) &&
      isOfTheDay(instant, now) &&
      lines.some((line) => line.key === itemKey && line.text === text),
  );
}

/** The lines not checked yet. @param ticks the checks that count */
export function stillToTick(lines: readonly LastMinute[], ticks: readonly Pick<Tick, 'itemKey'>[]): readonly LastMinute[] {
  return lines.filter((line) => !ticks.some(({ itemKey }) => itemKey === line.key));
}
