/** At startup, stores edits that a closed window could not. Records changed since then are not overwritten. */
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';
import { book, type Change } from './database.ts';
import { LEFT_PREFIX, type LeftBehind } from './pending.ts';
import { otherWindows, untilClosed } from './windows.ts';
import { type Patch, type Put, type Removal, write } from './write.ts';

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

const differing = (before: StoredRow, after: StoredRow): string[] =>
  [...new Set([...Object.keys(before), ...Object.keys(after)])].filter(
    (field) => field !== 'changedAt' && !same(before[field], after[field]),
  );

/** Applies the edit to each field that has not changed since. */
function recoveredRow(now: StoredRow, before: StoredRow, after: StoredRow): StoredRow {
  const fields = differing(before, after).filter((field) => same(now[field], before[field]));
  if (fields.length === 0) return now;
  return { ...now, ...Object.fromEntries(fields.map((field) => [field, after[field]])) };
}

const isChange = (value: unknown): value is Change => {
  if (typeof value !== 'object' || value === null) return false;
  const { table, id, before, after } = value as Partial<Record<keyof Change, unknown>>;
  return TABLE_NAMES.some((name) => name === table) && typeof id === 'string' && typeof before === 'object' && typeof after === 'object';
};

const isText = (value: unknown): value is string => typeof value === 'string';

/** Reads what it can of a window's pending edits. */
function readLeft(text: string): LeftBehind | null {
  try {
    const parsed = JSON.parse(text) as Partial<LeftBehind> | null;
    if (parsed === null || !isText(parsed.book) || !Array.isArray(parsed.edits) || !Array.isArray(parsed.drafts)) return null;
    const edits = (parsed.edits as Partial<LeftBehind['edits'][number]>[]).flatMap(({ label, instant, changes }) =>
      isText(label) && isText(instant) && Array.isArray(changes) && changes.every(isChange) ? [{ label, instant, changes }] : [],
    );
    const drafts = (parsed.drafts as Partial<LeftBehind['drafts'][number]>[]).flatMap(({ key, text: typed, instant }) =>
      isText(key) && isText(instant) && (typed === null || isText(typed)) ? [{ key, instant, text: typed }] : [],
    );
    return { book: parsed.book, edits, drafts };
  } catch {
    return null;
  }
}

/** Whether a field that the edit changes was changed since. */
function isOvertaken(now: StoredRow | undefined, { before, after }: Change): boolean {
  if (before === null) return now !== undefined && !same(now, after);
  if (now === undefined) return after !== null;
  if (after === null) return !same(now, before);
  return differing(before, after).some((field) => !same(now[field], before[field]) && !same(now[field], after[field]));
}

async function recoverEdit({ label, instant, changes }: LeftBehind['edits'][number]): Promise<void> {
  const stored = await Promise.all(
    changes.map(async (change) => ({ change, now: await book().table<StoredRow, string>(change.table).get(change.id) })),
  );
  // An edit of several records is recovered whole or not at all.
  if (stored.length > 1 && stored.some(({ change, now }) => isOvertaken(now, change))) return;
  const puts: Put[] = [];
  const patches: Patch[] = [];
  const removes: Removal[] = [];
  for (const { change, now } of stored) {
    const { table, id, before, after } = change;
    // The union ties table to row; the table's schema validates the result.
    if (after === null) {
      if (now !== undefined && same(now, before)) removes.push({ table, id });
    } else if (before === null) {
      if (now === undefined) puts.push({ table, row: after } as unknown as Put);
    } else if (now !== undefined) {
      patches.push({ table, id, change: (row: StoredRow) => recoveredRow(row, before, after) } as unknown as Patch);
    }
  }
  // A refused edit is reported by the outcome, which nobody waits for here.
  await write(label, instant, { puts, patches, removes });
}

async function recover(key: string): Promise<void> {
  const pending = readLeft(localStorage.getItem(key) ?? '');
  if (pending !== null && pending.book !== book().name) return;
  for (const edit of pending?.edits ?? []) await recoverEdit(edit);
  for (const { key: under, text, instant } of pending?.drafts ?? []) {
    if (text === null) await book().drafts.delete(under);
    else await book().drafts.put({ key: under, text, instant });
  }
  localStorage.removeItem(key);
}

/** An edit that cannot be recovered now is tried at the next start. */
const tryRecover = async (key: string): Promise<void> => {
  try {
    await recover(key);
  } catch {
    // It stays in `localStorage` for the next start.
  }
};

/** Recovers the edits of another window when it closes while this one is open. */
async function recoverWhenClosed(id: string): Promise<void> {
  await untilClosed(id);
  if (book().isOpen() && localStorage.getItem(`${LEFT_PREFIX}${id}`) !== null) await tryRecover(`${LEFT_PREFIX}${id}`);
}

/** Recovers the edits of closed windows, each as its own step of undo. */
export async function recoverPending(): Promise<void> {
  if (typeof localStorage === 'undefined') return;
  const open = await otherWindows();
  for (const id of open) void recoverWhenClosed(id);
  const keys = Array.from({ length: localStorage.length }, (_, n) => localStorage.key(n));
  for (const key of keys) {
    // An open window stores its own edits.
    if (key?.startsWith(LEFT_PREFIX) === true && !open.includes(key.slice(LEFT_PREFIX.length))) await tryRecover(key);
  }
}
