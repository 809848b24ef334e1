import { rmSync } from 'node:fs';

const TRIES = 20;

/**
 * Removes a folder with everything in it, also while a program writes there: Node's own retries remove only the folder again,
 * never a file that was written after it read the folder's list.
 */
export function removeFolder(folder) {
  for (let tries = 1; ; tries += 1)
    try {
      return rmSync(folder, { recursive: true, force: true, maxRetries: 1, retryDelay: 50 });
    } catch (error) {
      if (tries === TRIES) throw error;
    }
}
