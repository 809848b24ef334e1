/** A backup that the system handed to the program: as an argument, to a second start, or dropped on its icon. */
import { app } from 'electron';
import { backupAmong, isBackupName, readHanded } from '../desk/backups/handed.ts';
import type { Handed } from '../desk/backups/backup-handlers.ts';

let waiting: string | null = null;

/** The backup handed over last, read once; null when none waits. */
export async function takeHanded(mostBytes: number): Promise<Handed | null> {
  const path = waiting;
  waiting = null;
  return path === null ? null : readHanded(path, mostBytes);
}

/**
 * Listens for backups handed over.
 * @param show goes to where a backup is opened, and tells the page that one waits
 */
export function listenForHanded(show: () => void): void {
  const hand = (path: string | null): void => {
    if (path === null || !isBackupName(path)) return;
    waiting = path;
    show();
  };
  app.on('second-instance', (_event, argv) => hand(backupAmong(argv)));
  // The system may hand it over before the program is ready; the page asks when it has loaded.
  app.on('open-file', (event, path) => {
    event.preventDefault();
    hand(path);
  });
  hand(backupAmong(process.argv));
}

/** Whether a backup waits to be opened. */
export function hasHanded(): boolean {
  return waiting !== null;
}
