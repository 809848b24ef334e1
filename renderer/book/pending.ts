/**
 * Edits and drafts that are not on the disk yet: on their way, or failed and tried again.
 *
 * 1. An edit is pending from the moment a command begins to write it until the database has it or refuses it.
 * 2. One that the database failed to write stays pending, is listed for the screen, and is tried again until it is written or discarded.
 * 3. When the window goes, whatever is pending is put into `localStorage`, where writing is done at once; a database's transaction
 *    is cut off with its window. `recover-pending.ts` writes it at the next start.
 */
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import { book, type Change } from './database.ts';
import { thisWindow } from './windows.ts';

/** A record as it was last read; undefined when it is not known here. */
export type Recall = (table: TableName, id: string) => StoredRow | undefined;

/** An edit that was not yet written. */
export type PendingEdit = { readonly label: string; readonly instant: string; readonly changes: readonly Change[] };
/** What one window left behind. */
export type LeftBehind = {
  readonly book: string;
  readonly edits: readonly PendingEdit[];
  /** Text typed and not yet a value, under its key; null forgets it. */
  readonly drafts: readonly { readonly key: string; readonly text: string | null; readonly instant: string }[];
};

interface Writing {
  readonly label: string;
  readonly instant: string;
  /** The records it changes: `rooms abc`. */
  readonly records: ReadonlySet<string>;
  /** Worked out at once; throws for an edit the schemas would refuse. */
  readonly changes: (recall: Recall) => readonly Change[];
}

/** An edit that the database failed to write. */
export type UnsavedEdit = {
  readonly label: string;
  /** Why, as a sentence. */
  readonly message: string;
  /** Writes it again; null where the form it came from still stands and saves it. */
  readonly retry: (() => Promise<unknown>) | null;
};

/** What a command says about its edit. */
export type EditTicket = {
  /** It is on the disk, or was refused for good. */
  readonly end: () => void;
  /** The database failed. @param retry writes the same edit again */
  readonly fail: (message: string, retry: UnsavedEdit['retry']) => void;
};

export const LEFT_PREFIX = 'straightedge/unwritten/';
const RETRY_MS = 10_000;

const writing = new Set<Writing>();
const drafting = new Map<string, LeftBehind['drafts'][number]>();
let isLeaving = false;

let unsaved: readonly (UnsavedEdit & { readonly of: Writing; readonly book: string })[] = [];
let timer: ReturnType<typeof setTimeout> | undefined;
const listeners = new Set<() => void>();

/** Each edit starts from those before it, as they will be when they are written in turn. */
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
      // What the schemas would refuse, or what starts from a record unknown here, is left to the writing itself.
    }
  }
  return edits;
}

function put(): void {
  const key = `${LEFT_PREFIX}${thisWindow()}`;
  const left: LeftBehind = { book: book().name, edits: pendingEdits(), drafts: [...drafting.values()] };
  try {
    if (left.edits.length === 0 && left.drafts.length === 0) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(left));
  } catch {
    // No room there, or none at all: the database's own writing may still be in time.
  }
}

const show = (next: typeof unsaved): void => {
  unsaved = next;
  clearTimeout(timer);
  if (unsaved.some(({ retry }) => retry !== null)) timer = setTimeout(retryUnsaved, RETRY_MS);
  for (const listen of listeners) listen();
};

const drop = (gone: (one: (typeof unsaved)[number]) => boolean): void => {
  if (!unsaved.some(gone)) return;
  for (const one of unsaved) if (gone(one)) writing.delete(one.of);
  show(unsaved.filter((one) => !gone(one)));
};

/** Says that an edit is being written. Returns what to call when that has ended, either way. */
export function beginEdit(one: Writing): EditTicket {
  const { name } = book();
  writing.add(one);
  if (isLeaving) put();
  return {
    end: () => {
      writing.delete(one);
      // The same field was saved since: what failed before is overtaken.
      drop(({ of }) => of.label === one.label && [...one.records].some((record) => of.records.has(record)));
      if (isLeaving) put();
    },
    fail: (message, retry) => {
      if (retry === null) writing.delete(one);
      show([...unsaved.filter(({ of }) => of.label !== one.label), { label: one.label, message, retry, of: one, book: name }]);
      if (isLeaving) put();
    },
  };
}

/** The edits that the database failed to write, the oldest first. */
export function unsavedEdits(): readonly UnsavedEdit[] {
  return unsaved;
}

/** Calls back when that list changes. Returns how to stop. */
export function onUnsaved(listen: () => void): () => void {
  listeners.add(listen);
  return () => void listeners.delete(listen);
}

/** Writes again what failed; each takes its place in the list again when it fails once more. */
export function retryUnsaved(): void {
  // One that failed in another book, such as a backup that was open to look at, waits until its own is open again.
  const { name } = book();
  const again = unsaved.filter((one) => one.retry !== null && one.book === name);
  for (const one of again) writing.delete(one.of);
  show(unsaved.filter((one) => !again.includes(one)));
  for (const { retry } of again) void retry?.();
}

/** Takes one from the list; it is not tried again. */
export function discardUnsaved(gone: UnsavedEdit): void {
  drop((one) => one === gone);
}

/** The same as `beginEdit` for a text that is not yet a value. */
export function beginDraft(key: string, text: string | null, instant: string): () => void {
  const one = { key, text, instant };
  drafting.set(key, one);
  if (isLeaving) put();
  return () => {
    if (drafting.get(key) === one) drafting.delete(key);
    if (isLeaving) put();
  };
}

/** The window is hidden, and may go: from now on what is pending is put aside at once. Or it is back. */
export function leaving(is: boolean): void {
  isLeaving = is;
  if (is) put();
}

/** Watches the window come and go. Returns how to stop. */
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
