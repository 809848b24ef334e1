/** Issuing quotes and recording the customer's decision. */
import type { Job } from '../../shared-core/book/job.ts';
import type { Lead } from '../../shared-core/book/lead.ts';
import type { Promised } from '../../shared-core/book/cure-record.ts';
import type { Quote, ChangeOrder } from '../../shared-core/book/quote.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { type IssuedWithDocument, issueQuoteWithDocument } from '../../shared-core/documents/issue-quote-document.ts';
import { withOptionAccepted } from '../../shared-core/price/accept-option.ts';
import { QUOTE_IS_ACCEPTED } from '../../shared-core/price/issue-quote.ts';
import { answerQuote, BASE_OPTION_ID, type QuoteAnswer } from '../../shared-core/price/quote-state.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import type { JobReading } from '../../shared-core/standing/read-job.ts';
import { book } from './database.ts';
import { documentRow, latestReading, type SavedDocument, paperPhotos, saveStored } from './document-commands.ts';
import { visitPatches } from './visit-patches.ts';
import { newId, nowInstant, stamps, attempt, done, type Outcome, refused } from './command.ts';
import { mayReopen, reopened } from './job-commands.ts';
import { Refusal } from './record-rules.ts';
import { type Put, write } from './write.ts';
import { visitAhead } from '../../shared-core/agenda/lead-entries.ts';
import { movedVisits, visitsWithout } from '../../shared-core/agenda/move-pour.ts';
import { isPourAhead } from '../../shared-core/standing/room-pour.ts';
import { standingPromises } from '../../shared-core/cure/promise-verdict.ts';
import { nextRevision } from '../../shared-core/documents/document-input.ts';
import { changeOrderSheet } from '../../shared-core/documents/change-order-sheet.ts';
import { daysLater, decideOrder, issueOrder, jobAfterOrder, type NewOrder, whyNoOrder } from '../../shared-core/price/change-order.ts';

/** The next revision with its document, not stored yet. */
export function nextQuote(reading: JobReading, instant: string): Outcome<IssuedWithDocument> {
  const { business } = reading.whole;
  const by = business.ownerName.trim() === '' ? business.name : business.ownerName;
  const issued = issueQuoteWithDocument(reading, { id: newId(), instant, by, note: '' });
  return issued.ok ? done(issued.value) : refused(issued.message);
}

const leadsOf = (jobId: string): Promise<Outcome<Lead[]>> =>
  attempt(async () =>
    done((await book().rowsOf('leads').where('jobId').equals(jobId).toArray()).filter((lead) => lead.deletedAt === null)),
  );

/** Stores a revision with its document as one edit without undo, supersedes earlier ones, and reopens a declined job. */
export async function storeQuote(
  { quote, superseded, tree }: IssuedWithDocument,
  pdf: { readonly sha256: string | null; readonly version: string },
): Promise<Outcome<string>> {
  const row = documentRow(
    {
      jobId: quote.jobId,
      kind: 'quote',
      revision: quote.revision,
      tree,
      sha256: pdf.sha256,
      programVersion: pdf.version,
      quoteId: quote.id,
    },
    quote.issuedAt,
  );
  const puts: Put[] = [
    { table: 'quotes', row: quote },
    { table: 'documents', row },
  ];
  // Changes only the state, so that other concurrent edits of an earlier revision stay. One accepted meanwhile is the contract.
  const patches = superseded.map(({ id, state, history }) => ({
    table: 'quotes' as const,
    id,
    change: (stored: Quote): Quote => {
      if (stored.state === 'accepted') throw new Refusal(QUOTE_IS_ACCEPTED);
      return { ...stored, state, history: [...stored.history, ...history.slice(-1)] };
    },
  }));
  // The lead's next step was this quote; from now on the quote decides what is next. A visit that is still ahead stays.
  const leads = await leadsOf(quote.jobId);
  if (!leads.ok) return leads;
  const nextSteps = leads.value.map(({ id }) => ({
    table: 'leads' as const,
    id,
    change: (stored: Lead): Lead => ({ ...stored, next: visitAhead(stored.next, quote.issuedAt, quote.frozen.property.timeZone) }),
  }));
  // A job whose last revision was declined waits for a decision again.
  const job = { table: 'jobs' as const, id: quote.jobId, change: (stored: Job) => reopened(stored, 'declined') };
  const written = await write(`issue revision ${quote.revision} of the quote`, quote.issuedAt, {
    puts,
    patches: [...patches, ...nextSteps, job],
    final: 'Issue another revision to change it.',
  });
  return written.ok ? done(row.id) : written;
}

