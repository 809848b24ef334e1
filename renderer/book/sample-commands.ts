/** Sample data. The ids of its records begin with `sample-`, so that it can be removed without touching the user's own records. */
import type { Business } from '../../shared-core/book/business.ts';
import { leastJobSerial } from '../../shared-core/book/data-check.ts';
import { stringsIn } from '../../shared-core/book/import-plan.ts';
import { differences, givenBack } from '../../shared-core/book/merge-records.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import { isSampleCompany, SAMPLE_PREFIX } from '../../shared-core/book/sample-company.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { newBusiness } from '../../shared-core/book/typical-business.ts';
import { useLiveQuery } from 'dexie-react-hooks';
import { book } from './database.ts';
import { forgetWords } from './words.ts';
import { picturesOf } from './book-pieces.ts';
import { attempt, done, nowInstant, type Outcome } from './command.ts';
import { storePictures } from './pictures.ts';

/** Sample rows by table. The company record is included only if it was empty. */
export type SampleRows = { readonly [T in TableName]?: readonly RowOf<T>[] };

/** The company record before the sample data was opened, and as it was then written. */
const COMPANY = 'business-from-sample';
type OpenedCompany = { readonly before: Business; readonly opened: Business };

/**
 * Adds the sample data in one transaction. The company record is replaced only while its name is empty. The next job number passes
 * those of the sample.
 */
export function addSample(rows: SampleRows): Promise<Outcome> {
  return attempt(async () => {
    await book().transaction('rw', book().tables, async () => {
      for (const table of TABLE_NAMES) {
        if (table === 'business') continue;
        await book()
          .table(table)
          .bulkPut([...(rows[table] ?? [])]);
      }
      await forgetWords();
      const before = await book().rowsOf('business').get('business');
      const sample = rows.business?.[0];
      if (sample === undefined || before === undefined || (await book().meta.get(COMPANY)) !== undefined) return;
      const nextJobSerial = Math.max(before.nextJobSerial, sample.nextJobSerial);
      const opened = { ...(before.name === '' ? sample : before), nextJobSerial };
      await book().rowsOf('business').put(opened);
      await book().meta.put({ key: COMPANY, value: { before, opened } satisfies OpenedCompany });
    });
    return done(undefined);
  });
}

/** Opens the sample data. It is loaded and computed only on request, because that takes a second. */
export async function openSampleData(now: string): Promise<Outcome> {
  const { sampleBook } = await import('../../shared-core/sample/sample-book.ts');
  const { samplePictures } = await import('../../shared-core/sample/sample-pictures.ts');
  const stored = await storePictures(samplePictures().map(({ sha256, bytes }) => ({ name: `photos/${sha256}.png`, data: bytes })));
  return stored.ok ? addSample(sampleBook(now)) : stored;
}

const isSample = (id: unknown): boolean => typeof id === 'string' && id.startsWith(SAMPLE_PREFIX);
const isOwn = (row: StoredRow): boolean => !isSample(row['id']) && !isSample(row['jobId']);

/** Sample records stay when the user's own records name them, such as the sample property of a room that was added. */
async function keptIds(): Promise<ReadonlySet<string>> {
  const named = new Set<string>();
  for (const table of ['jobs', 'leads', 'pours', 'ledger', 'rooms', 'properties'] as const)
    await book()
      .table<StoredRow, string>(table)
      .filter(isOwn)
      .each((row) => stringsIn(row, named));
  const kept = new Set<string>();
  // A room keeps its property, and a property its customer.
  for (const table of ['materials', 'rooms', 'properties', 'customers'] as const)
    await book()
      .table<StoredRow, string>(table)
      .filter((row) => isSample(row['id']) && named.has(String(row['id'])))
      .each((row) => {
        stringsIn(row, named);
        kept.add(String(row['id']));
      });
  return kept;
}

/** Those of the names that no photo shows any more. */
async function withoutPhoto(names: readonly string[]): Promise<string[]> {
  const shown = new Set(picturesOf(await book().rowsOf('photos').toArray()));
  return names.filter((name) => !shown.has(name));
}

/**
 * Deletes the sample records, and all that was added to a sample job. What calendar files said of them stays, so that the next file
 * cancels it. Returns the ids of the deleted records.
 */
async function deleteSample(keptRows: ReadonlySet<string>): Promise<ReadonlySet<unknown>> {
  const deleted = new Set<unknown>();
  let pictures: readonly string[] = [];
  for (const table of TABLE_NAMES) {
    if (table === 'business' || table === 'calendarEntries') continue;
    const gone = await book()
      .table<StoredRow, string>(table)
      .filter((row) => (isSample(row['id']) && !keptRows.has(String(row['id']))) || isSample(row['jobId']) || deleted.has(row['pourId']))
      .toArray();
    if (table === 'photos') pictures = picturesOf(gone);
    for (const row of gone) deleted.add(row['id']);
    await book()
      .table<StoredRow, string>(table)
      .bulkDelete(gone.map((row) => String(row['id'])));
  }
  await book().pictures.bulkDelete(await withoutPhoto(pictures));
  return deleted;
}

