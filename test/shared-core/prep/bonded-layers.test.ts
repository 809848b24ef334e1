import { expect, it } from 'vitest';
import type { LayerMaterial } from '../../../shared-core/book/layer.ts';
import { hoursFor } from '../../../shared-core/prep/task-hours.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { BOARDS, layer, LEFT_HALF, RIGHT_HALF, SLAB, STRIP, test } from '../substrate/a-floor.ts';
import { heldBy, inputOf, line, listOf } from './prep-lines.ts';

// Common practice, no source: what lies loose comes off after a test pull. What is bonded over asbestos is not taken off by the own crew.
it.each(['keep', 'remove'] as const)('takes only what lies loose off asbestos that was detected (%s)', (fate) => {
  const out = (material: LayerMaterial) => layer(material, { id: material, yearInstalled: 2005, fate: 'remove' });
  const over = (...materials: LayerMaterial[]): FloorInput => ({
    ...SLAB,
    layers: [...materials.map(out), layer('resilient-tile', { id: 'tile', yearInstalled: 1958, fate }), ...SLAB.layers],
    tests: [...SLAB.tests, test.lab({ layerId: 'tile', state: 'found' })],
  });
  const whoOf = (floor: FloorInput) =>
    Object.fromEntries(
      floor.layers.flatMap(({ id }) => line(listOf(floor), `remove:${id}`) ?? []).map(({ key, who }) => [key.slice(7), who]),
    );
  for (const loose of [['carpet'], ['carpet', 'foam-pad'], ['floating-plank']] as const)
    for (const material of loose) {
      expect(whoOf(over(...loose))[material], material).toBe('own-crew');
      expect(line(listOf(over(...loose)), `remove:${material}`)).toMatchObject({
        what: expect.stringMatching(/, after a test pull$/),
        why: 'if the flooring under it lifts or breaks, stop: it contains asbestos. A licensed abatement contractor takes over',
        cautions: ['asbestos-found'],
      });
      const untested = { ...over(...loose), tests: SLAB.tests };
      expect(line(listOf(untested), `remove:${material}`)).toMatchObject({
        why: 'if the flooring under it lifts or breaks, stop: it may contain asbestos. A licensed abatement contractor takes over',
        cautions: ['asbestos'],
      });
      expect(heldBy(over(...loose), `remove:${material}`), material).toEqual([]);
    }
  for (const bonded of [['carpet', 'adhesive-other'], ['ceramic-tile', 'thinset'], ['sheet-flooring'], ['wood-flooring']] as const)
    for (const material of bonded) {
      expect(line(listOf(over(...bonded)), `remove:${material}`), material).toMatchObject({
        ...{ who: 'licensed-only', tasks: [], hours: null, cautions: ['asbestos-found'] },
        why: 'asbestos was detected in the resilient tile',
      });
      expect(heldBy(over(...bonded), `remove:${material}`), material).toEqual([]);
    }
  // What is to stay and is loose comes off like what is to be removed.
  const plywood = over('plywood');
  const loosened = { ...plywood, layers: [layer('plywood', { id: 'plywood', sound: 'loose' }), ...plywood.layers.slice(1)] };
  expect(line(listOf(loosened), 'remove:plywood')).toMatchObject({
    ...{ who: 'licensed-only', tasks: [], hours: null, cautions: ['asbestos-found'] },
    what: 'A licensed abatement contractor removes the loose plywood',
    why: 'asbestos was detected in the resilient tile',
  });
  // Over another part of the room the own crew chips tile only where what was detected leaves first.
  const beside = {
    ...over('ceramic-tile'),
    layers: over('ceramic-tile').layers.map((one) => (one.id === 'tile' ? { ...one, area: LEFT_HALF } : one)),
  };
  const apart = { ...beside, layers: beside.layers.map((one) => (one.id === 'ceramic-tile' ? { ...one, area: RIGHT_HALF } : one)) };
  expect(whoOf(beside)['ceramic-tile']).toBe('licensed-only');
  expect(whoOf(apart)['ceramic-tile']).toBe(fate === 'keep' ? 'licensed-only' : 'own-crew');
});

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
  for (const key of ['refasten', 'reinforce']) {
    const on = (floor: FloorInput) => line(listOf({ ...floor, layers: [layer('particleboard'), ...floor.layers] }), key);
    expect([on(SLAB), on(BOARDS) === undefined], key).toEqual([undefined, false]);
  }
  const found = inputOf({ ...SLAB, layers: [layer('particleboard'), ...SLAB.layers] }).findings;
  expect(found.find(({ ruleId }) => ruleId === 'particleboard')?.text).toMatch(/Remove them\.$/);
});
