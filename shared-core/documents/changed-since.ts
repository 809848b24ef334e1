/** What a saved document states differently from what it would state today. */
import type { JobRoom } from '../book/job.ts';
import type { MadeDocument } from '../book/papers.ts';
import type { Frozen, Quote } from '../book/quote.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { type JobReading, readEstimated } from '../standing/read-job.ts';
import { DOCUMENTS } from './document-list.ts';
import { jobInvoice } from './job-money-papers.ts';
import type { PaperPhoto } from './paper-photos.ts';
import { prepSheet } from './prep-sheet.ts';
import { quoteSheet } from './quote-sheet.ts';
import { readTree } from './stored-tree.ts';
import type { DocumentTree } from './tree.ts';
import { treeChanges } from './tree-changes.ts';

/** A room's prep as it was at an instant: what was signed, primed and measured in the air since is what the sheet asked for. */
const prepAt = ({ signed, ...room }: JobRoom, at: string): JobRoom => ({
  ...room,
  ...(room.primedAt !== null && room.primedAt > at ? { primedAt: null, primerCoatsDone: 0 } : {}),
  signed: signed
    .filter(({ doneAt }) => doneAt <= at)
    .map((one) => (one.withdrawnAt !== null && one.withdrawnAt > at ? { ...one, withdrawnAt: null } : one)),
});

/**
 * The job with what is known now, read as of the moment a document was made: a date that arrives as it was stated is no change. Neither is
 * what the document itself brought: its own place on record, the dates it promised, and the handover it was signed for. The language and
 * the units it is written in are no change either.
 */
function whenMade(reading: JobReading, { id, madeAt, kind }: MadeDocument, locale: string, units: UnitSystem): JobReading {
  const { whole } = reading;
  const isPrep = kind === 'prep-sheet';
  const jobRooms = whole.job.rooms
    .map((room) => (isPrep ? prepAt(room, madeAt) : room))
    .map((room) =>
      kind === 'job-record' || (room.flooringLaidOn ?? '') <= dayOfInstant(madeAt, whole.property.timeZone)
        ? room
        : { ...room, flooringLaidOn: null },
    );
  const rooms = jobRooms.map((room) =>
    kind === 'job-record' || room.handedOverAt === null || room.handedOverAt <= madeAt
      ? room
      : { ...room, handedOverAt: null, handedOverTo: '' },
  );
  const then = {
    ...whole,
    business: { ...whole.business, locale, units },
    job: { ...whole.job, rooms },
    ...(isPrep && {
      rooms: whole.rooms.map((room) => ({ ...room, tests: room.tests.filter((test) => test.kind !== 'air' || test.takenAt <= madeAt) })),
    }),
    promises: whole.promises.filter(({ documentId }) => documentId !== id),
    // The job record lists what was saved before it.
    documents: whole.documents.filter((one) => one.id !== id && (kind !== 'job-record' || one.madeAt <= madeAt)),
  };
  return readEstimated(then, madeAt, reading);
}

/** A document as it would read by now; what it lacks; or null for one that has no job behind it alone. */
function builtAgain(reading: JobReading, document: MadeDocument, photos: readonly PaperPhoto[]): DocumentTree | string | null {
  const { kind, madeAt, revision } = document;
  if (kind === 'prep-sheet') {
    const roomReading = reading.rooms.find(({ room }) => isOfRoom(document, room));
    const before = photos.filter(({ photo }) => photo.createdAt <= madeAt);
    return roomReading === undefined ? null : prepSheet({ reading, roomReading, madeAt, revision, photos: before });
  }
  const entry = DOCUMENTS.find((one) => one.kind === kind);
  if (entry === undefined) return null;
  return entry.missing(reading) ?? entry.build({ reading, photos, now: madeAt, revision, changes: [], isDrawn: false });
}

