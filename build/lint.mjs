/** `npm run lint [files]`: rules that need types (oxlint), rules of one file (ESLint), the formatter's check, the spelling and the style sheets. */
import { readdirSync } from 'node:fs';
import { checkStyles } from './check-styles.mjs';
import { entryOf, ROOT, runQuietly } from './local-tool.mjs';

process.chdir(ROOT);
const FOLDERS = ['shared-core', 'main', 'renderer', 'test', 'build'];
const files = process.argv.slice(2);
const sources = FOLDERS.flatMap((folder) => readdirSync(folder, { recursive: true }).filter((name) => /\.tsx?$/.test(String(name)))).length;

/** Fails when oxlint read too few files, so that it cannot pass by reading none. */
function typed({ code, text }) {
  const read = Number(/ on (\d+) files/.exec(text)?.[1] ?? 0);
  if (code !== 0 || files.length > 0 || read >= sources * 0.95) return { code, text };
  return { code: 1, text: `${text}\noxlint read ${read} of ${sources} files.\n` };
}

const node = process.execPath;
const [typeRules, fileRules, format, spelling, styles] = await Promise.all([
  runQuietly(node, [entryOf('oxlint'), '--type-aware', '-c', 'build/oxlint.json', ...(files.length > 0 ? files : FOLDERS)]).then(typed),
  runQuietly(node, [
    entryOf('eslint'),
    '--config',
    'build/eslint.config.js',
    '--max-warnings',
    '0',
    ...(files.length > 0 ? ['--no-warn-ignored', ...files] : ['.']),
  ]),
  runQuietly(node, [entryOf('@biomejs/biome', 'biome'), 'format', '--config-path=build', ...(files.length > 0 ? files : ['.'])]),
  runQuietly(node, ['build/check-spelling.mjs', ...files]),
  checkStyles().then((problems) => ({ code: problems.length, text: problems.map((one) => `${one}\n`).join('') })),
]);
let failed = 0;
for (const [name, { code, text }] of Object.entries({
  'rules with types': typeRules,
  'rules of a file': fileRules,
  format,
  spelling,
  styles,
})) {
  if (code !== 0) process.stdout.write(text);
  console.log(`${code === 0 ? 'ok  ' : 'FAIL'} ${name}`);
  failed += code === 0 ? 0 : 1;
}
process.exitCode = failed === 0 ? 0 : 1;
