/** The sample's change order: a broken slab found under a threshold, signed by the customer. Invented. */
import type { MadeDocument } from '../book/papers.ts';
import type { Quote } from '../book/quote.ts';
import { changeOrderSheet } from '../documents/change-order-sheet.ts';
import { contractBasis, enteredPrice } from '../price/change-order.ts';
import { givenOut } from './sample-documents.ts';
import type { SampleClock } from './sample-time.ts';

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
    reason: 'Under the old threshold to the back hall, 2 ft of the slab is broken out.',
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

/** The documents of a quote's change orders. */
export function orderDocuments(quote: Quote): MadeDocument[] {
  return quote.orders.map((order) =>
    givenOut({
      id: `sample-document-order-${order.number}`,
      jobId: quote.jobId,
      kind: 'change-order',
      revision: order.number,
      tree: changeOrderSheet({ quote, order, photos: [], ledger: [] }),
      instant: order.issuedAt,
      by: 'in-person',
      quoteId: quote.id,
    }),
  );
}
