/** `npm run shell`: runs the program with the real Electron, and one journey in it. On Linux without a display it needs `xvfb-run`. */
import { spawnSync } from 'node:child_process';
import { findRuntime } from './electron-runtime.mjs';
import { entryOf, ROOT } from './local-tool.mjs';
import { buildWhenChanged, installPackages, inWords, Sentence } from './ready.mjs';

await inWords(async () => {
  installPackages();
  await buildWhenChanged();
  const runtime = findRuntime();
  if (runtime.path === null) throw new Sentence(`The real shell cannot be tested here: ${runtime.why}.`);
  const run = [process.execPath, entryOf('@playwright/test', 'playwright'), 'test', '--config', 'build/shell.config.ts', '--reporter=list'];
  const isBlind = process.platform === 'linux' && !process.env.DISPLAY && !process.env.WAYLAND_DISPLAY;
  const [program, ...args] = isBlind ? ['xvfb-run', '--auto-servernum', ...run] : run;
  const { status, error } = spawnSync(program, args, {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, STRAIGHTEDGE_TEST_ELECTRON: runtime.path },
  });
  if (error?.code === 'ENOENT') throw new Sentence('There is no display and no xvfb-run. Install xvfb, then run this again.');
  process.exit(status ?? 1);
});