/** Issues the next revision: inks it, stores it with its PDF's hash, then saves the file. */
export async function issueNext(shown: JobReading): Promise<SavedDocument> {
  const next = nextQuote(await latestReading(shown), nowInstant());
  if (!next.ok) return { ok: false, text: next.message, documentId: null };
  return saveStored(next.value.tree, (pdf) => storeQuote(next.value, pdf));
}

/** When a decision was made, and when it is entered: a paper may have been signed days before. */
type Decided = { readonly instant: string; readonly now: string };

/** The dates an accepted quote stated, as promised dates. Dates that are past by then or promised already are skipped. */
function promisesOf(whole: WholeJob, quote: Quote, optionId: string, { instant, now }: Decided): Promised[] {
  const documentId = whole.documents.findLast((d) => d.quoteId === quote.id && d.kind === 'quote')?.id ?? null;
  return quote.dates
    .filter(
      (date) =>
        date.optionId === optionId &&
        date.promisedFor > instant &&
        !whole.promises.some((p) => p.roomId === date.roomId && p.milestone === date.milestone && p.promisedFor === date.promisedFor),
    )
    .map(({ roomId, milestone, flooring, promisedFor }) => ({
      ...stamps(now),
      jobId: quote.jobId,
      roomId,
      milestone,
      flooring,
      promisedFor,
      madeAt: instant,
      documentId,
      to: whole.customer.name,
    }));
}

/** The stored quote with a decision; refused when the stored quote no longer takes it. */
function kept(decided: Parsed<Quote>): Quote {
  if (!decided.ok) throw new Refusal(decided.message);
  return decided.value;
}

/**
 * Records the customer's decision in one step of undo. Acceptance applies the chosen option, records the stated dates as promised dates and
 * wins the lead; a decline loses the lead with its reason. A visit of the lead that is still ahead stays.
 * @param instant when it was decided, which may be before it is entered
 */
export async function recordAnswer(
  whole: WholeJob,
  quote: Quote,
  answer: Omit<QuoteAnswer, 'instant'>,
  instant = nowInstant(),
): Promise<Outcome> {
  const now = nowInstant();
  const answered = answerQuote(quote, { ...answer, instant }, whole.business.locale);
  if (!answered.ok) return refused(answered.message);
  const accepted = answer.state === 'accepted';
  const found = await leadsOf(whole.job.id);
  if (!found.ok) return found;
  const closes = answer.state === 'accepted' || answer.state === 'declined';
  const leads = closes ? found.value : [];
  const optionId = answered.value.acceptedOptionId ?? BASE_OPTION_ID;
  return write(`record the quote as ${answer.state} by ${answer.by}`, now, {
    puts: [...(accepted ? promisesOf(whole, quote, optionId, { instant, now }).map((row) => ({ table: 'promises' as const, row })) : [])],
    patches: [
      { table: 'quotes', id: quote.id, change: (stored) => kept(answerQuote(stored, { ...answer, instant }, whole.business.locale)) },
      ...leads.map(({ id }) => ({
        table: 'leads' as const,
        id,
        change: (stored: Lead): Lead => ({
          ...stored,
          state: accepted ? 'won' : 'lost',
          reason: accepted ? 'Quote accepted' : answer.note.trim(),
          closedAt: instant,
          next: visitAhead(stored.next, now, whole.property.timeZone),
        }),
      })),
      {
        table: 'jobs',
        id: whole.job.id,
        change: (before) => {
          const job = accepted ? withOptionAccepted(before, optionId, quote.frozen.job.estimate.options) : before;
          return answer.state === 'declined' ? { ...job, state: 'declined' } : reopened(job, 'declined');
        },
      },
    ],
  });
}

/** Change orders: issuing one with its document, and recording that it was signed, declined or voided. */
type OrderDraft = Omit<NewOrder, 'id' | 'issuedAt' | 'issuedBy'>;

/** Issues a change order: inks it, stores it with its PDF's hash, then saves the file. */
export async function issueChangeOrder(whole: WholeJob, quote: Quote, draft: OrderDraft): Promise<SavedDocument> {
  const failed = (text: string): SavedDocument => ({ ok: false, text, documentId: null });
  const instant = nowInstant();
  const { business, job } = whole;
  const issuedBy = business.ownerName.trim() === '' ? business.name : business.ownerName;
  const issued = issueOrder(
    quote,
    { ...draft, id: newId(), issuedAt: instant, issuedBy },
    { quotes: whole.quotes, least: nextRevision(whole, 'change-order') },
    job,
  );
  const order = issued.ok ? issued.value.orders.at(-1) : undefined;
  if (!issued.ok || order === undefined) return failed(issued.ok ? 'The change order was not made. Try again.' : issued.message);
  const read = await attempt(async () => done(await paperPhotos(job.id)));
  if (!read.ok) return failed(read.message);
  const tree = changeOrderSheet({ quote: issued.value, order, photos: read.value, ledger: whole.ledger });
  return saveStored(tree, async ({ sha256, version: programVersion }) => {
    const made = { jobId: job.id, kind: 'change-order' as const, revision: order.number, tree, quoteId: quote.id, photos: read.value };
    const row = documentRow({ ...made, sha256, programVersion }, instant);
    const written = await write(`issue change order ${order.number}`, instant, {
      puts: [{ table: 'documents', row }],
      patches: [{ table: 'quotes', id: quote.id, change: (now) => withOrder(now, order) }],
      final: 'Void it if it is wrong.',
    });
    return written.ok ? done(row.id) : written;
  });
}

