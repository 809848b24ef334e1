import { expect, it } from 'vitest';
import { hoursFor } from '../../../shared-core/prep/task-hours.ts';
import { BOARDS, layer, SLAB, STRIP } from '../substrate/a-floor.ts';
import { inputOf, line, listOf } from './prep-lines.ts';

// Common practice, no source: particleboard swells, so plywood screwed to the joists covers it.
it('covers particleboard on joists with plywood, and not what is to be removed', () => {
  const plywood = (board: Parameters<typeof layer>[1], floor = BOARDS) =>
    line(listOf({ ...floor, layers: [layer('particleboard', board), ...floor.layers] }), 'plywood');
  expect(plywood({})).toMatchObject({
    what: expect.stringContaining('plywood over the particleboard or hardboard'),
    amount: { value: 12, unit: 'm2' },
    hours: hoursFor('refasten', 12),
  });
  expect(plywood({ area: STRIP })?.amount?.value).toBe(3);
  expect(plywood({ fate: 'remove' })).toBeUndefined();
  // On a slab there are no joists to screw to: it comes out.
  expect(plywood({}, SLAB)).toBeUndefined();
  const found = inputOf({ ...SLAB, layers: [layer('particleboard'), ...SLAB.layers] }).findings;
  expect(found.find(({ ruleId }) => ruleId === 'particleboard')?.text).toMatch(/Remove them\.$/);
});
