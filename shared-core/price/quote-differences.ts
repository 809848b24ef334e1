/** What differs between two prices of one job: a quote as issued and the job now, or two revisions. */
import type { UnitSystem } from '../book/business.ts';
import type { QuotedOption, QuotedPrice, QuotedRoom } from '../book/quote.ts';
import { formatDepth } from '../measure/length-format.ts';
import { countWords, plural } from '../measure/count-words.ts';
import { formatListAnd } from '../measure/list.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatVolume } from '../measure/volume.ts';
import { isAdded, isPooled } from './line.ts';
import { formatMoney } from './money.ts';
import { suggestedOption } from './quoted-price.ts';
import { lowerFirst } from '../measure/first-letter.ts';

/** What became of a part of a room’s work, for the customer. */
export const HOW_WORDS = { added: 'added', changed: 'changed', priced: 'at a new price', removed: 'no longer in our work' } as const;

/** One difference. */
export type QuoteDifference = {
  readonly optionId: string;
  readonly optionName: string;
  /** The room that changed; null for a change of the whole job, and of a line whose price alone moved with the containers that rooms share. */
  readonly roomId: string | null;
  /** What changed in the room, for a line: `crack filler`; null otherwise. */
  readonly part: string | null;
  /** What became of the line; a change for anything else. */
  readonly how: keyof typeof HOW_WORDS;
  /** `scope` is what a customer is shown; `line` is the business's own working. */
  readonly kind: 'scope' | 'line';
  readonly text: string;
  /** Change of the subtotal, minor units; null where the sentence carries no money of its own. */
  readonly changeMinor: number | null;
};

/** All differences, and a sentence on the recommended option's total, tax included. */
export type QuoteDifferences = {
  readonly differences: readonly QuoteDifference[];
  readonly text: string;
};

/** How figures are written. */
export type DifferencePlace = { readonly currency: string; readonly locale: string; readonly units: UnitSystem };

const MODE_WORDS: Record<QuotedRoom['mode'], string> = {
  level: 'poured level',
  follow: 'poured to follow the floor',
  ramp: 'poured to an even slope',
};

/**
 * Compares two prices of one job.
 * @param before as issued
 * @param after as it is now
 */
export function quoteDifferences(before: QuotedPrice, after: QuotedPrice, place: DifferencePlace): QuoteDifferences {
  const differences: QuoteDifference[] = [];
  for (const option of after.options) {
    const optionBefore = before.options.find((other) => other.id === option.id);
    if (optionBefore === undefined) differences.push(scope(option, `Option “${option.name}” was added.`, option.netMinor));
    else differences.push(...optionDifferences(optionBefore, option, place));
  }
  for (const option of before.options) {
    if (!after.options.some((other) => other.id === option.id))
      differences.push(scope(option, `Option “${option.name}” was removed.`, -option.netMinor));
  }
  const [from, to] = [suggestedOption(before).totalMinor, suggestedOption(after).totalMinor];
  const change = to - from;
  const money = (minor: number) => formatMoney(minor, place.currency, place.locale);
  const text =
    differences.length === 0 && change === 0
      ? 'Nothing changed.'
      : change === 0
        ? `The total is still ${money(to)}.`
        : `The total is ${money(to)}. It was ${money(from)}: ${money(Math.abs(change))} ${change > 0 ? 'more' : 'less'}.`;
  return { differences, text };
}

function scope(
  option: Pick<QuotedOption, 'id' | 'name'>,
  text: string,
  changeMinor: number | null,
  roomId: string | null = null,
): QuoteDifference {
  return { optionId: option.id, optionName: option.name, roomId, part: null, how: 'changed', kind: 'scope', text, changeMinor };
}

function optionDifferences(was: QuotedOption, now: QuotedOption, place: DifferencePlace): QuoteDifference[] {
  const differences: QuoteDifference[] = [];
  if (was.name !== now.name) differences.push(scope(now, `Option “${was.name}” is now called “${now.name}”.`, null));
  for (const room of now.rooms) {
    const earlier = was.rooms.find((other) => other.roomId === room.roomId);
    if (earlier === undefined) differences.push(scope(now, `${room.name} was added.`, null, room.roomId));
    else differences.push(...roomDifferences(earlier, room, place).map((text) => scope(now, text, null, room.roomId)));
  }
  for (const room of was.rooms) {
    if (!now.rooms.some((other) => other.roomId === room.roomId))
      differences.push(scope(now, `${room.name} was removed.`, null, room.roomId));
  }
  return [...differences, ...lineDifferences(was, now, place), ...termDifferences(was, now, place)];
}

/**
 * The differences that the customer is told: those of the scope, and of a room without one, the lines that changed, without figures.
 * @param nameOf the name of a room by its id
 */
