/** Lists the page's files once. A request is looked up in the list and never becomes a path. */
import { readdir, readFile } from 'node:fs/promises';
import { extname, join, relative, sep } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ttf': 'font/ttf',
  '.woff2': 'font/woff2',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
};

export type PageFile = {
  readonly type: string;
  readonly read: () => Promise<Buffer>;
  /** The same bytes in Brotli (RFC 7932), where the build made them. */
  readonly readBrotli?: () => Promise<Buffer>;
};
export type PageFiles = ReadonlyMap<string, PageFile>;

/** Lists the built page below `folder`. Keys are URL paths such as `/index.html`; `/` is the page. */
export async function listPageFiles(folder: string): Promise<PageFiles> {
  const found = new Map<string, PageFile>();
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const paths = new Set(entries.map((entry) => join(entry.parentPath, entry.name)));
  for (const entry of entries) {
    const type = TYPES[extname(entry.name)];
    if (!entry.isFile() || type === undefined) continue;
    const path = join(entry.parentPath, entry.name);
    const key = `/${relative(folder, path).split(sep).join('/')}`;
    const compressed = `${path}.br`;
    found.set(key, {
      type,
      read: () => readFile(path),
      ...(paths.has(compressed) ? { readBrotli: () => readFile(compressed) } : {}),
    });
  }
  const page = found.get('/index.html');
  if (page !== undefined) found.set('/', page);
  return found;
}
