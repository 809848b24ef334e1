/** Runs the layer rules and refuses to pass when it read too few modules (a check that reads nothing passes nothing). */
import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';

const sources = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true }).filter((e) => e.isFile() && /\.tsx?$/.test(e.name)).length;
const expected = sources('shared-core') + sources('main') + sources('renderer');

let text;
try {
  text = execFileSync('npx', ['depcruise', '--config', 'build/layers.cjs', '--output-type', 'json', 'shared-core', 'main', 'renderer'], {
    encoding: 'utf8',
    maxBuffer: 256 * 1024 * 1024,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
} catch (error) {
  text = error.stdout ?? '';
}
const { summary, modules } = JSON.parse(text);
const ours = modules.filter((m) => /^(shared-core|main|renderer)\/.*\.tsx?$/.test(m.source)).length;
for (const v of summary.violations) console.log(`${v.rule.severity} ${v.rule.name}: ${v.from} -> ${v.to}`);
if (ours < expected * 0.95) {
  console.log(`The layer check read ${ours} modules of ${expected}: it is not looking.`);
  process.exit(1);
}
const failed = summary.violations.filter((v) => v.rule.severity === 'error').length;
console.log(`Layers: ${ours} modules read, ${failed} breaches.`);
process.exit(failed === 0 ? 0 : 1);
