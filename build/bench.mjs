/**
 * `npm run bench [name]`: runs each bench of test/bench, which compares the program with a plain other way as ratios, and says which goals
 * are met.
 */
import { readdirSync } from 'node:fs';
import { loadSource } from './load-source.mjs';
import { ROOT } from './local-tool.mjs';

process.chdir(ROOT);
const wanted = process.argv[2];
const benches = readdirSync('test/bench').filter((file) => file.endsWith('.ts') && (wanted === undefined || file.startsWith(wanted)));

const figure = (value) => (value >= 100 ? value.toFixed(0) : value.toPrecision(3));
const line = ({ what, ms, ratio, goal, isMet }) =>
  [
    `${figure(ms)} ms`.padStart(10),
    (ratio === null || ratio === undefined ? '' : goal === undefined ? `${figure(ratio)}x faster` : `${figure(ratio)}x as long`).padStart(
      14,
    ),
    ` ${isMet === undefined ? '   ' : isMet ? 'met' : 'NOT'}`,
    ` ${what}${goal === undefined ? '' : ` (goal: ${goal})`}`,
  ].join(' ');

const startedAt = performance.now();
for (const file of benches) {
  const bench = await loadSource(`test/bench/${file}`);
  if (typeof bench.run !== 'function') continue;
  const ran = bench.run();
  for await (const { title, rows, notes } of Symbol.asyncIterator in ran ? ran : [await ran])
    console.log([`\n${title}`, ...rows.map(line), ...notes].join('\n'));
}
console.log(`\n${((performance.now() - startedAt) / 1000).toFixed(0)} s in all.`);
