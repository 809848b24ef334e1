import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stretchOf, stretchOfRoom } from '../../../shared-core/plan/part-of-room.ts';
import { ringAreaM2 } from '../../../shared-core/plan/polygon.ts';

const p = (xM: number, yM: number) => ({ xM, yM });
const RECTANGLE = { outline: [p(0, 0), p(5, 0), p(5, 4), p(0, 4)] };
const L_SHAPE = { outline: [p(0, 0), p(2, 0), p(2, 3), p(6, 3), p(6, 5), p(0, 5)] };

describe('a part of a room', () => {
  it('reaches from one wall to its depth', () => {
    const part = stretchOfRoom(RECTANGLE, { side: 'left', depthM: 2 });
    expect(part.ok && ringAreaM2(part.value)).toBeCloseTo(8, 9);
    const bottom = stretchOfRoom(RECTANGLE, { side: 'bottom', depthM: 1 });
    expect(bottom.ok && ringAreaM2(bottom.value)).toBeCloseTo(5, 9);
  });

  it('follows the walls of a room that is not a rectangle', () => {
    const right = stretchOfRoom(L_SHAPE, { side: 'right', depthM: 3 });
    expect(right.ok && ringAreaM2(right.value)).toBeCloseTo(6, 9);
    const top = stretchOfRoom(L_SHAPE, { side: 'top', depthM: 3 });
    expect(top.ok && ringAreaM2(top.value)).toBeCloseTo(6, 9);
  });

  it('adds up with the rest to the room, wherever the line runs', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 4.9, noNaN: true }), (depthM) => {
        const one = stretchOfRoom(RECTANGLE, { side: 'left', depthM });
        const other = stretchOfRoom(RECTANGLE, { side: 'right', depthM: 5 - depthM });
        if (!one.ok || !other.ok) throw new Error('Both are parts of the room.');
        expect(ringAreaM2(one.value) + ringAreaM2(other.value)).toBeCloseTo(20, 6);
      }),
    );
  });

  it('is recognized from its ring', () => {
    for (const side of ['left', 'right', 'top', 'bottom'] as const) {
      const part = stretchOfRoom(L_SHAPE, { side, depthM: 1.5 });
      if (!part.ok) throw new Error(part.message);
      const stretch = stretchOf(L_SHAPE, part.value);
      expect(stretch?.side).toBe(side);
      expect(stretch?.depthM).toBeCloseTo(1.5, 9);
    }
    expect(stretchOf(RECTANGLE, [p(1, 1), p(2, 1), p(2, 2)])).toBeNull();
  });

  it('is refused in a sentence where it is not a part', () => {
    expect(stretchOfRoom({ outline: [] }, { side: 'left', depthM: 1 })).toMatchObject({
      ok: false,
      message: expect.stringContaining('Draw the room'),
    });
    expect(stretchOfRoom(RECTANGLE, { side: 'left', depthM: 5 })).toMatchObject({
      ok: false,
      message: expect.stringContaining('whole room'),
    });
    expect(stretchOfRoom(RECTANGLE, { side: 'left', depthM: 0 })).toMatchObject({ ok: false, message: expect.stringContaining('how far') });
  });
});
