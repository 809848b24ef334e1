/**
 * `npm run mutate [-- --files PATH] [-- --changed] [-- --sample N] [-- --seed S]`: changes one place of the code at a time and counts how
 * many changes the tests notice. The changes are a seeded sample of all that Stryker's mutators make in shared-core, or in the files
 * named; `--changed` names those that differ from the main branch. Each meets the tests of its own folder first, then every test of
 * shared-core that imports its file.
 */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { Instrumenter } from '@stryker-mutator/instrumenter';
import { entryOf, ROOT, runQuietly } from './local-tool.mjs';

process.chdir(ROOT);
const { values } = parseArgs({
  options: {
    files: { type: 'string', multiple: true },
    changed: { type: 'boolean', default: false },
    sample: { type: 'string', default: '60' },
    seed: { type: 'string', default: '20260512' },
  },
});
/** A change that makes a test run longer than this counts as noticed, ms. */
const LIMIT_MS = 300_000;

/** Park and Miller's generator, so that a sample can be had again. */
function* random(seed) {
  for (let state = seed % 2147483647 || 1; ; ) {
    state = (state * 48271) % 2147483647;
    yield state / 2147483647;
  }
}

const allFiles = () =>
  readdirSync('shared-core', { recursive: true })
    .map((name) => join('shared-core', String(name)).replaceAll('\\', '/'))
    .filter((name) => name.endsWith('.ts') && !/type-widths|\/sample\//.test(name))
    .sort();

function changedFiles() {
  const { stdout, status } = spawnSync('git', ['diff', '--name-only', 'main', '--', 'shared-core'], { encoding: 'utf8' });
  if (status !== 0) throw new Error('git could not compare with the branch main.');
  return stdout.split('\n').filter((name) => name.endsWith('.ts'));
}

/** Every change of the files, each with its place in the text. Words are checked by reading, not by changes. */
async function mutantsOf(files) {
  const silent = Object.fromEntries(['debug', 'trace', 'info', 'warn', 'error', 'fatal'].map((level) => [level, () => undefined]));
  const instrumenter = new Instrumenter({ ...silent, isDebugEnabled: () => false, isTraceEnabled: () => false });
  const sources = files.map((name) => ({ name, content: readFileSync(name, 'utf8'), mutate: true }));
  const options = { plugins: null, excludedMutations: ['StringLiteral'], ignorers: [], noHeader: true };
  const { mutants } = await instrumenter.instrument(sources, options);
  const text = new Map(sources.map(({ name, content }) => [name, content]));
  const offset = (name, { line, column }) =>
    (text.get(name) ?? '')
      .split('\n')
      .slice(0, line)
      .reduce((sum, one) => sum + one.length + 1, 0) + column;
  return mutants.map(({ fileName, location, replacement, mutatorName }) => {
    const [from, to] = [offset(fileName, location.start), offset(fileName, location.end)];
    const before = (text.get(fileName) ?? '').slice(from, to);
    return { file: fileName, line: location.start.line + 1, from, to, before, after: replacement, kind: mutatorName };
  });
}

function sampleOf(mutants) {
  const numbers = random(Number(values.seed));
  const left = [...mutants];
  const taken = [];
  while (taken.length < Number(values.sample) && left.length > 0)
    taken.push(...left.splice(Math.floor(numbers.next().value * left.length), 1));
  return taken;
}

/** Runs tests with one change in place. */
async function passes(mutant, args) {
  const { code } = await runQuietly(
    process.execPath,
    [entryOf('vitest'), ...args, '--config', 'build/mutate.vitest.config.ts', '--bail=1'],
    {
      env: { ...process.env, STRAIGHTEDGE_MUTANT: mutant === null ? '' : JSON.stringify(mutant) },
      timeout: LIMIT_MS,
      killSignal: 'SIGKILL',
    },
  );
  return code === 0;
}

const ownTests = (file) => ['run', '--passWithNoTests', `test/${file.split('/').slice(0, 2).join('/')}/`];
const short = (code) => code.replace(/\s+/g, ' ').slice(0, 90);

const files = values.files ?? (values.changed ? changedFiles() : allFiles());
const sample = sampleOf(await mutantsOf(files));
if (sample.length === 0) {
  console.log('Nothing of shared-core to change.');
  process.exit(0);
}
console.log(`Seed ${values.seed}: ${sample.length} changes in ${new Set(sample.map((one) => one.file)).size} files`);
for (const own of new Set(sample.map(({ file }) => ownTests(file).at(-1))))
  if (!(await passes(null, ['run', '--passWithNoTests', own]))) throw new Error(`The tests of ${own} fail before anything is changed.`);

let noticed = 0;
const queue = [...sample];
async function work() {
  for (let mutant = queue.shift(); mutant !== undefined; mutant = queue.shift()) {
    const survived = (await passes(mutant, ownTests(mutant.file))) && (await passes(mutant, ['related', '--run', mutant.file]));
    noticed += survived ? 0 : 1;
    const { file, line, kind, before, after } = mutant;
    console.log(`${survived ? 'MISSED ' : 'noticed'} ${file}:${line} ${kind}: ${short(before)} -> ${short(after)}`);
  }
}
await Promise.all([work(), work()]);
console.log(`Mutation score: ${noticed} of ${sample.length} (${Math.round((100 * noticed) / sample.length)}%). Seed ${values.seed}.`);
