/** `npm run bench [name]`: runs each bench of test/bench, which compares the program with a plain other way as ratios. */
import { readdirSync } from 'node:fs';
import { loadSource } from './load-source.mjs';
import { ROOT } from './local-tool.mjs';

process.chdir(ROOT);
const wanted = process.argv[2];
const benches = readdirSync('test/bench').filter((file) => file.endsWith('.ts') && (wanted === undefined || file.startsWith(wanted)));
for (const file of benches) {
  const bench = await loadSource(`test/bench/${file}`);
  if (typeof bench.run !== 'function') continue;
  console.log(`\n${file}`);
  const result = await bench.run(wanted !== undefined);
  if (result !== undefined) console.log(JSON.stringify(result, null, 2));
}
