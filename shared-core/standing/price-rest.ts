/** The rest of a poured room, or its repair, as lines of the job's price: what the next change order or quote revision asks. */
import type { AddedLine, EstimateChoices } from '../book/job.ts';
import { addedKey, type CostLine } from '../price/line.ts';
import type { JobReading } from './read-job.ts';
import { roomFloorOf } from './read-pour.ts';
import { restCost, type RestOfRoom } from './rest-of-room.ts';

/** Who pays for the rest: the customer at the job's own terms, or the business, which keeps the cost and asks nothing. */
export type RestPayer = 'customer' | 'business';

/** The rest of a room as it stands in the price, minor units: its work, trips aside; with the trip where that is a line of it; the price. */
export type RestInPrice = {
  readonly payer: RestPayer;
  readonly costMinor: number;
  readonly heldMinor: number;
  readonly netMinor: number;
};

/** The pour whose floor is finished or repaired: the last one that placed some of it. */
function lastPourId(reading: JobReading, roomId: string): string | null {
  return roomFloorOf(reading, roomId).pours.at(-1)?.id ?? null;
}

/** Cost of the work in some lines of a rest: the trip is the one line that is neither bought nor worked. */
export const workCost = (lines: readonly Pick<AddedLine, 'kind' | 'costMinor'>[]): number =>
  lines.reduce((sum, line) => sum + (line.kind === 'other' ? 0 : line.costMinor), 0);

const isFree = ({ overrides }: EstimateChoices, { id }: AddedLine): boolean =>
  overrides.some((o) => o.lineKey === addedKey(id) && o.priceMinor === 0);

/** The lines of a room's rest in the price, for its last pour; null while it is not priced. */
export function restInPrice(reading: JobReading, roomId: string): RestInPrice | null {
  const { estimate } = reading.whole.job;
  const pourId = lastPourId(reading, roomId);
  const added = estimate.added.filter((line) => line.restOf === pourId && line.roomId === roomId);
  const [first] = added;
  if (pourId === null || first === undefined) return null;
  const keys = new Set(added.map(({ id }) => addedKey(id)));
  const lines = reading.estimate.base.price.lines.filter((line) => keys.has(line.key));
  return {
    payer: isFree(estimate, first) ? 'business' : 'customer',
    costMinor: workCost(added),
    heldMinor: added.reduce((sum, line) => sum + line.costMinor, 0),
    netMinor: lines.reduce((sum, line) => sum + line.netMinor, 0),
  };
}

export type RestPricing = {
  readonly roomId: string;
  readonly rest: RestOfRoom;
  readonly payer: RestPayer;
  /** Instant whose material prices count. */
  readonly now: string;
  readonly nameOf: (line: CostLine) => string;
  /** The reason that stays with lines that ask nothing. */
  readonly freeNote: string;
  readonly newId: () => string;
};

/**
 * The job's choices with the rest of a room priced, in place of an earlier price of the same rest. One more day on site is asked for
 * each pour that has a rest, however many rooms it left open; where the business pays, the trip is a line of its own.
 */
export function withRestPriced(reading: JobReading, { roomId, rest, payer, now, nameOf, freeNote, newId }: RestPricing): EstimateChoices {
  const estimate = reading.whole.job.estimate;
  const pourId = lastPourId(reading, roomId);
  if (pourId === null) return estimate;
  const isOld = (line: AddedLine): boolean => line.restOf === pourId && line.roomId === roomId;
  const remaining = estimate.added.filter((line) => !isOld(line));
  const oldKeys = new Set(estimate.added.filter(isOld).map(({ id }) => addedKey(id)));
  const others = remaining.filter((line) => line.restOf === pourId);
  const lines = restCost(reading, rest.extra, now).lines.filter(
    (line) => line.key !== 'travel' || (payer === 'business' && others.length === 0),
  );
  const added = lines.map(
    (line): AddedLine => ({
      id: newId(),
      name: nameOf(line),
      kind: line.kind,
      roomId,
      costMinor: line.costMinor,
      taxId: line.taxId,
      restOf: pourId,
    }),
  );
  const free = payer === 'customer' ? [] : added.map(({ id }) => ({ ...FREE, lineKey: addedKey(id), note: freeNote }));
  const isPaid = (line: AddedLine): boolean => !isFree(estimate, line);
  const daysBefore = estimate.added.some((line) => line.restOf === pourId && isPaid(line)) ? 1 : 0;
  const isTrip = payer === 'customer' && (rest.extra?.days ?? 0) > 0;
  const daysNow = isTrip || others.some(isPaid) ? 1 : 0;
  return {
    ...estimate,
    added: [...remaining, ...added],
    overrides: [...estimate.overrides.filter((o) => !oldKeys.has(o.lineKey)), ...free],
    daysOnSite: daysNow === daysBefore ? estimate.daysOnSite : reading.estimate.base.days + daysNow - daysBefore,
  };
}

const FREE = { costMinor: null, priceMinor: 0, leftOut: false } as const;
