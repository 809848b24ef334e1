/** Where the link of a finding leads. */
import { expect, it } from 'vitest';
import { liftOf } from '../../../renderer/stages/assess/clearing.ts';
import { findingsOf } from '../../../shared-core/substrate/rules.ts';
import { TEST_KINDS } from '../../../shared-core/substrate/test-kinds.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { BOARDS, factsOf, test, withTests } from '../../shared-core/substrate/a-floor.ts';

const US = wordingFor('us', 'en-US');
/** The part that the form of a wood test starts with, entered from a finding's link. */
const partFrom = (finding: { readonly lifts: string; readonly ruleId: string }): unknown => {
  const to = liftOf(finding);
  return to.to === 'test' && to.kind === 'wood-moisture' ? { ...TEST_KINDS[to.kind].form.begins, ...to.begins }['part'] : to.to;
};

it('enters wood moisture for the part that the finding is about', () => {
  const untested = factsOf({ ...BOARDS, tests: [] });
  const missing = findingsOf(untested, US).filter(({ ruleId }) => ruleId === 'test-missing');
  const partOf = (key: string) => missing.filter((one) => one.key.endsWith(key)).map(partFrom);
  expect([partOf('wood-boards'), partOf('wood-structure')]).toEqual([['boards'], ['structure']]);
  const wet = factsOf(withTests(BOARDS, test.wood('boards', [0.2, 0.2, 0.2]), test.wood('structure', [0.2, 0.2, 0.2])));
  const over = new Map(findingsOf(wet, US).map((finding) => [finding.ruleId, partFrom(finding)]));
  expect([over.get('wood-wet'), over.get('joists-wet')]).toEqual(['boards', 'structure']);
});

it('opens the plan with the tool for what is missing there', () => {
  const toolOf = (lifts: string) => {
    const lift = liftOf({ lifts, ruleId: '' });
    return lift.to === 'plan' ? lift.tool : lift.to;
  };
  expect(toolOf('room.plan.openings.door-1.adjoiningM')).toBe('openings');
  expect(toolOf('room.plan.holes')).toBe('holes');
  expect(toolOf('room.marks.crack-1.moves')).toBe('marks');
  expect(toolOf('room.plan.outline')).toBe('walls');
});
