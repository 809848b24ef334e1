/** The page's own scheme, with one origin, `app://book`, which the database belongs to. */
import { protocol } from 'electron';
import type { PageFiles } from '../desk/page-files.ts';
import { POLICY_HEADERS } from '../desk/policy.ts';

const SCHEME = 'app';
const HOST = 'book';
export const PAGE_ORIGIN = `${SCHEME}://${HOST}`;
export const PAGE_ADDRESS = `${PAGE_ORIGIN}/`;

/** Has to run before the app is ready. */
export function declareScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, corsEnabled: false, stream: false } },
  ]);
}

/** Serves the page's listed files. */
export function servePages(pages: PageFiles): void {
  protocol.handle(SCHEME, async (request) => {
    const url = new URL(request.url);
    const page = url.host === HOST && request.method === 'GET' ? pages.get(url.pathname) : undefined;
    if (page === undefined) return new Response('Page not found.', { status: 404, headers: { ...POLICY_HEADERS } });
    return new Response(new Uint8Array(await page.read()), { status: 200, headers: { ...POLICY_HEADERS, 'Content-Type': page.type } });
  });
}

export function isOwnAddress(address: string): boolean {
  try {
    const url = new URL(address);
    return url.protocol === `${SCHEME}:` && url.host === HOST;
  } catch {
    return false;
  }
}
