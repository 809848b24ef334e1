/** Every document of the sample data, of every kind: those a job can save, those issued, and those saved from a choice on a screen. */
import { dayShoppingList } from '../../../shared-core/documents/day-shopping-list.ts';
import { nextRevision } from '../../../shared-core/documents/document-input.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { jobInvoice, jobReceipt } from '../../../shared-core/documents/job-money-papers.ts';
import { overduePaper, statementPaper } from '../../../shared-core/documents/money-papers.ts';
import type { PaperPhoto } from '../../../shared-core/documents/paper-photos.ts';
import { pourDaySheet } from '../../../shared-core/documents/pour-day-sheet.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import type { DocumentTree } from '../../../shared-core/documents/tree.ts';
import { reserve, shoppingBySupplier } from '../../../shared-core/ledger/shopping-day.ts';
import { stockOn } from '../../../shared-core/ledger/stock.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import { priceOnDay } from '../../../shared-core/price/price-on-day.ts';
import { samplePaperPhotos } from '../../../shared-core/sample/sample-pictures.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { roomFloorOf } from '../../../shared-core/standing/read-pour.ts';
import { jobNeeds } from '../../../shared-core/standing/shopping-for.ts';
import type { SampleBook } from '../../../shared-core/sample/whole-jobs.ts';
import { sampleAt } from '../../sample-at.ts';

/** A document with the job it is of; `stored` where the sample keeps it as issued. */
export type SamplePaper = {
  readonly name: string;
  readonly kind: string;
  readonly reading: JobReading;
  readonly tree: DocumentTree;
  readonly stored: boolean;
};
export type NamedPaper = Pick<SamplePaper, 'name' | 'kind' | 'tree'>;

/** Every document of the sample at `now`, in the order of the jobs, with its photos. */
export function samplePapers(now: string): readonly SamplePaper[] {
  const book = sampleAt(now);
  const photos = ({ whole }: JobReading) => samplePaperPhotos(book.photos, whole.job.id, (bytes) => Buffer.from(bytes).toString('base64'));
  const readings = wholeJobsOf(book).map((whole) => readJob(whole, now));
  const papers = readings.flatMap((reading) => {
    const of = (named: readonly NamedPaper[], stored = false): SamplePaper[] =>
      named.map((one) => ({ ...one, name: `${reading.whole.job.number} ${one.name}`, reading, stored }));
    return [...of(jobPapers(reading, now, photos(reading))), ...of(issuedPapers(book, reading.whole.job.id), true)];
  });
  return [...papers, dayShoppingPaper(readings, now)];
}

/** Every document that a job can save at `now`. */
export const jobPapers = (reading: JobReading, now: string, photos: readonly PaperPhoto[] = []): readonly NamedPaper[] => [
  ...listed(reading, now, photos),
  ...ofRooms(reading, now, photos),
  ...ofMoney(reading, now),
];

/** The documents of a job that the sample keeps as issued. */
export const issuedPapers = (book: SampleBook, jobId: string): readonly NamedPaper[] =>
  book.documents.flatMap((document) => {
    // Invoices and receipts are read as made now.
    const isOther = document.jobId === jobId && document.kind !== 'invoice' && document.kind !== 'receipt';
    const tree = isOther ? readTree(document.content) : null;
    return tree === null ? [] : [{ name: document.title, kind: document.kind, tree }];
  });

const listed = (reading: JobReading, now: string, photos: readonly PaperPhoto[]): NamedPaper[] =>
  DOCUMENTS.filter((entry) => entry.missing(reading) === null).map((entry) => ({
    name: entry.kind,
    kind: entry.kind,
    tree: entry.build({ reading, photos, now, revision: nextRevision(reading.whole, entry.kind), changes: [] }),
  }));

function ofRooms(reading: JobReading, now: string, photos: readonly PaperPhoto[]): NamedPaper[] {
  if (reading.whole.job.state !== 'open') return [];
  const draft: NamedPaper[] = [{ name: 'draft quote', kind: 'quote-draft', tree: draftQuote(reading, now) }];
  return [
    ...draft,
    ...reading.rooms.flatMap((roomReading): NamedPaper[] => {
      const { name, id } = roomReading.room;
      const prep: NamedPaper = {
        name: `prep-sheet ${name}`,
        kind: 'prep-sheet',
        tree: prepSheet({ reading, roomReading, madeAt: now, revision: 1, photos }),
      };
      // A floor that is placed whole is not planned again.
      if (roomFloorOf(reading, id).extent === 'whole') return [prep];
      const day = pourDaySheet({ reading, roomIds: [id], madeAt: now, revision: 1 });
      return day.ok ? [prep, { name: `pour-day-sheet ${name}`, kind: 'pour-day-sheet', tree: day.value }] : [prep];
    }),
  ];
}

function ofMoney({ whole }: JobReading, now: string): NamedPaper[] {
  const { account, today } = jobMoney(whole, now);
  const of = { ...whole, now, today };
  const payments = whole.ledger
    .flatMap((entry) => (entry.kind === 'payment' ? [entry] : []))
    .sort((a, b) => a.createdAt.localeCompare(b.createdAt));
  return [
    ...account.invoices.map(
      ({ invoice }): NamedPaper => ({ name: `invoice ${invoice.number}`, kind: 'invoice', tree: jobInvoice(whole, invoice, now) }),
    ),
    ...payments.map((payment, i): NamedPaper => ({ name: `receipt ${i + 1}`, kind: 'receipt', tree: jobReceipt(whole, payment, now) })),
    ...(account.invoices.length === 0 ? [] : [{ name: 'statement', kind: 'statement', tree: statementPaper(of, whole.ledger, account) }]),
    ...account.invoices
      .filter(({ state }) => state === 'overdue')
      .map(
        (balance): NamedPaper => ({
          name: `overdue ${balance.invoice.number}`,
          kind: 'overdue-notice',
          tree: overduePaper(of, balance, 0),
        }),
      ),
  ];
}

/** What to buy for every accepted job. */
export function dayShoppingPaper(readings: readonly JobReading[], now: string): SamplePaper {
  const [first] = readings;
  if (first === undefined) throw new Error('The sample has no job.');
  const { business, materials } = first.whole;
  const today = dayOfInstant(now, business.timeZone);
  const accepted = readings.filter(({ whole }) => whole.job.state === 'open' && whole.quotes.some((quote) => quote.state === 'accepted'));
  const reserved = reserve(
    accepted.flatMap((reading) => jobNeeds(reading)),
    stockOn([], [], today),
    today,
  );
  const lists = shoppingBySupplier(reserved, materials, (material) => priceOnDay(material, today)?.minor ?? null);
  return {
    name: 'day-shopping-list',
    kind: 'day-shopping-list',
    // Its lines name their jobs; the first that needs something stands for them.
    reading: accepted[0] ?? first,
    tree: dayShoppingList(business, materials, lists, null, now),
    stored: false,
  };
}
