/** The program in the real Electron, with a data folder of its own. */
import { join } from 'node:path';
import { _electron, type ElectronApplication } from '@playwright/test';

/** Starts it. @param folder holds `data` and `papers` */
export function startElectron(folder: string): Promise<ElectronApplication> {
  const executablePath = process.env['STRAIGHTEDGE_TEST_ELECTRON'];
  if (executablePath === undefined) throw new Error('STRAIGHTEDGE_TEST_ELECTRON names no runtime. Run npm run shell.');
  return _electron.launch({
    executablePath,
    args: [...(process.getuid?.() === 0 ? ['--no-sandbox'] : []), '.'],
    env: {
      // Playwright wants every value set.
      ...Object.fromEntries(Object.entries(process.env).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]]))),
      STRAIGHTEDGE_DATA: join(folder, 'data'),
      STRAIGHTEDGE_DOCUMENTS: join(folder, 'papers'),
    },
    locale: 'en-US',
    timezoneId: 'America/New_York',
  });
}
