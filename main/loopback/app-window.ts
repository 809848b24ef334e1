/** Opens Straightedge in an app window of an installed Chromium-family browser. */
import { spawn } from 'node:child_process';
import { access, open, readlink } from 'node:fs/promises';
import { join } from 'node:path';
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

const isAlive = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
};

/** Whether a browser has the profile open: it leaves a link to its process, or on Windows a file that nobody else may open. */
export async function isProfileOpen(profileFolder: string): Promise<boolean> {
  const link = await readlink(join(profileFolder, 'SingletonLock')).catch(() => null);
  if (link !== null) {
    const pid = Number(link.split('-').at(-1));
    return !(pid > 0) || isAlive(pid);
  }
  const held = join(profileFolder, 'lockfile');
  if (
    !(await access(held)
      .then(() => true)
      .catch(() => false))
  )
    return false;
  const file = await open(held, 'r+').catch(() => null);
  await file?.close();
  return file === null;
}
