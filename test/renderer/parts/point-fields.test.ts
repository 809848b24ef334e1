import { expect, it } from 'vitest';
import { PointList } from '../../../renderer/parts/PointFields.tsx';
import { points } from '../../outlines.ts';

// React keeps an element, and the button under the pointer, where its key stays: react.dev, “Rendering Lists”, from memory.
it('after a point is deleted, none of the points has the place of another, so that a second press deletes none', () => {
  const keys = (corners: string): (string | null)[] =>
    PointList({
      points: points(corners),
      origin: { xM: 0, yM: 0 },
      label: (number) => `Corner ${number}`,
      onPoint: () => undefined,
    }).map(({ key }) => key);
  const before = keys('0,0 4,0 4,3 2,3 0,3');
  // A moved corner keeps its fields, and the focus in them.
  expect(keys('0,0 4,0 4,3.5 2,3 0,3')).toEqual(before);
  const after = keys('0,0 4,0 2,3 0,3');
  expect(new Set(after).size).toBe(4);
  expect(after.filter((key) => before.includes(key))).toEqual([]);
});
