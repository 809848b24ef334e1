/** What the Quote screen leads to once the quote is accepted. */
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import type { ChangeOrder, Quote } from '../../../shared-core/book/quote.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { Stage } from '../../../shared-core/standing/stage.ts';

export const orderDocument = (
  { number }: Pick<ChangeOrder, 'number'>,
  quote: Pick<Quote, 'id'>,
  documents: readonly MadeDocument[],
): MadeDocument | undefined => documents.find((one) => one.kind === 'change-order' && one.quoteId === quote.id && one.revision === number);

/** The change order that waits for its signature, which is given on its document; null where none does. */
export function orderToSign(
  quote: Pick<Quote, 'id' | 'orders'>,
  documents: readonly MadeDocument[],
): { readonly order: ChangeOrder; readonly document: MadeDocument } | null {
  const order = quote.orders.find(({ state }) => state === 'issued');
  const document = order === undefined ? undefined : orderDocument(order, quote, documents);
  return order === undefined || document === undefined ? null : { order, document };
}

/** The stage to go to from an accepted quote with nothing left to sign. */
export function stageAfterQuote({ bundle, whole }: JobReading, roomId: string, now: string): Exclude<Stage, 'quote' | 'done'> {
  const step = nextStep(bundle, roomId, whole.business, now);
  const stage = step?.action?.opens ?? step?.standing.stage ?? 'pour';
  return stage === 'quote' ? 'pour' : stage === 'done' ? 'handover' : stage;
}
