/** The options of a quote side by side, priced by room with subtotal, tax, total and payments. Every figure is read from the issued price. */
import type { Business } from '../book/business.ts';
import type { QuotedOption, QuotedPrice } from '../book/quote.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatMoney } from '../price/money.ts';
import { formatTaxRate } from '../price/tax.ts';
import { suggestedOption } from '../price/quoted-price.ts';
import { theRooms } from '../standing/names.ts';
import type { Block, Run } from './tree.ts';

/** Shares of the width: the recommended option's column holds the one large figure. */
const FIGURE_SHARE = 0.38;
const OTHER_SHARE = 0.18;

/** With more rooms than this the first page has their subtotal alone; the scope has each price. */
const MAX_ROOM_ROWS = 4;

/** With more rooms than this that come out alike, the result has their number. */
const MAX_NAMED_RESULTS = 2;

const cell = (text: string): Run[] => [{ text }];

const RESULTS = { level: 'Level', follow: 'Smooth', ramp: 'Even slope' } as const;

/** A room, or rooms, whose result is not that of the largest. */
const OTHER_RESULTS = {
  level: ['is level', 'are level'],
  follow: ['follows the floor', 'follow the floor'],
  ramp: ['slopes evenly', 'slope evenly'],
} as const;

/** What an option gives in its largest room, and in the rooms where it is another: `Level; the dining room follows the floor`. */
export function optionResult({ rooms }: Pick<QuotedOption, 'rooms'>): string {
  const [largest] = [...rooms].sort((a, b) => b.areaM2 - a.areaM2);
  const main = largest?.mode ?? 'level';
  const others = (['level', 'follow', 'ramp'] as const).flatMap((mode) => {
    const alike = mode === main ? [] : rooms.filter((room) => room.mode === mode);
    if (alike.length === 0) return [];
    const names = alike.length > MAX_NAMED_RESULTS ? `${alike.length} rooms` : theRooms(alike.map(({ name }) => name));
    return [`${names} ${OTHER_RESULTS[mode][alike.length === 1 ? 0 : 1]}`];
  });
  return [RESULTS[main], ...others].join('; ');
}

/** The result in one line of a narrow column, where the first page has no space for a second: the scope has that of each room. */
const briefResult = (option: Pick<QuotedOption, 'rooms'>): string =>
  new Set(option.rooms.map(({ mode }) => mode)).size > 1 ? 'Varies by room' : optionResult(option);

/** Deepest place of an option over its rooms, meters; null where no room was measured. */
export function deepestM(option: Pick<QuotedOption, 'rooms'>): number | null {
  const depths = option.rooms.flatMap((room) => (room.maxDepthM === null ? [] : [room.maxDepthM]));
  return depths.length === 0 ? null : Math.max(...depths);
}

/** When a payment falls due. */
export const DUE_WORDS = {
  'on-acceptance': 'when you accept',
  'before-pour': 'before the pour',
  'after-pour': 'after the pour',
  'on-handover': 'at handover',
  'thirty-days': 'payable 30 days after handover',
} as const;

/** The payments of an option, one per line: `Deposit: $1,485.87 when you accept`. */
export function paymentLines(business: Pick<Business, 'currency' | 'locale'>, option: QuotedOption): string[] {
  return option.stages.map(
    (stage) => `${stage.name}: ${formatMoney(stage.amountMinor, business.currency, business.locale)} ${DUE_WORDS[stage.due]}`,
  );
}

/** What an option costs: `total $5,005.42, deposit $1,501.63`. */
export function choiceWords({ currency, locale }: Pick<Business, 'currency' | 'locale'>, option: QuotedOption): string {
  const money = (minor: number): string => formatMoney(minor, currency, locale);
  return `total ${money(option.totalMinor)}${option.depositMinor === 0 ? '' : `, deposit ${money(option.depositMinor)}`}`;
}

/** The row of the largest gap that each option promises. */
export const FLATNESS_ROW = 'Flatness promised';

/**
 * The table of the first page; the recommended option comes last, over the one large figure.
 * @param walks the day of foot traffic by option; null where it is the same for all
 */
export function optionsTable(business: Business, priced: QuotedPrice, walks: ReadonlyMap<string, string> | null): Block {
  const { locale, currency } = business;
  const suggested = suggestedOption(priced);
  const options = [...priced.options.filter((option) => option !== suggested), suggested];
  const money = (minor: number): string => formatMoney(minor, currency, locale);
  const rows: { cells: Run[][]; strong?: boolean; rule?: boolean; figure?: boolean }[] = [];
  const row = (name: string, textOf: (option: QuotedOption) => string): void =>
    void rows.push({ cells: [cell(name), ...options.map((option) => cell(textOf(option)))] });
  if (options.length > 1) {
    row('Result', briefResult);
    row(FLATNESS_ROW, (o) => (o.gapM === null ? 'Not measured' : flatnessWords(o.gapM, business)));
    if (options.some((o) => o.meetsFlooring !== null))
      row('Flat enough for flooring', (o) => (o.meetsFlooring === null ? '' : o.meetsFlooring ? 'Yes' : 'No'));
    // One row for both: the first page holds no more rows.
    if (walks === null) row('Days on site', (o) => String(o.days));
    else row('Days on site, foot traffic', (o) => `${o.days}, ${walks.get(o.id) ?? ''}`);
  }
  if (suggested.rooms.length <= MAX_ROOM_ROWS)
    for (const room of suggested.rooms)
      row(room.name, (o) => money(o.rooms.find((priced) => priced.roomId === room.roomId)?.priceMinor ?? 0));
  const rooms = suggested.rooms.length;
  row(rooms > MAX_ROOM_ROWS ? `Subtotal, ${rooms} rooms` : 'Subtotal', (o) => money(o.netMinor));
  for (const tax of suggested.taxes)
    row(`${tax.name} ${formatTaxRate(tax.rate, locale)}`, (o) => money(o.taxes.find((t) => t.taxId === tax.taxId)?.taxMinor ?? 0));
  rows.push({
    cells: [[{ text: 'Total', bold: true }], ...options.map((o) => cell(money(o.totalMinor)))],
    figure: true,
  });
  // The payments are shares of each option's own total.
  if (options.length > 1)
    suggested.stages.forEach(({ name, due }, i) => row(`${name}, ${DUE_WORDS[due]}`, (o) => money(o.stages[i]?.amountMinor ?? 0)));
  return {
    kind: 'table',
    caption: 'Price',
    columns: [
      { title: options.length < 2 ? 'Price' : 'Options', align: 'start', share: null },
      ...options.map((o) => ({
        title: options.length < 2 ? 'Amount' : o.name,
        align: 'end' as const,
        share: o === suggested ? FIGURE_SHARE : OTHER_SHARE,
      })),
    ],
    rows,
    pointedColumn: options.length < 2 ? null : options.length,
    pointedNote: options.length < 2 ? '' : 'recommended',
  };
}

/** `1/8″ in 10 ft`: the largest gap under a straightedge of the usual length. */
export function flatnessWords(gapM: number, { units, locale }: Pick<Business, 'units' | 'locale'>): string {
  return `${formatDepth(gapM, units, locale)} in ${units === 'us' ? '10 ft' : '3 m'}`;
}
