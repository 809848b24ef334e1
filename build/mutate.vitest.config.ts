import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const root = fileURLToPath(new URL('..', import.meta.url));
const changed = new Map(Object.entries(JSON.parse(readFileSync('.cache/mutate/sources.json', 'utf8')) as Record<string, string>));
/** One change in place from the start, rather than each in turn. */
const isSingle = process.env['__STRYKER_ACTIVE_MUTANT__'] !== undefined;

class ChangesLast extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const isLast = ({ moduleId }: TestSpecification) => (moduleId.endsWith('try-changes.ts') ? 1 : 0);
    return (await super.sort(files)).toSorted((a, b) => isLast(a) - isLast(b));
  }
}

/** Runs the tests of shared-core over sources that hold the sampled changes, each switched off until it is asked for. */
export default defineConfig({
  root,
  cacheDir: '.cache/mutate/vitest',
  define: { __ARITHMETIC__: JSON.stringify('tested') },
  plugins: [
    {
      name: 'changed sources',
      enforce: 'pre',
      load: (id) => changed.get(relative(root, id).replaceAll('\\', '/')) ?? null,
    },
  ],
  test: {
    environment: 'node',
    setupFiles: ['test/setup.ts'],
    include: ['test/{shared-core,corpus}/**/*.test.ts', ...(isSingle ? [] : ['build/try-changes.ts'])],
    isolate: false,
    pool: 'forks',
    maxWorkers: 1,
    sequence: { sequencer: ChangesLast },
    ...(isSingle ? {} : { runner: 'build/mutate-runner.mjs' }),
    // All changes are tried in one test.
    testTimeout: isSingle ? 60_000 : 7_200_000,
  },
});
