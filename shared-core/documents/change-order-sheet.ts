/** The change order for the customer to sign: one page, priced against the current contract. */
import type { LedgerEntry } from '../book/ledger.ts';
import type { ChangeOrder, Quote } from '../book/quote.ts';
import { accountOf } from '../ledger/account.ts';
import { type Contract, total } from '../ledger/contract.ts';
import { contractOfJob, overInvoicedMinor } from '../ledger/job-contract.ts';
import { type InvoiceDraft, invoicesToIssue, NOTHING_REACHED } from '../ledger/next-invoice.ts';
import { dayOfInstant, formatInstantDay } from '../measure/moment.ts';
import { daysWords } from './money-papers.ts';
import { contractBasis } from '../price/change-order.ts';
import { formatMoney } from '../price/money.ts';
import { taxWords } from '../price/tax.ts';
import { listed, roomWords, theRooms } from '../standing/names.ts';
import { customerSignatures, headingBlock, signatureBlock, tableBlocks, textBlock, textCell } from './blocks.ts';
import { customerLine, issuerName, onLetterhead } from './letterhead.ts';
import { type PaperPhoto, photosBlock } from './paper-photos.ts';
import { DUE_WORDS } from './quote-table.ts';
import type { Block, DocumentTree } from './tree.ts';

/** Photos one page has room for. */
const MAX_PHOTOS = 2;

/** A change order and the accepted quote it changes. */
export type ChangeOrderOf = {
  readonly quote: Quote;
  readonly order: ChangeOrder;
  /** Photos of the job; those the order names are printed. */
  readonly photos: readonly PaperPhoto[];
  /** Entries of the job so far: what is invoiced already does not change. */
  readonly ledger: readonly LedgerEntry[];
};

/** Builds the page. Totals before and after count the change orders signed so far. */
export function changeOrderSheet({ quote, order, photos, ledger }: ChangeOrderOf): DocumentTree {
  const { business, customer, property, job } = quote.frozen;
  const day = formatInstantDay(order.issuedAt, business.timeZone, 'dated', business.locale);
  const orderPhotos = photos.filter(({ photo }) => order.photoIds.includes(photo.id)).slice(0, MAX_PHOTOS);
  return onLetterhead(business, {
    title: `Change order ${order.number} to quote ${job.number}, ${customer.name}`,
    subject: `Change order for work at ${property.address.line}`,
    madeAt: order.issuedAt,
    right: [`Change order ${order.number}, page {page} of {pages}`, `${day}. Job ${job.number}`],
    blocks: [
      headingBlock(1, `Change order ${order.number}`),
      textBlock(customerLine(quote.frozen)),
      textBlock(
        `Changes quote ${job.number}, revision ${quote.revision}, of ${formatInstantDay(quote.issuedAt, business.timeZone, 'dated', business.locale)}.`,
      ),
      headingBlock(2, 'Reason'),
      textBlock(order.reason),
      ...(order.work.trim() === '' ? [] : [headingBlock(2, 'Work'), ...order.work.split('\n').map((line) => textBlock(line))]),
      ...(orderPhotos.length === 0 ? [] : [photosBlock(orderPhotos, { zone: property.timeZone, locale: business.locale })]),
      headingBlock(2, 'Price and time'),
      ...priceTable(quote, order, ledger),
      textBlock(timeWords(order, changedRooms(quote, order))),
      acceptance(quote, order),
    ],
  });
}

function priceTable(quote: Quote, order: ChangeOrder, ledger: readonly LedgerEntry[]): Block[] {
  const { locale } = quote.frozen.business;
  const money = (minor: number): string => formatMoney(minor, quote.currency, locale);
  const before = contractOfJob([withOrders(quote, (other) => other.id !== order.id && other.state === 'signed')]);
  const after = contractOfJob([
    withOrders(
      quote,
      (other) => other.id === order.id || other.state === 'signed',
      (other) => (other.id === order.id ? { ...other, state: 'signed' } : other),
    ),
  ]);
  const turned = order.netMinor < 0 ? 'deducted' : 'added';
  const rows: readonly { readonly text: string; readonly minor: number; readonly bold?: true }[] = [
    { text: 'Contract before this change order', minor: before?.totalMinor ?? 0 },
    ...(order.taxes.length === 0
      ? []
      : [
          { text: `This change order, ${turned}, before tax`, minor: order.netMinor },
          ...order.taxes.map((tax) => ({
            text: taxWords(tax, money, locale),
            minor: tax.taxMinor,
          })),
        ]),
    { text: order.taxes.length === 0 ? `This change order, ${turned}` : 'This change order', minor: order.totalMinor, bold: true },
    { text: 'New contract total', minor: after?.totalMinor ?? 0, bold: true },
  ];
  const table = tableBlocks('Price of the change', rows, [
    ['Description', null, ({ text, minor: _, ...look }) => textCell(text, look)],
    ['Amount', 0.25, ({ text: _, minor, ...look }) => textCell(money(minor), look), 'end'],
  ]);
  const day = dayOfInstant(order.issuedAt, quote.frozen.business.timeZone);
  const [was, now] = [stillToCome(before, ledger, day), stillToCome(after, ledger, day)];
  // One that is no longer to come is 0 now.
  const all = new Map([...was.map((one) => ({ ...one, totalMinor: 0 })), ...now].map((one) => [one.key, one]));
  const sentences = [...all.values()].flatMap(({ key, totalMinor, text, when }) => {
    const earlier = was.find((one) => one.key === key);
    if (earlier?.totalMinor === totalMinor) return [];
    return [`${text}: ${money(totalMinor)}${earlier === undefined ? '' : ` instead of ${money(earlier.totalMinor)}`}, ${when}.`];
  });
  return [
    ...table,
    ...[withdrawnWords(quote, order, money), sentences.join(' ')].filter((text) => text !== '').map((text) => textBlock(text)),
  ];
}

