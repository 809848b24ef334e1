import Dexie from 'dexie';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { book } from './database.ts';

/** Calls back when a record of these tables changes, in this window or another. Returns a function that unsubscribes. */
export function onRecords(onChange: () => void, tables: readonly TableName[] = TABLE_NAMES): () => void {
  const prefixes = tables.map((table) => `idb://${book().name}/${table}/`);
  const heard = (parts: object): void => {
    if (Object.keys(parts).some((part) => prefixes.some((prefix) => part.startsWith(prefix)))) onChange();
  };
  Dexie.on('storagemutated', heard);
  return () => Dexie.on.storagemutated.unsubscribe(heard);
}
