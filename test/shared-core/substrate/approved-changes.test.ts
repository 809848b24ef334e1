/**
 * What each change of one respect adds to a floor's findings and prep list and takes from them, as last approved: a guard against a
 * change that nobody meant. Limits are checked against their sources in the other tests. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/substrate/approved -u` and read the difference.
 */
import { expect, it } from 'vitest';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { findingsOf } from '../../../shared-core/substrate/rules.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { letterSum } from '../fact-lines.ts';
import { factsOf } from './a-floor.ts';
import { CHANGED, CHANGES } from './changed-floors.ts';

const US = wordingFor('us', 'en-US');
/** Each finding by its rule and a sum of its words, which changes when any of them does. */
const told = (floor: FloorInput): readonly string[] =>
  findingsOf(factsOf(floor), US).map((finding) => `${finding.ruleId}#${letterSum(JSON.stringify(finding)) % 10_000}`);
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
