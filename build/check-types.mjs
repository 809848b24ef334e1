/** Type-checks every folder under its own configuration, two at a time. */
import { spawn } from 'node:child_process';

const PROJECTS = ['shared-core', 'main', 'main/electron', 'renderer', 'test'];
const run = (project) =>
  new Promise((resolve) => {
    const child = spawn(
      'npx',
      ['tsc', '-p', project, '--incremental', '--tsBuildInfoFile', `.cache/types/${project.replace('/', '-')}.tsbuildinfo`],
      { stdio: 'inherit' },
    );
    child.on('exit', (code) => resolve({ project, code }));
  });

const waiting = [...PROJECTS];
const results = [];
const worker = async () => {
  for (let p = waiting.shift(); p !== undefined; p = waiting.shift()) results.push(await run(p));
};
await Promise.all([worker(), worker()]);
const failed = results.filter((r) => r.code !== 0).map((r) => r.project);
console.log(failed.length === 0 ? `Types: ${PROJECTS.length} folders clean.` : `Types: errors in ${failed.join(', ')}.`);
process.exit(failed.length === 0 ? 0 : 1);
