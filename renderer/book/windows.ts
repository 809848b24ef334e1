/** Several windows on the same data: a window that overwrites another's recent edit reports it at once, and undo restores it. */
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { book, type Change } from './database.ts';
import { newId } from './command.ts';

/** How long an edit of another window counts as unseen here, ms. */
const UNSEEN_MS = 2 * 60_000;
/** Number of recent edits to check. */
const LOOKED_BACK = 60;

const LOCK_PREFIX = 'straightedge/window/';

/** Held while the window is open; the browser releases it however the window closes. */
const holdLock = (id: string): void => {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return;
  void navigator.locks.request(`${LOCK_PREFIX}${id}`, () => new Promise(() => undefined)).catch(() => undefined);
};

/** Whether that window is still open; true where the browser has no locks. */
const isOpen = async (id: string): Promise<boolean> => {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return true;
  try {
    return (await navigator.locks.query()).held?.some(({ name }) => name === `${LOCK_PREFIX}${id}`) ?? true;
  } catch {
    return true;
  }
};

let own = newId();
holdLock(own);
/** Resolves when that window closes; at once where the browser has no locks. */
export async function untilClosed(id: string): Promise<void> {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return;
  await navigator.locks.request(`${LOCK_PREFIX}${id}`, () => undefined);
}

/** Ids of the other windows open on this data. */
export async function otherWindows(): Promise<string[]> {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return [];
  const held = (await navigator.locks.query().catch(() => ({ held: [] }))).held ?? [];
  return held
    .flatMap(({ name }) => (name?.startsWith(LOCK_PREFIX) === true ? [name.slice(LOCK_PREFIX.length)] : []))
    .filter((id) => id !== own);
}

/** The id of this window, stored with its edits. */
export function thisWindow(): string {
  return own;
}
/** Changes the id, so that a test can act as two windows. */
export function beWindow(id: string): void {
  own = id;
  holdLock(id);
}

const differing = (before: StoredRow | null, after: StoredRow | null): Set<string> =>
  new Set(
    [...Object.keys(before ?? {}), ...Object.keys(after ?? {})].filter(
      (key) => key !== 'changedAt' && JSON.stringify(before?.[key]) !== JSON.stringify(after?.[key]),
    ),
  );

export type Overlap = { readonly theirs: string; readonly ours: string; readonly window: string };

/**
 * The recent edit of another window that these changes overwrite; null when there is none. Runs inside the transaction that writes.
 * @param label label of these changes
 */
export async function overlapOf(changes: readonly Change[], label: string, now: string): Promise<Overlap | null> {
  const late = await book().edits.orderBy('seq').reverse().limit(LOOKED_BACK).toArray();
  for (const edit of late) {
    const { by } = edit;
    if (by === undefined || by === own || edit.state !== 'standing' || Date.parse(now) - Date.parse(edit.instant) >= UNSEEN_MS) continue;
    for (const change of changes) {
      const fields = differing(change.before, change.after);
      for (const theirs of edit.changes) {
        if (theirs.table !== change.table || theirs.id !== change.id) continue;
        // Pour log rows are only added, so they never conflict.
        if (theirs.before !== null && [...differing(theirs.before, theirs.after)].some((field) => fields.has(field)))
          return { theirs: edit.label, ours: label, window: by };
      }
    }
  }
  return null;
}

const listeners = new Set<(overlap: Overlap) => void>();

/** Reports an overwritten edit. One from before this page was reloaded was its own. */
export async function tellOverlap(overlap: Overlap): Promise<void> {
  if (await isOpen(overlap.window)) for (const listen of listeners) listen(overlap);
}

/** Calls back when this window overwrites another's edit. Returns a function that unsubscribes. */
export function onOverlap(listen: (overlap: Overlap) => void): () => void {
  listeners.add(listen);
  return () => void listeners.delete(listen);
}
