/** The installed Chromium that the browser tests and the pictures run in. Playwright's own browsers are not used. */
import { existsSync } from 'node:fs';

export function chromiumPath() {
  const installed = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((path) => existsSync(path));
  return process.env.STRAIGHTEDGE_CHROMIUM ?? installed ?? 'chromium';
}

/** Without a screen card, without first-run pages, without calling anywhere; root needs to give up the sandbox. */
export function chromiumArgs() {
  return [
    ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
    '--disable-gpu',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ];
}
