import { expect, it } from 'vitest';
import { unlikelySize } from '../../../shared-core/plan/unlikely-size.ts';
import { xy } from '../../outlines.ts';
import { box } from '../pour/floors.ts';

const room = (widthFt: number, depthFt: number) => box(0, 0, widthFt * 0.3048, depthFt * 0.3048).outline;

it('asks about a room under 3 ft or over 60 ft a side, and no other', () => {
  expect(unlikelySize(room(12, 14 / 12), 'us')).toContain('only');
  // 148 read off a tape in inches, typed where a number alone is feet.
  expect(unlikelySize(room(148, 12), 'us')).toBe(
    'This room is 148′ 0″ across. Check the units of its sides. A number alone is feet. For inches enter 148 in.',
  );
  expect(unlikelySize(room(12, 240), 'metric')).toMatch(/Check the units of its sides\.$/);
  for (const [width, depth] of xy('3,5 12,14 60,40')) expect(unlikelySize(room(width, depth), 'us')).toBeNull();
  expect(unlikelySize([], 'us')).toBeNull();
});

it('asks from the limit on, wherever the room lies on its sheet', () => {
  const at = (widthFt: number, depthFt: number, offFt: number) =>
    unlikelySize(box(offFt * 0.3048, -offFt * 0.3048, (offFt + widthFt) * 0.3048, (depthFt - offFt) * 0.3048).outline, 'us');
  for (const offFt of [0, -150, 150]) {
    expect([at(3, 60, offFt), at(60, 3, offFt)]).toEqual([null, null]);
    expect(at(2.99, 12, offFt)).toContain('only');
    expect(at(12, 2.99, offFt)).toContain('only');
    expect(at(60.1, 12, offFt)).toMatch(/^This room is 60/);
    expect(at(12, 60.1, offFt)).toMatch(/^This room is 60/);
  }
});
