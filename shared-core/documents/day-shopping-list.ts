/** The shopping list of a day: whole containers by supplier over all jobs, less what is on hand, to check off. */
import type { Business } from '../book/business.ts';
import type { Material } from '../book/material.ts';
import type { ShoppingLine, SupplierList } from '../ledger/shopping-day.ts';
import { formatDay } from '../measure/day.ts';
import { joined } from '../measure/list.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { formatMoney } from '../price/money.ts';
import { headingBlock, listPart, textBlock } from './blocks.ts';
import { onLetterhead } from './letterhead.ts';
import { packagesWords } from './shopping-list.ts';
import type { Block, DocumentTree, Run } from './tree.ts';

/** For which jobs and rooms a line is: `26-024 hall, den`. */
export function lineJobs(line: ShoppingLine): string {
  return line.jobs.map(({ jobNumber, rooms }) => joined([jobNumber, rooms.join(', ')], ' ')).join('; ');
}

/**
 * The list as a document.
 * @param materials their data sheets, for the sizes of packages
 * @param day the pour day it is for, `2026-05-12`; null for every job
 * @param now instant it is made at
 */
export function dayShoppingList(
  business: Business,
  materials: readonly Material[],
  lists: readonly SupplierList[],
  day: string | null,
  now: string,
): DocumentTree {
  const { locale, currency } = business;
  const money = (minor: number): string => formatMoney(minor, currency, locale);
  const count = (value: number): string => formatNumber(value, { most: 1 }, locale);
  const packages = (n: number, line: ShoppingLine): string =>
    packagesWords(
      n,
      line.container,
      materials.find(({ id }) => id === line.materialId),
      business,
    );
  const when = day === null ? 'all accepted jobs' : formatDay(day, 'dated', locale);
  const toBuy = lists
    .map((list) => ({ ...list, lines: list.lines.filter((line) => line.buy > 0) }))
    .filter((list) => list.lines.length > 0);
  const fromStock = lists.flatMap((list) => list.lines).filter((line) => line.fromStock > 0);
  const supplier = (list: SupplierList): Block[] => [
    ...listPart(
      2,
      list.supplier === '' ? 'No supplier' : list.supplier,
      list.lines.map((line): Run[] => [
        { text: `${packages(line.buy, line)}: ${line.name}`, bold: true },
        {
          text:
            line.priceMinor === null || line.costMinor === null
              ? ', no price'
              : `, ${money(line.costMinor)} (${money(line.priceMinor)} each)`,
        },
        { text: `. For ${lineJobs(line)}.` },
      ]),
      'box',
    ),
    textBlock(`Total ${money(list.totalMinor)} before tax`, { bold: true }),
  ];
  return onLetterhead(business, {
    title: `Shopping list ${day ?? dayOfInstant(now, business.timeZone)}`,
    subject: `Shopping list for ${when}`,
    madeAt: now,
    right: ['Shopping list', when, 'Page {page} of {pages}'],
    blocks: [
      headingBlock(1, 'Shopping list'),
      textBlock(`For ${when}. Rooms already poured are left out, and what is on hand is deducted.`),
      ...(toBuy.length === 0 ? [textBlock('Nothing to buy.')] : toBuy.flatMap(supplier)),
      ...listPart(
        2,
        'Take from stock',
        fromStock.map((line) => `${count(line.fromStock)} × ${line.container}: ${line.name}. For ${lineJobs(line)}.`),
        'box',
      ),
    ],
  });
}
