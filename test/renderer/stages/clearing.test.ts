/** Where the link of a finding leads. */
import { expect, it } from 'vitest';
import { liftOf } from '../../../renderer/stages/assess/clearing.ts';

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
