/** The signed copy of a document: the tree that was signed, with the signatures, names and days in its fields. */
import type { MadeDocument, Signature } from '../book/papers.ts';
import type { Quote } from '../book/quote.ts';
import { formatDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { textBlock } from './blocks.ts';
import { choiceWords } from './quote-table.ts';
import type { Block, DocumentField, DocumentTree } from './tree.ts';
import { cancelBy } from '../standing/right-to-cancel.ts';

/** Where a role signs: the beginning of its field's label. The contractor's field begins with the business's name. */
const ROLE_LABELS: Readonly<Record<Exclude<Signature['role'], 'contractor'>, string>> = {
  customer: 'Customer, signature',
  'second-owner': 'Second owner',
};

function isFieldOf(field: DocumentField, role: Signature['role'], business: string): boolean {
  return field.label.startsWith(role === 'contractor' ? `${business}, signature` : ROLE_LABELS[role]);
}

/** Where and how the days are written. */
type SignedPlace = {
  readonly zone: string;
  readonly locale: string;
  readonly business: string;
  /** The quote that is signed, or that the change order belongs to. */
  readonly quote: Pick<Quote, 'priced' | 'acceptedOptionId' | 'currency'>;
};

function signedFields(fields: readonly DocumentField[], signatures: readonly Signature[], place: SignedPlace): DocumentField[] {
  const [first, ...others] = fields;
  const signature = signatures.find((candidate) => first !== undefined && isFieldOf(first, candidate.role, place.business));
  if (first === undefined || signature === undefined) return dated(fields, signatures, place);
  const day = formatDay(dayOfInstant(signature.instant, place.zone), 'dated', place.locale);
  return [
    { ...first, ...(signature.picture === null ? { value: 'Signed on paper' } : { picture: signature.picture }) },
    ...others.map((field) =>
      field.label.startsWith('Printed name')
        ? { ...field, value: signature.name }
        : field.label === 'Date'
          ? { ...field, value: day }
          : field,
    ),
  ];
}

/** The days of the notice of cancellation, known once the customer signed. */
function dated(fields: readonly DocumentField[], signatures: readonly Signature[], { zone, locale }: SignedPlace): DocumentField[] {
  const customer = signatures.find((candidate) => candidate.role === 'customer');
  if (customer === undefined) return [...fields];
  const day = dayOfInstant(customer.instant, zone);
  return fields.map((field) =>
    field.label === 'Date of transaction'
      ? { ...field, value: formatDay(day, 'full', locale) }
      : field.label === 'Last day to cancel'
        ? { ...field, value: formatDay(cancelBy(day), 'full', locale) }
        : field,
  );
}

/** The option that was chosen, under the boxes to choose by. */
function chosenBlocks(signatures: readonly Signature[], { quote, locale }: SignedPlace): Block[] {
  const optionId = quote.acceptedOptionId ?? signatures.find(({ role }) => role === 'customer')?.optionId;
  const option = quote.priced.options.find(({ id }) => id === optionId);
  return option === undefined
    ? []
    : [textBlock(`Chosen: “${option.name}”, ${choiceWords({ currency: quote.currency, locale }, option)}`, { bold: true })];
}

function signedBlocks(blocks: readonly Block[], signatures: readonly Signature[], place: SignedPlace): Block[] {
  return blocks.flatMap((block): Block[] => {
    switch (block.kind) {
      case 'list':
        return block.marker === 'box' ? [block, ...chosenBlocks(signatures, place)] : [block];
      case 'fields':
        return [{ ...block, fields: signedFields(block.fields, signatures, place) }];
      case 'columns':
        return [{ ...block, columns: block.columns.map((column) => signedBlocks(column, signatures, place)) }];
      case 'together':
      case 'cover':
        return [{ ...block, blocks: signedBlocks(block.blocks, signatures, place) }];
      default:
        return [block];
    }
  });
}

/** The newest signed copy of a document; null while nobody signed it. */
export function signedCopyOf(documents: readonly MadeDocument[], document: Pick<MadeDocument, 'sha256'>): MadeDocument | null {
  const copies = documents.filter(
    (candidate) => candidate.kind === 'signed-copy' && candidate.signatures[0]?.signedSha256 === document.sha256,
  );
  return copies.toSorted((a, b) => a.revision - b.revision).at(-1) ?? null;
}

/**
 * The signed copy.
 * @param tree the document as it was signed
 * @param signatures each with the SHA-256 of the PDF signed, which is printed under the last block
 * @param place `business` is the name the document was issued under
 * @param papers photos of the document signed on paper, as data addresses
 */
export function signedCopy(
  tree: DocumentTree,
  signatures: readonly Signature[],
  place: SignedPlace,
  papers: readonly string[] = [],
): DocumentTree {
  const hashes = [...new Set(signatures.map((signature) => signature.signedSha256))];
  return {
    ...tree,
    title: `${tree.title}, signed`,
    blocks: [
      ...signedBlocks(tree.blocks, signatures, place),
      ...(papers.length === 0
        ? []
        : [{ kind: 'photos' as const, photos: papers.map((picture) => ({ picture, caption: 'Photo of the signed document' })) }]),
      { kind: 'paragraph', small: true, runs: [{ text: `SHA-256 of the PDF that was signed: ${hashes.join(', ')}`, italic: true }] },
    ],
  };
}
