/** Licenses of everything that ships, read from the packages whose code or fonts are in the built program. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

const TEXT_NAME = /^(licen[cs]e|copying|ofl)([._-].*)?$/i;

/** SPDX names of licenses that allow distribution. Others fail the check. */
const ALLOWED = new Set([
  '0BSD',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'BSL-1.0',
  'CC0-1.0',
  'ISC',
  'MIT',
  'MPL-2.0',
  'OFL-1.1',
  'Unlicense',
  'Zlib',
]);

/** The package folders of these files. */
function packageFolders(root, files) {
  const found = new Set();
  for (const path of files) {
    const file = path.replaceAll('\\', '/');
    const start = file.lastIndexOf('node_modules/');
    if (start < 0) continue;
    const [first, second] = file.slice(start + 'node_modules/'.length).split('/');
    found.add(join(root, file.slice(0, start), 'node_modules', first.startsWith('@') ? join(first, second) : first));
  }
  return [...found];
}

/** A package with its runtime dependencies, where it ships as a package. */
function withDependencies(root, name, into = new Set(), from = root) {
  let folder = from;
  while (!existsSync(join(folder, 'node_modules', name, 'package.json'))) {
    if (folder === dirname(folder)) return into;
    folder = dirname(folder);
  }
  folder = join(folder, 'node_modules', name);
  if (into.has(folder)) return into;
  into.add(folder);
  const { dependencies = {} } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  for (const needed of Object.keys(dependencies)) withDependencies(root, needed, into, folder);
  return into;
}

const require = createRequire(import.meta.url);
const authorOf = ({ author }) => (typeof author === 'string' ? author : (author?.name ?? '')).replace(/\s*[<(].*$/, '');

/** The standard text of a license, for a package that names a license without including its text. */
function standardText(about, license) {
  const path = `spdx-license-list/licenses/${license}.json`;
  let text;
  try {
    text = require(path).licenseText;
  } catch {
    return '';
  }
  return text.replace(/<year>\s*/g, '').replace(/<copyright holders?>/g, authorOf(about) || `the authors of ${about.name}`);
}

/** The wording of the MIT license, for a package that includes the text without a name. */
const readsAsMit = (text) => /Permission is hereby granted, free of charge, to any person obtaining a copy/.test(text);

function licenseOf(folder) {
  const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const files = readdirSync(folder)
    .filter((name) => TEXT_NAME.test(name))
    .sort();
  const found = files.map((file) => readFileSync(join(folder, file), 'utf8').trim()).join('\n\n');
  const named = typeof about.license === 'string' ? about.license : (about.license?.type ?? about.licenses?.[0]?.type ?? '');
  const license = named === 'BSL' ? 'BSL-1.0' : named === '' && readsAsMit(found) ? 'MIT' : named;
  return { name: about.name, version: about.version, license, text: found === '' ? standardText(about, license) : found };
}

/** Why a package may not ship: an unknown license, or no text. Null when it may. */
export function licenseFault({ name, license, text }) {
  const names = license.split(/[\s()]+|\bAND\b|\bOR\b/).filter((word) => word !== '');
  const unknown = names.filter((one) => !ALLOWED.has(one));
  if (names.length === 0) return `${name} names no license.`;
  if (unknown.length > 0) return `${name} has the license ${unknown.join(', ')}, which is not on the list of build/licenses.mjs.`;
  return text.trim() === '' ? `${name} has no license text.` : null;
}

/**
 * Writes the list as JSON.
 * @param files paths below node_modules that were bundled
 * @param packages names of packages that ship unbundled
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
