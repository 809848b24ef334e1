/** Starts an installed Chromium for browser tests and pictures. Playwright's own browsers are not used. */

/** Software rendering, no first-run pages, no network calls. The sandbox does not work for root. */
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
