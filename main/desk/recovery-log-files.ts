/** The recovery logs of pours: one file per pour in the program's own folder, one line per entry, only appended and always flushed. */
import { open, readdir, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { migrateRow, type StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { checkRow } from '../../shared-core/book/rows.ts';
import { SCHEMA_VERSION } from '../../shared-core/book/tables.ts';
import type { CallName } from '../../shared-core/desk/call-names.ts';
import type { Gives, Taken } from '../../shared-core/desk/calls.ts';
import type { JOURNAL_CALLS } from '../../shared-core/desk/journal-calls.ts';
import { DeskFailure, errno, explainDisk } from './failure.ts';
import { makeFolder, placeIn, PRIVATE_FILE } from './files.ts';
import { flushFolder } from './backups/whole-file.ts';

type JournalCall = Extract<CallName, keyof typeof JOURNAL_CALLS>;
type JournalHandlers = { [N in JournalCall]: (input: Taken<N>) => Promise<Gives<N>> };

/** About ten times the longest pour's log, bytes. */
const MOST_BYTES = 4_000_000;
/** Logs are deleted after a backup, so this number is not reached. */
const MOST_JOURNALS = 200;
const WHAT = 'The recovery log of this pour';
const NAME = /^pour-([A-Za-z0-9_-]{4,40})\.jsonl$/;

const isGone = (error: unknown): boolean => errno(error) === 'ENOENT';

/** One line: the row with its record version. The empty line before it keeps a torn line from damaging the next. */
const lineOf = (row: { readonly pour: object } | { readonly event: object }): string =>
  `\n${JSON.stringify({ version: SCHEMA_VERSION, ...row })}\n`;

const rowIn = (line: string, key: 'pour' | 'event', table: 'pours' | 'pourEvents'): unknown => {
  const row = JSON.parse(line) as Readonly<Record<string, unknown>> | null;
  if (row?.[key] === undefined) return null;
  const version = Number(row['version']);
  if (!(version >= 1 && version <= SCHEMA_VERSION)) throw new RangeError('Of another version.');
  return migrateRow(table, row[key] as StoredRow, version, SCHEMA_VERSION);
};

/** Parses a log. Unreadable lines are counted, the rest is kept. */
function readJournal(text: string, pourId: string): Gives<'journal.read'> {
  let pour: Gives<'journal.read'>['pour'] = null;
  const events: Gives<'journal.read'>['events'] = [];
  let unreadable = 0;
  for (const line of text.split('\n')) {
    if (line === '') continue;
    try {
      const head = rowIn(line, 'pour', 'pours');
      if (head !== null) {
        const check = checkRow('pours', head);
        if (check.ok && check.row.id === pourId) pour ??= check.row;
        else unreadable += 1;
        continue;
      }
      const check = checkRow('pourEvents', rowIn(line, 'event', 'pourEvents'));
      if (check.ok && check.row.pourId === pourId) events.push(check.row);
      else unreadable += 1;
    } catch {
      unreadable += 1;
    }
  }
  return { pour, events, unreadable };
}

export function createJournalHandlers({ dataFolder }: { readonly dataFolder: string }): JournalHandlers {
  const folder = join(dataFolder, 'pours');
  const pathOf = (pourId: string): string => placeIn(folder, `pour-${pourId}.jsonl`);
  const listed = async (): Promise<string[]> => {
    try {
      return (await readdir(folder)).flatMap((name) => NAME.exec(name)?.[1] ?? []).sort();
    } catch (error) {
      if (isGone(error)) return [];
      throw explainDisk(error, WHAT, 'opened');
    }
  };
  // One at a time: not every file system appends what comes at once behind each other.
  let before: Promise<unknown> = Promise.resolve();
  const add = async ({ pour, event }: Taken<'journal.add'>): Promise<Gives<'journal.add'>> => {
    try {
      await makeFolder(folder);
      const known = await listed();
      const isNew = !known.includes(pour.id);
      if (isNew && known.length >= MOST_JOURNALS)
        throw new DeskFailure(
          'too-large',
          `The recovery log could not start: ${known.length} old logs are still waiting. Back up now to clear them.`,
        );
      const file = await open(pathOf(pour.id), 'a', PRIVATE_FILE);
      try {
        const { size } = await file.stat();
        const lines = (size === 0 ? lineOf({ pour }) : '') + lineOf({ event });
        if (size + Buffer.byteLength(lines) > MOST_BYTES)
          throw new DeskFailure('too-large', `${WHAT} is full. Entries are still saved in the pour log.`);
        await file.appendFile(lines);
        await file.sync();
        if (isNew) await flushFolder(folder);
        return { bytes: size + Buffer.byteLength(lines) };
      } finally {
        await file.close();
      }
    } catch (error) {
      throw explainDisk(error, WHAT);
    }
  };
  return {
    'journal.add': (input) => {
      const added = before.then(() => add(input));
      before = added.catch(() => undefined);
      return added;
    },
    'journal.list': async () => ({ pourIds: await listed() }),
    'journal.read': async ({ pourId }) => {
      try {
        return readJournal(await readFile(pathOf(pourId), 'utf8'), pourId);
      } catch (error) {
        if (isGone(error)) return { pour: null, events: [], unreadable: 0 };
        throw explainDisk(error, WHAT, 'opened');
      }
    },
    'journal.close': async ({ pourId, fate }) => {
      try {
        if (fate === 'remove') await rm(pathOf(pourId));
        else await rename(pathOf(pourId), placeIn(folder, `aside-${pourId}.jsonl`));
        return { closed: true };
      } catch (error) {
        if (isGone(error)) return { closed: false };
        throw explainDisk(error, WHAT, fate === 'remove' ? 'deleted' : 'saved');
      }
    },
  };
}
