/** `npm run schema`: prints the JSON Schema of a backup's manifest and records; `-- FILE` writes it there. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { loadSource } from './load-source.mjs';

const { backupJsonSchemas } = await loadSource('shared-core/book/backup.ts');
const text = `${JSON.stringify(backupJsonSchemas(), null, 2)}\n`;
const [file] = process.argv.slice(2);
if (file === undefined) process.stdout.write(text);
else {
  const path = resolve(process.env.INIT_CWD ?? process.cwd(), file);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}
