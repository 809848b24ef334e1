/** Opens Straightedge in an app window of an installed Chromium-family browser. */
import { spawn } from 'node:child_process';
import { watchStart } from './system-programs.ts';

/** A browser without a display ends within a second; one that runs longer than this has its window, ms. */
const SETTLE_MS = 4000;

/**
 * Opens `address` in its own window, with the database in the given profile folder.
 * @returns whether the window opened. A browser that passes the address to a running one exits at once with 0.
 */
export async function openAppWindow(
  browser: string,
  address: string,
  profileFolder: string,
  { asRoot, settleMs = SETTLE_MS }: { readonly asRoot: boolean; readonly settleMs?: number },
): Promise<boolean> {
  const flags = [
    `--app=${address}`,
    `--user-data-dir=${profileFolder}`,
    '--no-first-run',
    '--no-default-browser-check',
    '--window-size=1440,900',
    ...(asRoot ? ['--no-sandbox'] : []),
  ];
  const child = spawn(browser, flags, { detached: true, stdio: 'ignore' });
  child.unref();
  const code = await watchStart(child, settleMs).catch(() => 1);
  return code === null || code === 0;
}
