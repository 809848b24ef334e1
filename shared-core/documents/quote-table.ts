/** The ways to do it beside one another, and every line of the one suggested. */
import type { Frozen } from '../book/quote.ts';
import { formatDepth } from '../measure/length-format.ts';
import type { JobEstimate, OptionEstimate } from '../price/estimate-job.ts';
import { formatMoney } from '../price/money.ts';
import { MOST_TOLD_APART } from './quote-words.ts';
import type { Block, Run } from './tree.ts';

/** Shares of the width: the suggested way's column holds the one large figure. */
const FIGURE_SHARE = 0.38;
const OTHER_SHARE = 0.18;

const cell = (text: string): Run[] => [{ text }];
const WAYS = ['', '', 'Two ways to do it', 'Three ways to do it'] as const;

const GIVES = { level: 'level', follow: 'only smooth', ramp: 'an even slope' } as const;

/** What a way gives in its largest room, in a word or two. */
export function wayGives(option: OptionEstimate): string {
  const [largest] = [...option.rooms].sort((a, b) => b.takeoff.room.areaM2 - a.takeoff.room.areaM2);
  return GIVES[largest?.level.mode ?? 'level'];
}

/** What a room is asked with its part of travel and the like: these add to the price before tax. */
export function roomPriceMinor(option: OptionEstimate, roomId: string): number {
  return option.price.rooms.find((room) => room.roomId === roomId)?.allInMinor ?? 0;
}

/** The table of the first page; the way suggested stands last, over the one large figure. */
export function optionsTable(frozen: Frozen, estimate: JobEstimate): Block {
  const { units, locale, currency } = frozen.business;
  const { suggested } = estimate;
  const options = [...estimate.options.filter((option) => option !== suggested), suggested];
  const money = (minor: number): string => formatMoney(minor, currency, locale, 'bare');
  const rows: { cells: Run[][]; strong?: boolean; rule?: boolean; figure?: boolean }[] = [];
  const row = (name: string, of: (option: OptionEstimate) => string): void =>
    void rows.push({ cells: [cell(name), ...options.map((option) => cell(of(option)))] });
  if (options.length > 1) {
    row('What you get', wayGives);
    row('Deepest', (o) => (o.mostDepthM === null ? '' : formatDepth(o.mostDepthM, units)));
    row('Days on site', (o) => String(o.days));
  }
  if (suggested.rooms.length > MOST_TOLD_APART) row(`All ${suggested.rooms.length} rooms`, (o) => money(o.price.netMinor));
  else for (const room of suggested.rooms) row(room.name, (o) => money(roomPriceMinor(o, room.roomId)));
  for (const tax of suggested.price.taxes) row(tax.name, (o) => money(o.price.taxes.find((t) => t.taxId === tax.taxId)?.taxMinor ?? 0));
  rows.push({
    cells: [[{ text: 'In all', bold: true }], ...options.map((o) => cell(formatMoney(o.price.totalMinor, currency, locale)))],
    figure: true,
  });
  return {
    kind: 'table',
    caption: 'What it costs',
    columns: [
      { title: WAYS[options.length] ?? '', align: 'start', share: null },
      ...options.map((o) => ({ title: o.name, align: 'end' as const, share: o === suggested ? FIGURE_SHARE : OTHER_SHARE })),
    ],
    rows,
    pointedColumn: options.length < 2 ? null : options.length,
    pointedNote: options.length < 2 ? '' : 'we suggest',
  };
}

/** Every line asked for, to the sum before tax, the tax and the total. */
export function linesTable(frozen: Frozen, option: OptionEstimate): Block {
  const { locale, currency } = frozen.business;
  const { price } = option;
  const money = (minor: number): string => formatMoney(minor, currency, locale, 'bare');
  const roomName = (id: string | null): string => option.rooms.find((room) => room.roomId === id)?.name ?? '';
  const asked = price.lines.filter((line) => !line.leftOut);
  const sum = (name: string, minor: number): { cells: Run[][]; strong?: boolean } => ({
    cells: [cell(name), cell(''), cell(''), cell(money(minor))],
  });
  const reason = frozen.job.estimate.discountNote.trim();
  return {
    kind: 'table',
    caption: `Lines of ${option.name}`,
    columns: [
      { title: 'What', align: 'start', share: null },
      { title: 'Room', align: 'start', share: 0.18 },
      { title: 'How much', align: 'end', share: 0.2 },
      { title: 'Price', align: 'end', share: 0.18 },
    ],
    rows: [
      ...asked.map((line) => ({
        cells: [cell(line.name), cell(roomName(line.roomId)), cell(line.quantityWords), cell(money(line.priceMinor))],
      })),
      ...(price.discountMinor > 0 ? [sum(reason === '' ? 'Discount' : `Discount: ${reason}`, -price.discountMinor)] : []),
      { ...sum('Before tax', price.netMinor), strong: true },
      ...price.taxes.map((tax) => sum(tax.name, tax.taxMinor)),
      { cells: [cell('In all'), cell(''), cell(''), cell(formatMoney(price.totalMinor, currency, locale))], strong: true },
    ],
    pointedColumn: null,
    pointedNote: '',
  };
}
