/** What a line about a call keeps as notes, and how sentences part it. */
import { describe, expect, it } from 'vitest';
import { leadRecords } from '../../../shared-core/lead/lead-records.ts';
import { FT, IN, OF, read } from './a-call.ts';

describe('the notes of a call', () => {
  it.each([
    ['call back about the dog', 'call-back'],
    ['call me after 5', 'call-back'],
    ['wants a site visit', 'visit'],
  ])('has the step without a day in %s for tomorrow, and keeps its words', (talk, step) => {
    const lead = read(`Dana Wicklow, kitchen 12x14, ${talk}`);
    const next = { step, day: '2026-05-13', clock: null };
    expect(lead).toMatchObject({ ...next, notes: talk });
    expect(leadRecords(lead, OF).lead).toMatchObject({ next, notes: talk });
  });

  it('reads sentences as it reads parts between commas', () => {
    const lead = read('Tom Becker 614-555-0188. Kitchen 12x14. Tile over slab. About 3/8 out.');
    expect(lead).toMatchObject({ name: 'Tom Becker', phone: '(614) 555-0188', floor: 'Tile over slab', notes: '' });
    expect(lead.rooms).toMatchObject([{ name: 'Kitchen' }]);
    expect(lead.roughGapM).toBeCloseTo(0.375 * IN, 9);
    expect(read('Tom Becker. Kitchen is 12x14. Hardwood. About 3/8 out.')).toMatchObject({
      ...{ name: 'Tom Becker', floor: 'Hardwood', notes: '' },
      rooms: [{ name: 'Kitchen', widthM: expect.closeTo(12 * FT, 9) }],
    });
  });

  it.each([
    ["Tom Becker 614-555-0188 Kitchen 12'6 x 14 and dining room 11x13. Tile over slab. About 3/4 out. Call me after 5", 'Call me after 5'],
    [
      'Tom Becker, got your number from my sister Sue. Kitchen is 12x14 and the dining room is about 11x13. Tile on concrete, its 3/4 out, call me after 5',
      'got your number from my sister Sue. call me after 5',
    ],
    [
      'Tom Becker, kitchen 12x14. Can you come by thursday? The dog bites! Gate code 4471.',
      'Can you come by thursday? The dog bites! Gate code 4471',
    ],
    ['Tom Becker 614-555-0188 kitchen 12x14 tile over slab 3/8 out by the door', 'kitchen 12x14 tile over slab 3/8 out by the door'],
    [
      'Tom Becker, wants new tile over the slab by the 1/2 in. low spot, budget 2,000',
      'wants new tile over the slab by the 1/2 in. low spot, budget 2,000',
    ],
    ['Tom Becker, meet me there friday', ''],
  ])('keeps whole sentences as notes, and none that is read: %s', (line, notes) => expect(read(line).notes).toBe(notes));

  it('keeps the words between a step and its day', () =>
    expect(read('Dana Wicklow, call back, has a dog, friday')).toMatchObject({ step: 'call-back', day: '2026-05-15', notes: 'has a dog' }));

  // A record of the layers has no place for these words.
  it.each(['asbestos tile over slab', 'cracked tile over slab', 'glued down carpet over slab'])(
    'keeps what %s is like in the notes',
    (talk) => expect(read(`Dana Wicklow, kitchen 12x14, ${talk}, has a dog`).notes).toBe(`${talk}, has a dog`),
  );

  // What is high or deep is the floor, unless another thing is named: common practice, no source.
  it.each<readonly [talk: string, gapIn: number | null, notes: string]>([
    ['3/8 high in the middle', 3 / 8, '3/8 high in the middle'],
    // A level lies flat on a floor that drops evenly across the room: common practice, no source.
    ...[
      ...['one side 3/4 high', '1 inch low one corner', '1 in low in the corner', 'low corner 3/4 in', '1/2 in low at one end'],
      ...['slopes 1 1/4 in to the drain', 'low 2" at door', 'drops 1 to 2 in toward the doorway', 'slopes 1 inch across the room'],
    ].map((talk) => [talk, null, talk] as const),
    ['1/2 in dip, drops 2 in to the door', 1 / 2, '1/2 in dip, drops 2 in to the door'],
    ['3/8 dip by the door', 3 / 8, '3/8 dip by the door'],
    ['low 1/2" by the door', 1 / 2, 'low 1/2" by the door'],
    ['1/2 inch low by the door', 1 / 2, '1/2 inch low by the door'],
    ['drops 1/2 in at the door', null, 'drops 1/2 in at the door'],
    ['1/2 low in the corner by the door', null, '1/2 low in the corner by the door'],
    ['off 1/4 at 2 doors', 1 / 4, 'off 1/4 at 2 doors'],
    ['about 1/2 inch deep in spots', 1 / 2, 'about 1/2 inch deep in spots'],
    ['3/8 deep low spot', 3 / 8, ''],
    ['1 1/2 deep', 3 / 2, ''],
    ['1/2 high threshold', null, '1/2 high threshold'],
    ['cabinets, 36 in high', null, 'cabinets, 36 in high'],
  ])('keeps what is more than the gap of %s', (talk, gapIn, notes) =>
    expect(read(`Dana Wicklow, kitchen 12x14, ${talk}`)).toMatchObject({
      roughGapM: gapIn === null ? null : expect.closeTo(gapIn * IN, 9),
      notes,
    }),
  );
});
