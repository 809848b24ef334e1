import { describe, expect, it } from 'vitest';
import { readLeadLine } from '../../../shared-core/lead/read-line.ts';
import { FT, IN, read, US } from './a-call.ts';

describe('the size of a room in a line about a call', () => {
  // Sides of a room as they are written and called out: common practice, no source.
  it.each([
    ['150 x 168 inches', 150 / 12, 14],
    ['150" x 168"', 150 / 12, 14],
    ['150 1/2 in. by 168 1/4 in.', 150.5 / 12, 168.25 / 12],
    ['150" x 168', 150 / 12, 14],
    ['12 1/2 x 14', 12.5, 14],
    ['12½ x 14½', 12.5, 14.5],
    ['12 6 1/2 x 14', 12 + 6.5 / 12, 14],
    ['12-6 1/2 x 14-3', 12 + 6.5 / 12, 14.25],
    ["12' x 150 inches", 12, 12.5],
    ['11 x 13 ft 6 in.', 11, 13.5],
    ['12 ft 3 in by 14 ft 6 in', 12.25, 14.5],
    ['360 x 420 cm', 3.6 / FT, 4.2 / FT],
  ])('reads the sides of a room in %s', (size, widthFt, lengthFt) => {
    const lead = read(`Dana Wicklow, kitchen ${size}, tile over slab`);
    const rooms = [{ name: 'Kitchen', widthM: expect.closeTo(widthFt * FT, 9), lengthM: expect.closeTo(lengthFt * FT, 9) }];
    expect(lead).toMatchObject({ rooms, floor: 'tile over slab', notes: '' });
  });

  it.each(['11 x 13 ft 6 in', "11' x 13' 6 in", '11 ft by 13 ft 6 in.'])('reads the inches before the floor in %s vinyl', (size) =>
    expect(read(`Dana Wicklow, kitchen ${size} vinyl on ply`)).toMatchObject({
      rooms: [{ widthM: expect.closeTo(11 * FT, 9), lengthM: expect.closeTo(13.5 * FT, 9) }],
      ...{ floor: 'vinyl on ply', notes: '' },
    }),
  );

  // With inches on the first side, those of the second are inches before any word: common practice, no source.
  it.each([
    ...['engineered hardwood over ply over joists', 'cutback over slab', 'felt over plywood', 'click planks'].map((floor) => [
      floor,
      floor,
    ]),
    ...['needs leveling', 'referred by Sam', 'call friday', 'and a bath 5x8', 'plus hall', 'in the back'].map((after) => [after, '']),
    ['with tile over slab', 'tile over slab'],
  ])('reads inches on both sides before %s', (after, floor) => {
    const lead = read(`Dana Wicklow, kitchen 12 ft 3 in by 14 ft 6 in ${after}`);
    expect(lead.rooms[0]).toEqual({ name: 'Kitchen', widthM: expect.closeTo(12.25 * FT, 9), lengthM: expect.closeTo(14.5 * FT, 9) });
    expect(lead).toMatchObject({ floor, roughGapM: null });
  });

  it.each(['old vinyl over ply', 'and hall 4x20'])('reads the inches before %s', (after) =>
    expect(read(`Dana Wicklow, kitchen 12' x 14' 6 in ${after}`).rooms[0]).toMatchObject({ lengthM: expect.closeTo(14.5 * FT, 9) }),
  );

  it.each([
    ['kitchen 12x14 1/2 out', 12, 14, 1 / 2],
    ['kitchen 12x14 1/2" low', 12, 14, 1 / 2],
    ["kitchen 12' x 14' 3/8 out", 12, 14, 3 / 8],
    ['kitchen 12x14 3/8, tile over slab', 12, 14, null],
    ["kitchen 12' x 14' 3 dips", 12, 14, null],
    ['kitchen 12x14 in the back', 12, 14, null],
    ['kitchen 12 ft x 14 ft 6 in the back', 12, 14, null],
    ['kitchen 12 x 14 ft 2 in off', 12, 14, 2],
    ["kitchen 12' x 14' 1 in hump", 12, 14, 1],
    ['kitchen 12 ft x 14 ft 1 in over 10 ft', 12, 14, null],
    ['kitchen 12 ft 3 in x 14 ft 1 in low', 12.25, 14, 1],
    ["kitchen 12' x 14' 1 in fall to the door", 12, 14, null],
    ["kitchen 12' x 14' 1 1/2 in belly", 12, 14, null],
    ["kitchen 12' x 14' 2 in bad shape", 12, 14, null],
    ['bedroom 2 10x12', 10, 12, null],
    ['kitchen 12x14 over 2x10 joists', 12, 14, null],
    ['kitchen 12x14, 3/4 plywood', 12, 14, null],
    ['kitchen 12x14, 12x24" tile', 12, 14, null],
  ])('takes nothing beside the size for a side in %s', (talk, widthFt, lengthFt, gapIn) => {
    const { rooms, roughGapM } = read(`Dana Wicklow, ${talk}`);
    expect(rooms).toMatchObject([{ widthM: expect.closeTo(widthFt * FT, 9), lengthM: expect.closeTo(lengthFt * FT, 9) }]);
    expect(roughGapM).toEqual(gapIn === null ? null : expect.closeTo(gapIn * IN, 9));
  });

  // Sizes of tile, lumber, sheets and fixtures as they are talked about: common practice, no source.
  it.each([
    ['12x12 tile over slab', 'tile over slab'],
    ['with 12x24 tile', 'tile'],
    ['12 x 24 porcelain tile over slab', 'porcelain tile over slab'],
    ['9x9 asbestos tile over slab', 'asbestos tile over slab'],
    ['12x24 tile going in', ''],
    ['flat for 24x48 porcelain', ''],
    ['wants large format 24x24 tile', ''],
    ['24x48 large format', ''],
    ['2x6 T&G over joists', ''],
    ['over 2x10 joists', ''],
    ['joists 2x10 at 16', ''],
    ['4x8 sheets 3/4 ply', ''],
    ['12x12 tile 3 layers', ''],
    ['3x7 door 2 of them', ''],
    ['3x5 island stays', ''],
    ['island is 3x5', ''],
    ["3' x 6' shower", ''],
    ['door 6x7', ''],
  ])('is not %s, which stays in the notes', (talk, floor) => {
    const lead = read(`Dana Wicklow, bath 8x10, ${talk}`);
    const rooms = [{ name: 'Bath', widthM: expect.closeTo(8 * FT, 9), lengthM: expect.closeTo(10 * FT, 9) }];
    expect(lead).toMatchObject({ rooms, floor, notes: talk, roughGapM: null });
    expect(read(`Dana Wicklow, bath, ${talk}`).rooms).toEqual([{ name: 'Bath', widthM: null, lengthM: null }]);
  });

  it.each([
    ['kitchen 12x14 tile over slab', 12, 14, 'tile over slab'],
    ['hall 4x20 vinyl over plywood', 4, 20, 'vinyl over plywood'],
    ['bedroom 12x12 carpet', 12, 12, 'carpet'],
    ["kitchen 12' x 12' tile", 12, 12, 'tile'],
    ['12x12 kitchen tile over slab', 12, 12, 'tile over slab'],
    ['townhouse 9x9 tile family room 15x20', 15, 20, ''],
    ['9x9 tile family room 15x20', 15, 20, 'tile'],
    ['kitchen 12x14 island stays', 12, 14, ''],
    ['bath 5x8 tub stays', 5, 8, ''],
    ['hall 4x20 door 6x7', 4, 20, ''],
    ['no tub 12x14 kitchen', 12, 14, ''],
  ])('is the room’s in %s', (talk, widthFt, lengthFt, floor) =>
    expect(read(`Dana Wicklow, ${talk}`)).toMatchObject({
      rooms: [{ widthM: expect.closeTo(widthFt * FT, 9), lengthM: expect.closeTo(lengthFt * FT, 9) }],
      floor,
    }),
  );

  // A size right before tile, boards or sheets is theirs, with the room before and a number after: common practice, no source.
  it.each([
    ['kitchen 24x48 tile 3/8 thick over slab', '', null],
    ['kitchen 12x24 tile 1/8 grout', '', null],
    ['bath 12x24 tile 2 years old', '', null],
    ['kitchen 4x8 sheets 3/4 ply', '', null],
    ['kitchen 12x12 tile 3/8 low', 'tile', 3 / 8],
    ['bath 2x10 joists 16 oc', '', null],
  ])('is that of the floor in %s', (talk, floor, gapIn) => {
    const lead = read(`Dana Wicklow, ${talk}`);
    expect(lead.rooms).toMatchObject([{ widthM: null, lengthM: null }]);
    expect(lead).toMatchObject({ floor, notes: talk, roughGapM: gapIn === null ? null : expect.closeTo(gapIn * IN, 9) });
  });

  it('is in meters with metric units, where no tile is 4 by 4', () => {
    const metric = { ...US, units: 'metric', locale: 'en-GB', country: 'GB' } as const;
    expect(readLeadLine('Dana Wicklow, kitchen 4x4 tile over slab', metric).rooms).toEqual([{ name: 'Kitchen', widthM: 4, lengthM: 4 }]);
  });
});
