/** Lists of the ledger (invoices, payments, purchases, hours, drives, stock), of materials, and of every field that no other list has. */
import type { LedgerEntry } from '../../book/ledger.ts';
import { containerOf } from '../../material/containers.ts';
import { type DataTable, dataTable, day, type ColumnOf, madeRows, moments, money, number, text } from './data-table.ts';
import { inUse, type ListRows, type Names } from './list-rows.ts';

type Entry<Kind extends LedgerEntry['kind']> = Extract<LedgerEntry, { kind: Kind }>;

function ledgerLists(rows: ListRows, names: Names): readonly DataTable[] {
  const entriesOf = <Kind extends LedgerEntry['kind']>(...kinds: readonly Kind[]): readonly Entry<Kind>[] =>
    inUse(rows.ledger).filter((entry): entry is Entry<Kind> => kinds.some((kind) => kind === entry.kind));
  const { currency } = names;
  const head = <Row extends LedgerEntry>(): readonly ColumnOf<Row>[] => [
    text('Entry ID', (e) => e.id),
    text('Job', (e) => names.job(e.jobId)),
    text('Customer', (e) => names.customerOfJob(e.jobId)),
    day('Day', (e) => e.onDay),
  ];
  const tail = <Row extends LedgerEntry>(): readonly ColumnOf<Row>[] => [
    text('Note', (e) => e.note),
    ...moments<Row>('Voided', names.ownZone, (e) => e.voidedAt, 'A voided entry does not count.'),
    text('Reason for voiding', (e) => e.voidReason),
  ];
  const invoices = entriesOf('invoice');
  const taxes = invoices.flatMap((invoice) => invoice.taxes.map((tax) => ({ invoice, tax })));
  const lines = entriesOf('purchase').flatMap((purchase) => purchase.lines.map((line) => ({ purchase, line })));
  const numberOf = (id: string | null): string => invoices.find((invoice) => invoice.id === id)?.number ?? '';
  type Receipt = Entry<'payment' | 'refund' | 'credit' | 'write-off'>;
  const sign = (e: Receipt): number => (e.kind === 'refund' ? -1 : 1);
  return [
    dataTable('invoices', 'One row per invoice.', invoices, [
      ...head<Entry<'invoice'>>(),
      text('Invoice', (e) => e.number),
      text('Purpose', (e) => e.purpose),
      text('Title', (e) => e.title),
      money('Subtotal', (e) => [e.netMinor, e.currency]),
      money('Tax', (e) => [e.taxes.reduce((sum, tax) => sum + tax.taxMinor, 0), e.currency]),
      money('Total', (e) => [e.totalMinor, e.currency]),
      money('Retainage', (e) => [e.retainageMinor, e.currency], 'Held back until the work is accepted. Part of the total.'),
      day('Due', (e) => e.dueOn),
      text('Currency', (e) => e.currency),
      ...tail<Entry<'invoice'>>(),
    ]),
    dataTable('invoice taxes', 'One row per tax of an invoice.', taxes, [
      text('Invoice', ({ invoice }) => invoice.number),
      text('Tax', ({ tax }) => tax.name),
      number('Rate (%)', 4, ({ tax }) => tax.rate * 100),
      money('Taxed amount', ({ invoice, tax }) => [tax.baseMinor, invoice.currency]),
      money('Tax amount', ({ invoice, tax }) => [tax.taxMinor, invoice.currency]),
      text('Currency', ({ invoice }) => invoice.currency),
      ...moments<(typeof taxes)[number]>(
        'Voided',
        names.ownZone,
        ({ invoice }) => invoice.voidedAt,
        'The tax of a voided invoice does not count.',
      ),
    ]),
    dataTable(
      'payments',
      'Payments, refunds, credits, and write-offs. A refund is negative.',
      entriesOf('payment', 'refund', 'credit', 'write-off'),
      [
        ...head<Receipt>(),
        text('Kind', (e) => e.kind),
        money('Amount', (e) => [sign(e) * e.amountMinor, currency]),
        money(
          'Tax in a credit',
          (e) => ('taxes' in e ? [e.taxes.reduce((sum, tax) => sum + tax.taxMinor, 0), currency] : null),
          'The sales tax that a credit or a write-off takes back.',
        ),
        text('Currency', () => currency),
        text('Method', (e) => ('method' in e ? e.method : '')),
        text('Reference', (e) => ('reference' in e ? e.reference : '')),
        text('Invoice', (e) => ('invoiceId' in e ? numberOf(e.invoiceId) : '')),
        text('Reason', (e) => ('reason' in e ? e.reason : '')),
        ...tail<Receipt>(),
      ],
    ),
    dataTable('purchases', 'One row per line of a purchase. The tax of a purchase is repeated in each of its lines.', lines, [
      text('Entry ID', ({ purchase }) => purchase.id),
      text('Job', ({ purchase }) => names.job(purchase.jobId)),
      day('Day', ({ purchase }) => purchase.onDay),
      text('Supplier', ({ purchase }) => purchase.supplier),
      text('Category', ({ purchase }) => purchase.category),
      text('Item', ({ line }) => line.text),
      number('Quantity', 3, ({ line }) => line.quantity),
      text('Unit', ({ line }) => line.unit),
      money('Amount', ({ line }) => [line.amountMinor, currency]),
      money('Tax of the purchase', ({ purchase }) => [purchase.taxMinor, currency]),
      text('Currency', () => currency),
      text('Lot', ({ line }) => line.lot),
      day('Expires', ({ line }) => line.expiresOn),
      text('Method', ({ purchase }) => purchase.method),
      text('Reference', ({ purchase }) => purchase.reference),
      ...moments<(typeof lines)[number]>('Voided', names.ownZone, ({ purchase }) => purchase.voidedAt),
    ]),
    dataTable('hours', 'One row per entry of hours.', entriesOf('hours'), [
      ...head<Entry<'hours'>>(),
      text('Worker', (e) => e.who),
      text('Paid as', (e) => e.paidAs),
      text('Task', (e) => e.task),
      number('Minutes', 0, (e) => e.minutes),
      money('Rate per hour', (e) => [e.hourMinor, currency]),
      text('Currency', () => currency),
      ...tail<Entry<'hours'>>(),
    ]),
    dataTable('mileage', 'One row per drive.', entriesOf('drive'), [
      ...head<Entry<'drive'>>(),
      text('Purpose', (e) => e.purpose),
      number('Distance (km)', 1, (e) => e.distanceKm),
      // 1 mile is 1.609344 km exactly: NIST SP 811, appendix B.8.
      number('Distance (mi)', 1, (e) => e.distanceKm / 1.609344),
      ...tail<Entry<'drive'>>(),
    ]),
    dataTable('stock', 'One row per change of stock on hand.', entriesOf('stock'), [
      ...head<Entry<'stock'>>(),
      text('Change', (e) => e.what),
      text('Material', (e) => names.material(e.materialId)),
      number('Containers', 2, (e) => e.containers),
      text('Lot', (e) => e.lot),
      day('Expires', (e) => e.expiresOn),
      ...tail<Entry<'stock'>>(),
    ]),
  ];
}

