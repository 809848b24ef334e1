/** The shopping list of one job: whole containers to check off, with prices. */
import { noCoverageWords } from '../price/takeoff-words.ts';
import type { Business } from '../book/business.ts';
import type { Material } from '../book/material.ts';
import { formatArea } from '../measure/area.ts';
import { FOOT_M } from '../measure/length-units.ts';
import { formatMass } from '../measure/mass.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { formatLiquid } from '../measure/volume.ts';
import { dayOfInstant, formatInstantDay } from '../measure/moment.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import type { ShoppingItem } from '../material/shopping.ts';
import { formatMoney } from '../price/money.ts';
import { priceOnDay } from '../price/price-on-day.ts';
import { listed } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { customerLine, onLetterhead } from './letterhead.ts';
import { shoppingFor } from '../standing/shopping-for.ts';
import type { Block, DocumentTree, Run } from './tree.ts';

const cell = (text: string): Run[] => [{ text }];

const roomsWords = (item: ShoppingItem): string => (item.rooms.length === 0 ? 'Whole job' : item.rooms.join(', '));

/** The rows of the table, and what they cost together; a price that is not known is left empty and counts nothing. */
function priced(
  reading: JobReading,
  items: readonly ShoppingItem[],
  now: string,
): { rows: Run[][][]; totalMinor: number; unpriced: number } {
  const { business, materials } = reading.whole;
  const { currency, locale } = business;
  const day = dayOfInstant(now, business.timeZone);
  let totalMinor = 0;
  let unpriced = 0;
  const rows = items.map((item) => {
    const material = materials.find((m) => m.id === item.materialId);
    const unit = material === undefined ? null : priceOnDay(material, day);
    const count = item.containers;
    const minor = unit === null || count === null ? null : unit.minor * count;
    if (minor === null) unpriced += 1;
    else totalMinor += minor;
    return [
      [{ text: count === null ? 'As needed' : packagesWords(count, item.container, material, business), bold: true }],
      cell(item.name),
      cell(roomsWords(item)),
      cell(unit === null ? '' : formatMoney(unit.minor, currency, locale)),
      cell(minor === null ? '' : formatMoney(minor, currency, locale)),
    ];
  });
  return { rows, totalMinor, unpriced };
}

/** Whole packages with their size: `17 × 50 lb bag`. */
export function packagesWords(
  count: number,
  name: string,
  material: Pick<Material, 'container'> | undefined,
  { units, locale }: Pick<Business, 'units' | 'locale'>,
): string {
  const size = material === undefined ? '' : sizeWords(material.container, units, locale);
  return `${formatNumber(count, { most: 0 }, locale)} × ${[size, name].filter((part) => part !== '').join(' ')}`;
}

function sizeWords({ unit, holds }: Material['container'], units: UnitSystem, locale: string): string {
  const number = (value: number): string => formatNumber(value, { most: 1 }, locale);
  switch (unit) {
    case 'kg':
      return formatMass(holds, units, locale);
    case 'L':
      return formatLiquid(holds, units, locale);
    case 'm':
      return units === 'us' ? `${number(holds / FOOT_M)} ft` : `${number(holds)} m`;
    case 'm2':
      return formatArea(holds, units, locale);
    case 'piece':
      return '';
  }
}

/**
 * The list for one option.
 * @param now instant it is made at
 */
export function shoppingListSheet(reading: JobReading, option: OptionEstimate, now: string): DocumentTree {
  const { business, customer, property, job } = reading.whole;
  const { list, pouredRooms } = shoppingFor(reading, option);
  const { rows, totalMinor, unpriced } = priced(reading, list.items, now);
  const table: Block = {
    kind: 'table',
    caption: 'To buy',
    columns: [
      { title: 'Quantity', align: 'start', share: 0.19 },
      { title: 'Item', align: 'start', share: null },
      { title: 'For', align: 'start', share: 0.2 },
      { title: 'Price', align: 'end', share: 0.12 },
      { title: 'Cost', align: 'end', share: 0.13 },
      { title: 'Got', align: 'start', share: 0.05 },
    ],
    rows: [
      ...rows.map((cells) => ({ cells: [...cells, cell('')], box: true })),
      {
        cells: [cell('Total'), cell(''), cell(''), cell(''), cell(formatMoney(totalMinor, business.currency, business.locale)), cell('')],
        strong: true,
      },
    ],
    pointedColumn: null,
    pointedNote: '',
  };
  const notes = [
    ...(pouredRooms.length === 0 ? [] : [`Already poured and not on this list: ${listed(pouredRooms)}.`]),
    'Stock on hand is not deducted here. The shopping list by day, in Materials, deducts it.',
    ...(unpriced === 0
      ? []
      : [`${unpriced === 1 ? '1 item has' : `${unpriced} items have`} no price and ${unpriced === 1 ? 'is' : 'are'} not in the total.`]),
    ...list.problems.map(noCoverageWords),
  ];
  return onLetterhead(business, {
    title: `Shopping list ${job.number}, ${customer.name}`,
    subject: `Shopping list for ${property.address.line}`,
    madeAt: now,
    right: [`Job ${job.number}, page {page} of {pages}`, formatInstantDay(now, business.timeZone, 'full', business.locale)],
    blocks: [
      { kind: 'heading', level: 1, text: 'Shopping list' },
      {
        kind: 'paragraph',
        runs: cell(customerLine({ customer, property }) + (reading.estimate.options.length > 1 ? `. Option: ${option.name}.` : '')),
      },
      ...(rows.length === 0 ? [{ kind: 'paragraph' as const, runs: cell('Nothing to buy.') }] : [table]),
      ...(notes.length === 0
        ? []
        : [
            { kind: 'heading' as const, level: 2 as const, text: 'Notes' },
            { kind: 'list' as const, marker: 'none' as const, items: notes.map(cell) },
          ]),
    ],
  });
}
