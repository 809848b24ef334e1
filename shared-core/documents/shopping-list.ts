/** The shopping list as a paper to take along: whole containers to tick, less what is in the van. */
import type { WholeJob } from '../book/whole-job.ts';
import { formatNumber } from '../measure/number.ts';
import { formatInstantDay } from '../measure/moment.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import type { ShoppingItem } from '../material/shopping.ts';
import { onLetterhead } from './letterhead.ts';
import type { Block, DocumentTree, Run } from './tree.ts';

const cell = (text: string): Run[] => [{ text }];

const roomsWords = (item: ShoppingItem): string => (item.rooms.length === 0 ? 'the whole job' : item.rooms.join(', '));

/** The list's facts beside the option that is bought for. */
export type ShoppingFor = Pick<WholeJob, 'business' | 'customer' | 'property' | 'job'>;

/**
 * The list of one way to do the job.
 * @param now instant it is made at
 */
export function shoppingListSheet(of: ShoppingFor, option: OptionEstimate, now: string): DocumentTree {
  const { business, customer, property, job } = of;
  const { locale } = business;
  const { shopping } = option.takeoff;
  const count = (value: number): string => formatNumber(value, { most: 1 }, locale);
  const buy = shopping.items.filter((item) => item.containers === null || item.containers.buy > 0);
  const have = shopping.items.filter((item) => item.containers !== null && item.containers.buy === 0);
  const table: Block = {
    kind: 'table',
    caption: 'What to buy',
    columns: [
      { title: 'Buy', align: 'start', share: 0.17 },
      { title: 'What', align: 'start', share: null },
      { title: 'Needed', align: 'end', share: 0.15 },
      { title: 'From the van', align: 'end', share: 0.15 },
      { title: 'For', align: 'start', share: 0.24 },
    ],
    rows: buy.map((item) => ({
      cells: [
        [{ text: item.containers === null ? 'as needed' : `${count(item.containers.buy)} × ${item.container}`, bold: true }],
        cell(item.name),
        cell(item.needWords),
        cell(item.containers === null || item.containers.fromVan === 0 ? '' : count(item.containers.fromVan)),
        cell(roomsWords(item)),
      ],
    })),
    pointedColumn: null,
    pointedNote: '',
  };
  return onLetterhead(business, {
    title: `Shopping list ${job.number}`,
    subject: `What to buy for ${option.name.toLowerCase()} at ${property.address.line}`,
    madeAt: now,
    right: [`Job ${job.number}, page {page} of {pages}`, formatInstantDay(now, business.timeZone, 'full', locale)],
    blocks: [
      { kind: 'heading', level: 1, text: 'What to buy' },
      {
        kind: 'paragraph',
        runs: cell([customer.name, property.address.line, property.address.city, option.name].filter((part) => part !== '').join(', ')),
      },
      ...(buy.length === 0
        ? [{ kind: 'paragraph' as const, runs: cell('Nothing: all that is needed is in the van, or nothing is estimated yet.') }]
        : [table]),
      ...(have.length === 0
        ? []
        : [
            { kind: 'heading' as const, level: 2 as const, text: 'In the van already' },
            {
              kind: 'list' as const,
              marker: 'box' as const,
              items: have.map((item) => cell(`${item.name}, ${item.needWords} for ${roomsWords(item)}`)),
            },
          ]),
      ...(shopping.problems.length === 0
        ? []
        : [
            { kind: 'heading' as const, level: 2 as const, text: 'To mind' },
            { kind: 'list' as const, marker: 'none' as const, items: shopping.problems.map((problem) => cell(problem.message)) },
          ]),
    ],
  });
}
