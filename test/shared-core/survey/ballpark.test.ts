import { describe, expect, it } from 'vitest';
import { ballpark } from '../../../shared-core/survey/ballpark.ts';
import { FLOOR_KINDS, simulatedFloor, type SimulatedFloor } from './simulated-floors.ts';

const TERMS = { minimumThicknessM: 0.003, wasteShare: 0.05, yieldM3: 0.0127 };
const FT_M = 0.3048;
const IN_M = 0.0254;

/** The worst gap under a level along rows and columns two feet apart, resting on the highest point below it. */
function gapFound({ heightM, widthM, depthM }: SimulatedFloor, lengthM: number): number {
  let worst = 0;
  const lay = (alongM: number, heightOf: (t: number) => number): void => {
    const reach = Math.min(lengthM, alongM);
    for (let from = 0; from <= alongM - reach + 1e-9; from += 0.3) {
      const under = Array.from({ length: 19 }, (_, i) => heightOf(from + (reach * i) / 18));
      worst = Math.max(worst, Math.max(...under) - Math.min(...under));
    }
  };
  for (let y = 0.3; y < depthM; y += 0.6) lay(widthM, (x) => heightM(x, y));
  for (let x = 0.3; x < widthM; x += 0.6) lay(depthM, (y) => heightM(x, y));
  return worst;
}

describe('a ballpark', () => {
  it('is area times average depth', () => {
    // By hand: 168 sq ft at 3/8 in. is 5.25 cu ft.
    const result = ballpark(
      168 * FT_M ** 2,
      { kind: 'depth', leastM: (3 / 8) * IN_M, mostM: (5 / 8) * IN_M },
      { ...TERMS, yieldM3: 0.45 * FT_M ** 3 },
    );
    if (!result.ok) throw new Error(result.message);
    expect(result.value.volumeM3.least / FT_M ** 3).toBeCloseTo(5.25, 9);
  });

  it('says which entry is wrong, and takes the limits themselves', () => {
    const depth = { kind: 'depth', leastM: 0.01, mostM: 0.02 } as const;
    const gap = { kind: 'gap', gapM: 0.01, levelLengthM: 1.8 } as const;
    const said = (basis: Parameters<typeof ballpark>[1], terms: Partial<Parameters<typeof ballpark>[2]> = {}) => {
      const result = ballpark(10, basis, { ...TERMS, ...terms });
      return result.ok ? null : result.message;
    };
    for (const yieldM3 of [0, -1, Number.NaN]) expect(said(depth, { yieldM3 })).toMatch(/yield/);
    for (const wasteShare of [-0.01, 1.01, Number.NaN]) expect(said(depth, { wasteShare })).toMatch(/waste/);
    for (const minimumThicknessM of [-0.001, Number.NaN]) expect(said(depth, { minimumThicknessM })).toMatch(/minimum thickness/);
    for (const part of [{ leastM: 0 }, { mostM: 0 }, { leastM: Number.NaN }])
      expect(said({ ...depth, ...part })).toMatch(/average pour depth/);
    expect(said({ ...depth, leastM: 0.021 })).toMatch(/smaller/);
    expect(said({ ...depth, mostM: 0.31 })).toMatch(/12 in/);
    expect([said({ ...gap, gapM: 0 }), said({ ...gap, gapM: 0.31 })]).toEqual([
      expect.stringMatching(/gap/),
      expect.stringMatching(/12 in/),
    ]);
    for (const levelLengthM of [0.29, 6.01]) expect(said({ ...gap, levelLengthM })).toMatch(/length of the level/);
    for (const levelLengthM of [0.3, 6]) expect(said({ ...gap, levelLengthM, gapM: 0.3 })).toBeNull();
    expect(said({ ...depth, leastM: 0.3, mostM: 0.3 }, { wasteShare: 1, minimumThicknessM: 0, yieldM3: null })).toBeNull();
  });

  it('from the worst gap under a 6 ft level holds the true volume of a level pour in 80% to 95% of floors', () => {
    let held = 0;
    let floors = 0;
    let widest = 0;
    for (const kind of FLOOR_KINDS) {
      for (let seed = 1; seed <= 40; seed += 1) {
        const floor = simulatedFloor(kind, 1000 + seed);
        const truth = floor.truth();
        const result = ballpark(floor.areaM2, { kind: 'gap', gapM: gapFound(floor, 6 * FT_M), levelLengthM: 6 * FT_M }, TERMS);
        if (!result.ok) throw new Error(result.message);
        const volumeM3 = truth.volumeTo(truth.highestM + TERMS.minimumThicknessM);
        const { least, likely, most } = result.value.volumeM3;
        floors += 1;
        if (volumeM3 >= least && volumeM3 <= most) held += 1;
        widest = Math.max(widest, (most - least) / likely);
      }
    }
    expect(held / floors).toBeGreaterThanOrEqual(0.8);
    expect(held / floors).toBeLessThanOrEqual(0.95);
    // Wide, and still useful.
    expect(widest).toBeLessThan(1.5);
  });

  it('asks for what is missing and refuses impossible values', () => {
    const message = (area: number, basis: Parameters<typeof ballpark>[1]): string => {
      const result = ballpark(area, basis, TERMS);
      return result.ok ? '' : result.message;
    };
    const depth = { kind: 'depth', leastM: 0.006, mostM: 0.012 } as const;
    expect(message(0, depth)).toBe('Enter the length and width of the room.');
    expect(message(Number.NaN, depth)).toBe('Enter the length and width of the room.');
    expect(message(12, { kind: 'depth', leastM: 0.012, mostM: 0.006 })).toBe('Enter the smaller depth first.');
    expect(message(12, { kind: 'gap', gapM: 1, levelLengthM: 1.8 })).toContain('under 12 in.');
    expect(message(12, { kind: 'gap', gapM: 0.01, levelLengthM: 60 })).toContain('length of the level');
  });
});
