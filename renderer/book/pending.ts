/**
 * Edits and drafts that are not stored yet.
 *
 * 1. An edit is pending from when a command begins to write it until the database stores or refuses it.
 * 2. An edit that the database failed to store stays pending, is listed on the screen, and is retried until it is stored or discarded.
 * 3. When the window closes, pending edits go to `localStorage`, which writes synchronously; a database transaction would be aborted.
 *    `recover-pending.ts` stores them at the next start.
 */
import { heldValue } from '../desk/held-value.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import { book, type Change } from './database.ts';
import { thisWindow } from './windows.ts';

/** The record as last read; undefined when it is not cached. */
export type Recall = (table: TableName, id: string) => StoredRow | undefined;

export type PendingEdit = { readonly label: string; readonly instant: string; readonly changes: readonly Change[] };
/** Pending edits of one window. */
export type LeftBehind = {
  readonly book: string;
  readonly edits: readonly PendingEdit[];
  /** Draft text under its key; null clears it. */
  readonly drafts: readonly { readonly key: string; readonly text: string | null; readonly instant: string }[];
};

interface Writing {
  readonly label: string;
  readonly instant: string;
  /** Keys of the records it changes: `rooms abc`. */
  readonly records: ReadonlySet<string>;
  /** Throws for an edit that the schemas would refuse. */
  readonly changes: (recall: Recall) => readonly Change[];
}

export type UnsavedEdit = {
  readonly label: string;
  /** The reason, as a sentence. */
  readonly message: string;
  /** Writes it again; null while the form that it came from is open and saves it itself. */
  readonly retry: (() => Promise<unknown>) | null;
};

/** How a command reports the end of its edit. */
export type EditTicket = {
  /** Call when it is stored, or refused for good. */
  readonly end: () => void;
  /**
   * Call when the database failed.
   * @param retry writes the same edit again
   */
  readonly fail: (message: string, retry: UnsavedEdit['retry']) => void;
};

export const LEFT_PREFIX = 'straightedge/unwritten/';
const RETRY_MS = 10_000;

const writing = new Set<Writing>();
const drafting = new Map<string, LeftBehind['drafts'][number]>();
let isLeaving = false;

type Unsaved = readonly (UnsavedEdit & { readonly of: Writing; readonly book: string })[];
const unsaved = heldValue<Unsaved>([]);
let timer: ReturnType<typeof setTimeout> | undefined;

/** Each edit starts from the result of those before it. */
function pendingEdits(): PendingEdit[] {
  const later = new Map<string, StoredRow>();
  const recall: Recall = (table, id) => later.get(`${table} ${id}`) ?? book().recent.recall(table, id);
  const edits: PendingEdit[] = [];
  for (const one of writing) {
    try {
      const changes = one.changes(recall);
      for (const change of changes) if (change.after !== null) later.set(`${change.table} ${change.id}`, change.after);
      edits.push({ label: one.label, instant: one.instant, changes });
    } catch {
      // Skipped: an edit that the schemas refuse, or that starts from a record not cached.
    }
  }
  return edits;
}

function storePending(): void {
  const key = `${LEFT_PREFIX}${thisWindow()}`;
  const pending: LeftBehind = { book: book().name, edits: pendingEdits(), drafts: [...drafting.values()] };
  try {
    if (pending.edits.length === 0 && pending.drafts.length === 0) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(pending));
  } catch {
    // `localStorage` is full or missing; the database may still finish in time.
  }
}

const show = (next: Unsaved): void => {
  clearTimeout(timer);
  if (next.some(({ retry }) => retry !== null)) timer = setTimeout(retryUnsaved, RETRY_MS);
  unsaved.set(next);
};

const drop = (isDropped: (one: Unsaved[number]) => boolean): void => {
  if (!unsaved.get().some(isDropped)) return;
  for (const one of unsaved.get()) if (isDropped(one)) writing.delete(one.of);
  show(unsaved.get().filter((one) => !isDropped(one)));
};

/** Registers an edit that is being written. Returns what to call when it ends. */
export function beginEdit(one: Writing): EditTicket {
  const { name } = book();
  writing.add(one);
  if (isLeaving) storePending();
  return {
    end: () => {
      writing.delete(one);
      // A later save of the same field replaces the failed one.
      drop(({ of }) => of.label === one.label && [...one.records].some((record) => of.records.has(record)));
      if (isLeaving) storePending();
    },
    fail: (message, retry) => {
      if (retry === null) writing.delete(one);
      show([...unsaved.get().filter(({ of }) => of.label !== one.label), { label: one.label, message, retry, of: one, book: name }]);
      if (isLeaving) storePending();
    },
  };
}

/** Edits that the database failed to store, oldest first. */
export const unsavedEdits: () => readonly UnsavedEdit[] = unsaved.get;
export const useUnsaved: () => readonly UnsavedEdit[] = unsaved.use;

/** Retries the failed edits; one that fails again returns to the list. */
export function retryUnsaved(): void {
  // An edit of another database waits until that one is open again.
  const { name } = book();
  const again = unsaved.get().filter((one) => one.retry !== null && one.book === name);
  for (const one of again) writing.delete(one.of);
  show(unsaved.get().filter((one) => !again.includes(one)));
  for (const { retry } of again) void retry?.();
}

/** Discards an edit. */
export function discardUnsaved(edit: UnsavedEdit): void {
  drop((one) => one === edit);
}

/** Like `beginEdit`, for a draft. */
export function beginDraft(key: string, text: string | null, instant: string): () => void {
  const one = { key, text, instant };
  drafting.set(key, one);
  if (isLeaving) storePending();
  return () => {
    if (drafting.get(key) === one) drafting.delete(key);
    if (isLeaving) storePending();
  };
}

/** A hidden window may close, so from now on pending edits go to `localStorage` at once. */
export function leaving(is: boolean): void {
  isLeaving = is;
  if (is) storePending();
}

/** Watches whether the window is hidden. Returns a function that stops. */
export function watchLeaving(): () => void {
  const going = () => leaving(true);
  const back = () => leaving(false);
  const seen = () => leaving(document.visibilityState === 'hidden');
  window.addEventListener('pagehide', going);
  window.addEventListener('pageshow', back);
  document.addEventListener('visibilitychange', seen);
  return () => {
    window.removeEventListener('pagehide', going);
    window.removeEventListener('pageshow', back);
    document.removeEventListener('visibilitychange', seen);
  };
}
