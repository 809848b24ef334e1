/**
 * Opens the database, adds the company record, and asks the browser for persistent storage. Records are validated as they are read, and all
 * of them in the background.
 */
import { typicalId, typicalMaterials } from '../../shared-core/material/typical-materials.ts';
import { newBusiness } from '../../shared-core/book/typical-business.ts';
import { book } from './database.ts';
import { attempt, done, type Outcome, refused } from './command.ts';
import { recoverPending } from './recover-pending.ts';
import { SCHEMA_VERSION } from '../../shared-core/book/tables.ts';

/** Dexie multiplies a database's version by ten in IndexedDB. */
const DEXIE_VERSION_FACTOR = 10;

export type Opened = { readonly persisted: boolean };

const askPersistence = async (): Promise<boolean> => {
  if (typeof navigator === 'undefined' || !('storage' in navigator)) return false;
  try {
    return (await navigator.storage.persisted()) || (await navigator.storage.persist());
  } catch {
    return false;
  }
};

export function openBook(now: string): Promise<Outcome<Opened>> {
  return attempt(async () => {
    const db = book();
    await db.open();
    // Dexie would open a newer database, and this program would write rows that the newer one cannot read.
    if (Math.floor(db.backendDB().version / DEXIE_VERSION_FACTOR) > SCHEMA_VERSION) {
      db.close();
      return refused('Your data was saved by a newer version of Straightedge. Update the program to open it. Your data was not changed.');
    }
    await db.transaction('rw', db.rowsOf('business'), db.rowsOf('materials'), async () => {
      if ((await db.rowsOf('business').get('business')) !== undefined) return;
      const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
      const business = newBusiness(now, timeZone, navigator.language);
      await db.rowsOf('business').add(business);
      await db.rowsOf('materials').bulkAdd(typicalMaterials(typicalId, now, timeZone, business.currency));
    });
    await recoverPending();
    return done({ persisted: await askPersistence() });
  });
}
