/** `npm run bench [name]`: each bench of test/bench bundled and run by itself; it prints its own ratios. */
import { mkdirSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

process.chdir(join(dirname(fileURLToPath(import.meta.url)), '..'));
mkdirSync('.cache/bench', { recursive: true });
const wanted = process.argv[2];
const benches = readdirSync('test/bench').filter((file) => file.endsWith('.ts') && (wanted === undefined || file.startsWith(wanted)));
for (const file of benches) {
  const outfile = join('.cache/bench', file.replace(/\.ts$/, '.mjs'));
  await build({
    entryPoints: [join('test/bench', file)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    logLevel: 'warning',
  });
  const bench = await import(pathToFileURL(outfile).href);
  if (typeof bench.run !== 'function') continue;
  console.log(`\n${file}`);
  const result = await bench.run();
  if (result !== undefined) console.log(JSON.stringify(result, null, 2));
}
