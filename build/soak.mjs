/**
 * `npm run soak`: tests too long for `npm test`. Hundreds of kills, and with STRAIGHTEDGE_WINDOWS_NODE (a command that runs Node for
 * Windows here) also the desk's tests, the start, the package and three journeys under it. STRAIGHTEDGE_WINDOWS_ROOT is that Node's name
 * for this system's root folder (default `Z:`).
 */
import { mkdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import { entryOf, ROOT, runQuietly } from './local-tool.mjs';
import { buildWhenChanged, installPackages, inWords } from './ready.mjs';
import { removeFolder } from './remove-folder.mjs';

const JOURNEYS_ON_WINDOWS = ['whole-job', 'backup', 'customers'];
const KILLS = process.env.STRAIGHTEDGE_KILLS ?? '100';
/** Another seed each day, or the one that is to be repeated. */
const SEED = process.env.STRAIGHTEDGE_SEED ?? new Date().toISOString().slice(0, 10).replaceAll('-', '');
/** One part alone: `kills`, `long` or `windows`. */
const PART = process.env.STRAIGHTEDGE_SOAK;
const results = [];

async function step(name, command, args, environment = {}) {
  const { code, text, seconds } = await runQuietly(command, args, { env: { ...process.env, ...environment } });
  console.log(`${code === 0 ? 'ok  ' : 'FAIL'} ${name} (${seconds.toFixed(0)} s)`);
  if (code !== 0) console.log(text.split('\n').slice(-80).join('\n'));
  results.push(code === 0);
  return code === 0;
}

const vitest = (...files) => [entryOf('vitest'), 'run', '--config', 'build/vitest.config.ts', ...files];
const playwright = (...files) => [
  entryOf('@playwright/test', 'playwright'),
  'test',
  '--config',
  'build/playwright.config.ts',
  '--workers=1',
  ...files,
];

/** Kills of each kind: of the host in a backup, of the browser in a pour log and in edits, imports and restores. And a full disk. */
async function kills() {
  const environment = { STRAIGHTEDGE_KILLS: KILLS, STRAIGHTEDGE_SEED: SEED };
  await step(
    `${KILLS} kills each in backups, pour logs, and edits with imports and restores (seed ${SEED})`,
    process.execPath,
    vitest('test/faults/backup-kill.test.ts', 'test/faults/browser-kill.test.ts', 'test/faults/full-profile.test.ts'),
    environment,
  );
  const inAPour = String(Math.ceil(Number(KILLS) / 10));
  await step(`${inAPour} kills of the whole program in a pour (seed ${SEED})`, process.execPath, playwright('pour-kill'), {
    ...environment,
    STRAIGHTEDGE_KILLS: inAPour,
  });
}

/** What `npm test` does with one seed and in seconds. */
async function longRuns() {
  await step(`the unit tests with another seed (${SEED})`, process.execPath, vitest(), { STRAIGHTEDGE_SEED: SEED });
  await step('the pour clock over two minutes', process.execPath, playwright('pour-clock'), { STRAIGHTEDGE_CLOCK_SECONDS: '120' });
}

/** Paths as Node for Windows writes them. */
const theirs = (root, path) => `${root}${resolve(path).replaceAll('/', '\\')}`;

async function deskOnWindows([program, ...args], root) {
  const folder = join(ROOT, '.cache', 'soak');
  removeFolder(folder);
  mkdirSync(folder, { recursive: true });
  const script = join(ROOT, '.cache', 'soak', 'desk.mjs');
  const result = join(folder, 'desk.json');
  await build({
    entryPoints: ['test/soak/desk-anywhere.ts'],
    outfile: script,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    alias: { vitest: './test/soak/small-runner.ts' },
    external: ['pdfkit', 'esbuild', 'vite', 'lightningcss'],
    define: { __ARITHMETIC__: '"tested"' },
    logLevel: 'error',
    banner: { js: "import { createRequire as soakRequire } from 'node:module'; const require = soakRequire(import.meta.url);" },
  });
  await step('the desk’s tests under Node for Windows: run', program, [...args, theirs(root, script), theirs(root, result)]);
  const { platform, passed, failed, lines } = JSON.parse(readFileSync(result, 'utf8'));
  for (const line of lines) console.log(line);
  console.log(`${failed === 0 ? 'ok  ' : 'FAIL'} the desk’s tests on ${platform}: ${passed} passed, ${failed} failed`);
  results.push(platform === 'win32' && passed > 50 && failed === 0);
}

async function onWindows(command, root) {
  await deskOnWindows(command, root);
  // That Node resolves this system's paths from the current drive's root.
  await step('the sample’s documents by Node for Windows', command[0], [
    ...command.slice(1),
    theirs(root, '.out/main/sample.mjs'),
    theirs(root, '.cache/soak/sample'),
  ]);
  await step(
    `whole journeys against the host on Windows: ${JOURNEYS_ON_WINDOWS.join(', ')}`,
    process.execPath,
    playwright(...JOURNEYS_ON_WINDOWS),
    {
      STRAIGHTEDGE_TEST_NODE: command.join(' '),
      STRAIGHTEDGE_TEST_NODE_ROOT: root,
    },
  );
}

await inWords(async () => {
  process.chdir(ROOT);
  installPackages();
  await buildWhenChanged();
  const windows = process.env.STRAIGHTEDGE_WINDOWS_NODE;
  const isWanted = (part) => PART === undefined || PART === part;
  if (isWanted('kills')) await kills();
  if (isWanted('long')) await longRuns();
  if (isWanted('windows') && windows !== undefined) await onWindows(windows.split(' '), process.env.STRAIGHTEDGE_WINDOWS_ROOT ?? 'Z:');
  if (windows === undefined) console.log('Not run: Node for Windows. Set STRAIGHTEDGE_WINDOWS_NODE to a command that runs it.');
  console.log(`${results.filter((ok) => ok).length} passed, ${results.filter((ok) => !ok).length} failed`);
  process.exit(results.every((ok) => ok) ? 0 : 1);
});
