import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOARDS, mark, opening } from '../substrate/a-floor.ts';
import { listOf } from './prep-lines.ts';

describe('the prep checklist of the same floor', () => {
  it('is the same list in whatever order the same answers were given', () => {
    const marks = [
      mark('crack', { id: 'cr-1' }),
      mark('crack', { id: 'cr-2' }),
      mark('crack', { id: 'cr-3' }),
      mark('hollow', { id: 'ho-1' }),
      mark('gap', { id: 'ga-1' }),
      mark('pipe', { id: 'pi-1' }),
    ];
    const doors = [opening({ id: 'door-a' }), opening({ id: 'door-b', widthM: 1.2 }), opening({ id: 'door-c', edge: 'feather' })];
    const sizes = { lengthsM: { 'cr-1': 0.1, 'cr-2': 0.2, 'cr-3': 0.3 }, areasM2: { 'ho-1': 0.3 } };
    const expected = listOf({ ...BOARDS, marks, openings: doors }, sizes);
    const all = <T>(list: readonly T[]) => fc.shuffledSubarray([...list], { minLength: list.length });
    fc.assert(
      fc.property(all(marks), all(doors), all(BOARDS.tests), (m, d, t) => {
        expect(listOf({ ...BOARDS, marks: m, openings: d, tests: t }, sizes)).toEqual(expected);
      }),
    );
  });
});