/** Whether a document of one room is of this one, which its title ends with. */
const isOfRoom = ({ title }: Pick<MadeDocument, 'title'>, { name }: { readonly name: string }): boolean => title.endsWith(`, ${name}`);

/** The newest prep sheet of a room that is still to be poured; null for none. */
export function prepSheetInUse({ documents, pours }: WholeJob, room: { readonly id: string; readonly name: string }): MadeDocument | null {
  const isBegun = pours.some((pour) => pour.deletedAt === null && pour.startedAt !== null && pour.roomIds.includes(room.id));
  const sheets = documents.filter((one) => one.kind === 'prep-sheet' && one.deletedAt === null && isOfRoom(one, room));
  return isBegun ? null : (sheets.toSorted((a, b) => a.revision - b.revision).at(-1) ?? null);
}

/** One sentence for each thing that an invoice as stored states differently by now. What was paid since is no change of it. */
export function invoiceChanges(whole: WholeJob, invoiceId: string): string[] {
  const document = whole.documents.findLast(({ kind, entryId }) => kind === 'invoice' && entryId === invoiceId);
  const before = document === undefined ? null : readTree(document.content);
  const invoice = whole.ledger.find(({ id }) => id === invoiceId);
  if (document === undefined || before === null || invoice?.kind !== 'invoice' || invoice.voidedAt !== null) return [];
  const business = { ...whole.business, locale: before.language };
  return treeChanges(before, jobInvoice({ ...whole, business }, invoice, document.madeAt));
}

/** What a quote was issued with, and prints beside its price, as it is by now: who it is between, the property, and the pour dates. */
function partiesNow({ business, job }: Frozen, whole: WholeJob): Pick<Frozen, 'business' | 'customer' | 'property' | 'job'> {
  const { name, ownerName, address, phone, email, contract } = whole.business;
  const { license, registration, insurance } = contract;
  const pourAt = new Map(whole.job.rooms.map((room) => [room.roomId, room.pourAt]));
  return {
    business: { ...business, name, ownerName, address, phone, email, contract: { ...business.contract, license, registration, insurance } },
    customer: whole.customer,
    property: whole.property,
    // A quote without a pour date says that it is still to be agreed on.
    job: {
      ...job,
      rooms: job.rooms.map((room) => (room.pourAt === null ? room : { ...room, pourAt: pourAt.get(room.roomId) ?? null })),
    },
  };
}

/**
 * One sentence for each thing but the price that a quote waiting for its answer states differently by now. A contract stays as it was
 * signed, and the company's terms as they were offered.
 */
export function quoteChanges(whole: WholeJob, quote: Quote): string[] {
  const { frozen } = quote;
  const now = partiesNow(frozen, whole);
  const { business, customer, property, job } = frozen;
  const isSame = JSON.stringify(now) === JSON.stringify({ business, customer, property, job });
  if (quote.state !== 'issued' || isSame) return [];
  return treeChanges(quoteSheet(quote), quoteSheet({ ...quote, frozen: { ...frozen, ...now } }));
}

/**
 * One sentence for each thing that a saved document of a job states differently by now; empty while it is up to date, and for one that
 * is saved with a choice or was stored by another version. The document itself stays as it was issued.
 * @param photos the job's, for their captions; their pictures are not read
 */
export function changedSince(reading: JobReading, document: MadeDocument, photos: readonly PaperPhoto[]): string[] {
  const before = readTree(document.content);
  if (before === null) return [];
  const changesIn = (units: UnitSystem): string[] => {
    const now = builtAgain(whenMade(reading, document, before.language, units), document, photos);
    return now === null ? [] : typeof now === 'string' ? [now] : treeChanges(before, now);
  };
  // A document does not store its units: it was written in those with fewer changes.
  const { units } = reading.whole.business;
  const changes = changesIn(units);
  const others = changes.length === 0 ? [] : changesIn(units === 'us' ? 'metric' : 'us');
  return others.length < changes.length ? others : changes;
}
