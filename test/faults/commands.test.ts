// @vitest-environment node
/** Every command of `renderer/book` with the database failing at each of its steps, one after another. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { DBCore, DBCoreTable, Middleware } from 'dexie';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { printOfBook } from '../../renderer/book/book-pieces.ts';
import { Book, book, swapBook } from '../../renderer/book/database.ts';
import type { Outcome } from '../../renderer/book/outcome.ts';
import { discardUnsaved, unsavedEdits } from '../../renderer/book/pending.ts';
import { readWholeJob } from '../../renderer/book/use-whole-job.ts';
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import { newRoom } from '../../shared-core/book/new-records.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import version1 from '../shared-core/book/version-1.fixture.json' with { type: 'json' };

const stored = version1 as unknown as Record<TableName, StoredRow[]>;
const JOB = 'sample-job-abara';
const ROOM = 'sample-living';
const PROPERTY = String(stored.jobs.find((job) => job['id'] === JOB)?.['propertyId']);
const MATERIAL = String(stored.materials[0]?.['id']);

/** Fails every operation of the database from one on, as a disk would. */
const fault = { after: Number.POSITIVE_INFINITY, many: Number.POSITIVE_INFINITY, name: 'DataError', met: 0 };
class Injected extends Error {
  constructor(name: string) {
    super('injected');
    this.name = name;
  }
}
const step = async <T>(work: () => PromiseLike<T>): Promise<T> => {
  fault.met += 1;
  if (fault.met > fault.after && fault.met <= fault.after + fault.many) throw new Injected(fault.name);
  return work();
};
const failing: Middleware<DBCore> = {
  stack: 'dbcore',
  name: 'failing',
  create: (core) => ({
    ...core,
    table: (name): DBCoreTable => {
      const table = core.table(name);
      const guard = <I, O>(work: (input: I) => PromiseLike<O>) =>
        // Dexie's own promise keeps the transaction's zone.
        ((input: I) => {
          fault.met += 1;
          return fault.met > fault.after && fault.met <= fault.after + fault.many
            ? Promise.reject(new Injected(fault.name))
            : work(input);
        }) as (input: I) => Promise<O>;
      return {
        ...table,
        get: guard(table.get.bind(table)),
        getMany: guard(table.getMany.bind(table)),
        query: guard(table.query.bind(table)),
        openCursor: guard(table.openCursor.bind(table)),
        count: guard(table.count.bind(table)),
        mutate: guard(table.mutate.bind(table)),
      };
    },
  }),
};

let whole: WholeJob;
beforeAll(async () => {
  const data = new Book('failing');
  data.use(failing);
  await data.open();
  swapBook(data);
  for (const table of TABLE_NAMES) await data.table(table).bulkPut(stored[table]);
  const read = await readWholeJob(JOB);
  if (read === null) throw new Error('The stored job is not there.');
  whole = read;
});
afterAll(() => {
  book().close();
});

type Command = () => Promise<Outcome<unknown>>;
type Module = Readonly<Record<string, (...inputs: never[]) => unknown>>;
/** What each command is called with; `null` for an export that writes nothing. */
type Cases = Readonly<Record<string, Readonly<Record<string, ((all: Record<string, (...inputs: unknown[]) => Promise<Outcome<unknown>>>) => Command) | null>>>>;

const same = <T>(value: T): T => value;
const touched = <T extends object>(value: T): T => ({ ...value });
const tree = { title: 'Prep sheet', madeAt: '2026-05-12T15:05:00.000Z' };
const hold = { key: 'stored-hold', title: 'a hold' };
const line = { key: 'line', what: 'Vacuum', saidThen: 'Vacuum the floor' };

const CASES: Cases = {
  'assessment-commands': {
    setLayers: (c) => () => c['setLayers']?.(ROOM, 'layers', touched) ?? never(),
  },
};
const never = (): never => {
  throw new Error('No such command.');
};
void [CASES, same, tree, hold, line, step, newRoom, MATERIAL, PROPERTY, unsavedEdits, discardUnsaved, printOfBook, describe, expect, it, readdirSync, join];
