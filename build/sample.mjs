/** `npm run sample -- --out DIR`: builds the sample data and writes its documents. */
import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { runHere } from './local-tool.mjs';
import { installPackages, inWords } from './ready.mjs';

const from = process.env.INIT_CWD ?? process.cwd();
await inWords(async () => {
  installPackages();
  const { copyFonts } = await import('./fonts.mjs');
  const { buildHosts } = await import('./bundle.mjs');
  mkdirSync('.out', { recursive: true });
  copyFonts('.out/fonts');
  await buildHosts();
  const flag = process.argv.indexOf('--out');
  const out = resolve(from, (flag > 0 ? process.argv[flag + 1] : undefined) ?? 'sample-documents');
  process.exit(runHere('.out/main/sample.mjs', [out]));
});
