/** The rooms in a line about a call: which there are, what they are called, and which are spoken of again. */
import { describe, expect, it } from 'vitest';
import { numberedRooms } from '../../../shared-core/lead/read-line.ts';
import { FT, read } from './a-call.ts';

describe('the rooms of a call', () => {
  it.each<readonly [line: string, rooms: readonly (readonly [name: string, widthFt: number | null, lengthFt: number | null])[]]>([
    [
      'hall 4x20, hall 3x12',
      [
        ['Hall 1', 4, 20],
        ['Hall 2', 3, 12],
      ],
    ],
    [
      '2 offices 10x12 and 11x12, hall 4x20',
      [
        ['Office 1', 10, 12],
        ['Office 2', 11, 12],
        ['Hall', 4, 20],
      ],
    ],
    [
      'kitchen 12x14, offices 10x12, 11x12',
      [
        ['Kitchen', 12, 14],
        ['Office 1', 10, 12],
        ['Office 2', 11, 12],
      ],
    ],
    [
      'two closets',
      [
        ['Closet 1', null, null],
        ['Closet 2', null, null],
      ],
    ],
  ])('gives each room of %s a name of its own', (line, rooms) => {
    const lead = read(`Dana Wicklow, ${line}`);
    const feet = (n: number | null) => (n === null ? null : expect.closeTo(n * FT, 9));
    expect(lead.rooms).toEqual(rooms.map(([name, width, length]) => ({ name, widthM: feet(width), lengthM: feet(length) })));
    expect(lead.notes).toBe('');
  });

  // How rooms are spoken of a second time on the phone: common practice, no source.
  it.each<readonly [line: string, rooms: string]>([
    ['kitchen 10x12, wants heat in the kitchen', 'Kitchen 10x12'],
    ['heat mats in the kitchen, kitchen 10x12', 'Kitchen 10x12'],
    ['kitchen, hall 4x20, tile in the kitchen is loose', 'Kitchen ?, Hall 4x20'],
    ['kitchen 10x12, kitchen floor has a hump', 'Kitchen 10x12'],
    [
      'hall 4x18, kitchen 10x12, living room 14x20, some cracked tile in the kitchen, wants heat mats in the kitchen',
      'Hall 4x18, Kitchen 10x12, Living room 14x20',
    ],
    ['kitchen and hall 12x14 and 4x20, heat in the kitchen', 'Kitchen 12x14, Hall 4x20'],
    ['kitchen 10x12, heat in the kitchen and 5x8 bath', 'Kitchen 10x12, Bath 5x8'],
    ['the hall is 4x20, the hall upstairs is 3x12', 'Hall 1 4x20, Hall 2 3x12'],
    ['bath 5x8, upstairs bath', 'Bath 1 5x8, Bath 2 ?'],
    ['bedroom is 10x12 and 2nd bedroom needs leveling', 'Bedroom 1 10x12, Bedroom 2 ?'],
    ['upstairs bath is tile, downstairs bath is vinyl', 'Bath 1 ?, Bath 2 ?'],
    ['office 10x12, back office has vct, front office has carpet', 'Office 1 10x12, Office 2 ?, Office 3 ?'],
    ['bedroom, bedroom, bath', 'Bedroom 1 ?, Bedroom 2 ?, Bath ?'],
    ['12x14 kitchen, 12x10 kitchen', 'Kitchen 1 12x14, Kitchen 2 12x10'],
    ['kitchen 12x14, her kitchen floor is tile over slab', 'Kitchen 12x14'],
    ['kitchen 12x14, wants their kitchen level', 'Kitchen 12x14'],
    ['kitchen 12x14, will tile kitchen floor', 'Kitchen 12x14'],
    ['basement 12x14, because basement is wet', 'Basement 12x14'],
    ['basement 12x14, finished basement has carpet', 'Basement 12x14'],
    ['guest bath 5x8, hall 4x20, guest bath has vinyl, heat in the guest bath', 'Bath 5x8, Hall 4x20'],
    ['bedroom 10x12, second bedroom has carpet', 'Bedroom 1 10x12, Bedroom 2 ?'],
    ['garage 20x20, the other garage is slab', 'Garage 1 20x20, Garage 2 ?'],
    ['bath has tile, other bath has vinyl, 5x8 and 6x9', 'Bath 1 5x8, Bath 2 6x9'],
    ['level kitchen 10x12, kitchen floor is tile and old kitchen floor slopes', 'Kitchen 10x12'],
    ['2 offices 10x12 and 11x12, heat in the office', 'Office 1 10x12, Office 2 11x12'],
    ['hall bath 5x8, heat in the hall bath', 'Hall bath 5x8'],
    ['hall bath 5x8, the bath has vinyl', 'Hall bath 5x8'],
    ['hall bath 5x8, guest bath 4x6', 'Hall bath 5x8, Bath 4x6'],
    ['basement family room 10x20', 'Basement family room 10x20'],
    ['2 hall closets', 'Hall closet 1 ?, Hall closet 2 ?'],
    ['half bath off kitchen 4x5', 'Half bath 4x5'],
    ['kitchen 12x14, living room next to the kitchen 14x18', 'Kitchen 12x14, Living room 14x18'],
    ['half bath 4x5 off kitchen 12x14', 'Half bath 4x5, Kitchen 12x14'],
    ['kitchen tile over slab hall 4x20', 'Kitchen ?, Hall 4x20'],
    ['referred by Joe Hall, kitchen 12x14', 'Kitchen 12x14'],
    ['piano room 12x14, theater room 15x20', 'Piano room 12x14, Theater room 15x20'],
    ['x-ray room 10x8 and exam room 4x22', 'X-ray room 10x8, Exam room 4x22'],
    ['hall 4x22, sterilization room: 9x10', 'Hall 4x22, Sterilization room 9x10'],
    ['x-ray 10x8, hall 4x22', 'Room 10x8, Hall 4x22'],
    ['one big room 10x8, hall 4x22', 'Room 10x8, Hall 4x22'],
    ['12x14 kitchen, hall 4x20', 'Kitchen 12x14, Hall 4x20'],
    ['12x14 kitchen 4x20 hall', 'Kitchen 12x14, Hall 4x20'],
    ['12x14 kitchen, 3x14 hall', 'Kitchen 12x14, Hall 3x14'],
    ['12x14 kitchen 4x20 hall 5x8 bath', 'Kitchen 12x14, Hall 4x20, Bath 5x8'],
    ['12x14 kitchen 4x20 hall 5x8', 'Kitchen 12x14, Hall 4x20, Room 5x8'],
    ['needs 12x14 kitchen 4x20 hall', 'Kitchen 12x14, Hall 4x20'],
    ['main 20x20 hall 3x14', 'Room 20x20, Hall 3x14'],
    ['unit A 20x30 hall 4x20 den 9x9', 'Room 20x30, Hall 4x20, Den 9x9'],
    ['kitchen 12x14 unit 8x8 hall 3x14', 'Kitchen 12x14, Room 8x8, Hall 3x14'],
    ['kit 12x14 hall 3x14', 'Kitchen 12x14, Hall 3x14'],
    ['kitchen 12x14 nook 8x8 hall 3x14', 'Kitchen 12x14, Nook 8x8, Hall 3x14'],
    ['breakfast 8x8 kit 12x14', 'Breakfast nook 8x8, Kitchen 12x14'],
    ['master 12x14 bath 5x8', 'Primary bedroom 12x14, Bath 5x8'],
    ['MBR 12x14, br2 10x10 br 3 9x10, carpet in the bedroom', 'Primary bedroom 12x14, Bedroom 2 10x10, Bedroom 3 9x10'],
    ['master bath 5x8 lr: 14x18', 'Bath 5x8, Living room 14x18'],
  ])('reads the rooms of %s each once', (line, rooms) => {
    const feet = (n: number | null) => Math.round((n ?? 0) / FT);
    const told = read(`Dana Wicklow, ${line}`).rooms.map(
      ({ name, widthM, lengthM }) => `${name} ${widthM === null ? '?' : `${feet(widthM)}x${feet(lengthM)}`}`,
    );
    expect(told.sort()).toEqual(rooms.split(', ').sort());
  });

  // What is said before a size without commas: common practice, no source.
  it.each([
    ...['referred', 'needs', 'plus', 'level', 'vinyl over ply', 'slab'],
    ...['friday', 'big', 'the', 'visit friday', 'call monday morning', 'call him back'],
  ])('reads no kind of room in %s room 12x14', (talk) =>
    expect(read(`Joe Pratt 303-555-0142 ${talk} room 12x14`).rooms).toMatchObject([{ name: 'Room', widthM: expect.closeTo(12 * FT, 9) }]),
  );

  it.each(['call tomorrow', 'visit wednesday'])('reads the day of %s before a room', (talk) =>
    expect(read(`Joe Pratt 303-555-0142 ${talk} room 12x14 tile`)).toMatchObject({ day: '2026-05-13', floor: 'tile' }),
  );

  it('keeps where a room is in the notes', () =>
    expect(read('Dana Wicklow, bath in basement 5x8')).toMatchObject({ rooms: [{ name: 'Bath' }], notes: 'bath in basement 5x8' }));

  it.each(['Joe Pratt 303-555-0142', 'Joe Pratt'])('reads a room by what it is for after %s', (start) =>
    expect(read(`${start} break room 12x14`)).toMatchObject({ name: 'Joe Pratt', rooms: [{ name: 'Break room' }] }),
  );

  it('reads no room in the two words of a name', () =>
    expect(read('dana wicklow room 12x14')).toMatchObject({ name: 'dana wicklow room', rooms: [{ name: 'Room' }] }));

  // Kit, Master and Primary are names too: common practice, no source.
  it.each([
    ['Odell Kit 617-555-0134 12x14 den', 'Odell Kit', 'Den'],
    ['Mary Ann Kit 617-555-0134 12x14 den', 'Mary Ann Kit', 'Den'],
    ['Mary Ann Kit 12x14 den', 'Mary Ann Kit', 'Den'],
    ['Dana & Kit 12x14 kitchen', 'Dana & Kit', 'Kitchen'],
    ['Dana Wicklow and Kit 12x14', 'Dana Wicklow and Kit', 'Room'],
    ['dana and kit 12x14 kitchen', 'dana and kit', 'Kitchen'],
    ['Sal Master 12x14', 'Sal Master', 'Room'],
    ['Odell kit 12x14', 'Odell', 'Kitchen'],
    ['Dana MBR 12x14', 'Dana', 'Primary bedroom'],
    ['dana br 12x14', 'dana', 'Bedroom'],
    ['Dana Wicklow Kit 12x14', 'Dana Wicklow', 'Kitchen'],
    ['Joe Pratt kit 617-555-0134 12x14', 'Joe Pratt', 'Kitchen'],
    ['Joe Pratt 617-555-0134 den & kit 12x14', 'Joe Pratt', 'Den, Kitchen'],
  ])('tells the name from a short word for a room in %s', (line, name, rooms) => {
    const lead = read(line);
    expect([lead.name, lead.rooms.map((room) => room.name).join(', ')]).toEqual([name, rooms]);
    expect(lead.rooms.find((room) => room.widthM !== null)).toMatchObject({
      name: rooms.split(', ').at(-1),
      widthM: expect.closeTo(12 * FT, 9),
    });
  });

  it('numbers a further room by the first number that is free, and keeps the numbers given', () => {
    const names = (...given: readonly string[]) =>
      numberedRooms(given.map((name) => ({ name, widthM: null, lengthM: null }))).map(({ name }) => name);
    expect(names('Room')).toEqual(['Room']);
    expect(names('Room', 'Room')).toEqual(['Room 1', 'Room 2']);
    expect(names('Room 1', 'Room 2', 'Room')).toEqual(['Room 1', 'Room 2', 'Room 3']);
    expect(names('Hall 1', 'hall', 'Den')).toEqual(['Hall 1', 'hall 2', 'Den']);
  });
});
