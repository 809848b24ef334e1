/** Live queries that keep their last result, so that a screen opened again draws at once, with the same objects. */
import Dexie, { liveQuery, type Subscription } from 'dexie';
import { useObservable } from 'dexie-react-hooks';
import { dequal } from 'dequal';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';
import { type Book, book } from './database.ts';
import { keepLast } from '../workers/keep-last.ts';

/** Number of results to keep. */
const MOST_KEPT = 60;
/** Longer lists are read again, to limit memory. */
const MOST_ROWS = 1000;

/** A result, and the number of changes of records when it was read. */
type Kept = { readonly value: unknown; readonly changes: number };
const keptOf = new WeakMap<Book, Map<string, Kept>>();

let changes = 0;
const recordTables: ReadonlySet<string> = new Set(TABLE_NAMES);
Dexie.on('storagemutated', (parts: object) => {
  // A part is named `idb://DATABASE/TABLE/INDEX`; a page that was frozen hears of `all`.
  if (Object.keys(parts).some((part) => part === 'all' || recordTables.has(part.split('/')[3] ?? ''))) changes += 1;
});

function allKept(): Map<string, Kept> {
  const kept = keptOf.get(book()) ?? new Map<string, Kept>();
  keptOf.set(book(), kept);
  return kept;
}

/** Reads, and returns the object of the last time while its content is equal. */
export async function readKept<T>(name: string, read: () => Promise<T>): Promise<T> {
  const kept = allKept();
  const before = changes;
  const next = await read();
  const last = kept.get(name)?.value as T;
  const value = dequal(last, next) ? last : next;
  if (Array.isArray(value) && value.length > MOST_ROWS) kept.delete(name);
  else keepLast(kept, name, { value, changes: before }, MOST_KEPT);
  return value;
}

/** How long a screen may take to draw before it is followed all the same, ms. */
const FOLLOW_MS = 200;

/** Subscribes when the page has drawn: opening the transactions of a screen whose records are at hand delayed its first frame. */
function afterDrawing(subscribe: () => Subscription): { readonly unsubscribe: () => void } {
  let following: Subscription | null = null;
  const waiting = requestIdleCallback(
    () => {
      following = subscribe();
    },
    { timeout: FOLLOW_MS },
  );
  return {
    unsubscribe: () => {
      cancelIdleCallback(waiting);
      following?.unsubscribe();
    },
  };
}

/**
 * The live result of reading records; undefined while first loading. What was read before is there at once while no record has changed.
 * @param name identifies the query with its parameters
 */
export function useKept<T>(name: string, read: () => Promise<T>): T | undefined {
  return useObservable(() => {
    const kept = allKept().get(name);
    const live = liveQuery(() => readKept(name, read));
    const isCurrent = () => kept?.changes === changes;
    return {
      subscribe: (next: (value: T) => void, fail: (error: unknown) => void) => {
        const follow = () => live.subscribe(next, fail);
        if (!isCurrent()) return follow();
        // Another name of the same hook has shown its own value until now.
        next(kept?.value as T);
        return afterDrawing(follow);
      },
      hasValue: isCurrent,
      getValue: () => kept?.value as T,
    };
  }, [name]);
}
