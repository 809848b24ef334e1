/** Change orders: issuing one with its document, and recording that it was signed, declined or voided. */
import type { Promised } from '../../shared-core/book/cure-record.ts';
import type { ChangeOrder, Quote } from '../../shared-core/book/quote.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { standingPromises } from '../../shared-core/cure/promise-verdict.ts';
import { changeOrderSheet } from '../../shared-core/documents/change-order-sheet.ts';
import { daysLater, decideOrder, issueOrder, jobAfterOrder, type NewOrder } from '../../shared-core/price/change-order.ts';
import { inkPdf, savePdf } from '../desk/save-document.ts';
import { documentRow, type SavedDocument } from './document-commands.ts';
import { newId, nowInstant } from './now-instant.ts';
import { attempt, done, type Outcome, refused } from './outcome.ts';
import { paperPhotos } from './record-commands.ts';
import { type Put, write } from './write.ts';

/** The decisions a user makes about a change order. */
export type OrderDraft = Omit<NewOrder, 'id' | 'issuedAt' | 'issuedBy'>;

/** Issues a change order: inks it, stores it with its PDF's hash, then saves the file. */
export async function issueChangeOrder(whole: WholeJob, quote: Quote, draft: OrderDraft): Promise<SavedDocument> {
  const failed = (text: string): SavedDocument => ({ ok: false, text, documentId: null });
  const instant = nowInstant();
  const { business, job } = whole;
  const issuedBy = business.ownerName.trim() === '' ? business.name : business.ownerName;
  const issued = issueOrder(quote, { ...draft, id: newId(), issuedAt: instant, issuedBy }, whole.quotes, job);
  const order = issued.ok ? issued.value.orders.at(-1) : undefined;
  if (!issued.ok || order === undefined) return failed(issued.ok ? 'The change order was not made. Try again.' : issued.message);
  const read = await attempt(async () => done(await paperPhotos(job.id)));
  if (!read.ok) return failed(read.message);
  const tree = changeOrderSheet({ quote: issued.value, order, photos: read.value });
  const inked = await inkPdf(tree);
  if (!inked.ok) return failed(inked.text);
  const { pdf } = inked;
  const row = documentRow(
    {
      jobId: job.id,
      kind: 'change-order',
      revision: order.number,
      tree,
      sha256: pdf.sha256,
      programVersion: pdf.version,
      quoteId: quote.id,
      photos: read.value,
    },
    instant,
  );
  const written = await write(`issued change order ${order.number}`, instant, {
    puts: [{ table: 'documents', row }],
    patches: [{ table: 'quotes', id: quote.id, change: (now) => ({ ...now, orders: [...now.orders, order] }) }],
  });
  if (!written.ok) return failed(written.message);
  const saved = await savePdf(tree.title, pdf);
  return { ok: saved.ok, text: saved.text, documentId: row.id };
}

/** Promised dates of the rooms a change order affects, each later by its days; earlier ones stay on record. */
function movedPromises(whole: WholeJob, order: ChangeOrder, instant: string): Promised[] {
  if (order.addedDays === 0) return [];
  const zone = whole.property.timeZone;
  const documentId = whole.documents.find((one) => one.kind === 'change-order' && one.revision === order.number)?.id ?? null;
  const touched = order.roomIds.filter((id) => !order.withdrawnIds.includes(id));
  return touched.flatMap((roomId) =>
    standingPromises(whole.promises.filter((one) => one.roomId === roomId && one.deletedAt === null))
      .filter((one) => one.promisedFor > instant)
      .map((one) => ({
        ...one,
        id: newId(),
        createdAt: instant,
        changedAt: instant,
        madeAt: instant,
        documentId,
        promisedFor: daysLater(one.promisedFor, order.addedDays, zone),
      })),
  );
}

/** Records a decision on a change order. Signing updates the job's rooms, dates and promised dates in one step of undo. */
export async function recordOrder(
  whole: WholeJob,
  quote: Quote,
  orderId: string,
  decision: { readonly state: 'signed' | 'declined' | 'voided'; readonly by: string },
  instant = nowInstant(),
): Promise<Outcome> {
  const decided = decideOrder(quote, orderId, { ...decision, instant });
  const order = decided.ok ? decided.value.orders.find((one) => one.id === orderId) : undefined;
  if (!decided.ok || order === undefined) return refused(decided.ok ? 'This change order was deleted.' : decided.message);
  const label = `change order ${order.number} ${decision.state}`;
  const replace = (now: Quote): Quote => ({ ...now, orders: now.orders.map((one) => (one.id === orderId ? order : one)) });
  const patches = [{ table: 'quotes' as const, id: quote.id, change: replace }];
  if (decision.state !== 'signed') return write(label, instant, { patches });
  const poured = new Set(whole.pours.filter((pour) => pour.deletedAt === null).flatMap((pour) => pour.roomIds));
  const pouredId = order.withdrawnIds.find((id) => poured.has(id));
  if (pouredId !== undefined) {
    const name = whole.rooms.find((room) => room.id === pouredId)?.name ?? 'A room';
    return refused(`${name} is poured, so it stays in the contract. Void this change order and write one for its price.`);
  }
  const puts = movedPromises(whole, order, instant).map((row): Put => ({ table: 'promises', row }));
  return write(label, instant, {
    puts,
    patches: [...patches, { table: 'jobs', id: whole.job.id, change: (job) => jobAfterOrder(job, order, whole.property.timeZone, poured) }],
  });
}
