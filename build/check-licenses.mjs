/** `npm run licenses`: lists what ships, and fails on an unknown license or a missing text. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { licenseFault } from './licenses.mjs';
import { ROOT } from './local-tool.mjs';

const list = JSON.parse(readFileSync(join(ROOT, '.out', 'renderer', 'licenses.json'), 'utf8'));
for (const { name, version, license } of list) console.log(`${name} ${version}: ${license}`);
const faults = list.map(licenseFault).filter((fault) => fault !== null);
for (const fault of faults) console.log(`FAULT ${fault}`);
console.log(`Licenses: ${list.length} packages ship, ${faults.length} faults.`);
process.exit(faults.length === 0 && list.length > 0 ? 0 : 1);
