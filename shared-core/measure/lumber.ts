/**
 * Nominal sizes of dimension lumber: a `2x10` measures 1 1/2 by 9 1/4 in. Dressed sizes of dry lumber, American Softwood Lumber Standard,
 * PS 20, from memory.
 */
import { parseLength } from './length.ts';
import { INCH_M } from './length-units.ts';
import type { Parsed } from './parsed.ts';
import type { UnitSystem } from './unit-system.ts';

/** Dressed inches by nominal inches, up to 4 in. thick. */
const DRESSED_IN: ReadonlyMap<number, number> = new Map([
  [2, 1.5],
  [3, 2.5],
  [4, 3.5],
  [5, 4.5],
  [6, 5.5],
  [8, 7.25],
  [10, 9.25],
  [12, 11.25],
  [14, 13.25],
  [16, 15.25],
]);
/** Thickest dimension lumber; heavier wood has other sizes. */
const THICKEST_IN = 4;

/** `2x10`, `2 x 10`, `2 by 10`. */
const NOMINAL = /^(\d{1,2})\s*(?:x|×|by)\s*(\d{1,2})$/i;

/**
 * Parses a side of a joist, meters: as measured, or from its nominal size.
 * @param side the depth is the larger figure of a nominal size, the width the smaller one
 */
export function parseJoist(text: string, units: UnitSystem, side: 'depth' | 'width', locale?: string): Parsed<number> {
  const named = NOMINAL.exec(text.trim());
  if (named === null) return parseLength(text, units, 'depth', locale);
  const nominal = [Number(named[1]), Number(named[2])].toSorted((a, b) => a - b);
  const [width, depth] = nominal.map((inches) => DRESSED_IN.get(inches));
  if (width === undefined || depth === undefined || (nominal[0] ?? 0) > THICKEST_IN)
    return { ok: false, message: `“${text.trim()}” is not a lumber size known here. Measure the joist and enter it like 9 1/4 in.` };
  return { ok: true, value: (side === 'depth' ? depth : width) * INCH_M };
}

/** Whether a depth is the nominal figure of a joist that is dressed to less, meters: 10 in., where a 2x10 is 9 1/4 in. deep. */
export const isNominalDepth = (depthM: number): boolean =>
  [...DRESSED_IN.keys()].some((inches) => inches >= 6 && Math.abs(depthM - inches * INCH_M) < 1e-6);
