/** No type check reads what a build script takes of the program's code, so it is looked up here. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const TAKEN = /(?:\{\s*([^{}]+?)\s*\} = await loadSource\('([^']+)'\)|\(await loadSource\('([^']+)'\)\)\.(\w+))/g;

it('every build script takes only what its source exports', () => {
  const taken = readdirSync('build')
    .filter((file) => file.endsWith('.mjs'))
    .flatMap((file) =>
      [...readFileSync(`build/${file}`, 'utf8').matchAll(TAKEN)].flatMap(([, names, of, otherOf = '', name = '']) =>
        (names ?? name).split(/\s*,\s*/).map((one) => ({ file, name: one, source: of ?? otherOf })),
      ),
    );
  expect(taken.length).toBeGreaterThan(8);
  const missing = taken.filter(
    ({ name, source }) => !new RegExp(`^export (?:async )?(?:function|const|class) ${name}\\b`, 'm').test(readFileSync(source, 'utf8')),
  );
  expect(missing).toEqual([]);
});
