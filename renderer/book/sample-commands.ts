/** Sample data. The ids of its records begin with `sample-`, so that it can be removed without touching the user's own records. */
import type { RowOf } from '../../shared-core/book/rows.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { useLiveQuery } from 'dexie-react-hooks';
import { book } from './database.ts';
import { forgetWords } from './words.ts';
import { picturesOf } from './book-pieces.ts';
import { attempt, done, type Outcome } from './command.ts';
import { storePictures } from './pictures.ts';

export const SAMPLE_PREFIX = 'sample-';
/** Sample rows by table. The company record is included only if it was empty. */
export type SampleRows = { readonly [T in TableName]?: readonly RowOf<T>[] };

/** Adds the sample data in one transaction. The company record is replaced only while its name is empty. */
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
      const own = await book().rowsOf('business').get('business');
      const sample = rows.business?.[0];
      if (sample !== undefined && (own === undefined || own.name === '')) {
        await book().rowsOf('business').put(sample);
        await book().meta.put({ key: 'business-from-sample', value: true });
      }
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

/** Sample records stay when the user's own records depend on them, such as a room added to a sample property. */
const keptFor = async (): Promise<Set<string>> => {
  const usedIds = new Set<string>();
  const addKept = (id: unknown): void => {
    if (typeof id === 'string' && id.startsWith(SAMPLE_PREFIX)) usedIds.add(id);
  };
  const own = <T extends TableName>(table: T) =>
    book()
      .rowsOf(table)
      .filter((row) => !row.id.startsWith(SAMPLE_PREFIX))
      .toArray();
  for (const job of await own('jobs')) {
    for (const id of [job.customerId, job.propertyId]) addKept(id);
    for (const room of job.rooms) for (const id of [room.roomId, room.materialId, room.primerId]) addKept(id);
  }
  for (const lead of await own('leads')) for (const id of [lead.customerId, lead.propertyId]) addKept(id);
  for (const room of await own('rooms')) addKept(room.propertyId);
  for (const id of [...usedIds]) {
    const property = await book().rowsOf('properties').get(id);
    if (property !== undefined) addKept(property.customerId);
  }
  for (const property of await own('properties')) addKept(property.customerId);
  return usedIds;
};

/** The names of the pictures that sample photos show. */
const samplePictureNames = async (): Promise<string[]> =>
  picturesOf(await book().rowsOf('photos').where('id').startsWith(SAMPLE_PREFIX).toArray());

/** Those of the names that no photo shows any more. */
async function withoutPhoto(names: readonly string[]): Promise<string[]> {
  const shown = new Set(picturesOf(await book().rowsOf('photos').toArray()));
  return names.filter((name) => !shown.has(name));
}

/** Removes the sample data. Returns how many records stayed because the user's own depend on them. */
export function removeSample(blankBusiness: RowOf<'business'>): Promise<Outcome<number>> {
  return attempt(() =>
    book().transaction('rw', book().tables, async () => {
      const usedIds = await keptFor();
      const pictures = await samplePictureNames();
      for (const table of TABLE_NAMES) {
        if (table === 'business') continue;
        await book()
          .table<{ id: string }, string>(table)
          .filter((row) => row.id.startsWith(SAMPLE_PREFIX) && !usedIds.has(row.id))
          .delete();
      }
      await book().pictures.bulkDelete(await withoutPhoto(pictures));
      await forgetWords();
      // Undo would restore deleted sample records, so their edits are dropped.
      await book()
        .edits.filter((edit) => edit.changes.some((c) => c.id.startsWith(SAMPLE_PREFIX)))
        .delete();
      if ((await book().meta.get('business-from-sample'))?.value === true) {
        await book().rowsOf('business').put(blankBusiness);
        await book().meta.delete('business-from-sample');
      }
      return done(usedIds.size);
    }),
  );
}

/** Whether there are sample records; undefined while loading. */
export function useHasSample(): boolean | undefined {
  return useLiveQuery(async () => (await book().rowsOf('customers').where('id').startsWith(SAMPLE_PREFIX).count()) > 0, []);
}
