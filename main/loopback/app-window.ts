/** Opening the book in an app window of an installed Chromium-family browser, and files with the system's program. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const ON_PATH = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge', 'brave-browser'];
const ELSEWHERE = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

/** The first of these programs that stands on the path, or null. */
export function findProgram(names: readonly string[], pathVariable: string): string | null {
  for (const folder of pathVariable.split(delimiter)) {
    for (const name of names) {
      const candidate = join(folder, name);
      if (folder !== '' && existsSync(candidate)) return candidate;
    }
  }
  return null;
}

/** The first installed Chromium-family browser, or null. */
export function findBrowser(pathVariable: string): string | null {
  const found = findProgram(ON_PATH, pathVariable);
  if (found !== null) return found;
  return ELSEWHERE.find((path) => existsSync(path)) ?? null;
}

/** Opens `address` in a window of its own; the book lives in the profile folder given. */
export function openAppWindow(browser: string, address: string, profileFolder: string, asRoot: boolean): void {
  const flags = [
    `--app=${address}`,
    `--user-data-dir=${profileFolder}`,
    '--no-first-run',
    '--no-default-browser-check',
    '--window-size=1440,900',
  ];
  if (asRoot) flags.push('--no-sandbox');
  spawn(browser, flags, { detached: true, stdio: 'ignore' }).unref();
}

/** Opens a file or folder with the system's program for it. */
export function openWithSystem(path: string): Promise<void> {
  const [command, flags] =
    process.platform === 'darwin' ? ['open', []] : process.platform === 'win32' ? ['explorer', []] : ['xdg-open', []];
  return new Promise((resolve, reject) => {
    const child = spawn(command, [...flags, path], { detached: true, stdio: 'ignore' });
    child.once('error', reject);
    child.once('spawn', () => {
      child.unref();
      resolve();
    });
  });
}