export function toldDifferences(all: readonly QuoteDifference[], nameOf: (roomId: string) => string): QuoteDifference[] {
  return all.flatMap((difference) => {
    const { kind, roomId, optionId } = difference;
    if (kind === 'scope') return [difference];
    if (roomId === null) return [];
    const own = all.filter((other) => other.roomId === roomId && other.optionId === optionId);
    if (own[0] !== difference || own.some((other) => other.kind === 'scope')) return [];
    return (['added', 'changed', 'priced', 'removed'] as const).flatMap((how) => {
      const parts = [...new Set(own.flatMap((other) => (other.how === how ? (other.part ?? []) : [])))];
      if (parts.length === 0) return [];
      return [
        scope(
          { id: optionId, name: difference.optionName },
          `${nameOf(roomId)}, ${HOW_WORDS[how]}: ${formatListAnd(parts)}.`,
          null,
          roomId,
        ),
      ];
    });
  });
}

function roomDifferences(was: QuotedRoom, now: QuotedRoom, { units, locale }: DifferencePlace): string[] {
  const sentences: string[] = [];
  const changed = (text: string): void => void sentences.push(`${now.name}: ${text}`);
  const counted = (count: number, noun: string): string => (count === 0 ? `0 ${plural(noun)}` : countWords(count, noun, locale));
  if (was.name !== now.name) sentences.push(`${was.name} is now called ${now.name}.`);
  if (was.mode !== now.mode) changed(`${MODE_WORDS[now.mode]} (was ${MODE_WORDS[was.mode]}).`);
  const offWords = (m: number): string => (m === 0 ? 'nothing' : `up to ${formatDepth(m, units, locale)}`);
  if (was.grindMaxM !== now.grindMaxM)
    changed(`${offWords(now.grindMaxM)} taken off the high spots (was ${offWords(was.grindMaxM).replace('up to ', '')}).`);
  if (was.material !== now.material)
    changed(`${now.material === '' ? 'no material' : now.material} (was ${was.material === '' ? 'no material' : was.material}).`);
  const [from, to] = [was, now].map((room) => formatVolume(room.volumeM3 ?? 0, units, locale));
  if (from !== to) changed(`${to} to place (was ${from}).`);
  if (was.bags !== now.bags) changed(`${counted(now.bags, 'bag')} (was ${was.bags}).`);
  if (was.lifts !== now.lifts) changed(`${counted(now.lifts, 'lift')} (was ${was.lifts}).`);
  return sentences;
}

function lineDifferences(was: QuotedOption, now: QuotedOption, { currency, locale }: DifferencePlace): QuoteDifference[] {
  const money = (minor: number) => formatMoney(minor, currency, locale);
  const label = (option: QuotedOption, line: QuotedOption['lines'][number]): string => {
    const room = option.rooms.find((candidate) => candidate.roomId === line.roomId)?.name;
    return room === undefined ? line.name : `${room}, ${lowerFirst(line.name)}`;
  };
  // Work added by hand is scope: no room's figures tell it to the customer.
  type Changed = Pick<QuoteDifference, 'how' | 'text'> & { readonly changeMinor: number; readonly isShare?: boolean };
  const onLine = (line: QuotedOption['lines'][number], { how, text, changeMinor, isShare = false }: Changed): QuoteDifference => ({
    ...scope(now, text, changeMinor, isShare ? null : line.roomId),
    how,
    part: lowerFirst(line.name),
    kind: isAdded(line.key) ? 'scope' : 'line',
  });
  const earlier = new Map(was.lines.map((line) => [line.key, line]));
  const differences: QuoteDifference[] = [];
  for (const line of now.lines) {
    const old = earlier.get(line.key);
    earlier.delete(line.key);
    const from = old?.priceMinor ?? 0;
    if (from === line.priceMinor) continue;
    const text =
      old === undefined
        ? `${label(now, line)}: added, ${money(line.priceMinor)}.`
        : `${label(now, line)}: ${money(line.priceMinor)} (was ${money(from)}).`;
    const isSame = old?.quantity === line.quantity && old.name === line.name;
    const isShare = isPooled(line.key) && isSame;
    const how = old === undefined ? 'added' : isSame ? 'priced' : 'changed';
    differences.push(onLine(line, { how, text, changeMinor: line.priceMinor - from, isShare }));
  }
  for (const line of earlier.values())
    if (line.priceMinor !== 0)
      differences.push(
        onLine(line, {
          how: 'removed',
          text: `${label(was, line)}: removed (was ${money(line.priceMinor)}).`,
          changeMinor: -line.priceMinor,
        }),
      );
  return differences;
}

function termDifferences(was: QuotedOption, now: QuotedOption, { currency, locale }: DifferencePlace): QuoteDifference[] {
  const money = (minor: number) => formatMoney(minor, currency, locale);
  const differences: QuoteDifference[] = [];
  if (was.discountMinor !== now.discountMinor)
    differences.push(
      scope(now, `Discount: ${money(now.discountMinor)} (was ${money(was.discountMinor)}).`, was.discountMinor - now.discountMinor),
    );
  if (was.taxMinor !== now.taxMinor) differences.push(scope(now, `Tax: ${money(now.taxMinor)} (was ${money(was.taxMinor)}).`, null));
  const paid = (option: QuotedOption): string =>
    option.stages.map((stage) => `${stage.name} ${formatPercent(stage.share, 2, locale)} ${stage.due}`).join('; ');
  if (paid(was) !== paid(now))
    differences.push(scope(now, `Payments: ${now.stages.map((stage) => `${stage.name} ${money(stage.amountMinor)}`).join(', ')}.`, null));
  return differences;
}
