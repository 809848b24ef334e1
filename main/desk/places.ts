/** Where things live on this machine. */
import { homedir, platform } from 'node:os';
import { join } from 'node:path';
import { existsSync } from 'node:fs';

/** The program's own folder: profile, log, the note of a running host. */
export function dataFolder(environment: NodeJS.ProcessEnv): string {
  const own = environment['STRAIGHTEDGE_DATA'];
  if (own !== undefined && own !== '') return own;
  if (platform() === 'win32') return join(environment['APPDATA'] ?? join(homedir(), 'AppData', 'Roaming'), 'Straightedge');
  if (platform() === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Straightedge');
  return join(environment['XDG_DATA_HOME'] ?? join(homedir(), '.local', 'share'), 'straightedge');
}

/** Where papers go for people to find: Documents/Straightedge, or the home folder where there is no Documents. */
export function papersFolder(environment: NodeJS.ProcessEnv): string {
  const own = environment['STRAIGHTEDGE_DOCUMENTS'];
  if (own !== undefined && own !== '') return own;
  const documents = join(homedir(), 'Documents');
  return join(existsSync(documents) ? documents : homedir(), 'Straightedge');
}

/** Where the book's copies go until the person chooses another folder. */
export function copiesPlace(environment: NodeJS.ProcessEnv): string {
  const own = environment['STRAIGHTEDGE_COPIES'];
  return own !== undefined && own !== '' ? own : join(papersFolder(environment), 'Backups');
}
