import { expect, it } from 'vitest';
import { unlikelySize } from '../../../shared-core/plan/unlikely-size.ts';
import { xy } from '../../outlines.ts';
import { box } from '../pour/floors.ts';

const room = (widthFt: number, depthFt: number) => box(0, 0, widthFt * 0.3048, depthFt * 0.3048).outline;

it('asks about a room under 3 ft or over 200 ft a side, and no other', () => {
  expect(unlikelySize(room(12, 14 / 12), 'us')).toContain('only');
  expect(unlikelySize(room(12, 240), 'us')).toContain('Check the units');
  for (const [width, depth] of xy('3,5 12,14 200,60')) expect(unlikelySize(room(width, depth), 'us')).toBeNull();
  expect(unlikelySize([], 'us')).toBeNull();
});
