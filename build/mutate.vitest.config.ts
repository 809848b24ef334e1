import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

type Mutant = { readonly file: string; readonly from: number; readonly to: number; readonly after: string };

const root = fileURLToPath(new URL('..', import.meta.url));
const given = process.env['STRAIGHTEDGE_MUTANT'] ?? '';
const mutant = given === '' ? null : (JSON.parse(given) as Mutant);

/** Runs the tests of shared-core with one place of one file changed. */
export default defineConfig({
  root,
  define: { __ARITHMETIC__: JSON.stringify('tested') },
  plugins: [
    {
      name: 'mutant',
      enforce: 'pre',
      load(id) {
        if (mutant === null || !id.replaceAll('\\', '/').endsWith(`/${mutant.file}`)) return null;
        const source = readFileSync(id, 'utf8');
        return source.slice(0, mutant.from) + mutant.after + source.slice(mutant.to);
      },
    },
  ],
  test: {
    environment: 'node',
    setupFiles: ['test/setup.ts'],
    include: ['test/shared-core/**/*.test.ts'],
    isolate: false,
    pool: 'threads',
    maxWorkers: 1,
    testTimeout: 30_000,
  },
});