type Detail = {
  readonly owner: { readonly record: string; readonly id: string; readonly name: string };
  readonly path: string;
  readonly value: string;
};

type Plain = string | number | boolean;
const isPlain = (value: unknown): value is Plain => typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean';
const plainText = (value: Plain): string =>
  typeof value === 'number' ? String(Number(value.toPrecision(8))) : typeof value === 'boolean' ? (value ? 'yes' : 'no') : value;
const isEmpty = (value: unknown): boolean =>
  value === null || value === undefined || value === '' || (Array.isArray(value) && value.length === 0);

/** A value, or a list of values, as one text; null where it holds records. */
function flatText(value: unknown): string | null {
  if (isPlain(value)) return plainText(value);
  return Array.isArray(value) && value.every(isPlain) ? value.map(plainText).join('; ') : null;
}

/** A record of values in a list, as one text: `kind: carpet; thicknessM: 0.01`; null where it holds other records. */
function flatRecord(value: object): string | null {
  const fields: string[] = [];
  for (const [key, inner] of Object.entries(value)) {
    if (isEmpty(inner)) continue;
    const words = flatText(inner);
    if (words === null) return null;
    fields.push(`${key}: ${words}`);
  }
  return fields.join('; ');
}

/**
 * Every field of a record, by its path: `powder.bagKg.value`. Pictures and what another list has are left out. What a list of the record
 * holds is one row per item, because a row per field of each would be five times as many.
 */
