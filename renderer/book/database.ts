/** The job book itself: one IndexedDB database, its tables walked from the records' own list. The only folder that names Dexie. */
import Dexie, { type Table } from 'dexie';
import type { JobFigures } from '../../shared-core/standing/job-figures.ts';
import { MIGRATIONS, type Migration, migrateRow, type StoredRow, touchesTable } from '../../shared-core/book/migrations/list.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import { CHANGED, type ChangedRow, noteChanges } from './changed-rows.ts';
import { RecentRows } from './recent-rows.ts';
import { SCHEMA_VERSION, TABLE_NAMES, TABLES, type TableName } from '../../shared-core/book/tables.ts';

/** One change of one record within an edit; null is "not there". */
export type Change = {
  readonly table: TableName;
  readonly id: string;
  readonly before: StoredRow | null;
  readonly after: StoredRow | null;
};
/** An edit as undo and redo know it. `state`: standing, undone, or dropped (undone and then overtaken by another edit). */
export type Edit = {
  readonly seq?: number;
  readonly instant: string;
  readonly label: string;
  readonly changes: readonly Change[];
  readonly state: 'standing' | 'undone' | 'dropped';
  /** The window it was made in; absent in edits from before windows were told apart. */
  readonly by?: string;
};
/** A photo's bytes under the name its content gives it; the record that shows it stands in `photos`. */
export type Picture = { readonly name: string; readonly data: Uint8Array };
/** What was typed into a field and is not (yet) a value: kept, so that closing the lid loses nothing. */
export type Draft = { readonly key: string; readonly text: string; readonly instant: string };

/** The words a record is found by, and the records it stands under. */
export type WordsRow = { readonly key: string; readonly words: readonly string[]; readonly under: readonly string[] };
/** What a job's estimate gives to lists, kept so that a list need not estimate: `stamp` names what it was worked out from. */
export type FiguresRow = { readonly jobId: string; readonly stamp: string; readonly figures: JobFigures };

export const DATABASE_NAME = 'straightedge';

/**
 * What is worked out from the records and kept beside them, and what they are looked up by since: the records are those of version 1,
 * so that a program that does not know of these goes on reading the book.
 */
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
  /** The records that changed since the last backup. */
  declare readonly changed: Table<ChangedRow, string>;
  /** What this window read last. */
  readonly recent = new RecentRows();

  /**
   * @param name the database's name
   * @param upTo the version to open at; older ones only in tests of the migrations
   * @param steps the migrations to walk
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
                // A row the step cannot read stays as it is and is listed when the book is checked.
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

  /** The table of a record kind. */
  rowsOf<T extends TableName>(table: T): Table<RowOf<T>, string> {
    return this.table<RowOf<T>, string>(table);
  }
}

let open: Book | null = null;

/** The one open book of this window. */
export function book(): Book {
  open ??= new Book();
  return open;
}

/** Opens another book in its place (tests, and looking into a copy). */
export function swapBook(other: Book): void {
  open = other;
}
