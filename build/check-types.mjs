/** Type-checks every folder under its own configuration, with the native compiler: each is checked once, and again when it changed. */
import { entryOf, runQuietly } from './local-tool.mjs';

const { code, text } = await runQuietly(process.execPath, [entryOf('typescript-native', 'tsc'), '--build']);
process.stdout.write(text);
console.log(code === 0 ? 'Types: clean.' : 'Types: errors.');
process.exit(code === 0 ? 0 : 1);
