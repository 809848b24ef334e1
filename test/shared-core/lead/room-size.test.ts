import { describe, expect, it } from 'vitest';
import { FT, IN, read } from './a-call.ts';

describe('the size of a room in a line about a call', () => {
  // Sides of a room as they are written and called out: common practice, no source.
  it.each([
    ['150 x 168 inches', 150 / 12, 14],
    ['150x168"', 150 / 12, 14],
    ['150" x 168"', 150 / 12, 14],
    ['150 in x 168 in', 150 / 12, 14],
    ['150 1/2 in. by 168 1/4 in.', 150.5 / 12, 168.25 / 12],
    ['150" x 168', 150 / 12, 14],
    ['12 1/2 x 14', 12.5, 14],
    ['12½ x 14½', 12.5, 14.5],
    ['12 6 1/2 x 14', 12 + 6.5 / 12, 14],
    ['12-6 1/2 x 14-3', 12 + 6.5 / 12, 14.25],
    ["12' x 150 inches", 12, 12.5],
    ['360 x 420 cm', 3.6 / FT, 4.2 / FT],
  ])('reads the sides of a room in %s', (size, widthFt, lengthFt) => {
    const lead = read(`Dana Wicklow, kitchen ${size}, tile over slab`);
    const rooms = [{ name: 'Kitchen', widthM: expect.closeTo(widthFt * FT, 9), lengthM: expect.closeTo(lengthFt * FT, 9) }];
    expect(lead).toMatchObject({ rooms, floor: 'tile over slab', notes: '' });
  });

  it.each([
    ['kitchen 12x14 1/2 out', 12, 14, 1 / 2],
    ['kitchen 12x14 1/2" low', 12, 14, 1 / 2],
    ["kitchen 12' x 14' 3/8 out", 12, 14, 3 / 8],
    ['kitchen 12x14 3 dips', 12, 14, null],
    ['kitchen 12x14 3/8, tile over slab', 12, 14, null],
    ["kitchen 12' x 14' 3 dips", 12, 14, null],
    ['kitchen 12x14 in the back', 12, 14, null],
    ['bedroom 2 10x12', 10, 12, null],
    ['kitchen 12x14 over 2x10 joists', 12, 14, null],
    ['kitchen 12x14, 3/4 plywood', 12, 14, null],
    ['kitchen 12x14, 12x24" tile', 12, 14, null],
  ])('takes nothing beside the size for a side in %s', (talk, widthFt, lengthFt, gapIn) => {
    const { rooms, roughGapM } = read(`Dana Wicklow, ${talk}`);
    expect(rooms).toMatchObject([{ widthM: expect.closeTo(widthFt * FT, 9), lengthM: expect.closeTo(lengthFt * FT, 9) }]);
    expect(roughGapM).toEqual(gapIn === null ? null : expect.closeTo(gapIn * IN, 9));
  });
});
