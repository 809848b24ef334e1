/** Change orders to an accepted quote: pricing at the contract's rates, issuing, and the changes once signed. */
import type { TaxRate } from '../book/business.ts';
import type { Job, JobRoom } from '../book/job.ts';
import type { FloorTest } from '../book/layer.ts';
import type { Material } from '../book/material.ts';
import type { ChangeOrder, Quote, QuotedOption, QuotedPrice } from '../book/quote.ts';
import type { Room } from '../book/room.ts';
import { addDaysToDay } from '../measure/day.ts';
import { clockOfInstant, dayOfInstant, instantAt } from '../measure/moment.ts';
import type { Parsed } from '../measure/parsed.ts';
import { TEST_KINDS } from '../substrate/test-kinds.ts';
import { estimateJob, type EstimateRecords, type OptionEstimate } from './estimate-job.ts';
import { priceOnDay } from './price-on-day.ts';
import {
  type DifferencePlace,
  type QuoteDifference,
  type QuoteDifferences,
  quoteDifferences,
  toldDifferences,
} from './quote-differences.ts';
import { BASE_OPTION_ID, isCanceled } from './quote-state.ts';
import { priceAsAccepted, quotedPrice, suggestedOption } from './quoted-price.ts';
import { taxOn } from './tax.ts';
import { withoutRooms } from './without-rooms.ts';

/** The quote the customer accepted; null while there is none. */
export function acceptedQuote(quotes: readonly Quote[]): Quote | null {
  return quotes.findLast((quote) => quote.state === 'accepted' && quote.deletedAt === null) ?? null;
}

/** Quotes as they stood at an instant: without those issued and the change orders decided after it. */
export function quotesDecidedBy(quotes: readonly Quote[], instant: string): Quote[] {
  return quotes
    .filter(({ issuedAt }) => issuedAt <= instant)
    .map((quote) => ({ ...quote, orders: quote.orders.filter(({ decidedAt }) => (decidedAt ?? '') <= instant) }));
}

/** The quote whose contract was canceled, where none is accepted now; null otherwise. */
export function canceledQuote(quotes: readonly Quote[]): Quote | null {
  return acceptedQuote(quotes) === null ? (quotes.findLast((quote) => isCanceled(quote) && quote.deletedAt === null) ?? null) : null;
}

/** Change orders that wait for a signature and touch a room. */
export function ordersHolding(quotes: readonly Quote[], roomId: string): readonly ChangeOrder[] {
  return (acceptedQuote(quotes)?.orders ?? []).filter((order) => order.state === 'issued' && order.roomIds.includes(roomId));
}

type Contract = Pick<Quote, 'priced' | 'acceptedOptionId' | 'orders'>;

const optionAsAccepted = ({ priced, acceptedOptionId }: Contract): QuotedOption =>
  suggestedOption(priceAsAccepted(priced, acceptedOptionId ?? BASE_OPTION_ID));

/** The job as the contract last priced it: by the newest signed change order, else as accepted. */
export function contractBasis(quote: Contract): QuotedOption {
  return quote.orders.findLast((order) => order.state === 'signed')?.priced ?? optionAsAccepted(quote);
}

/** Rooms whose figures or lines signed change orders changed, whichever rooms the orders name: each prices the whole job. */
export function roomsChangedByOrders(quote: Contract, place: DifferencePlace): ReadonlySet<string> {
  const accepted = optionAsAccepted(quote);
  const basis = { ...contractBasis(quote), id: accepted.id };
  const { differences } = quoteDifferences(
    { suggestedId: accepted.id, options: [accepted] },
    { suggestedId: accepted.id, options: [basis] },
    place,
  );
  return new Set(differences.flatMap(({ roomId }) => roomId ?? []));
}

/** Whether a quote has a room: one that was accepted, as {@link contractBasis} has it, so that change orders add rooms and remove them. */
export function hasRoom(quote: Quote, roomId: string): boolean {
  const rooms = quote.acceptedOptionId === null ? quote.frozen.job.rooms : contractBasis(quote).rooms;
  return rooms.some((room) => room.roomId === roomId);
}

