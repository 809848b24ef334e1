/**
 * `npm run mutate [-- --files PATH] [-- --changed] [-- --near] [-- --sample N] [-- --seed S]`: changes one place of the code at a time and
 * counts how many changes the tests notice. The changes are a seeded sample of all that Stryker's mutators make in shared-core, or in the
 * files and folders named; `--changed` names those that differ from the main branch. `--near` runs the tests of the changed files' own
 * folders alone, which is quicker and stricter. Left out: the text of string literals (journeys and tests of papers
 * read it), types (no code is left of them), and the sample data.
 *
 * One run of the tests notes which changes each test met; then each change is switched on and its tests are run again (`try-changes.ts`).
 * A change that these did not notice gets a run of its own with the change in place from the start, because some are decided while a
 * module loads, and others are hidden by what a test keeps. The score is a lower bound: time is limited, and a change nobody could notice
 * counts as missed.
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { clearInterval, setInterval } from 'node:timers';
import { parseArgs } from 'node:util';
import { Instrumenter } from '@stryker-mutator/instrumenter';
import { entryOf, ROOT, runQuietly } from './local-tool.mjs';

process.chdir(ROOT);
const { values } = parseArgs({
  options: {
    files: { type: 'string', multiple: true },
    changed: { type: 'boolean', default: false },
    near: { type: 'boolean', default: false },
    sample: { type: 'string', default: '60' },
    seed: { type: 'string', default: '20260512' },
  },
});
const FOLDER = '.cache/mutate';
const LOG = `${FOLDER}/log`;
/** A change that keeps one test for longer than this and many times its own time, or a run alone for longer, counts as noticed, ms. */
const STILL_MS = 90_000;
const STILL_TIMES = 40;
const ALONE_MS = 600_000;
/** The test files given to a run with one change. */
const ALONE_FILES = 4;
const started = performance.now();

/** Park and Miller's generator, so that a sample can be had again. */
function* random(seed) {
  for (let state = seed % 2147483647 || 1; ; ) {
    state = (state * 48271) % 2147483647;
    yield state / 2147483647;
  }
}

const allFiles = (folder) =>
  readdirSync(folder, { recursive: true })
    .map((name) => join(folder, String(name)).replaceAll('\\', '/'))
    .filter((name) => name.endsWith('.ts') && !/type-widths|\/sample\//.test(name))
    .sort();

function changedFiles() {
  const { stdout, status } = spawnSync('git', ['diff', '--name-only', 'refs/heads/main', '--', 'shared-core'], { encoding: 'utf8' });
  if (status !== 0) throw new Error('git could not compare with the branch main.');
  return stdout.split('\n').filter((name) => name.endsWith('.ts') && existsSync(name));
}

const silent = Object.fromEntries(['debug', 'trace', 'info', 'warn', 'error', 'fatal'].map((level) => [level, () => undefined]));
const instrumenter = new Instrumenter({ ...silent, isDebugEnabled: () => false, isTraceEnabled: () => false });

/** The files with their changes in place; `mutate` is true for all changes or the ranges to change. */
function instrument(files) {
  const sources = files.map(([name, mutate]) => ({ name, content: readFileSync(name, 'utf8'), mutate }));
  return instrumenter.instrument(sources, { plugins: null, excludedMutations: ['StringLiteral'], ignorers: [], noHeader: false });
}

function sampleOf(mutants) {
  const numbers = random(Number(values.seed));
  const left = [...mutants];
  const taken = [];
  while (taken.length < Number(values.sample) && left.length > 0)
    taken.push(...left.splice(Math.floor(numbers.next().value * left.length), 1));
  return taken;
}

function groupsOf(list, nameOf) {
  const groups = new Map();
  for (const one of list) groups.set(nameOf(one), [...(groups.get(nameOf(one)) ?? []), one]);
  return groups;
}

const keyOf = ({ fileName, location, replacement, mutatorName }) => JSON.stringify([fileName, location, replacement, mutatorName]);

/** Writes the sources that hold the sample; returns the changes under the number each has in them. */
async function writeSources(sample) {
  const wanted = new Map(sample.map((mutant) => [keyOf(mutant), mutant]));
  const ranges = groupsOf(sample, ({ fileName }) => fileName);
  const { files, mutants } = await instrument([...ranges].map(([name, inFile]) => [name, inFile.map(({ location }) => location)]));
  writeFileSync(`${FOLDER}/sources.json`, JSON.stringify(Object.fromEntries(files.map(({ name, content }) => [name, content]))));
  const numbered = new Map();
  for (const mutant of mutants) if (wanted.delete(keyOf(mutant))) numbered.set(mutant.id, mutant);
  if (wanted.size > 0) throw new Error(`${wanted.size} of the sampled changes could not be placed.`);
  return numbered;
}

const readLog = () =>
  readFileSync(LOG, 'utf8')
    .split('\n')
    .filter(Boolean)
    .map((line) => line.split('\t'));
const folderOf = ({ fileName }) => fileName.split('/').slice(0, -1).join('/');
const ids = (lines, ...words) => new Set(lines.filter(([word]) => words.includes(word)).map(([, id]) => id));
const vitest = (args) => [entryOf('vitest'), ...args, '--config', 'build/mutate.vitest.config.ts'];

/** One run that tries every change; begins again without the change when one stands still. */
async function tryAll(numbered) {
  writeFileSync(LOG, '');
  for (;;) {
    const done = ids(readLog(), 'noticed', 'unsure', 'endless', 'missed', 'stopped');
    const left = [...numbered].filter(([id]) => !done.has(id)).map(([id, mutant]) => ({ id, tests: `/test/${folderOf(mutant)}/` }));
    writeFileSync(`${FOLDER}/wanted.json`, JSON.stringify(left));
    const env = { ...process.env, STRAIGHTEDGE_MUTATE: FOLDER };
    const near = values.near
      ? ['build/try-changes.ts', ...new Set([...numbered.values()].map((mutant) => `test/${folderOf(mutant)}/`))]
      : [];
    const child = spawn(process.execPath, vitest(['run', '--reporter=dot', ...near]), {
      env,
      stdio: ['ignore', 'pipe', 'pipe'],
      detached: true,
    });
    let text = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => (text += part));
    const ended = new Promise((resolve) => child.on('close', resolve));
    const watch = setInterval(() => {
      const [word, , , ms] = readLog().at(-1) ?? [];
      if (word === 'try' && Date.now() - statSync(LOG).mtimeMs > STILL_MS + STILL_TIMES * Number(ms)) process.kill(-child.pid, 'SIGKILL');
    }, 5000);
    const code = await ended;
    clearInterval(watch);
    if (code === 0) return;
    const last = readLog().at(-1);
    if (code !== null || last?.[0] !== 'try') throw new Error(`The tests fail before anything is changed.\n${text.slice(-4000)}`);
    writeFileSync(LOG, `endless\t${last[1]}\t${last[2]}\n`, { flag: 'a' });
  }
}

