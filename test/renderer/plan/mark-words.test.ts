/** What the list of marks says of each. */
import { expect, it } from 'vitest';
import { markDetail } from '../../../renderer/plan/mark-words.ts';

// ACI 224.1R, from memory: cracks are active or dormant. A drain, a pipe and a hollow area have no movement: common practice, no source.
it('gives the movement of a crack or a joint, and of nothing else', () => {
  const detail = (kind: Parameters<typeof markDetail>[0]['kind'], moves: 'still' | 'moving' | 'unknown', note = '') =>
    markDetail({ kind, moves, note });
  expect(detail('crack', 'still')).toBe('dormant');
  expect(detail('joint', 'moving')).toBe('active');
  expect(detail('crack', 'unknown')).toBe('movement unknown');
  for (const kind of ['drain', 'pipe', 'hollow', 'contaminated', 'loose', 'gap'] as const) expect(detail(kind, 'unknown')).toBe('');
  expect(detail('drain', 'unknown', 'by the sink')).toBe('by the sink');
});