/**
 * What differs between a quote and the job's price now. Where the customer accepted the quote, canceled since or not, it is compared as
 * {@link contractBasis} has it: the option the customer chose, with the change orders.
 * @param now the job's own way has the id of the job's own option, as in `quotedPrice` and `contractNow`
 */
export function differencesSince(quote: Contract, now: QuotedPrice, place: DifferencePlace): QuoteDifferences {
  if (quote.acceptedOptionId === null) return quoteDifferences(quote.priced, now, place);
  const basis = contractBasis(quote);
  // The chosen option is the job's own by now, whatever it is called.
  const name = now.options.find(({ id }) => id === basis.id)?.name ?? basis.name;
  return quoteDifferences({ suggestedId: basis.id, options: [{ ...basis, name }] }, now, place);
}

/** A data sheet as a contract prices it: by its price on the day of the quote, or the first it was given after that day. */
function sheetAtContract(sheet: Material, live: readonly Material[], day: string): Material {
  if (priceOnDay(sheet, day) !== null) return sheet;
  const later = live.find(({ id }) => id === sheet.id)?.prices ?? [];
  const [first] = [...sheet.prices, ...later].toSorted((a, b) => a.from.localeCompare(b.from));
  return first === undefined ? sheet : { ...sheet, prices: [{ ...first, from: day }] };
}

/**
 * A room with the slab moisture tests of its quote, and none where the quote does not have it: the contract has the price of the
 * tests that were to be made, so that making them changes nothing.
 */
function withQuotedSlabTests(room: Room, frozen: readonly Room[]): Room {
  const isOfSlab = (test: FloorTest): boolean => TEST_KINDS[test.kind].answers.includes('slab-moisture');
  const quoted = frozen.find(({ id }) => id === room.id)?.tests ?? [];
  return { ...room, tests: [...room.tests.filter((test) => !isOfSlab(test)), ...quoted.filter(isOfSlab)] };
}

/** A job with the crew and the pour plans of its quote: how the business does the work is not what the customer bought. */
function withQuotedCrew(job: Job, quoted: Job): Job {
  const rooms = job.rooms.map((room): JobRoom => {
    const was = quoted.rooms.find(({ roomId }) => roomId === room.roomId);
    return was === undefined ? room : { ...room, pourPlan: was.pourPlan };
  });
  return { ...job, rooms, crewNames: quoted.crewNames };
}

/** The job as it is now, at the contract's rates, and what keeps it from a price. */
export type ContractNow = {
  readonly priced: QuotedOption;
  /** What it is priced from. */
  readonly records: EstimateRecords;
  readonly estimate: OptionEstimate;
  /** What is missing, a sentence each. No change order can be issued until this is empty. */
  readonly stops: readonly string[];
};

/**
 * The job as it is now, at the rates, data sheets, crew and day of the accepted quote, without some of its rooms. What the contract
 * does not have, such as a data sheet added later, is taken as it is now.
 * @param today the latest day of a lab result, `2026-05-12`
 */
export function contractNow(quote: Quote, records: EstimateRecords, withdrawnIds: readonly string[], today: string): ContractNow {
  const { business: agreed, materials: frozen } = quote.frozen;
  const added = <T extends { readonly id: string }>(own: readonly T[], now: readonly T[]): T[] => [
    ...own,
    ...now.filter(({ id }) => !own.some((one) => one.id === id)),
  ];
  const day = dayOfInstant(quote.issuedAt, quote.timeZone);
  const materials = added(frozen, records.materials).map((sheet) => sheetAtContract(sheet, records.materials, day));
  const business = { ...agreed, taxRates: added(agreed.taxRates, records.business.taxRates) };
  const left = withoutRooms(withQuotedCrew(records.job, quote.frozen.job), withdrawnIds);
  const { id, name, stages: agreedStages } = contractBasis(quote);
  // The payments are those the customer accepted.
  const stages = agreedStages.map(({ name, share, due }) => ({ name, share, due }));
  const job: Job = { ...left, estimate: { ...left.estimate, options: [], suggestedOptionId: null, stages } };
  const rooms = records.rooms.map((room) => withQuotedSlabTests(room, quote.frozen.rooms));
  const ofContract = { ...records, business, materials, rooms, job };
  const estimate = estimateJob(ofContract, day, today);
  const stops = estimate.base.problems.flatMap((problem) => (problem.stops ? [problem.message] : []));
  return {
    priced: { ...suggestedOption(quotedPrice(estimate, materials)), id, name },
    records: ofContract,
    estimate: estimate.base,
    stops: [...new Set(stops)],
  };
}