/**
 * Whether a run with one change in place from the start goes wrong: the tests that met it, of its own folder first. What a module decides
 * while it loads may matter to any test of the folder.
 */
async function isNoticedAlone(id, mutant, { when, tests }) {
  const own = `test/${folderOf(mutant)}/`;
  const nearest = [...(when === 'later' && tests.length > 0 ? [] : [own]), ...tests.slice(0, ALONE_FILES)];
  const args = tests.length > 0 || existsSync(own) ? ['run', ...nearest] : ['related', '--run', mutant.fileName];
  const { code } = await runQuietly(process.execPath, vitest([...args, '--bail=1']), {
    env: { ...process.env, __STRYKER_ACTIVE_MUTANT__: id },
    timeout: ALONE_MS,
    killSignal: 'SIGKILL',
  });
  return code !== 0;
}

const short = (code) => code.replace(/\s+/g, ' ').slice(0, 90);
const textOf = ({ fileName, location: { start, end } }) => {
  const lines = readFileSync(fileName, 'utf8')
    .split('\n')
    .slice(start.line, end.line + 1);
  lines[lines.length - 1] = lines.at(-1).slice(0, end.column);
  return lines.join('\n').slice(start.column);
};
function tell(isNoticed, mutant, by) {
  const place = `${mutant.fileName}:${mutant.location.start.line + 1}`;
  const change = `${mutant.mutatorName}: ${short(textOf(mutant))} -> ${short(mutant.replacement)}`;
  console.log(`${isNoticed ? 'noticed' : 'MISSED '} ${place} ${change}${by === undefined ? '' : `  [${by}]`}`);
}

function tellScores(numbered, noticed) {
  for (const [folder, inFolder] of [...groupsOf(numbered, ([, mutant]) => folderOf(mutant))].sort())
    console.log(`${folder}: ${inFolder.filter(([id]) => noticed.has(id)).length} of ${inFolder.length}`);
  const [count, all] = [noticed.size, numbered.size];
  const minutes = ((performance.now() - started) / 60_000).toFixed(1);
  console.log(`Mutation score: ${count} of ${all} (${Math.round((100 * count) / all)}%). Seed ${values.seed}, ${minutes} min.`);
}

async function mutate() {
  mkdirSync(FOLDER, { recursive: true });
  const named = values.files?.flatMap((path) => (path.endsWith('.ts') ? [path] : allFiles(path)));
  const files = named ?? (values.changed ? changedFiles() : allFiles('shared-core'));
  const mutants = (await instrument(files.map((name) => [name, true]))).mutants.filter(({ status }) => status !== 'Ignored');
  const sample = sampleOf(mutants);
  if (sample.length === 0) return console.log('Nothing of shared-core to change.');
  console.log(
    `Seed ${values.seed}: ${sample.length} of ${mutants.length} changes, in ${new Set(sample.map((one) => one.fileName)).size} files`,
  );
  const numbered = await writeSources(sample);
  await tryAll(numbered);
  const lines = readLog();
  const noticed = ids(lines, 'noticed', 'endless');
  const met = new Map(lines.filter(([word]) => word === 'met').map(([, id, when, ...tests]) => [id, { when, tests }]));
  const by = new Map(lines.filter(([word]) => word === 'noticed' || word === 'endless').map(([, id, test]) => [id, test]));
  for (const [id, mutant] of numbered) {
    if (!noticed.has(id) && (await isNoticedAlone(id, mutant, met.get(id) ?? { when: 'later', tests: [] }))) noticed.add(id);
    tell(noticed.has(id), mutant, by.get(id));
  }
  tellScores(numbered, noticed);
}

await mutate();
