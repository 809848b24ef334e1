/** The IndexedDB database. Its tables come from the list of record schemas. Only this folder imports Dexie. */
import Dexie, { type Table } from 'dexie';
import type { JobFigures } from '../../shared-core/standing/job-figures.ts';
import { MIGRATIONS, type Migration, migrateRow, type StoredRow, touchesTable } from '../../shared-core/book/migrations/all-steps.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import { CHANGED, type ChangedRow, noteChanges } from './changed-rows.ts';
import { RecentRows } from './recent-rows.ts';
import { SCHEMA_VERSION, TABLE_NAMES, TABLES, type TableName } from '../../shared-core/book/tables.ts';

/** One change of one record within an edit; null means that the record does not exist. */
export type Change = {
  readonly table: TableName;
  readonly id: string;
  readonly before: StoredRow | null;
  readonly after: StoredRow | null;
};
/** An edit in the undo history. `state`: applied, undone, or dropped (undone and then replaced by another edit). */
export type Edit = {
  readonly seq?: number;
  readonly instant: string;
  readonly label: string;
  readonly changes: readonly Change[];
  readonly state: 'standing' | 'undone' | 'dropped';
  /** The window it was made in; absent in older edits. */
  readonly by?: string;
  /** Cannot be undone: what to do instead. */
  readonly final?: string;
};
/** The bytes of a photo, keyed by their hash. The table `photos` has the record that shows them. */
export type Picture = { readonly name: string; readonly data: Uint8Array };
/** Text typed into a field that is not a valid value yet, stored so that closing the window does not lose it. */
export type Draft = { readonly key: string; readonly text: string; readonly instant: string };

/** The search words of a record, with the records above it. */
export type WordsRow = {
  readonly key: string;
  readonly words: readonly string[];
  readonly under: readonly string[];
  readonly title: string;
  readonly label: string;
  readonly detail: string;
  readonly href: string;
};
/** What lists show of a job's estimate, cached. `stamp` identifies the records and arithmetic it came from. */
export type FiguresRow = { readonly jobId: string; readonly stamp: string; readonly figures: JobFigures };

export const DATABASE_NAME = 'straightedge';

/** Caches and indexes added after version 1. The records are unchanged, so that an older program can still read the database. */
const LOOKUP_VERSION = 1.1;
const LOOKUPS = { words: 'key, *words, *under', figures: 'jobId' } as const;
const LATER_INDEXES: Partial<Record<TableName, readonly string[]>> = {
  customers: ['deletedAt'],
  properties: ['deletedAt'],
  rooms: ['deletedAt'],
  jobs: ['deletedAt', '[state+number]'],
  materials: ['deletedAt'],
  pours: ['finishedAt'],
};

const stores = (): Record<string, string> => {
  const all: Record<string, string> = { edits: '++seq, state', drafts: 'key', meta: 'key', pictures: 'name', [CHANGED]: 'key' };
  for (const name of TABLE_NAMES) all[name] = ['id', ...TABLES[name].indexes].join(', ');
  return all;
};
const lookups = (): Record<string, string> => {
  const all: Record<string, string> = { ...LOOKUPS };
  for (const name of TABLE_NAMES) {
    const later = LATER_INDEXES[name];
    if (later !== undefined) all[name] = ['id', ...TABLES[name].indexes, ...later].join(', ');
  }
  return all;
};

export class Book extends Dexie {
  declare readonly edits: Table<Edit, number>;
  declare readonly drafts: Table<Draft, string>;
  declare readonly meta: Table<{ key: string; value: unknown }, string>;
  declare readonly pictures: Table<Picture, string>;
  declare readonly words: Table<WordsRow, string>;
  declare readonly figures: Table<FiguresRow, string>;
  declare readonly changed: Table<ChangedRow, string>;
  readonly recent = new RecentRows();

  /**
   * @param name name of the database
   * @param upTo version to open at; older ones only in tests of the migrations
   * @param steps migrations to apply
   */
  constructor(name: string = DATABASE_NAME, upTo: number = SCHEMA_VERSION, steps: readonly Migration[] = MIGRATIONS) {
    super(name, { chromeTransactionDurability: 'strict' });
    this.use(this.recent.middleware());
    this.use(noteChanges);
    this.version(1).stores(stores());
    this.version(LOOKUP_VERSION).stores(lookups());
    for (const step of steps) {
      if (step.to > upTo) break;
      this.version(step.to)
        .stores({})
        .upgrade(async (transaction) => {
          for (const table of TABLE_NAMES) {
            if (!touchesTable(step, table)) continue;
            await transaction
              .table<StoredRow, string>(table)
              .toCollection()
              .modify((row, reference) => {
                // A row the step cannot read stays unchanged and is listed as a data problem.
                try {
                  reference.value = migrateRow(table, row, step.to - 1, step.to, steps);
                } catch {
                  reference.value = row;
                }
              });
          }
        });
    }
  }

  rowsOf<T extends TableName>(table: T): Table<RowOf<T>, string> {
    return this.table<RowOf<T>, string>(table);
  }
}

let own: Book | null = null;
let copy: Book | null = null;

/** The open database of this window: the user's own, or a backup open read-only in its place. */
export function book(): Book {
  return copy ?? ownBook();
}

/** The user's own database, also while a backup is open. It has what belongs to this computer: settings, and the state of its backups. */
export function ownBook(): Book {
  own ??= new Book();
  return own;
}

/** Opens another database as the user's own (tests, workers). */
export function swapBook(other: Book): void {
  own = other;
}

/** Shows a backup in place of the user's own database; null shows that again. */
export function showCopy(backup: Book | null): void {
  copy = backup;
}
