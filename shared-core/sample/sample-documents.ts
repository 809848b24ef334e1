/** The documents that the sample's company has given out: quotes, change orders, invoices, receipts, handover sheets. */
import type { DocumentKind, MadeDocument, Sent } from '../book/papers.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { nextRevision } from '../documents/document-input.ts';
import { handoverSheet } from '../documents/handover-sheet.ts';
import { jobInvoice, jobReceipt } from '../documents/job-money-papers.ts';
import { storedTree } from '../documents/stored-tree.ts';
import type { DocumentTree } from '../documents/tree.ts';
import { quotesDecidedBy } from '../price/change-order.ts';
import { readJob } from '../standing/read-job.ts';
import { stampsAt } from './sample-time.ts';

type GivenOut = {
  readonly id: string;
  readonly jobId: string;
  readonly kind: DocumentKind;
  readonly revision: number;
  readonly tree: DocumentTree;
  /** When it was saved and sent. */
  readonly instant: string;
  readonly by: Sent['by'];
  readonly quoteId?: string;
  readonly entryId?: string;
};

/** A document as stored. */
export function givenOut({ id, jobId, kind, revision, tree, instant, by, quoteId, entryId }: GivenOut): MadeDocument {
  return {
    ...stampsAt(id, instant),
    jobId,
    kind,
    revision,
    title: tree.title,
    madeAt: instant,
    changes: [],
    content: storedTree(tree, new Map()),
    quoteId: quoteId ?? null,
    entryId: entryId ?? null,
    // The hash is set when the PDF is first saved, which the sample data has not done.
    sha256: null,
    programVersion: '',
    sent: [{ instant, by, to: '' }],
    signatures: [],
  };
}

/** The job as it was at an instant: its ledger, and the change orders decided by then. */
const at = (whole: WholeJob, instant: string): WholeJob => ({
  ...whole,
  ledger: whole.ledger.filter((entry) => entry.createdAt <= instant),
  quotes: quotesDecidedBy(whole.quotes, instant),
});

/** The invoices and receipts of a job, each sent when its entry was made. */
export function moneyDocuments(whole: WholeJob): MadeDocument[] {
  const documents: MadeDocument[] = [];
  for (const entry of whole.ledger.toSorted((a, b) => a.createdAt.localeCompare(b.createdAt))) {
    if (entry.kind !== 'invoice' && entry.kind !== 'payment') continue;
    const { id: entryId, createdAt: instant } = entry;
    const then = { ...at(whole, instant), documents };
    const [kind, tree] =
      entry.kind === 'invoice'
        ? (['invoice', jobInvoice(then, entry, instant)] as const)
        : (['receipt', jobReceipt(then, entry, instant)] as const);
    const revision = nextRevision({ documents }, kind);
    documents.push(givenOut({ id: `${entryId}-document`, jobId: whole.job.id, kind, revision, tree, instant, by: 'email', entryId }));
  }
  return documents;
}

/** The handover sheet of a job, given out with its last room; none before. */
export function handoverDocuments(whole: WholeJob): MadeDocument[] {
  const days = whole.job.rooms.map(({ handedOverAt }) => handedOverAt);
  const instant = days.includes(null) ? null : (days.toSorted().at(-1) ?? null);
  if (instant === null) return [];
  const tree = handoverSheet(readJob(at(whole, instant), instant), { photos: [], now: instant, revision: 1, changes: [] });
  const id = `${whole.job.id}-handover`;
  return [givenOut({ id, jobId: whole.job.id, kind: 'handover', revision: 1, tree, instant, by: 'in-person' })];
}
