/**
 * `npm run mutate [-- --files GLOB] [-- --sample N] [-- --seed S]`: makes small changes to the code and counts how many the tests detect.
 * Without files it takes a seeded sample of shared-core; `--changed` takes files that differ from the main branch.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { entryOf, ROOT, runHere } from './local-tool.mjs';

process.chdir(ROOT);
const { values } = parseArgs({
  options: {
    files: { type: 'string', multiple: true },
    changed: { type: 'boolean', default: false },
    sample: { type: 'string', default: '12' },
    seed: { type: 'string', default: '20260512' },
  },
});

/** Park and Miller's generator, so that a sample can be repeated. */
function* random(seed) {
  for (let state = seed % 2147483647 || 1; ; ) {
    state = (state * 48271) % 2147483647;
    yield state / 2147483647;
  }
}

const sources = (folder) =>
  readdirSync(folder, { recursive: true })
    .map((name) => join(folder, String(name)).replaceAll('\\', '/'))
    .filter((name) => /\.ts$/.test(name) && !/type-widths|\/sample\//.test(name))
    .sort();

function changedFiles() {
  const { stdout, status } = spawnSync('git', ['diff', '--name-only', 'main', '--', 'shared-core'], { encoding: 'utf8' });
  if (status !== 0) throw new Error('git could not compare with the branch main.');
  return stdout.split('\n').filter((name) => name.endsWith('.ts'));
}

function sampledFiles() {
  const numbers = random(Number(values.seed));
  const left = sources('shared-core');
  const taken = [];
  while (taken.length < Number(values.sample) && left.length > 0)
    taken.push(...left.splice(Math.floor(numbers.next().value * left.length), 1));
  return taken;
}

const files = values.files ?? (values.changed ? changedFiles() : sampledFiles());
if (files.length === 0) {
  console.log('No file of shared-core changed.');
  process.exit(0);
}
console.log(`Seed ${values.seed}; ${files.length} files:\n  ${files.join('\n  ')}`);

/** Files by folder, each run with its own tests, which keeps a run short. */
const byFolder = new Map();
for (const file of files) byFolder.set(dirname(file), [...(byFolder.get(dirname(file)) ?? []), file]);

mkdirSync('.cache/mutate', { recursive: true });
let died = 0;
let counted = 0;
for (const [folder, mutate] of byFolder) {
  const config = {
    mutate,
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'build/mutate.vitest.config.ts', related: false },
    coverageAnalysis: 'perTest',
    ignorePatterns: ['.out', '.cache', 'build/pictures'],
    // Words are reviewed by reading, not by mutants.
    mutator: { excludedMutations: ['StringLiteral'] },
    reporters: ['clear-text', 'json'],
    clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
    jsonReporter: { fileName: '.cache/mutate/report.json' },
    tempDirName: '.cache/mutate/sandbox',
    concurrency: 2,
    timeoutMS: 20_000,
    warnings: { slow: false },
    allowConsoleColors: false,
  };
  writeFileSync('.cache/mutate/stryker.config.json', JSON.stringify(config, null, 2));
  const status = runHere(entryOf('@stryker-mutator/core', 'stryker'), ['run', '.cache/mutate/stryker.config.json'], {
    env: { ...process.env, STRAIGHTEDGE_MUTATED: folder },
  });
  if (status !== 0) process.exit(status);
  const { files: report } = JSON.parse(readFileSync('.cache/mutate/report.json', 'utf8'));
  const statuses = Object.values(report).flatMap((file) => file.mutants.map((one) => one.status));
  died += statuses.filter((one) => one === 'Killed' || one === 'Timeout').length;
  counted += statuses.filter((one) => ['Killed', 'Timeout', 'Survived', 'NoCoverage'].includes(one)).length;
}
console.log(
  `Mutation score: ${died} of ${counted} mutants died (${Math.round((100 * died) / Math.max(1, counted))}%). Seed ${values.seed}.`,
);
