/** Type-checks every folder under its own configuration, with the native compiler. */
import { entryOf, runQuietly } from './local-tool.mjs';

const PROJECTS = ['shared-core', 'main', 'main/electron', 'renderer', 'test'];
const compiler = entryOf('typescript-native', 'tsc');
const failed = [];
for (const project of PROJECTS) {
  const { code, text } = await runQuietly(process.execPath, [compiler, '-p', project, '--noEmit']);
  if (code === 0) continue;
  process.stdout.write(text);
  failed.push(project);
}
console.log(failed.length === 0 ? `Types: ${PROJECTS.length} folders clean.` : `Types: errors in ${failed.join(', ')}.`);
process.exit(failed.length === 0 ? 0 : 1);
