/** `npm test`: installs what it needs, runs every check and every runner, and closes with the real counts added up. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildWhenChanged, installPackages } from './ready.mjs';

process.chdir(join(dirname(fileURLToPath(import.meta.url)), '..'));
mkdirSync('.cache', { recursive: true });

/** Programs the tests look at things with, and the Debian packages that hold them. */
const NEEDED = { chromium: 'chromium', qpdf: 'qpdf', pdftotext: 'poppler-utils' };
const has = (program) => spawnSync('sh', ['-c', `command -v ${program}`]).status === 0;

function installPrograms() {
  const missing = Object.keys(NEEDED).filter((program) => !has(program));
  if (missing.length === 0) return;
  if (process.getuid?.() !== 0 || !has('apt-get')) {
    console.log(`Missing: ${missing.join(', ')}. Install ${missing.map((m) => NEEDED[m]).join(', ')} with your system's packages.`);
    return;
  }
  console.log(`Installing ${missing.map((m) => NEEDED[m]).join(', ')}…`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  spawnSync('apt-get', ['update', '-qq'], { stdio: 'ignore', env });
  spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...missing.map((m) => NEEDED[m])], {
    stdio: ['ignore', 'ignore', 'inherit'],
    env,
  });
}

const run = (name, command, args) =>
  new Promise((resolve) => {
    const started = Date.now();
    const child = spawn(command, args, { stdio: ['ignore', 'pipe', 'pipe'] });
    let text = '';
    child.stdout.on('data', (d) => (text += d));
    child.stderr.on('data', (d) => (text += d));
    child.on('exit', (code) => {
      const seconds = ((Date.now() - started) / 1000).toFixed(0);
      console.log(`${code === 0 ? 'ok  ' : 'FAIL'} ${name} (${seconds} s)`);
      if (code !== 0) console.log(text.split('\n').slice(-120).join('\n'));
      resolve({ name, ok: code === 0, text });
    });
  });

async function build() {
  try {
    await buildWhenChanged();
    console.log('ok   build');
    return { name: 'build', ok: true };
  } catch (error) {
    console.log(`FAIL build\n${error.stack ?? error}`);
    return { name: 'build', ok: false };
  }
}

const read = (file) => (existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null);

/** Counts of a runner's own report; a runner that left none counts as one failure. */
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

installPackages();
installPrograms();
for (const file of ['.cache/units.json', '.cache/journeys.json']) rmSync(file, { force: true });

let passed = 0;
let failed = 0;
const add = (counts) => {
  passed += counts.passed;
  failed += counts.failed;
};
const check = (result) => add({ passed: result.ok ? 1 : 0, failed: result.ok ? 0 : 1 });

// Lint is the longest and takes one processor; the rest goes beside it.
for (const result of await Promise.all([
  run('lint', 'npx', ['eslint', '--config', 'build/eslint.config.js', '--max-warnings', '0', '.']),
  (async () => {
    const parts = [await run('types', process.execPath, ['build/check-types.mjs'])];
    parts.push(await run('format', 'npx', ['biome', 'format', '--config-path=build', '.']));
    parts.push(await run('layers', process.execPath, ['build/check-layers.mjs']));
    parts.push(await run('unused code', 'npx', ['knip', '--config', 'build/knip.json']));
    parts.push(await build());
    return parts;
  })(),
])) {
  for (const one of Array.isArray(result) ? result : [result]) check(one);
}

add(
  countUnits(
    await run('unit, reference and fault tests', 'npx', [
      'vitest',
      'run',
      '--config',
      'build/vitest.config.ts',
      '--reporter=default',
      '--reporter=json',
      '--outputFile.json=.cache/units.json',
    ]),
  ),
);
process.env.PLAYWRIGHT_JSON_OUTPUT_NAME = join(process.cwd(), '.cache', 'journeys.json');
add(countJourneys(await run('journeys', 'npx', ['playwright', 'test', '--config', 'build/playwright.config.ts', '--reporter=list,json'])));

console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