/** The price of a change. */
export type OrderProposal = Pick<ChangeOrder, 'netMinor' | 'taxes' | 'totalMinor' | 'addedDays' | 'roomIds' | 'priced'> & {
  /** The changes, one sentence each; empty without changes. Of a line added by hand, `part` names it. */
  readonly differences: readonly QuoteDifference[];
} & ContractNow;

/**
 * The price of the job's changes since the contract, at the contract's rates.
 * @param withdrawnIds rooms to leave out of the contract
 * @param today the latest day of a lab result, `2026-05-12`
 */
export function proposeOrder(
  quote: Quote,
  records: EstimateRecords,
  withdrawnIds: readonly string[],
  place: DifferencePlace,
  today: string,
): OrderProposal {
  const basis = contractBasis(quote);
  const now = contractNow(quote, records, withdrawnIds, today);
  const { priced } = now;
  const { differences } = differencesSince(quote, { suggestedId: priced.id, options: [priced] }, place);
  const ids = [...new Set(differences.flatMap((difference) => difference.roomId ?? []))];
  const nameOf = (id: string): string => [...priced.rooms, ...basis.rooms].find(({ roomId }) => roomId === id)?.name ?? '';
  // Tax and payments of the whole job carry no change of the subtotal: the order states them itself.
  const told = toldDifferences(differences, nameOf).filter(({ roomId, changeMinor }) => roomId !== null || changeMinor !== null);
  return {
    ...now,
    netMinor: priced.netMinor - basis.netMinor,
    taxes: taxChange(basis, priced),
    totalMinor: priced.totalMinor - basis.totalMinor,
    addedDays: Math.round(priced.days - basis.days),
    roomIds: [...new Set([...ids, ...withdrawnIds])],
    differences: told,
  };
}

function taxChange(was: QuotedOption, now: QuotedOption): ChangeOrder['taxes'] {
  const key = (tax: ChangeOrder['taxes'][number]): string => `${tax.taxId}/${tax.rate}`;
  const all = new Map([...was.taxes, ...now.taxes].map((tax) => [key(tax), tax]));
  const taxIn = (option: QuotedOption, tax: ChangeOrder['taxes'][number]) => option.taxes.find((candidate) => key(candidate) === key(tax));
  return [...all.values()]
    .map((tax) => ({
      ...tax,
      baseMinor: (taxIn(now, tax)?.baseMinor ?? 0) - (taxIn(was, tax)?.baseMinor ?? 0),
      taxMinor: (taxIn(now, tax)?.taxMinor ?? 0) - (taxIn(was, tax)?.taxMinor ?? 0),
    }))
    .filter((tax) => tax.baseMinor !== 0 || tax.taxMinor !== 0);
}

/** A price entered by hand, before tax, with the tax on it. */
export function enteredPrice(netMinor: number, tax: TaxRate | null): Pick<ChangeOrder, 'netMinor' | 'taxes' | 'totalMinor'> {
  const { byRate, totalMinor } = taxOn([{ netMinor, taxId: tax?.id ?? null }], tax === null ? [] : [tax], 'rate');
  return { netMinor, taxes: byRate, totalMinor: netMinor + totalMinor };
}

/** Input for issuing a change order. */
export type NewOrder = Omit<ChangeOrder, 'number' | 'state' | 'decidedAt' | 'decidedBy'>;

/** Why no change order can be written now; null when one can. Each counts from the one before, so that one has to be decided first. */
export function whyNoOrder(quote: Pick<Quote, 'orders'>): string | null {
  const waiting = quote.orders.find((order) => order.state === 'issued');
  return waiting === undefined
    ? null
    : `Change order ${waiting.number} is not signed yet. Record that it was signed, declined or voided, then write the next one.`;
}

