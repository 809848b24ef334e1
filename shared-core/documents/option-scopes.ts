/** What the other options of a quote have otherwise than the recommended one, so that whichever is signed has its scope of work. */
import type { Frozen, QuotedOption, QuotedPrice } from '../book/quote.ts';
import { lowerFirst } from '../measure/first-letter.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { formatMoney } from '../price/money.ts';
import { headingBlock, listBlock, listPart, textBlock } from './blocks.ts';
import { changedHeights } from './quote-heights.ts';
import { addedWords, flooringWords, scopeParts } from './quote-words.ts';
import type { Block } from './tree.ts';

/** The parts of the work that differ, as this option has them. A part that it does not have is named as left out. */
function changedLines(own: readonly (readonly string[])[], base: readonly (readonly string[])[]): string[] {
  return own.flatMap((lines, i) => {
    const before = base[i] ?? [];
    if (lines.join('\n') === before.join('\n')) return [];
    return lines.length > 0 ? lines : before.map((line) => `Not in this option: ${lowerFirst(line)}`);
  });
}

function roomBlocks(frozen: Frozen, room: RoomEstimate, { option, quoted, base }: Compared): Block[] {
  const { currency, locale } = frozen.business;
  const before = base.rooms.find(({ roomId }) => roomId === room.roomId);
  const lines = changedLines(scopeParts(frozen, room, option.price), before === undefined ? [] : scopeParts(frozen, before, base.price));
  const flat = flooringWords(frozen, [room]);
  const isFlatSame = before !== undefined && flat.join() === flooringWords(frozen, [before]).join();
  if (lines.length === 0 && isFlatSame) return [];
  const price = quoted.rooms.find(({ roomId }) => roomId === room.roomId)?.priceMinor ?? 0;
  return [
    headingBlock(3, `${room.name}: ${formatMoney(price, currency, locale)} before tax`),
    listBlock([...lines, ...(isFlatSame ? [] : flat)]),
  ];
}

type Compared = { readonly option: OptionEstimate; readonly quoted: QuotedOption; readonly base: OptionEstimate };

function optionBlocks(frozen: Frozen, compared: Compared): Block[] {
  const { option, quoted, base } = compared;
  const rooms = option.rooms.flatMap((room) => roomBlocks(frozen, room, compared));
  const added = addedWords(option.price, null);
  const isAddedSame = added.join() === addedWords(base.price, null).join();
  const whole = isAddedSame ? [] : listPart(3, 'For the whole job, included in the prices above', added);
  const isSame = rooms.length + whole.length === 0;
  return [
    headingBlock(2, `Scope of work: ${quoted.name}`),
    ...rooms,
    ...whole,
    textBlock(isSame ? 'Everything as above.' : 'Everything else as above.'),
    ...changedHeights(frozen, option.rooms, base.rooms, `Heights that change: ${quoted.name}`),
  ];
}

/** Each other option after the recommended one, as what differs from it; nothing where there is one option alone. */
export function otherScopes(frozen: Frozen, { options }: QuotedPrice, estimates: readonly OptionEstimate[], base: OptionEstimate): Block[] {
  return estimates.flatMap((option) => {
    const quoted = options.find(({ id }) => id === option.id);
    return option === base || quoted === undefined ? [] : optionBlocks(frozen, { option, quoted, base });
  });
}
