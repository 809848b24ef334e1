/** Starts the program in the real Electron, with its own data folder. */
import { join } from 'node:path';
import { _electron, type ElectronApplication } from '@playwright/test';

/** @param folder has `data` and `papers` */
export function startElectron(folder: string): Promise<ElectronApplication> {
  const executablePath = process.env['STRAIGHTEDGE_TEST_ELECTRON'];
  if (executablePath === undefined) throw new Error('STRAIGHTEDGE_TEST_ELECTRON names no runtime. Run npm run shell.');
  return _electron.launch({
    executablePath,
    args: [...(process.getuid?.() === 0 ? ['--no-sandbox'] : []), '.'],
    env: {
      // Playwright requires every value to be set.
      ...Object.fromEntries(Object.entries(process.env).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]]))),
      STRAIGHTEDGE_DATA: join(folder, 'data'),
      STRAIGHTEDGE_DOCUMENTS: join(folder, 'papers'),
    },
    locale: 'en-US',
    timezoneId: 'America/New_York',
  });
}
