/** `npm start`: installs, builds, and opens Straightedge in Electron where its runtime is available, otherwise in a browser window. */
import { spawn } from 'node:child_process';
import { resolve } from 'node:path';
import { findRuntime } from './electron-runtime.mjs';
import { buildWhenChanged, installPackages, inWords } from './ready.mjs';

/** A backup's path is relative to the folder the command was run in. */
const from = process.env.INIT_CWD ?? process.cwd();
const given = process.argv.slice(2).map((argument) => (argument.startsWith('-') ? argument : resolve(from, argument)));

function run(program, args) {
  const child = spawn(program, args, { stdio: 'inherit' });
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
  child.on('exit', (code) => process.exit(code ?? 0));
}

await inWords(async () => {
  installPackages();
  await buildWhenChanged();
  const runtime = findRuntime();
  if (runtime.path !== null) {
    console.log(`Opening in Electron: ${runtime.why}.`);
    run(runtime.path, [...(process.getuid?.() === 0 ? ['--no-sandbox'] : []), '.', ...given]);
  } else {
    console.log(`Not in Electron: ${runtime.why}. Using a browser on this machine instead.`);
    run(process.execPath, ['.out/main/loopback.mjs', ...given]);
  }
});
