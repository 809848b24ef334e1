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

/** Ids of the windows that are open on this data, this one included; null where the browser cannot tell. */
const openWindows = async (): Promise<readonly string[] | null> => {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return null;
  const held = (await navigator.locks.query().catch(() => null))?.held ?? null;
  return held?.flatMap(({ name }) => (name?.startsWith(LOCK_PREFIX) === true ? [name.slice(LOCK_PREFIX.length)] : [])) ?? null;
};

let own = newId();
holdLock(own);
/** Resolves when that window closes; at once where the browser has no locks. */
export async function untilClosed(id: string): Promise<void> {
  if (typeof navigator === 'undefined' || !('locks' in navigator)) return;
  await navigator.locks.request(`${LOCK_PREFIX}${id}`, () => undefined);
}

export async function otherWindows(): Promise<string[]> {
  return ((await openWindows()) ?? []).filter((id) => id !== own);
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

/** An edit that is stored, with its number in the history. */
export type StoredEdit = {
  readonly label: string;
  readonly instant: string;
  readonly changes: readonly Change[];
  readonly seq: number;
};

/** The recent edit of another window that this one overwrote; null when there is none. */
async function overlapOf({ changes, label, instant, seq }: StoredEdit): Promise<Overlap | null> {
  const late = await book().edits.where('seq').below(seq).reverse().limit(LOOKED_BACK).toArray();
  for (const edit of late) {
    const { by } = edit;
    if (by === undefined || by === own || edit.state !== 'standing' || Date.parse(instant) - Date.parse(edit.instant) >= UNSEEN_MS)
      continue;
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

/**
 * Reports the edit of another open window that this one overwrote. One from before this page was reloaded was its own. Nothing is read
 * while no other window is open: the last edits, each with its records, were the largest read of every write.
 */
export async function tellOverlap(edit: StoredEdit): Promise<void> {
  const open = await openWindows();
  if (open?.every((id) => id === own) === true) return;
  const overlap = await overlapOf(edit);
  if (overlap !== null && open?.includes(overlap.window) !== false) for (const listen of listeners) listen(overlap);
}

/** Calls back when this window overwrites another's edit. Returns a function that unsubscribes. */
export function onOverlap(listen: (overlap: Overlap) => void): () => void {
  listeners.add(listen);
  return () => void listeners.delete(listen);
}
