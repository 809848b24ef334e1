/** Several windows on one book: what one overwrites of another's is said at once, and undo brings it back. */
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import { book, type Change } from './database.ts';
import { newId } from './moment.ts';

/** An edit in another window counts as unseen here for this long. */
const UNSEEN_MS = 2 * 60_000;
/** Edits looked back through. */
const LOOKED_BACK = 60;

let own = newId();
/** This window's own mark on its edits. */
export function thisWindow(): string {
  return own;
}
/** Takes another mark: in tests, to be two windows. */
export function beWindow(id: string): void {
  own = id;
}

const differing = (before: StoredRow | null, after: StoredRow | null): Set<string> =>
  new Set(
    [...Object.keys(before ?? {}), ...Object.keys(after ?? {})].filter(
      (key) => key !== 'changedAt' && JSON.stringify(before?.[key]) !== JSON.stringify(after?.[key]),
    ),
  );

/**
 * Whether these changes overwrite what another window wrote a moment ago: the label of that edit, or null. Runs inside the
 * transaction that writes.
 */
export async function overlapOf(changes: readonly Change[], now: string): Promise<string | null> {
  const late = await book().edits.orderBy('seq').reverse().limit(LOOKED_BACK).toArray();
  const others = late.filter(
    (edit) => edit.by !== undefined && edit.by !== own && edit.state === 'standing' && Date.parse(now) - Date.parse(edit.at) < UNSEEN_MS,
  );
  for (const change of changes) {
    const fields = differing(change.before, change.after);
    for (const edit of others)
      for (const theirs of edit.changes) {
        if (theirs.table !== change.table || theirs.id !== change.id) continue;
        const touched = differing(theirs.before, theirs.after);
        // Rows of the pour's log are only ever added, each its own.
        if (theirs.before !== null && [...touched].some((field) => fields.has(field))) return edit.label;
      }
  }
  return null;
}

export type Overlap = { readonly theirs: string; readonly ours: string };
const listeners = new Set<(overlap: Overlap) => void>();

/** Tells whoever shows it that this window wrote over another's edit. */
export function tellOverlap(theirs: string, ours: string): void {
  for (const listen of listeners) listen({ theirs, ours });
}

/** Calls back when this window wrote over another's edit. Gives how to stop. */
export function onOverlap(listen: (overlap: Overlap) => void): () => void {
  listeners.add(listen);
  return () => void listeners.delete(listen);
}
