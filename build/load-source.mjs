/** Bundles and imports one TypeScript module, for build scripts that use the program's code. */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { ROOT } from './local-tool.mjs';

/** @param source path from the repository's folder, such as `main/loopback/find-browser.ts` */
export async function loadSource(source) {
  const outfile = join(ROOT, '.cache', 'loaded', source.replace(/\.ts$/, '.mjs'));
  await build({
    entryPoints: [join(ROOT, source)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    logLevel: 'warning',
  });
  return import(pathToFileURL(outfile).href);
}
