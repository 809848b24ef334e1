/** Several windows on the same data: what one overwrites of another's is reported at once, and undo restores it. */
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import { book, type Change } from './database.ts';
import { newId } from './moment.ts';

/** An edit in another window counts as unseen here for this long. */
const UNSEEN_MS = 2 * 60_000;
/** Edits looked back through. */
const LOOKED_BACK = 60;

const LOCK_PREFIX = 'straightedge/window/';

/** Held as long as the window is open; the browser releases it when the window goes, however it goes. */
const holdLock = (id: string): void => {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return;
  void navigator.locks.request(`${LOCK_PREFIX}${id}`, () => new Promise(() => undefined)).catch(() => undefined);
};

/** Whether that window is still open; where the browser does not tell, it is taken to be. */
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
/** Waits until that window is gone. Returns at once where the browser does not tell. */
export async function untilClosed(id: string): Promise<void> {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return;
  await navigator.locks.request(`${LOCK_PREFIX}${id}`, () => undefined);
}

/** The other windows open on this data now. */
export async function otherWindows(): Promise<string[]> {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return [];
  const held = (await navigator.locks.query().catch(() => ({ held: [] }))).held ?? [];
  return held
    .flatMap(({ name }) => (name?.startsWith(LOCK_PREFIX) === true ? [name.slice(LOCK_PREFIX.length)] : []))
    .filter((id) => id !== own);
}

/** This window's own mark on its edits. */
export function thisWindow(): string {
  return own;
}
/** Takes another mark: in tests, to be two windows. */
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

/** An edit here that overwrote one of another window. */
export type Overlap = { readonly theirs: string; readonly ours: string; readonly window: string };

/**
 * The edit of another window, a moment ago, that these changes overwrite; null when there is none. Runs inside the transaction that
 * writes.
 * @param label what these changes are called
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
        // Rows of the pour log are only ever added, each its own.
        if (theirs.before !== null && [...differing(theirs.before, theirs.after)].some((field) => fields.has(field)))
          return { theirs: edit.label, ours: label, window: by };
      }
    }
  }
  return null;
}

const listeners = new Set<(overlap: Overlap) => void>();

/** Tells whoever shows it that this window wrote over another's edit. An edit from before this page was loaded again is our own. */
export async function tellOverlap(overlap: Overlap): Promise<void> {
  if (await isOpen(overlap.window)) for (const listen of listeners) listen(overlap);
}

/** Calls back when this window wrote over another's edit. Returns how to stop. */
export function onOverlap(listen: (overlap: Overlap) => void): () => void {
  listeners.add(listen);
  return () => void listeners.delete(listen);
}
