/**
 * What is still on its way into the book when the window goes. A database's transaction is cut off with its window, so the
 * edits are put where writing is done at once, and are written when the book is opened next (`take-up.ts`).
 */
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import { book, type Change } from './database.ts';
import { thisWindow } from './windows.ts';

/** A record as it was last read; undefined when it is not known here. */
export type Recall = (table: TableName, id: string) => StoredRow | undefined;

/** An edit that was not yet written. */
export type Unwritten = { readonly label: string; readonly at: string; readonly changes: readonly Change[] };
/** What one window left behind. */
export type LeftBehind = {
  readonly book: string;
  readonly edits: readonly Unwritten[];
  /** Text typed and not yet a value, under its key; null forgets it. */
  readonly drafts: readonly { readonly key: string; readonly text: string | null; readonly at: string }[];
};

interface Writing {
  readonly label: string;
  readonly at: string;
  /** Worked out at once; throws for an edit the book would refuse. */
  readonly changes: (recall: Recall) => readonly Change[];
}

export const LEFT_PREFIX = 'straightedge/unwritten/';

const writing = new Set<Writing>();
const drafting = new Map<string, LeftBehind['drafts'][number]>();
let isLeaving = false;

/** Each edit starts from those before it, as they will stand when they are written in turn. */
function unwritten(): Unwritten[] {
  const ahead = new Map<string, StoredRow>();
  const recall: Recall = (table, id) => ahead.get(`${table} ${id}`) ?? book().recent.recall(table, id);
  const edits: Unwritten[] = [];
  for (const one of writing) {
    try {
      const changes = one.changes(recall);
      for (const change of changes) if (change.after !== null) ahead.set(`${change.table} ${change.id}`, change.after);
      edits.push({ label: one.label, at: one.at, changes });
    } catch {
      // What the book would refuse, or what starts from a record unknown here, is left to the writing itself.
    }
  }
  return edits;
}

function put(): void {
  const key = `${LEFT_PREFIX}${thisWindow()}`;
  const left: LeftBehind = { book: book().name, edits: unwritten(), drafts: [...drafting.values()] };
  try {
    if (left.edits.length === 0 && left.drafts.length === 0) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(left));
  } catch {
    // No room there, or none at all: the database's own writing may still be in time.
  }
}

/** Says that an edit of the book is being written. Gives what to call when that has ended, either way. */
export function beginWriting(one: Writing): () => void {
  writing.add(one);
  if (isLeaving) put();
  return () => {
    writing.delete(one);
    if (isLeaving) put();
  };
}

/** The same for a text that is not yet a value. */
export function beginDrafting(key: string, text: string | null, at: string): () => void {
  const one = { key, text, at };
  drafting.set(key, one);
  if (isLeaving) put();
  return () => {
    if (drafting.get(key) === one) drafting.delete(key);
    if (isLeaving) put();
  };
}

/** The window is hidden, and may go: from now on what is being written is put aside at once. Or it is back. */
export function leaving(is: boolean): void {
  isLeaving = is;
  if (is) put();
}

/** Watches the window come and go. Gives how to stop. */
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
