import { expect, it } from 'vitest';
import { newLevelChoice } from '../../../shared-core/book/new-records.ts';
import { levelForFloor, levelForMaterial } from '../../../shared-core/material/minimum-thickness.ts';
import { sampleAt } from '../../sample-at.ts';
import { layer, SLAB } from '../substrate/a-floor.ts';

const powder = sampleAt('2026-05-12T15:00:00.000Z').materials.find((material) => material.powder !== null);
if (powder?.powder === null || powder === undefined) throw new Error('the sample has no powder');
const sheet = (least: number) =>
  powder.powder === null
    ? powder
    : { ...powder, powder: { ...powder.powder, liftM: { ...powder.powder.liftM, value: { least, most: 0.03 } } } };

it('a level starts from the data sheet’s minimum thickness and follows another data sheet, until it is entered by hand', () => {
  const typical = newLevelChoice();
  const first = levelForMaterial(typical, { before: null, after: sheet(0.002), floor: null }, typical.leastThicknessM);
  expect(first.leastThicknessM).toBe(0.002);
  expect(levelForMaterial(first, { before: sheet(0.002), after: sheet(0.006), floor: null }, typical.leastThicknessM).leastThicknessM).toBe(
    0.006,
  );
  const byHand = { ...first, leastThicknessM: 0.004 };
  expect(levelForMaterial(byHand, { before: sheet(0.002), after: sheet(0.006), floor: null }, typical.leastThicknessM)).toEqual(byHand);
});

// Common practice, no source: 3/8 in. over the heat. 5/8 in. is the outside of 1/2 in. tubing (ASTM F876, from memory).
it('a level over heat in the pour starts from the cover and the thickness of the heat', () => {
  const typical = newLevelChoice();
  const floor = {
    ...SLAB,
    circumstances: { ...SLAB.circumstances, radiantHeat: 'hydronic-in-pour' as const },
    layers: [layer('radiant-heating', { thicknessM: 0.625 * 0.0254 }), ...SLAB.layers],
  };
  const over = levelForMaterial(typical, { before: null, after: sheet(0.002), floor }, typical.leastThicknessM);
  expect(over.leastThicknessM).toBeCloseTo(0.0254, 6);
  const next = levelForMaterial(over, { before: sheet(0.002), after: sheet(0.03), floor }, typical.leastThicknessM);
  expect(next.leastThicknessM).toBe(0.03);
});

// Common practice, no source: 3/8 in. over the heat and a mat of 1/8 in.
it('a level that follows the floor is raised with the minimum thickness, and never lowered', () => {
  const heated = { ...SLAB, circumstances: { ...SLAB.circumstances, radiantHeat: 'electric-in-pour' as const } };
  const follow = { ...newLevelChoice(), mode: 'follow' as const, leastThicknessM: 0.002, followThicknessM: 0.00635 };
  const raised = levelForFloor(follow, sheet(0.002), SLAB, heated);
  expect([raised.leastThicknessM, raised.followThicknessM]).toEqual([expect.closeTo(0.0127, 9), expect.closeTo(0.0127, 9)]);
  expect(levelForFloor({ ...follow, followThicknessM: 0.02 }, sheet(0.002), SLAB, heated).followThicknessM).toBe(0.02);
  expect(levelForFloor({ ...follow, mode: 'level' }, sheet(0.002), SLAB, heated).followThicknessM).toBe(0.00635);
  const other = levelForMaterial(follow, { before: sheet(0.002), after: sheet(0.01), floor: SLAB }, 0.003);
  expect([other.leastThicknessM, other.followThicknessM]).toEqual([0.01, 0.01]);
});
