/** The work of a change order, for the customer to sign: what it adds to the contract, changes, and takes out of it. */
import type { Frozen, Quote } from '../book/quote.ts';
import { lowerFirst } from '../measure/first-letter.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { contractBasis, type OrderProposal, roomsChangedByOrders } from '../price/change-order.ts';
import { HOW_WORDS } from '../price/quote-differences.ts';
import { estimateJob, type OptionEstimate } from '../price/estimate-job.ts';
import { theRoom } from '../standing/names.ts';
import { ownWords, scopeParts, scopeWords } from './quote-words.ts';

/** The scope of a room by part; null where the option does not have the room. */
function partsOf(frozen: Frozen, option: OptionEstimate, roomId: string): string[][] | null {
  const room = option.rooms.find((one) => one.roomId === roomId);
  return room === undefined ? null : scopeParts(frozen, room, option.price);
}

/** Whether two lines of a scope are of the same work: they differ at most in figures, in what is left out of it and in what is not priced. */
const isAlike = (a: string, b: string): boolean => theWork(a) === theWork(b);
const theWork = (line: string): string =>
  line.replace(/,? (?:except the|once a lab finds) .*| and dispose of| \([^()]*\)$|\p{N}[\p{N}.,/\s]*/gu, '');

/** The lines of a part of the scope that are not among others. */
const without = (lines: readonly string[], others: readonly string[]): string[] => {
  const told = new Set(others.map(ownWords));
  return lines.filter((line) => !told.has(ownWords(line)));
};

/**
 * The lines of two scopes that differ, as parts of the work that are added, changed or removed. A line added by hand is never another’s
 * change, and fewer lines than before take some out.
 */
function changedParts(was: readonly string[][], now: readonly string[][]): Record<'added' | 'changed' | 'removed', string[]> {
  const found = { added: [] as string[], changed: [] as string[], removed: [] as string[] };
  now.forEach((lines, i) => {
    const before = was[i] ?? [];
    const fresh = without(lines, before);
    const gone = without(before, lines);
    const isByHand = i === now.length - 1;
    found[gone.length > 0 && !isByHand ? 'changed' : 'added'].push(...fresh);
    if (isByHand) found.removed.push(...gone);
    else if (fresh.length < gone.length) found.removed.push(...gone.filter((line) => !fresh.some((other) => isAlike(line, other))));
  });
  return found;
}

/** Lines of work after one another; what several begin with, such as `rest of the floor: `, is said once. */
const inOneSentence = (lines: readonly string[]): string =>
  lines
    .map((line, i) => {
      const head = /^[^:]+: /.exec(line)?.[0] ?? '';
      const words = lowerFirst(line.slice(head.length));
      return head !== '' && lines[i - 1]?.startsWith(head) === true ? words : `${lowerFirst(head)}${words}`;
    })
    .join('; ');

/** A room that stays in the contract: its scope as changed, a sentence each for what is added, changed and removed. */
function changedWords(name: string, was: readonly string[][], now: readonly string[][]): string[] {
  const parts = changedParts(was, now);
  return (['added', 'changed', 'removed'] as const).flatMap((how) =>
    parts[how].length === 0 ? [] : [`${name}, ${HOW_WORDS[how]}${how === 'changed' ? ' to' : ''}: ${inOneSentence(parts[how])}.`],
  );
}

/**
 * The work of a change order, a line each, from the scope of the contract and of the job now; of work added by hand that has another price,
 * the sentence of the price. Of a room that a signed order changed before, no scope is kept: it has the sentences of the prices.
 */
export function orderWork(quote: Quote, proposal: OrderProposal): string[] {
  const { frozen } = quote;
  const basis = contractBasis(quote);
  const now: Frozen = { ...frozen, ...proposal.records, rooms: [...proposal.records.rooms], materials: [...proposal.records.materials] };
  const { options, suggested } = estimateJob(frozen, dayOfInstant(quote.issuedAt, quote.timeZone));
  const accepted = options.find(({ id }) => id === quote.acceptedOptionId) ?? suggested;
  const { locale, units } = frozen.business;
  const changedBefore = roomsChangedByOrders(quote, { currency: quote.currency, locale, units });
  const ofRoom = (roomId: string): string[] => {
    const own = proposal.estimate.rooms.find((room) => room.roomId === roomId);
    const agreed = basis.rooms.find((room) => room.roomId === roomId);
    if (own === undefined) return agreed === undefined ? [] : [`No longer in the contract: ${theRoom(agreed.name)}.`];
    const scope = scopeParts(now, own, proposal.estimate.price);
    if (agreed === undefined)
      return [`Added to the contract: ${theRoom(own.name)}. ${scopeWords(now, own, proposal.estimate.price).join('. ')}.`];
    const was = changedBefore.has(roomId) ? null : partsOf(frozen, accepted, roomId);
    const words = was === null ? [] : changedWords(own.name, was, scope);
    return words.length > 0 ? [...words, ...textsOf(proposal, roomId, isRepriced)] : textsOf(proposal, roomId);
  };
  return [...proposal.roomIds.flatMap(ofRoom), ...textsOf(proposal, null)];
}

type Told = OrderProposal['differences'][number];
/** Whether work added by hand was in the contract before, at another price. */
const isRepriced = ({ part, how }: Told): boolean => part !== null && how === 'priced';

const textsOf = ({ differences }: OrderProposal, roomId: string | null, isTold: (told: Told) => boolean = () => true): string[] =>
  differences.flatMap((told) => (told.roomId === roomId && isTold(told) ? [told.text] : []));