function* details(owner: Detail['owner'], value: unknown, leftOut: readonly string[], path = ''): Generator<Detail> {
  if (leftOut.includes(path) || isEmpty(value)) return;
  const words = flatText(value);
  if (words !== null) {
    yield { owner, path, value: words };
    return;
  }
  const isList = Array.isArray(value);
  for (const [key, inner] of Object.entries(value as Readonly<Record<string, unknown>>)) {
    const at = path === '' ? key : `${path}.${key}`;
    const item = isList && typeof inner === 'object' && inner !== null ? flatRecord(inner) : null;
    if (item === null) yield* details(owner, inner, leftOut, at);
    else if (item !== '') yield { owner, path: at, value: item };
  }
}

const STAMPS = ['id', 'createdAt', 'changedAt', 'deletedAt'];

const ROOM_LEFT_OUT = [
  ...STAMPS,
  ...['propertyId', 'name', 'survey.readings', 'surveyRest.readings', 'surveyAfter.readings', 'plan.outline', 'notes'],
];

function* restFields(rows: ListRows): Generator<Detail, void> {
  for (const b of rows.business) yield* details({ record: 'settings', id: b.id, name: b.name }, b, [...STAMPS, 'mark']);
  for (const m of inUse(rows.materials)) yield* details({ record: 'material', id: m.id, name: m.name }, m, [...STAMPS, 'name', 'prices']);
  for (const r of inUse(rows.rooms)) yield* details({ record: 'room', id: r.id, name: r.name }, r, ROOM_LEFT_OUT);
  for (const { id, number: name, rooms, withdrawn, estimate, lienDone } of inUse(rows.jobs)) {
    // Signed lines have a list of their own.
    const [listed, listedWithdrawn] = [rooms, withdrawn ?? []].map((some) => some.map((room) => ({ ...room, signed: [] })));
    const unlisted = { rooms: listed, withdrawn: listedWithdrawn, estimate, lienDone };
    yield* details({ record: 'job', id, name }, unlisted, []);
  }
}

function restLists(rows: ListRows, names: Names): readonly DataTable[] {
  const materials = inUse(rows.materials);
  const prices = materials.flatMap((material) => material.prices.map((price) => ({ material, price })));
  const fields = madeRows(() => restFields(rows));
  return [
    dataTable('materials', 'One row per material. Its figures are in the list of details.', materials, [
      text('Material ID', (m) => m.id),
      text('Material', (m) => m.name),
      text('Kind', (m) => m.kind),
      text('Container', (m) => containerOf(m).name),
      number('Container holds', 3, (m) => containerOf(m).holds),
      text('Unit', (m) => containerOf(m).unit),
      text('Supplier', (m) => m.supplier),
      text('Typical', (m) => (m.typical ? 'yes' : 'no'), 'Not from a data sheet.'),
      text('Data sheet', (m) => m.sheetFrom),
      text('Cautions', (m) => m.cautions),
      text('Notes', (m) => m.notes),
    ]),
    dataTable('material prices', 'One row per price of a container.', prices, [
      text('Material ID', ({ material }) => material.id),
      text('Material', ({ material }) => material.name),
      day('From', ({ price }) => price.from),
      money('Price', ({ price }) => [price.minor, names.currency]),
      text('Currency', () => names.currency),
      text('Note', ({ price }) => price.note),
    ]),
    dataTable(
      'details',
      'Every other field of settings, materials, rooms, and jobs; an item of a list is one row. Units are SI: M is meters, Kg is kilograms, C is °C, Minor is cents.',
      fields,
      [
        text('Record', ({ owner }) => owner.record),
        text('Record ID', ({ owner }) => owner.id),
        text('Name', ({ owner }) => owner.name),
        text('Field', (d) => d.path),
        text('Value', (d) => d.value),
      ],
    ),
  ];
}

/** The lists of money and materials, and of all other fields. */
export function moneyLists(rows: ListRows, names: Names): readonly DataTable[] {
  return [...ledgerLists(rows, names), ...restLists(rows, names)];
}
