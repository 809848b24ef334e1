/** `npm run sample -- --out DIR`: builds the sample book without a screen and writes its papers there. */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { installPackages } from './ready.mjs';

const here = process.env.INIT_CWD ?? process.cwd();
process.chdir(join(dirname(fileURLToPath(import.meta.url)), '..'));
installPackages();
const { buildHosts, copyFonts } = await import('./bundle.mjs');
mkdirSync('.out', { recursive: true });
copyFonts('.out/fonts');
await buildHosts();
const at = process.argv.indexOf('--out');
const out = at > 0 && process.argv[at + 1] !== undefined ? resolve(here, process.argv[at + 1]) : resolve(here, 'sample-papers');
const { status } = spawnSync(process.execPath, ['.out/main/sample.mjs', out], { stdio: 'inherit' });
process.exit(status ?? 1);
