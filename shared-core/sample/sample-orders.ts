/** The sample's change order: a broken slab found under a threshold, signed by the customer. Invented. */
import type { MadeDocument } from '../book/papers.ts';
import type { Quote } from '../book/quote.ts';
import { changeOrderSheet } from '../documents/change-order-sheet.ts';
import { storedTree } from '../documents/stored-tree.ts';
import { contractBasis, enteredPrice } from '../price/change-order.ts';
import type { DocumentTree } from '../documents/tree.ts';
import { type SampleClock, stampsAt } from './sample-time.ts';

const JOB = 'sample-job-abara';

/** The quote with its change order, for the one sample job that has one. */
export function withSampleOrder(quote: Quote, clock: SampleClock): Quote {
  if (quote.jobId !== JOB) return quote;
  const { taxRates, pricing } = quote.frozen.business;
  const tax = taxRates.find((rate) => rate.id === pricing.laborTaxId) ?? null;
  const order: Quote['orders'][number] = {
    id: 'sample-order-1',
    number: 1,
    issuedAt: clock.instantAt(-9, '11:10'),
    issuedBy: quote.frozen.business.ownerName,
    reason: 'Under the old threshold to the back hall the slab is broken out over 2 ft.',
    work: 'Cut back and patch 2 ft of slab at the threshold.',
    roomIds: ['sample-living'],
    withdrawnIds: [],
    photoIds: [],
    ...enteredPrice(18_500, tax),
    addedDays: 0,
    priced: contractBasis(quote),
    state: 'signed',
    decidedAt: clock.instantAt(-9, '17:30'),
    decidedBy: quote.frozen.customer.name,
  };
  return { ...quote, orders: [order] };
}

/** A document as it was made and handed over. Its hash is set when the PDF is first saved, which the sample data has not done. */
export function madeDocument(
  { id, quote, tree }: { readonly id: string; readonly quote: Quote; readonly tree: DocumentTree },
  { kind, revision, sent: by, madeAt }: Pick<MadeDocument, 'kind' | 'revision' | 'madeAt'> & { readonly sent: 'email' | 'in-person' },
): MadeDocument {
  return {
    ...stampsAt(`sample-document-${id}`, madeAt),
    jobId: quote.jobId,
    kind,
    revision,
    title: tree.title,
    madeAt,
    changes: [],
    content: storedTree(tree, new Map()),
    quoteId: quote.id,
    sha256: null,
    programVersion: '',
    sent: [{ instant: madeAt, by, to: '' }],
    signatures: [],
  };
}

/** The documents of a quote's change orders. */
export function orderDocuments(quote: Quote): MadeDocument[] {
  return quote.orders.map((order): MadeDocument => {
    const tree = changeOrderSheet({ quote, order, photos: [] });
    const { number: revision, issuedAt: madeAt } = order;
    return madeDocument({ id: `order-${revision}`, quote, tree }, { kind: 'change-order', revision, sent: 'in-person', madeAt });
  });
}
