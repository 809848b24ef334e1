import { describe, expect, it } from 'vitest';
import type { Mark, Opening } from '../../../shared-core/book/plan-fields.ts';
import { withCornerIn } from '../../../shared-core/plan/edit-plan.ts';
import { hasMovement, isHonored } from '../../../shared-core/plan/honored-marks.ts';
import { isExterior, openingName, placedOpenings } from '../../../shared-core/plan/openings.ts';
import { points } from '../../outlines.ts';
import { opening } from './rooms.ts';

describe('a mark', () => {
  // ASTM F710: only joints and cracks that do not move are filled; TCNA EJ171: an expansion joint goes on through the tile.
  it.each<[Mark['kind'], readonly boolean[]]>([
    ['expansion-joint', [true, true, true]],
    ['joint', [true, true, false]],
    ['crack', [true, true, false]],
    ['drain', [false, false, false]],
    ['hollow', [false, false, false]],
  ])('%s goes on through the floor: moving, unknown, still', (kind, honored) => {
    expect((['moving', 'unknown', 'still'] as const).map((moves) => isHonored({ kind, moves }))).toEqual(honored);
    expect(hasMovement({ kind })).toBe(kind === 'joint' || kind === 'crack');
  });
});

describe('an opening', () => {
  it('is called by where it leads, or else by its kind', () => {
    const named = (name: string, kind: Opening['kind']) => openingName({ name, kind });
    expect(named(' Porch ', 'exterior-door')).toBe('Porch');
    expect([named('', 'exterior-door'), named('  ', 'sliding-door')]).toEqual(['exterior door', 'sliding door']);
    expect((['exterior-door', 'sliding-door', 'doorway'] as const).map((kind) => isExterior({ kind }))).toEqual([true, true, false]);
  });

  it('goes to the wall that holds its middle when a wall is divided, and stays where it is', () => {
    const plan = {
      outline: points('0,0 5,0 5,4 0,4'),
      holes: [],
      placedAt: { xM: 0, yM: 0, turnDeg: 0 },
      diagonals: [{ from: 0, to: 2, lengthM: 6.4 }],
      openings: [
        opening({ id: 'before', wall: 0, fromM: 0.5, widthM: 1 }),
        // Its middle, 2.4 m along, is before the new corner at 2.5 m; the next one’s, 2.6 m, is past it.
        opening({ id: 'mostly-before', wall: 0, fromM: 2, widthM: 0.8 }),
        opening({ id: 'mostly-past', wall: 0, fromM: 2.2, widthM: 0.8 }),
        opening({ id: 'past', wall: 0, fromM: 3.5, widthM: 1 }),
        opening({ id: 'other', wall: 2, fromM: 1, widthM: 0.8 }),
      ],
    };
    const after = withCornerIn(plan, 0, 2.5);
    expect(after.outline[1]).toEqual({ xM: 2.5, yM: 0 });
    expect(after.openings.map(({ id, wall, fromM }) => [id, wall, Math.round(fromM * 1000) / 1000])).toEqual([
      ['before', 0, 0.5],
      ['mostly-before', 0, 2],
      ['mostly-past', 1, 0],
      ['past', 1, 1],
      ['other', 3, 1],
    ]);
    expect(after.diagonals).toEqual([{ from: 0, to: 3, lengthM: 6.4 }]);
    const middleOf = (of: typeof plan | typeof after, id: string) => placedOpenings(of).find((one) => one.opening.id === id)?.middle;
    for (const id of ['before', 'past', 'other']) {
      const [a, b] = [middleOf(plan, id), middleOf(after, id)];
      expect(b?.xM).toBeCloseTo(a?.xM ?? NaN, 9);
      expect(b?.yM).toBeCloseTo(a?.yM ?? NaN, 9);
    }
    // At a corner that is there, nothing is divided.
    expect(withCornerIn(plan, 0, 0)).toBe(plan);
    expect(withCornerIn(plan, 0, 5)).toBe(plan);
  });
});
