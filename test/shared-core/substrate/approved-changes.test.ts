/**
 * What each change of one respect adds to a floor's findings and prep list and takes from them, as last approved: a guard against a
 * change that nobody meant. Limits are checked against their sources in the other tests. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/substrate/approved -u` and read the difference.
 */
import { expect, it } from 'vitest';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { testArithmetic, testContext } from '../../../shared-core/assess/test-arithmetic.ts';
import { needStanding, needWords } from '../../../shared-core/substrate/need-words.ts';
import { findingsOf } from '../../../shared-core/substrate/rules.ts';
import { kindOf } from '../../../shared-core/substrate/test-kinds.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { factLines, letterSum } from '../fact-lines.ts';
import { factsOf, NOW } from './a-floor.ts';
import { CHANGED, CHANGES, TESTS } from './changed-floors.ts';

const US = wordingFor('us', 'en-US');
const CONTEXT = { wording: US, zone: 'America/New_York', locale: 'en-US' };
/** Ten thousand sums are enough to tell one change of words. */
const sum = (value: unknown): number => letterSum(JSON.stringify(value)) % 10_000;
/** Each finding by its rule and each test needed by its name, with a sum of their words, which changes when any of them does. */
function told(floor: FloorInput): readonly string[] {
  const facts = factsOf(floor);
  const findings = findingsOf(facts, US);
  const needs = facts.needs.map((need) => {
    const standing = needStanding(need, facts, findings);
    return `${need.id} ${standing}#${sum([need, needWords(need, facts, CONTEXT)])}`;
  });
  return [...findings.map((finding) => `${finding.ruleId}#${sum(finding)}`), ...needs];
}
const less = (from: readonly string[], without: readonly string[], sign: string): readonly string[] =>
  from.filter((one) => !without.includes(one)).map((one) => sign + one);

it.each(Object.entries(CHANGED))('%s', async (name, floor) => {
  const before = told(floor);
  const lines = CHANGES.map(([change, applied]) => {
    const after = told(applied(floor));
    return [change, ...less(before, after, '-'), ...less(after, before, '+')].join(' ');
  });
  await expect(`${[...before, ...lines].join('\n')}\n`).toMatchFileSnapshot(`./approved/changed-${name.replace(' ', '-')}.txt`);
});

it('every test in words', async () => {
  const lines = Object.values(CHANGED).flatMap((base) =>
    TESTS.flatMap(([change, applied]) => {
      const floor = applied(base);
      const facts = factsOf(floor);
      return (['us', 'metric'] as const).flatMap((units) => {
        const context = testContext({ facts }, { units, locale: 'en-US', layers: floor.layers, now: NOW, yearBuilt: floor.yearBuilt });
        return floor.tests.flatMap((test) =>
          factLines({ [`${change}, ${test.kind}`]: [kindOf(test).words(test, units, 'en-US'), testArithmetic(test, context)] }),
        );
      });
    }),
  );
  await expect(`${[...new Set(lines.map((line) => line.slice(line.indexOf(',') + 2)))].join('\n')}\n`).toMatchFileSnapshot(
    './approved/tests-in-words.txt',
  );
});
