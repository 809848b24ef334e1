/** Opening Straightedge in an app window of an installed Chromium-family browser. */
import { spawn } from 'node:child_process';
import { watchStart } from './system-programs.ts';

/** A browser without a display ends within a second; one that runs this long has its window. */
const SETTLE_MS = 4000;

/**
 * Opens `address` in a window of its own; the database is in the profile folder given.
 * @returns whether the window is there. A browser that passes the address to one already running ends at once, with 0.
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
