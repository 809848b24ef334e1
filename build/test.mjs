/** `npm test`: installs what it needs, runs every check and test, and prints the counts. */
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { entryOf, ROOT, runQuietly } from './local-tool.mjs';
import { buildWhenChanged, installPackages, inWords } from './ready.mjs';

/** Lines of a failed step to print. */
const SHOWN_LINES = 120;

async function run(name, script, args = [], options = {}) {
  const { code, text, seconds } = await runQuietly(process.execPath, [script, ...args], options);
  console.log(`${code === 0 ? 'ok  ' : 'FAIL'} ${name} (${seconds.toFixed(0)} s)`);
  if (code !== 0) console.log(text.split('\n').slice(-SHOWN_LINES).join('\n'));
  return { name, ok: code === 0 };
}

async function build() {
  const started = performance.now();
  try {
    await buildWhenChanged();
    console.log(`ok   build (${((performance.now() - started) / 1000).toFixed(0)} s)`);
    return { name: 'build', ok: true };
  } catch (error) {
    console.log(`FAIL build\n${error.stack ?? error}`);
    return { name: 'build', ok: false };
  }
}

const read = (file) => (existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null);

/** Counts from a runner's report. A missing report counts as one failure. */
function countUnits(result) {
  const report = read('.cache/units.json');
  if (report === null) return { passed: 0, failed: 1 };
  const broken = report.testResults.filter((f) => f.status === 'failed' && f.assertionResults.length === 0).length;
  const failed = report.numFailedTests + broken;
  return { passed: report.numPassedTests, failed: failed === 0 && !result.ok ? 1 : failed };
}
function countJourneys(result) {
  const report = read('.cache/journeys.json');
  if (report === null) return { passed: 0, failed: 1 };
  const failed = report.stats.unexpected + report.stats.flaky + report.errors.length;
  return { passed: report.stats.expected, failed: failed === 0 && !result.ok ? 1 : failed };
}

async function test() {
  process.chdir(ROOT);
  installPackages();
  mkdirSync('.cache', { recursive: true });
  const { installPrograms } = await import('./test-programs.mjs');
  await installPrograms();
  for (const file of ['.cache/units.json', '.cache/journeys.json']) rmSync(file, { force: true });

  let passed = 0;
  let failed = 0;
  const add = (counts) => {
    passed += counts.passed;
    failed += counts.failed;
  };
  const check = (result) => add({ passed: result.ok ? 1 : 0, failed: result.ok ? 0 : 1 });

  // Most tests need the build, so it runs first; then the checks share both processors.
  check(await build());
  const checks = [
    () => run('lint', 'build/lint.mjs'),
    async () => [
      await run('types', 'build/check-types.mjs'),
      await run('layers', 'build/check-layers.mjs'),
      await run('unused code', entryOf('knip'), ['--config', 'build/knip.json']),
      await run('licenses', 'build/check-licenses.mjs'),
      await run('workflows', 'build/check-workflows.mjs'),
    ],
  ];
  for (const results of await Promise.all(checks.map((start) => start()))) for (const one of [results].flat()) check(one);

  add(
    countUnits(
      // A larger young generation: a tenth of the time was the collector's.
      await run('unit, reference and fault tests', '--max-semi-space-size=64', [
        entryOf('vitest'),
        'run',
        '--config',
        'build/vitest.config.ts',
        '--reporter=default',
        '--reporter=json',
        '--outputFile.json=.cache/units.json',
      ]),
    ),
  );
  add(
    countJourneys(
      await run(
        'journeys',
        entryOf('@playwright/test', 'playwright'),
        ['test', '--config', 'build/playwright.config.ts', '--reporter=list,json'],
        { env: { ...process.env, PLAYWRIGHT_JSON_OUTPUT_NAME: join(ROOT, '.cache', 'journeys.json') } },
      ),
    ),
  );
  console.log(`${passed} passed, ${failed} failed`);
  process.exit(failed === 0 ? 0 : 1);
}

await inWords(test);
