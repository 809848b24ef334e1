/** Builders for document blocks. */
import type { Customer } from '../book/customer.ts';
import type { Property } from '../book/property.ts';
import { mayBeTwo, signerOf, signingFirm } from '../standing/names.ts';
import type { Block, DocumentField, Run } from './tree.ts';

type Drawing = Extract<Block, { kind: 'drawing' }>;
type TableRow = Extract<Block, { kind: 'table' }>['rows'][number];

export const textCell = (text: string, more: Partial<Run> = {}): Run[] => [{ text, ...more }];
export const headingBlock = (level: 1 | 2 | 3, text: string): Block => ({ kind: 'heading', level, text });
export const textBlock = (text: string, more: Partial<Run> = {}): Block => ({ kind: 'paragraph', runs: [{ text, ...more }] });
export const noteBlock = (text: string): Block => ({ kind: 'paragraph', small: true, runs: [{ text, italic: true }] });
/** A paragraph that begins with its subject in bold: `How to pay: `. */
export const namedBlock = (name: string, text: string): Block => ({ kind: 'paragraph', runs: [{ text: name, bold: true }, { text }] });
export const listBlock = (items: readonly (string | Run[])[], marker: 'none' | 'number' | 'box' = 'none'): Block => ({
  kind: 'list',
  marker,
  items: items.map(asRuns),
});
/** A list under its heading; nothing where it is empty. */
export const listPart = (level: 2 | 3, title: string, items: readonly (string | Run[])[], marker: 'none' | 'box' = 'none'): Block[] =>
  items.length === 0 ? [] : [headingBlock(level, title), listBlock(items, marker)];
/** A drawing with its words for those who cannot see it; what else the drawing holds is left out. */
export const drawingBlock = (
  { width, height, marks }: Drawing['drawing'],
  alt: string,
  more: Partial<Omit<Drawing, 'drawing'>> = {},
): Drawing => ({ kind: 'drawing', drawing: { width, height, marks }, alt, caption: '', ...more });

const asRuns = (cell: string | Run[]): Run[] => (typeof cell === 'string' ? textCell(cell) : cell);

/** A column: its title, its share of the width (null takes the rest), and what a row shows in it. */
export type Column<Row> = readonly [title: string, share: number | null, cellOf: (row: Row) => string | Run[], align?: 'start' | 'end'];

/** A table; nothing without rows. @param lookOf how a row is set */
export function tableBlocks<Row>(
  caption: string,
  rows: readonly Row[],
  columns: readonly Column<Row>[],
  lookOf: (row: Row) => Omit<TableRow, 'cells'> = () => ({}),
): Block[] {
  if (rows.length === 0) return [];
  return [
    {
      kind: 'table',
      caption,
      columns: columns.map(([title, share, , align = 'start']) => ({ title, align, share })),
      rows: rows.map((row) => ({ cells: columns.map(([, , cellOf]) => asRuns(cellOf(row))), ...lookOf(row) })),
      pointedColumn: null,
      pointedNote: '',
    },
  ];
}

/** A table of text without the columns that are empty in every row. */
export function filledTable<Row>(caption: string, rows: readonly Row[], columns: readonly Column<Row>[]): Block[] {
  const filled = columns.filter(([, , cellOf]) => rows.some((row) => cellOf(row) !== ''));
  // The last column takes what the others leave.
  const last = filled.some(([, share]) => share === null) ? undefined : filled.at(-1);
  return tableBlocks(
    caption,
    rows,
    filled.map((column): Column<Row> => (column === last ? [column[0], null, column[2]] : column)),
  );
}

/** The same under its heading; nothing where there are no rows. */
export const recordTable = <Row>(caption: string, rows: readonly Row[], columns: readonly Column<Row>[]): Block[] =>
  rows.length === 0 ? [] : [headingBlock(3, caption), ...filledTable(caption, rows, columns)];

/** A row of fields to fill in; `value` is printed in its field. */
export const fieldsBlock = (...fields: readonly DocumentField[]): Block => ({ kind: 'fields', fields: [...fields] });

/** A signature line: signature, printed name, date. @param firm the company or trust that is signed for, with the signer's title */
export const signatureBlock = (label: string, name: string, firm = ''): Block =>
  fieldsBlock(
    { label: `${label}, signature${firm === '' ? '' : ` for ${firm}`}`, share: 0.42 },
    { label: firm === '' ? 'Printed name' : 'Printed name and title', share: 0.36, ...(name === '' ? {} : { value: name }) },
    { label: 'Date', share: 0.22 },
  );

/** Where a customer signs: for a company or a trust, for two people, and where it may be either, the name is left to write. @param person who signs */
export const customerSignature = (label: string, customer: string, person = customer): Block =>
  signatureBlock(label, signerOf(person), signingFirm(customer));

/** Who signs for the customer's side of a quote. */
type Signers = {
  readonly customer: Pick<Customer, 'name'>;
  readonly property: Pick<Property, 'secondOwner'>;
};

/** Whether a second owner may sign: for a company, only one that is entered. */
export const hasSecondSigner = ({ customer, property }: Signers): boolean => property.secondOwner !== null || mayBeTwo(customer.name);

/** Where the customer and a second owner sign. */
export function customerSignatures(signers: Signers): Block[] {
  const first = customerSignature('Customer', signers.customer.name);
  const second = signers.property.secondOwner?.name ?? '';
  if (!hasSecondSigner(signers)) return [first];
  return [first, customerSignature(second === '' ? 'Second owner, if any' : 'Second owner', second)];
}
