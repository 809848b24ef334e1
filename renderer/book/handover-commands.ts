/** Handing over: sheets made and kept as they were, the dates told in them, who received them. */
import type { ToldDate } from '../../shared-core/agenda/told-dates.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { DocumentTree } from '../../shared-core/documents/tree.ts';
import { newId, nowInstant } from './moment.ts';
import { done, type Outcome } from './outcome.ts';
import { type Put, write } from './write.ts';

export type IssuedSheet = {
  readonly jobId: string;
  readonly tree: DocumentTree;
  readonly revision: number;
  readonly changes: readonly string[];
  readonly sha256: string | null;
  /** Dates told in the sheet that were not told before; each becomes a promise that names it. */
  readonly told: readonly ToldDate[];
  readonly to: string;
};

/** Longest a change may be on record; the sheet itself says it whole. */
const CHANGE_LENGTH = 200;
/** As many as the record holds. */
const MOST_CHANGES = 60;

/** Keeps a sheet with its content, and records the dates told in it, as one edit. */
export async function issueSheet(of: IssuedSheet): Promise<Outcome<string>> {
  const [id, now] = [newId(), nowInstant()];
  const stamps = { createdAt: now, changedAt: now, deletedAt: null };
  const puts: Put[] = [
    {
      table: 'documents',
      row: {
        ...stamps,
        id,
        jobId: of.jobId,
        kind: 'handover',
        revision: of.revision,
        title: of.tree.title,
        madeAt: of.tree.madeAt,
        changes: of.changes.slice(0, MOST_CHANGES).map((words) => words.slice(0, CHANGE_LENGTH)),
        content: JSON.stringify(of.tree),
        quoteId: null,
        sha256: of.sha256,
      },
    },
    ...of.told.map(
      (date): Put => ({
        table: 'promises',
        row: { ...stamps, id: newId(), jobId: of.jobId, ...date, madeAt: now, documentId: id, to: of.to.slice(0, CHANGE_LENGTH) },
      }),
    ),
  ];
  const written = await write(`made ${of.tree.title}`, now, { puts });
  return written.ok ? done(id) : written;
}

/**
 * Records that rooms were handed over. Where each room then stands follows from its other facts.
 * @param to who received them
 */
export function handOver(jobId: string, roomIds: readonly string[], at: string, to: string): Promise<Outcome> {
  const change = (job: Job): Job => ({
    ...job,
    rooms: job.rooms.map((r) => (roomIds.includes(r.roomId) ? { ...r, handedOverAt: at, handedOverTo: to.slice(0, CHANGE_LENGTH) } : r)),
  });
  return write(roomIds.length === 1 ? 'handed over' : `handed over ${roomIds.length} rooms`, nowInstant(), {
    patches: [{ table: 'jobs', id: jobId, change }],
  });
}
