/** The licenses of everything that is shipped, read from the packages whose code or fonts are in the built program. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

const TEXT_NAME = /^(licen[cs]e|copying|ofl)([.-].*)?$/i;

/** The package folders that these files lie in. */
function packageFolders(root, files) {
  const found = new Set();
  for (const file of files) {
    const at = file.lastIndexOf('node_modules/');
    if (at < 0) continue;
    const [first, second] = file.slice(at + 'node_modules/'.length).split('/');
    found.add(join(root, file.slice(0, at), 'node_modules', first.startsWith('@') ? join(first, second) : first));
  }
  return [...found];
}

/** A package and all it needs at run time, where it is shipped as a package. */
function withDependencies(root, name, into = new Set(), from = root) {
  let at = from;
  while (!existsSync(join(at, 'node_modules', name, 'package.json'))) {
    if (at === dirname(at)) return into;
    at = dirname(at);
  }
  const folder = join(at, 'node_modules', name);
  if (into.has(folder)) return into;
  into.add(folder);
  const { dependencies = {} } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  for (const needed of Object.keys(dependencies)) withDependencies(root, needed, into, folder);
  return into;
}

function licenseOf(folder) {
  const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = readdirSync(folder).find((name) => TEXT_NAME.test(name));
  const license = typeof about.license === 'string' ? about.license : (about.license?.type ?? about.licenses?.[0]?.type ?? '');
  return { name: about.name, version: about.version, license, text: file === undefined ? '' : readFileSync(join(folder, file), 'utf8') };
}

/**
 * Writes the list as JSON.
 * @param files paths below node_modules that were bundled
 * @param packages names shipped as they are
 */
export function writeLicenses(root, files, packages, target) {
  const folders = new Set(packageFolders(root, files));
  for (const name of packages) for (const folder of withDependencies(root, name)) folders.add(folder);
  const list = [...folders].map(licenseOf).sort((a, b) => (a.name < b.name ? -1 : 1));
  const seen = new Set();
  const once = list.filter(({ name, version }) => !seen.has(`${name} ${version}`) && seen.add(`${name} ${version}`));
  writeFileSync(target, `${JSON.stringify(once, null, 1)}\n`);
  return once;
}