/**
 * Issues a change order: the accepted quote with one more, numbered within the job.
 * @param earlier every quote of the job, and the lowest number that is free where one cannot be read
 * @returns the quote to store, or what is wrong
 */
export function issueOrder(
  quote: Quote,
  order: NewOrder,
  earlier: { readonly quotes: readonly Quote[]; readonly least?: number },
  job: Job,
): Parsed<Quote> {
  if (quote.state !== 'accepted') return { ok: false, message: 'A change order needs an accepted quote. Issue a revision instead.' };
  const waits = whyNoOrder(quote);
  if (waits !== null) return { ok: false, message: waits };
  if (order.reason.trim() === '') return { ok: false, message: 'Enter the reason for the change. The customer reads it.' };
  if (order.issuedBy.trim() === '') return { ok: false, message: 'Enter who issues the change order. The name is printed on it.' };
  if (order.roomIds.length === 0 && order.netMinor === 0 && order.addedDays === 0)
    return { ok: false, message: 'The order changes nothing yet. Enter a price, days, or a room it touches.' };
  if (order.withdrawnIds.length >= job.rooms.length)
    return {
      ok: false,
      message: 'A contract keeps at least one room. Leave one in, or record the cancellation of the contract under Quote.',
    };
  const number = Math.max(earlier.least ?? 1, ...earlier.quotes.flatMap(({ orders }) => orders.map((other) => other.number + 1)));
  const issued: ChangeOrder = { ...order, reason: order.reason.trim(), number, state: 'issued', decidedAt: null, decidedBy: '' };
  return { ok: true, value: { ...quote, orders: [...quote.orders, issued] } };
}

/**
 * Records that a change order was signed, declined or voided.
 * @returns the quote to store, or why it cannot be recorded
 */
export function decideOrder(
  quote: Quote,
  orderId: string,
  decision: { readonly state: 'signed' | 'declined' | 'voided'; readonly instant: string; readonly by: string },
): Parsed<Quote> {
  const order = quote.orders.find((candidate) => candidate.id === orderId);
  if (order === undefined) return { ok: false, message: 'This change order was deleted.' };
  if (order.state !== 'issued') return { ok: false, message: `Change order ${order.number} is already ${order.state}. Write another one.` };
  if (decision.by.trim() === '') return { ok: false, message: 'Enter a name. It stays on the record.' };
  const decided: ChangeOrder = { ...order, state: decision.state, decidedAt: decision.instant, decidedBy: decision.by.trim() };
  return { ok: true, value: { ...quote, orders: quote.orders.map((candidate) => (candidate.id === orderId ? decided : candidate)) } };
}

/** The same time of day some days on, by the local time. */
export function daysLater(instant: string, days: number, zone: string): string {
  const read = instantAt(addDaysToDay(dayOfInstant(instant, zone), days), clockOfInstant(instant, zone), zone);
  return read.ok ? read.value.instant : new Date(Date.parse(instant) + days * 86_400_000).toISOString();
}

/**
 * The job once a change order is signed: withdrawn rooms are removed with their records, and later dates move by the added days.
 * @param isAhead whether a room's date is of a pour still to come; any other stays
 */
export function jobAfterOrder(job: Job, order: ChangeOrder, zone: string, isAhead: (room: JobRoom) => boolean): Job {
  const withdrawnRooms = job.rooms.filter((room) => order.withdrawnIds.includes(room.roomId));
  const moved = (instant: string | null): string | null =>
    instant === null || order.addedDays === 0 || instant < (order.decidedAt ?? order.issuedAt)
      ? instant
      : daysLater(instant, order.addedDays, zone);
  const left = withoutRooms(job, order.withdrawnIds);
  return {
    ...left,
    rooms: left.rooms.map((room) =>
      order.roomIds.includes(room.roomId) && isAhead(room) ? { ...room, pourAt: moved(room.pourAt) } : room,
    ),
    ...(withdrawnRooms.length === 0 ? {} : { withdrawn: [...(job.withdrawn ?? []), ...withdrawnRooms] }),
    handoverAt: moved(job.handoverAt),
  };
}
