import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ringAreaM2 } from '../../../shared-core/plan/polygon.ts';
import {
  closingSentence,
  mendOneSide,
  SHAPE_TURNS,
  type Shape,
  type Side,
  sidesThatMend,
  spreadOverSides,
  walkSides,
} from '../../../shared-core/plan/tape.ts';

const shaped = (shape: Shape, lengthsM: readonly number[]): readonly Side[] =>
  SHAPE_TURNS[shape].map((turnDeg, i) => ({ lengthM: lengthsM[i] ?? Number.NaN, turnDeg }));
const gapOf = ({ gapXM, gapYM }: ReturnType<typeof walkSides>): number => Math.hypot(gapXM, gapYM);

describe('a room from its sides', () => {
  it('closes for each shape whose sides fit, with its area', () => {
    const rooms = [
      { sides: shaped('rectangle', [5, 3, 5, 3]), areaM2: 15 },
      { sides: shaped('l', [6, 2.5, 2.5, 1.5, 3.5, 4]), areaM2: 20.25 },
      { sides: shaped('t', [6, 2, 2, 3, 2.5, 3, 1.5, 2]), areaM2: 12 + 7.5 },
      { sides: shaped('u', [2, 2.5, 3, 2.5, 2, 4, 7, 4]), areaM2: 20.5 },
    ];
    for (const { sides, areaM2 } of rooms) {
      const walk = walkSides(sides);
      expect(walk.closes).toBe(true);
      expect(ringAreaM2(walk.corners)).toBeCloseTo(areaM2, 12);
      expect(closingSentence(walk, 'us')).toBeNull();
    }
  });

  it('says by how much and in which direction it fails to close', () => {
    const walk = walkSides(shaped('rectangle', [5, 3, 4.9, 3.04]));
    expect(walk.closes).toBe(false);
    expect(gapOf(walk)).toBeCloseTo(Math.hypot(0.1, 0.04), 12);
    expect(closingSentence(walk, 'metric')).toBe(
      'The sides do not close. The last one ends 0.10 m too far right and 0.04 m too far up. Spread the difference over all sides, or correct one side.',
    );
  });

  it('names only the direction that is off', () => {
    expect(closingSentence(walkSides(shaped('rectangle', [5, 3, 4.9, 3])), 'metric')).toMatch(/ends 0\.10 m too far right\. Spread/);
    expect(closingSentence(walkSides(shaped('rectangle', [5, 3, 5, 3.1])), 'metric')).toMatch(/ends 0\.10 m too far up\. /);
    expect(closingSentence(walkSides(shaped('rectangle', [4.9, 3, 5, 3])), 'metric')).toMatch(/ends 0\.10 m too far left\. /);
  });

  it('says why it cannot be closed', () => {
    const straight: readonly Side[] = [
      { lengthM: 4, turnDeg: 0 },
      { lengthM: 3, turnDeg: 180 },
    ];
    expect(spreadOverSides(straight)).toEqual({ ok: false, message: 'All sides run in one direction. Check the turns.' });
    const sides = shaped('rectangle', [5, 3, 1, 3]);
    expect(mendOneSide(sides, 4, 'us')).toEqual({ ok: false, message: 'There is no side 5.' });
    expect(mendOneSide(sides, 2, 'us')).toMatchObject({ ok: true });
    // The first side has to lose what the third lacks: all of it and 1 m more.
    expect(mendOneSide(shaped('rectangle', [1, 3, -1, 3]), 0, 'us')).toEqual({
      ok: false,
      message: 'Side 1 would be shorter than 0. Check the other sides.',
    });
    expect(sidesThatMend(sides)).toEqual([0, 2]);
  });

  it('closes by spreading, minimum on short sides, angles unchanged', () => {
    const mended = spreadOverSides(shaped('rectangle', [5, 3, 4.9, 3]));
    expect(mended.ok && mended.value.map((side) => side.lengthM)).toEqual([
      expect.closeTo(5 - (0.1 * 5) / 9.9, 12),
      3,
      expect.closeTo(4.9 + (0.1 * 4.9) / 9.9, 12),
      3,
    ]);
  });

  it('closes by spreading whatever small errors the tape made', () => {
    const slip = fc.double({ min: -0.05, max: 0.05, noNaN: true });
    fc.assert(
      fc.property(fc.array(slip, { minLength: 8, maxLength: 8 }), (slips) => {
        const sides = shaped(
          'u',
          [2, 2.5, 3, 2.5, 2, 4, 7, 4].map((length, i) => length + (slips[i] ?? 0)),
        );
        const mended = spreadOverSides(sides);
        expect(mended.ok && gapOf(walkSides(mended.value))).toBeLessThan(1e-12);
      }),
    );
  });

  it('closes by one side along the gap, and says why another cannot', () => {
    const sides = shaped('rectangle', [5, 3, 4.9, 3]);
    expect(sidesThatMend(sides)).toEqual([0, 2]);
    const mended = mendOneSide(sides, 2, 'metric');
    expect(mended.ok && mended.value[2]?.lengthM).toBeCloseTo(5, 12);
    const refused = mendOneSide(sides, 1, 'metric');
    expect(refused.ok ? '' : refused.message).toMatch(/0\.10 m would stay open/);
  });

  it('walks corners that are not square', () => {
    const walk = walkSides([
      { lengthM: 2, turnDeg: 120 },
      { lengthM: 2, turnDeg: 120 },
      { lengthM: 2, turnDeg: 120 },
    ]);
    expect(walk.closes).toBe(true);
    expect(ringAreaM2(walk.corners)).toBeCloseTo(Math.sqrt(3), 12);
  });
});
