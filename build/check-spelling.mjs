/**
 * `npm run spelling [files]`, also part of `npm run lint`: US spelling and one name per concept, in strings, names, comments and documents.
 * Trade words are in words.txt. A word of `flagWords` in cspell.json fails with the word to use. `-- --list` prints each unknown word once.
 */
import { entryOf, ROOT, runQuietly } from './local-tool.mjs';

process.chdir(ROOT);
const isList = process.argv.includes('--list');
const files = process.argv.slice(2).filter((word) => word !== '--list');
const { text } = await runQuietly(process.execPath, [
  entryOf('cspell'),
  'lint',
  '--config',
  'build/cspell.json',
  '--no-progress',
  '--no-color',
  '--cache',
  '--cache-strategy',
  'content',
  '--cache-location',
  '.cache/cspell',
  '--show-suggestions',
  ...(files.length > 0
    ? ['--no-must-find-files', ...files]
    : ['{shared-core,main,renderer,test,build}/**/*.{ts,tsx,mjs,cjs,js,css,html}', '*.md', '.github/**/*.yml']),
]);
const read = Number(/Files checked: (\d+)/.exec(text)?.[1] ?? 0);
const issues = text.split('\n').filter((line) => /(Unknown|Forbidden|Flagged) word/.test(line));
const wordOf = (line) => (/\(([^)]+)\)/.exec(line)?.[1] ?? '').toLowerCase();
if (isList) {
  const counts = new Map();
  for (const line of issues) counts.set(wordOf(line), (counts.get(wordOf(line)) ?? 0) + 1);
  for (const [word, count] of [...counts].sort((a, b) => b[1] - a[1])) console.log(`${count} ${word}`);
} else for (const line of issues) console.log(line);
const isComplete = files.length > 0 || read >= 500;
if (!isComplete) console.log(text.split('\n').slice(-20).join('\n'));
const flagged = issues.filter((line) => !line.includes('Unknown word')).length;
console.log(`Spelling: ${read} files read, ${issues.length - flagged} unknown words, ${flagged} replaced words.`);
process.exitCode = issues.length === 0 && isComplete ? 0 : 1;
