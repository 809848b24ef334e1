/** The shopping list of one job: whole containers to check off, with prices. */
import { noCoverageWords } from '../price/takeoff-words.ts';
import type { Business } from '../book/business.ts';
import type { Material, MaterialKind } from '../book/material.ts';
import { formatArea } from '../measure/area.ts';
import { joined } from '../measure/list.ts';
import { FOOT_M } from '../measure/length-units.ts';
import { formatMass } from '../measure/mass.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { formatLiquid } from '../measure/volume.ts';
import { dayOfInstant, formatInstantDay } from '../measure/moment.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import { containerOf, type NeedUnit } from '../material/containers.ts';
import type { ShoppingItem } from '../material/shopping.ts';
import { formatMoney } from '../price/money.ts';
import { priceOnDay } from '../price/price-on-day.ts';
import { listed } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { headingBlock, listPart, tableBlocks, textBlock, textCell } from './blocks.ts';
import { customerLine, onLetterhead } from './letterhead.ts';
import { shoppingFor } from '../standing/shopping-for.ts';
import type { Block, DocumentTree } from './tree.ts';

const roomsWords = (item: ShoppingItem): string => (item.rooms.length === 0 ? 'Whole job' : item.rooms.join(', '));

/** An item with what it costs, minor units; null where its price or its containers are not known. */
type Priced = {
  readonly item: ShoppingItem;
  readonly material: Material | undefined;
  readonly eachMinor: number | null;
  readonly minor: number | null;
};

function priced({ whole: { business, materials } }: JobReading, items: readonly ShoppingItem[], now: string): Priced[] {
  const day = dayOfInstant(now, business.timeZone);
  return items.map((item) => {
    const material = materials.find((m) => m.id === item.materialId);
    const eachMinor = (material === undefined ? null : priceOnDay(material, day))?.minor ?? null;
    return { item, material, eachMinor, minor: eachMinor === null || item.containers === null ? null : eachMinor * item.containers };
  });
}

function toBuyTable(rows: readonly Priced[], business: Business): Block[] {
  const money = (minor: number | null): string => (minor === null ? '' : formatMoney(minor, business.currency, business.locale));
  const quantity = ({ item: { containers, container }, material }: Priced): string =>
    containers === null ? 'As needed' : packagesWords(containers, container, material, business);
  const total = rows.reduce((sum, { minor }) => sum + (minor ?? 0), 0);
  return tableBlocks<Priced | null>(
    'To buy',
    [...rows, null],
    [
      ['Quantity', 0.19, (row) => (row === null ? 'Total' : textCell(quantity(row), { bold: true }))],
      ['Item', null, (row) => (row === null ? '' : itemName(row.item))],
      ['For', 0.2, (row) => (row === null ? '' : roomsWords(row.item))],
      ['Price', 0.12, (row) => money(row?.eachMinor ?? null), 'end'],
      ['Cost', 0.13, (row) => money(row === null ? total : row.minor), 'end'],
      ['Got', 0.05, () => ''],
    ],
    (row) => (row === null ? { strong: true } : { box: true }),
  );
}

/** Whole packages with their size: `17 × 50 lb bag`. */
export function packagesWords(
  count: number,
  name: string,
  material: Pick<Material, 'container' | 'powder'> | undefined,
  { units, locale }: Pick<Business, 'units' | 'locale'>,
): string {
  const { unit, holds } = material === undefined ? { unit: 'piece' as const, holds: 0 } : containerOf(material);
  const size = unit === 'piece' ? '' : amountWords(holds, unit, units, locale);
  return `${formatNumber(count, { most: 0 }, locale)} × ${joined([size, name], ' ')}`;
}

/** An amount to buy, or of a package: `83.3 ft`, `50 lb`. */
export function amountWords(amount: number, unit: NeedUnit, units: UnitSystem, locale: string): string {
  const number = (value: number): string => formatNumber(value, { most: 1 }, locale);
  switch (unit) {
    case 'kg':
      return formatMass(amount, units, locale);
    case 'L':
      return formatLiquid(amount, units, locale);
    case 'm':
      return units === 'us' ? `${number(amount / FOOT_M)} ft` : `${number(amount)} m`;
    case 'm2':
      return formatArea(amount, units, locale);
    case 'piece':
      return number(amount);
  }
}

const SUNDRY_NAMES: Partial<Record<MaterialKind, string>> = {
  'perimeter-strip': 'Perimeter isolation strip',
  dam: 'Dam',
  'crack-filler': 'Crack filler',
  reinforcement: 'Reinforcement',
  sealer: 'Sealer',
  aggregate: 'Aggregate',
};

/** The data sheet of an item, or its kind where there is no data sheet. */
export const itemName = ({ name, kind }: ShoppingItem): string => name ?? SUNDRY_NAMES[kind] ?? kind;

/**
 * The list for one option.
 * @param now instant it is made at
 */
export function shoppingListSheet(reading: JobReading, option: OptionEstimate, now: string, revision: number): DocumentTree {
  const { business, customer, property, job } = reading.whole;
  const { list, pouredRooms } = shoppingFor(reading, option);
  const rows = priced(reading, list.items, now);
  const unpriced = rows.filter(({ minor }) => minor === null).length;
  const notes = [
    ...(pouredRooms.length === 0 ? [] : [`Already poured and not on this list: ${listed(pouredRooms)}.`]),
    'Stock on hand is not deducted here. The shopping list by day, in Materials, deducts it.',
    ...(unpriced === 0
      ? []
      : [`${unpriced === 1 ? '1 item has' : `${unpriced} items have`} no price and ${unpriced === 1 ? 'is' : 'are'} not in the total.`]),
    ...list.problems.map(noCoverageWords),
  ];
  return onLetterhead(business, {
    title: `Shopping list ${job.number} revision ${revision}, ${customer.name}`,
    subject: `Shopping list for ${property.address.line}`,
    madeAt: now,
    right: [
      `Job ${job.number}, revision ${revision}, page {page} of {pages}`,
      formatInstantDay(now, business.timeZone, 'full', business.locale),
    ],
    blocks: [
      headingBlock(1, 'Shopping list'),
      textBlock(`${customerLine(reading.whole)}${reading.estimate.options.length > 1 ? `. Option: ${option.name}.` : ''}`),
      ...(rows.length === 0 ? [textBlock('Nothing to buy.')] : toBuyTable(rows, business)),
      ...listPart(2, 'Notes', notes),
    ],
  });
}
