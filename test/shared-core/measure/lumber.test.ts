import { expect, it } from 'vitest';
import { INCH_M } from '../../../shared-core/measure/length-units.ts';
import { isNominalDepth, parseJoist } from '../../../shared-core/measure/lumber.ts';

const inches = (text: string, side: 'depth' | 'width'): number | string => {
  const read = parseJoist(text, 'us', side, 'en-US');
  return read.ok ? Math.round((read.value / INCH_M) * 1e6) / 1e6 : read.message;
};

// American Softwood Lumber Standard PS 20, dressed sizes of dry dimension lumber (from memory).
it.each([
  ['2x6', 1.5, 5.5],
  ['2x8', 1.5, 7.25],
  ['2 x 10', 1.5, 9.25],
  ['2 by 12', 1.5, 11.25],
  ['4X10', 3.5, 9.25],
  ['10×2', 1.5, 9.25],
])('a joist called %s measures %f by %f in.', (name, width, depth) => {
  expect([inches(name, 'width'), inches(name, 'depth')]).toEqual([width, depth]);
});

it('a measured side is taken as it is, and a size that is none is refused', () => {
  expect([inches('9 1/2', 'depth'), inches('1 5/8"', 'width')]).toEqual([9.5, 1.625]);
  expect([inches('2x9', 'depth'), inches('6x10', 'depth')]).toEqual([
    expect.stringContaining('Measure the joist'),
    expect.stringContaining('Measure the joist'),
  ]);
  expect([isNominalDepth(10 * INCH_M), isNominalDepth(9.25 * INCH_M)]).toEqual([true, false]);
});
