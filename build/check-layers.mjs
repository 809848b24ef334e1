/** Checks the layer rules, and fails when it read too few modules, so that it cannot pass by reading none. */
import { readdirSync } from 'node:fs';
import { entryOf, ROOT } from './local-tool.mjs';
import { spawnSync } from 'node:child_process';

process.chdir(ROOT);
const sources = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true }).filter((e) => e.isFile() && /\.tsx?$/.test(e.name)).length;
const expected = sources('shared-core') + sources('main') + sources('renderer');

const { stdout } = spawnSync(
  process.execPath,
  [entryOf('dependency-cruiser', 'depcruise'), '--config', 'build/layers.cjs', '--output-type', 'json', 'shared-core', 'main', 'renderer'],
  { encoding: 'utf8', maxBuffer: 256 * 1024 * 1024, stdio: ['ignore', 'pipe', 'inherit'] },
);
const { summary, modules } = JSON.parse(stdout);
const ours = modules.filter((m) => /^(shared-core|main|renderer)\/.*\.tsx?$/.test(m.source)).length;
for (const v of summary.violations) console.log(`${v.rule.severity} ${v.rule.name}: ${v.from} -> ${v.to}`);
if (ours < expected * 0.95) {
  console.log(`Layers: only ${ours} of ${expected} modules were read.`);
  process.exit(1);
}
const failed = summary.violations.filter((v) => v.rule.severity === 'error').length;
console.log(`Layers: ${ours} modules read, ${failed} breaches.`);
process.exit(failed === 0 ? 0 : 1);
