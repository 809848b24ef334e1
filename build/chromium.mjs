/** How the browser tests and the pictures start an installed Chromium. Playwright's own browsers are not used. */

/** No screen card, no first-run pages, no calls to anywhere. The root user has to give up the sandbox. */
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
