/** `npm run schema`: the JSON Schema of a snapshot's manifest and records, from the schemas that read them; `-- FILE` writes it there. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const outfile = join(root, '.cache', 'snapshot-schema.mjs');
await build({
  entryPoints: [join(root, 'shared-core/book/snapshot.ts')],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  logLevel: 'error',
});
const { snapshotJsonSchemas } = await import(pathToFileURL(outfile).href);
const text = `${JSON.stringify(snapshotJsonSchemas(), null, 2)}\n`;
const [file] = process.argv.slice(2);
if (file === undefined) process.stdout.write(text);
else {
  mkdirSync(dirname(resolve(file)), { recursive: true });
  writeFileSync(file, text);
}
