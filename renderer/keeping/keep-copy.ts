/** Copying the book to the Backups folder and putting a copy in its place. */
import type { BookRows, SnapshotReason } from '../../shared-core/book/snapshot.ts';
import { type TABLE_NAMES } from '../../shared-core/book/tables.ts';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { noteCopy, readBookRows, replaceBook } from '../book/snapshot-commands.ts';
import { askDesk } from '../parts/desk-client.ts';

export type OpenedCopy = Gives<'snapshot.read'>;

const fail = (message: string): Outcome<never> => ({ ok: false, message, where: '' });

const copyRows = async (rows: BookRows, madeAt: string, reason: SnapshotReason): Promise<Outcome<string>> => {
  // The rows carry their ids: every table is keyed by them.
  const kept = await askDesk('snapshot.keep', { madeAt, reason, rows: rows as OpenedCopy['rows'] });
  await noteCopy(madeAt, kept.ok ? null : kept.error.message);
  return kept.ok ? { ok: true, value: kept.value.name } : fail(kept.error.message);
};

/** Copies the book as it stands; only one window at a time. Gives the copy's name. */
export function keepCopy(reason: SnapshotReason): Promise<Outcome<string>> {
  return navigator.locks.request('straightedge-snapshot', async () => {
    const madeAt = nowInstant();
    return copyRows(await readBookRows(), madeAt, reason);
  });
}

/** Copies the present book, then puts the other in its place; nothing is replaced when the copy fails. */
export function restoreCopy(copy: OpenedCopy): Promise<Outcome> {
  return navigator.locks.request('straightedge-snapshot', async () => {
    const present = await readBookRows();
    const kept = await copyRows(present, nowInstant(), 'before-restoring');
    if (!kept.ok) return fail(`The present book could not be copied first, so nothing was restored. ${kept.message}`);
    // The desk gives every table.
    return replaceBook(copy.rows, present);
  });
}

/** What a copy holds, in words. */
export function copyHolds(copy: OpenedCopy): string {
  const count = (table: (typeof TABLE_NAMES)[number], one: string, many: string): string => {
    const much = copy.rows[table].length;
    return much === 1 ? `one ${one}` : `${much} ${many}`;
  };
  return `${count('clients', 'customer', 'customers')}, ${count('jobs', 'job', 'jobs')}, ${count('rooms', 'room', 'rooms')}, ${count('photos', 'photo', 'photos')}`;
}