/** The stored quote with one more change order; refused while another waits. */
function withOrder(stored: Quote, order: ChangeOrder): Quote {
  const waits = whyNoOrder(stored);
  if (waits !== null) throw new Refusal(waits);
  return { ...stored, orders: [...stored.orders, order] };
}

/** Promised dates of the rooms a change order affects, each later by its days; earlier ones stay on record. */
function movedPromises(whole: WholeJob, order: ChangeOrder, { instant, now }: Decided): Promised[] {
  if (order.addedDays === 0) return [];
  const zone = whole.property.timeZone;
  const documentId = whole.documents.find((one) => one.kind === 'change-order' && one.revision === order.number)?.id ?? null;
  const touched = order.roomIds.filter((id) => !order.withdrawnIds.includes(id));
  return touched.flatMap((roomId) =>
    standingPromises(whole.promises.filter((one) => one.roomId === roomId && one.deletedAt === null))
      .filter((one) => one.promisedFor > instant)
      .map((one) => ({
        ...one,
        ...stamps(now),
        madeAt: instant,
        documentId,
        promisedFor: daysLater(one.promisedFor, order.addedDays, zone),
      })),
  );
}

/**
 * Records a decision on a change order. Signing updates the job's rooms, dates, visits and promised dates in one step of undo, and reopens
 * a finished job whose rooms are in no newer one.
 * @param instant when it was decided, which may be before it is entered
 */
export async function recordOrder(
  whole: WholeJob,
  quote: Quote,
  orderId: string,
  { state, by }: { readonly state: 'signed' | 'declined' | 'voided'; readonly by: string },
  instant = nowInstant(),
): Promise<Outcome> {
  const now = nowInstant();
  const { ownerName, name } = whole.business;
  // The customer signs or declines; only the contractor voids.
  const decision = { state, by: state === 'voided' ? ownerName || name || by : by };
  const decided = decideOrder(quote, orderId, { ...decision, instant });
  const order = decided.ok ? decided.value.orders.find((one) => one.id === orderId) : undefined;
  if (!decided.ok || order === undefined) return refused(decided.ok ? 'This change order was deleted.' : decided.message);
  const label = `record change order ${order.number} as ${decision.state}`;
  const decideStored = (stored: Quote): Quote => kept(decideOrder(stored, orderId, { ...decision, instant }));
  const patches = [{ table: 'quotes' as const, id: quote.id, change: decideStored }];
  if (decision.state !== 'signed') return write(label, now, { patches });
  const poured = new Set(whole.pours.filter((pour) => pour.deletedAt === null).flatMap((pour) => pour.roomIds));
  const pouredId = order.withdrawnIds.find((id) => poured.has(id));
  if (pouredId !== undefined) {
    const name = whole.rooms.find((room) => room.id === pouredId)?.name ?? 'A room';
    return refused(`${name} is poured, so it stays in the contract. Void this change order and write one for its price.`);
  }
  const puts = movedPromises(whole, order, { instant, now }).map((row): Put => ({ table: 'promises', row }));
  const free = await attempt(async () => done(await mayReopen(whole.job.id)));
  if (!free.ok) return free;
  const zone = whole.property.timeZone;
  const after = (job: Job): Job => jobAfterOrder(job, order, zone, (room) => isPourAhead(whole, room));
  const datesBefore = new Map(whole.job.rooms.map(({ roomId, pourAt }) => [roomId, pourAt]));
  const movedIds = after(whole.job).rooms.flatMap(({ roomId, pourAt }) => (pourAt === datesBefore.get(roomId) ? [] : [roomId]));
  return write(label, now, {
    puts,
    patches: [
      ...patches,
      ...visitPatches(movedVisits(whole, movedIds, order.addedDays, now), ({ instant }) => ({ instant })),
      ...visitPatches(visitsWithout(whole, order.withdrawnIds), () => ({ cancelledAt: now })),
      {
        table: 'jobs',
        id: whole.job.id,
        change: (job) => (free.value ? reopened(after(job), 'finished') : after(job)),
      },
    ],
  });
}
