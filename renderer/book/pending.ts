/**
 * Edits and drafts that are not stored yet.
 *
 * 1. An edit is pending from when a command begins to write it until the database stores or refuses it.
 * 2. An edit that the database failed to store stays pending, is listed on the screen, and is retried until it is stored or discarded, or
 *    until a later edit overwrites all of it. A later edit of the same record starts after it.
 * 3. When the window closes, pending edits go to `localStorage`, which writes synchronously; a database transaction would be aborted.
 *    `recover-pending.ts` stores them at the next start.
 */
import { heldValue } from '../desk/held-value.ts';
import { differences } from '../../shared-core/book/merge-records.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import { newId } from './command.ts';
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

/** An edit from its beginning until it is stored, refused or discarded, through all its retries. */
export interface Writing {
  readonly label: string;
  readonly instant: string;
  readonly records: readonly { readonly table: TableName; readonly id: string }[];
  /** What it changes over these records. Throws for an edit that the schemas would refuse. */
  readonly changesOver: (rows: Recall) => readonly Change[];
  /** The stored records as its transaction last read them; null until then. */
  rows: Recall | null;
  /** What its transaction writes, which may be stored already; null before it and after it failed. */
  changes: readonly Change[] | null;
}

export type UnsavedEdit = {
  readonly id: string;
  readonly label: string;
  /** The reason, as a sentence. */
  readonly message: string;
  /** Writes it again; null while the form that it came from is open and saves it itself. */
  readonly retry: (() => Promise<unknown>) | null;
};

/** How a command reports the end of its edit. */
export type EditTicket = {
  /** Call when it is stored, or refused for good. */
  readonly end: (isStored: boolean) => void;
  /**
   * Call when the database failed.
   * @param retry writes the same edit again
   */
  readonly fail: (message: string, retry: UnsavedEdit['retry']) => void;
};

export const LEFT_PREFIX = 'straightedge/unwritten/';
const RETRY_MS = 10_000;

/** In the order in which they began. */
const writing = new Set<Writing>();
const drafting = new Map<string, LeftBehind['drafts'][number]>();
let isLeaving = false;

type Unsaved = readonly (UnsavedEdit & { readonly of: Writing; readonly book: string })[];
const unsaved = heldValue<Unsaved>([]);
let timer: ReturnType<typeof setTimeout> | undefined;

const cached: Recall = (table, id) => book().recent.recall(table, id);

/** The records after these changes. */
const rowsAfter = (rows: Recall, changes: readonly Change[]): Recall => {
  const after = new Map(changes.map((change) => [`${change.table} ${change.id}`, change.after ?? undefined]));
  return (table, id) => (after.has(`${table} ${id}`) ? after.get(`${table} ${id}`) : rows(table, id));
};

/** Each edit starts from the result of those before it. */
function pendingEdits(): PendingEdit[] {
  const edits: PendingEdit[] = [];
  const before: Change[] = [];
  for (const one of writing) {
    try {
      const changes = one.changes ?? one.changesOver(rowsAfter(one.rows ?? cached, before));
      before.push(...changes);
      edits.push({ label: one.label, instant: one.instant, changes });
    } catch {
      // Skipped: an edit that the schemas refuse, or that starts from a record not cached.
    }
  }
  return edits;
}

const isOn = ({ records }: Writing, { table, id }: Writing['records'][number]): boolean =>
  records.some((record) => record.table === table && record.id === id);
const isOnSameRecord = (a: Writing, b: Writing): boolean => a.records.some((record) => isOn(b, record));

/** Whether the records end the same without the earlier edit, so that nothing of it is lost. An item that it added to a list would be. */
function isOverwritten(earlier: Writing, later: Writing): boolean {
  if (!earlier.records.every((record) => isOn(later, record))) return false;
  const rows = later.rows ?? earlier.rows ?? cached;
  try {
    const between = rowsAfter(rows, earlier.changesOver(rows));
    const [withIt, withoutIt] = [between, rows].map((start) => rowsAfter(start, later.changesOver(start)));
    return earlier.records.every(({ table, id }) => differences(withIt?.(table, id) ?? {}, withoutIt?.(table, id) ?? {}).length === 0);
  } catch {
    return false;
  }
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

/** Registers an edit that is being written, after the failed ones that it builds on. Returns what to call when it ends. */
export function beginEdit(one: Writing): EditTicket {
  const { name } = book();
  writing.add(one);
  const all = [...writing];
  const earlier = new Set(all.slice(0, all.indexOf(one)));
  const overwrites = ({ of, book: its }: Unsaved[number]): boolean => its === name && earlier.has(of) && isOverwritten(of, one);
  retry((failed) => earlier.has(failed.of) && isOnSameRecord(failed.of, one) && !overwrites(failed));
  if (isLeaving) storePending();
  return {
    end: (isStored) => {
      // An open form saves its edit itself, under the same label.
      const isSavedByForm = ({ of }: Unsaved[number]): boolean => of.label === one.label && isOnSameRecord(of, one);
      if (isStored) drop((failed) => (failed.retry === null ? isSavedByForm(failed) : overwrites(failed)));
      writing.delete(one);
      if (isLeaving) storePending();
    },
    fail: (message, again) => {
      one.changes = null;
      // An open form holds its edit; it is listed once. Any other edit is listed until one that overwrites it is listed or stored.
      drop((failed) =>
        again === null ? failed.retry === null && failed.label === one.label : failed.retry !== null && overwrites(failed),
      );
      if (again === null) writing.delete(one);
      show([...unsaved.get(), { id: newId(), label: one.label, message, retry: again, of: one, book: name }]);
      if (isLeaving) storePending();
    },
  };
}

/** Edits that the database failed to store, oldest first. */
export const unsavedEdits: () => readonly UnsavedEdit[] = unsaved.get;
export const useUnsaved: () => readonly UnsavedEdit[] = unsaved.use;

function retry(isRetried: (one: Unsaved[number]) => boolean): void {
  // An edit of another database waits until that one is open again.
  const { name } = book();
  const again = unsaved.get().filter((one) => one.retry !== null && one.book === name && isRetried(one));
  if (again.length === 0) return;
  show(unsaved.get().filter((one) => !again.includes(one)));
  for (const one of again) void one.retry?.();
}

/** Retries the failed edits; one that fails again returns to the list. */
export function retryUnsaved(): void {
  retry(() => true);
}

export function discardUnsaved(edit: UnsavedEdit): void {
  drop((one) => one === edit);
}

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
