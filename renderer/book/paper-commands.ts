/** Papers made for a job, noted in it with their content, so that the same ones can be made again. */
import type { DocumentKind } from '../../shared-core/book/papers.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import type { DocumentTree } from '../../shared-core/documents/tree.ts';
import { newId, nowInstant } from './moment.ts';
import { done, type Outcome } from './outcome.ts';
import { write } from './write.ts';

export type NotedPaper = {
  readonly kind: DocumentKind;
  readonly tree: DocumentTree;
  readonly sha256: string | null;
  /** A quote's paper carries the quote's own number; every other counts up within its job. */
  readonly quote?: { readonly id: string; readonly revision: number };
};

/** Notes one paper. */
export async function notePaper(whole: WholeJob, { kind, tree, sha256, quote }: NotedPaper): Promise<Outcome<string>> {
  const [id, now] = [newId(), nowInstant()];
  const stamps = { createdAt: now, changedAt: now, deletedAt: null };
  const revision = quote?.revision ?? whole.documents.filter((d) => d.kind === kind).length + 1;
  const row = {
    ...stamps,
    id,
    jobId: whole.job.id,
    kind,
    revision,
    title: tree.title,
    madeAt: quote === undefined ? tree.madeAt : now,
    changes: [],
    content: JSON.stringify(tree),
    quoteId: quote?.id ?? null,
    sha256,
  };
  const written = await write(`made ${tree.title}`, now, { puts: [{ table: 'documents', row }] });
  return written.ok ? done(id) : written;
}
