/** A backup that the system passes to the program: as an argument, by a second start, or dropped on its icon. */
import { app } from 'electron';
import { backupAmong, type Handed, isBackupName, readHanded } from '../desk/backups/passed-file.ts';

let waiting: string | null = null;

/** Takes the backup passed last, once; null for none. */
export async function takeHanded(mostBytes: number): Promise<Handed | null> {
  const path = waiting;
  waiting = null;
  return path === null ? null : readHanded(path, mostBytes);
}

/**
 * Listens for passed backups.
 * @param show opens the Backup screen and notifies the page
 */
export function listenForHanded(show: () => void): void {
  const hand = (path: string | null): void => {
    if (path === null || !isBackupName(path)) return;
    waiting = path;
    show();
  };
  app.on('second-instance', (_event, argv) => hand(backupAmong(argv)));
  // It may arrive before the program is ready; the page asks for it when it has loaded.
  app.on('open-file', (event, path) => {
    event.preventDefault();
    hand(path);
  });
  hand(backupAmong(process.argv));
}

export function hasHanded(): boolean {
  return waiting !== null;
}