/** Why what comes off for rooms taken out is not their price in the contract; empty where it is, or none is taken out. */
function withdrawnWords(quote: Quote, order: ChangeOrder, money: (minor: number) => string): string {
  const { rooms } = contractBasis(withOrders(quote, (other) => other.id !== order.id));
  const out = rooms.filter(({ roomId }) => order.withdrawnIds.includes(roomId));
  const priceMinor = total(out, (room) => room.priceMinor);
  if (out.length === 0 || priceMinor === -order.netMinor) return '';
  return `Before tax, the contract has ${money(priceMinor)} for ${theRooms(out.map(({ name }) => name))}, with a share of the work for the whole job. The rooms left are priced again without it, so another amount comes off.`;
}

type StillToCome = Pick<InvoiceDraft, 'key' | 'totalMinor'> & { readonly text: string; readonly when: string };

/** The payments of a contract that are not invoiced yet, and what is invoiced beyond it. */
function stillToCome(contract: Contract | null, ledger: readonly LedgerEntry[], day: string): StillToCome[] {
  if (contract === null) return [];
  const whenSigned = 'when you sign';
  const drafts = invoicesToIssue(contract, ledger, NOTHING_REACHED).map(({ key, stageName, totalMinor, due }) => ({
    ...{ key, totalMinor, text: stageName ?? 'Change orders' },
    when: due === 'on-signature' ? `due ${whenSigned}` : DUE_WORDS[due],
  }));
  const creditMinor = overInvoicedMinor(contract, accountOf(ledger, day));
  return creditMinor === 0 ? drafts : [...drafts, { key: '', totalMinor: creditMinor, text: 'Credit to you', when: whenSigned }];
}

function withOrders(quote: Quote, isIncluded: (order: ChangeOrder) => boolean, change = (order: ChangeOrder): ChangeOrder => order): Quote {
  return { ...quote, orders: quote.orders.filter(isIncluded).map(change) };
}

/** What the added days move once the order is signed: the dates of its rooms, and the handover. @param rooms by name */
function timeWords({ addedDays }: ChangeOrder, rooms: string): string {
  if (addedDays === 0) return 'The dates stay as agreed.';
  const days = daysWords(Math.abs(addedDays));
  const [effect, up] = addedDays > 0 ? ['adds', ''] : ['saves', ' up'];
  return rooms === ''
    ? `This ${effect} ${days}. The handover moves${up} by ${days}. The other dates stay as agreed.`
    : `This ${effect} ${days}. Dates in ${rooms} not reached yet, and the handover, move${up} by ${days}.`;
}

/** Rooms of the job by name. */
function namesOf({ frozen }: Quote, order: ChangeOrder, ids: readonly string[]): readonly string[] {
  const nameOf = (id: string): string =>
    order.priced.rooms.find(({ roomId }) => roomId === id)?.name ?? frozen.rooms.find((room) => room.id === id)?.name ?? '';
  return ids.map(nameOf).filter((name) => name !== '');
}

/** The rooms an order touches and leaves in the contract, in words; none as ''. */
function changedRooms(quote: Quote, order: ChangeOrder): string {
  const kept = order.roomIds.filter((id) => !order.withdrawnIds.includes(id));
  return theRooms(namesOf(quote, order, kept));
}

function acceptance(quote: Quote, order: ChangeOrder): Block {
  const { frozen, revision } = quote;
  const { business, job } = frozen;
  const roomNames = changedRooms(quote, order);
  const withdrawnNames = listed(namesOf(quote, order, order.withdrawnIds).map(roomWords));
  return {
    kind: 'together',
    blocks: [
      headingBlock(2, 'Acceptance'),
      ...(withdrawnNames === '' ? [] : [textBlock(`Removed from the contract: ${withdrawnNames}.`)]),
      ...(roomNames === '' ? [] : [textBlock(`Work in ${roomNames} waits until this change order is signed.`)]),
      textBlock(`I accept change order ${order.number}. The rest of quote ${job.number}, revision ${revision}, stays as accepted.`),
      ...customerSignatures(frozen),
      signatureBlock(issuerName(business), business.ownerName),
    ],
  };
}
