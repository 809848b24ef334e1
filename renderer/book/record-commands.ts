/** Papers that are made from the book and need no copy of their content: only that they were made, and of which bytes. */
import type { MadeDocument } from '../../shared-core/book/papers.ts';
import { newId, nowInstant } from './moment.ts';
import type { Outcome } from './outcome.ts';
import { add } from './write.ts';

/** Notes that a job's record was made. */
export function noteRecordMade(of: Pick<MadeDocument, 'jobId' | 'title' | 'madeAt' | 'revision' | 'sha256'>): Promise<Outcome> {
  const now = nowInstant();
  const row = { ...of, id: newId(), createdAt: now, changedAt: now, deletedAt: null };
  return add('documents', { ...row, kind: 'job-record', changes: [], content: '', quoteId: null }, `made ${of.title}`, now);
}