/** The company record without a usual material or primer that was deleted; as before the sample, where that is known. */
function withoutDeleted(own: Business, before: Partial<Business>, deleted: ReadonlySet<unknown>): Business {
  const usual = (key: 'usualMaterialId' | 'usualPrimerId') => (deleted.has(own[key]) ? { [key]: before[key] ?? null } : {});
  return { ...own, ...usual('usualMaterialId'), ...usual('usualPrimerId') };
}

/** The company record with what the sample replaced given back. What the user entered since stays. */
function ownCompany(present: Business, { before, opened }: OpenedCompany, deleted: ReadonlySet<unknown>): Business {
  return { ...withoutDeleted(givenBack(present, opened, before) as Business, before, deleted), createdAt: before.createdAt };
}

const inventedBusiness = async (): Promise<(now: string) => Business> =>
  (await import('../../shared-core/sample/sample-people.ts')).sampleBusiness;

/** What the sample replaced. A restored backup has the sample's company without it: then a new company was replaced. */
async function replacedCompany(present: Business, invented: (now: string) => Business): Promise<OpenedCompany | undefined> {
  const stored = (await book().meta.get(COMPANY))?.value as OpenedCompany | undefined;
  if (stored !== undefined || !isSampleCompany(present)) return stored;
  const { createdAt, timeZone, locale } = present;
  return { before: newBusiness(createdAt, timeZone, locale), opened: invented(createdAt) };
}

/** A time that is planned is kept by the clock it was entered by. */
const isPlanned = (row: StoredRow): boolean => {
  const found = new Set<string>();
  stringsIn(row, found);
  return [...found].some((text) => /^\d{4}-\d\d-\d\dT/.test(text) && text > nowInstant());
};

/** Gives the user's own properties the time zone of their company, where they had that of the sample's and nothing is planned there. */
async function giveZone(from: string, timeZone: string): Promise<void> {
  const planned = new Set<unknown>();
  const visited = new Set<unknown>();
  await book()
    .table<StoredRow, string>('visits')
    .filter(isPlanned)
    .each((row) => visited.add(row['jobId']));
  for (const table of ['jobs', 'leads'] as const)
    await book()
      .table<StoredRow, string>(table)
      .filter((row) => isPlanned(row) || visited.has(row['id']))
      .each((row) => planned.add(row['propertyId']));
  const given = book()
    .rowsOf('properties')
    .filter((property) => !isSample(property.id) && property.timeZone === from && !planned.has(property.id));
  const ids = new Set<string>(await given.primaryKeys());
  await given.modify({ timeZone });
  // Undo finds a record only as its edit left it.
  await book()
    .edits.toCollection()
    .modify((edit) => {
      for (const { table, id, before, after } of edit.changes)
        if (table === 'properties' && ids.has(id)) for (const row of [before, after]) if (row !== null) Object.assign(row, { timeZone });
    });
}

/**
 * Gives back the company record; job numbers only rise. Undo would restore deleted records, or stop at a record that is no longer as it
 * was left, so those edits are deleted.
 */
async function giveBackCompany(deleted: ReadonlySet<unknown>, invented: (now: string) => Business): Promise<void> {
  const present = await book().rowsOf('business').get('business');
  const company = present === undefined ? undefined : await replacedCompany(present, invented);
  const isEdited = present !== undefined && company !== undefined && differences(company.opened, present).length > 0;
  if (present !== undefined && company === undefined)
    await book()
      .rowsOf('business')
      .put(withoutDeleted(present, {}, deleted));
  if (present !== undefined && company !== undefined) {
    const own = isEdited ? ownCompany(present, company, deleted) : company.before;
    const nextJobSerial = Math.max(own.nextJobSerial, leastJobSerial(await book().rowsOf('jobs').toArray()));
    await book()
      .rowsOf('business')
      .put({ ...own, nextJobSerial });
    await giveZone(company.opened.timeZone, own.timeZone);
    await book().meta.delete(COMPANY);
  }
  await book()
    .edits.filter((edit) => edit.changes.some((c) => deleted.has(c.id) || (c.table === 'business' && isEdited)))
    .delete();
}

/** Gives back the user's own company record while the sample data stays, so that they can enter their company. */
export async function enterOwnCompany(): Promise<Outcome> {
  return attempt(async () => {
    const invented = await inventedBusiness();
    await book().transaction('rw', book().tables, () => giveBackCompany(new Set(), invented));
    return done(undefined);
  });
}

/** Removes the sample data. Returns how many records stayed because the user's own depend on them. */
export function removeSample(): Promise<Outcome<number>> {
  return attempt(async () => {
    const invented = await inventedBusiness();
    return book().transaction('rw', book().tables, async () => {
      const keptRows = await keptIds();
      const deleted = await deleteSample(keptRows);
      await forgetWords();
      await giveBackCompany(deleted, invented);
      await book()
        .edits.filter((edit) => edit.changes.some((c) => isSample(c.id)))
        .delete();
      return done(keptRows.size);
    });
  });
}

export function useHasSample(): boolean | undefined {
  return useLiveQuery(async () => (await book().rowsOf('customers').where('id').startsWith(SAMPLE_PREFIX).count()) > 0, []);
}
