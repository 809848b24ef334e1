/** `npm run lint [files]`: the rules (oxlint.json, lint-rules.mjs), the formatter's check and the spelling. */
import { readdirSync } from 'node:fs';
import { checkStyles } from './check-styles.mjs';
import { entryOf, ROOT, runQuietly } from './local-tool.mjs';

process.chdir(ROOT);
const FOLDERS = ['shared-core', 'main', 'renderer', 'test', 'build'];
const files = process.argv.slice(2);
const sources = FOLDERS.flatMap((folder) => readdirSync(folder, { recursive: true }).filter((name) => /\.tsx?$/.test(String(name)))).length;

/** Fails when oxlint read too few files, so that it cannot pass by reading none. */
function complete({ code, text }) {
  const read = Number(/ on (\d+) files/.exec(text)?.[1] ?? 0);
  if (code !== 0 || files.length > 0 || read >= sources * 0.95) return { code, text };
  return { code: 1, text: `${text}\noxlint read ${read} of ${sources} files.\n` };
}

const node = process.execPath;
const [rules, format, spelling, styles] = await Promise.all([
  runQuietly(node, [entryOf('oxlint'), '--type-aware', '-c', 'build/oxlint.json', ...(files.length > 0 ? files : FOLDERS)]).then(complete),
  runQuietly(node, [entryOf('@biomejs/biome', 'biome'), 'format', '--config-path=build', ...(files.length > 0 ? files : ['.'])]),
  runQuietly(node, ['build/check-spelling.mjs', ...files]),
  checkStyles().then((problems) => ({ code: problems.length, text: problems.map((one) => `${one}\n`).join('') })),
]);
let failed = 0;
for (const [name, { code, text }] of Object.entries({ rules, format, spelling, styles })) {
  if (code !== 0) process.stdout.write(text);
  console.log(`${code === 0 ? 'ok  ' : 'FAIL'} ${name}`);
  failed += code === 0 ? 0 : 1;
}
process.exitCode = failed === 0 ? 0 : 1;
