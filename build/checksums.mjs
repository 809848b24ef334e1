/** `npm run checksums [folder]`: copies installers to .out/release with their SHA-256 sums, in the format of `sha256sum --check`. */
import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { ROOT } from './local-tool.mjs';
import { removeFolder } from './remove-folder.mjs';

const INSTALLER = /\.(AppImage|deb|exe|dmg)$/;
const from = resolve(process.env.INIT_CWD ?? process.cwd(), process.argv[2] ?? join(ROOT, '.out', 'packages'));
const to = join(ROOT, '.out', 'release');

const installers = readdirSync(from, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && INSTALLER.test(entry.name) && !entry.parentPath.includes('unpacked'))
  .map((entry) => ({ name: entry.name, path: join(entry.parentPath, entry.name) }))
  .sort((a, b) => (a.name < b.name ? -1 : 1));
if (installers.length === 0) {
  console.error(`There are no installers in ${from}. Run npm run package first.`);
  process.exit(1);
}
const twice = installers.find(({ name }, i) => installers[i + 1]?.name === name);
if (twice !== undefined) throw new Error(`Two installers are named ${twice.name}.`);
removeFolder(to);
mkdirSync(to, { recursive: true });
const sums = installers.map(({ name, path }) => {
  copyFileSync(path, join(to, name));
  return `${createHash('sha256').update(readFileSync(path)).digest('hex')}  ${name}\n`;
});
writeFileSync(join(to, 'SHA256SUMS'), sums.join(''));
process.stdout.write(sums.join(''));
