import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { leadRecords } from '../../../shared-core/lead/lead-records.ts';
import { readFloor } from '../../../shared-core/lead/line-floor.ts';
import { type LineContext, readLeadLine } from '../../../shared-core/lead/read-line.ts';
import { FT, IN, OF, read, US } from './a-call.ts';

const METRIC: LineContext = { ...US, units: 'metric', locale: 'en-GB', country: 'GB', zone: 'Europe/London' };

describe('a line about a call', () => {
  it('gives customer, phone, source, room with its rectangle, floor, gap and visit', () => {
    const lead = read('Dana Wicklow 555-0142, kitchen 12x14, tile over slab, about 3/8 out, referred, visit Thu 4pm');
    expect(lead).toMatchObject({ name: 'Dana Wicklow', phone: '555-0142', source: 'Referral', floor: 'tile over slab', notes: '' });
    expect(lead.rooms).toEqual([{ name: 'Kitchen', widthM: expect.closeTo(12 * FT, 9), lengthM: expect.closeTo(14 * FT, 9) }]);
    expect(lead.roughGapM).toBeCloseTo(0.375 * IN, 9);
    expect(lead).toMatchObject({ step: 'visit', day: '2026-05-14', clock: '16:00' });
    expect(readFloor(lead.floor)).toEqual(['ceramic-tile', 'concrete-on-ground']);
  });

  it('reads the same without commas', () => {
    const [a, b] = [
      read('Dana Wicklow 555-0142 kitchen 12x14 tile over slab 3/8 out referred visit thu 4pm'),
      read('Dana Wicklow 555-0142, kitchen 12x14, tile over slab, about 3/8 out, referred, visit Thu 4pm'),
    ];
    expect(a).toEqual(b);
  });

  it('needs only a name, and reads no name as a room, a month or a layer', () => {
    for (const name of ['June Park', 'May Hall', 'Mrs. Hall', 'Will March', 'Sam Wood', 'Ben Store']) {
      expect(read(name)).toMatchObject({ name, rooms: [], floor: '', day: null, step: null, notes: '' });
      expect(read(`${name} 555-0142, call friday`)).toMatchObject({ name, day: '2026-05-15', step: 'call-back', rooms: [] });
    }
  });

  it('keeps every word it does not understand', () => {
    expect(read('Okafor, basement 20 x 30, has a dog, gate code 4471').notes).toBe('has a dog, gate code 4471');
  });

  it('reads several rooms with feet and inches, and layers down to the joists', () => {
    const lead = read("Rae Okoye, hall 4' x 20' and kitchen 12'6\" x 14, vinyl over plywood over joists, drops 1/2\"");
    expect(lead.rooms.map((r) => [r.name, (r.widthM ?? 0) / FT, (r.lengthM ?? 0) / FT])).toEqual([
      ['Hall', expect.closeTo(4, 9), expect.closeTo(20, 9)],
      ['Kitchen', expect.closeTo(12.5, 9), expect.closeTo(14, 9)],
    ]);
    expect(readFloor(lead.floor)).toEqual(['sheet-flooring', 'plywood', 'joists']);
    expect(lead.roughGapM).toBeCloseTo(0.5 * IN, 9);
  });

  it('reads a gap as it is spoken', () => {
    const gapIn = (words: string) => (read(`Dana Wicklow 555-0142, kitchen 12x14, tile over slab, ${words}`).roughGapM ?? 0) / IN;
    expect(gapIn('about half an inch out')).toBeCloseTo(0.5, 9);
    expect(gapIn('a quarter inch out')).toBeCloseTo(0.25, 9);
    expect(gapIn('three quarters of an inch low')).toBeCloseTo(0.75, 9);
    expect(gapIn('off by an eighth of an inch')).toBeCloseTo(0.125, 9);
    expect(gapIn('an inch and a half out')).toBeCloseTo(1.5, 9);
    expect(gapIn('an inch and three quarters out')).toBeCloseTo(1.75, 9);
    expect(gapIn('one and a half inch out')).toBeCloseTo(1.5, 9);
    expect(gapIn('2 and a quarter inches low')).toBeCloseTo(2.25, 9);
    expect(gapIn('out by an inch')).toBeCloseTo(1, 9);
    expect(read('Dana Wicklow, half bath 5x4, half inch out').rooms.map(({ name }) => name)).toEqual(['Half bath']);
  });

  it('reads meters and millimeters with metric units', () => {
    const lead = readLeadLine('Rae Okoye, living room 3.6 x 4.2, 10 mm out', METRIC);
    expect(lead.rooms).toEqual([{ name: 'Living room', widthM: 3.6, lengthM: 4.2 }]);
    expect(lead.roughGapM).toBeCloseTo(0.01, 9);
  });

  it('reads an address, the year built and who referred', () => {
    expect(read('Okafor, 41 Pennant Hill Road, basement 20 x 30, quote by June 3, built 1951, referred by Ann Doyle')).toMatchObject({
      address: '41 Pennant Hill Road',
      yearBuilt: 1951,
      source: 'Referral: Ann Doyle',
      step: 'quote-by',
      day: '2026-06-03',
    });
  });

  it.each([
    ['Ann Doyle', 'Dave Cole 555-0142 referred by Ann Doyle kitchen 12x14 3/4 out visit Friday at 2'],
    ['Ann Doyle', 'Dave Cole 555-0142 kitchen 12x14 3/4 out referred by Ann Doyle visit Friday at 2'],
    ['ann doyle', 'Dave Cole 555-0142, kitchen 12x14, 3/4 out, referred by ann doyle, visit Friday at 2'],
    ['Sam Price', 'Dave Cole 555-0142, kitchen 12x14, 3/4 out, referral from Sam Price, visit Friday at 2'],
  ])('reads that %s referred, and the visit, in %s', (who, line) =>
    expect(read(line)).toMatchObject({
      ...{ name: 'Dave Cole', source: `Referral: ${who}`, notes: '' },
      ...{ step: 'visit', day: '2026-05-15', clock: '14:00', rooms: [{ name: 'Kitchen' }] },
    }),
  );

  // City, two-letter state and ZIP code or ZIP+4 on the last line: USPS Publication 28, section 2, from memory.
  it.each([
    ['Burlington', '05401', 'Dave Cole 555-0142, 41 Pennant Hill Road, Burlington VT 05401, kitchen 12x14'],
    ['South Burlington', '05403-1234', 'Dave Cole 555-0142 41 Pennant Hill Road South Burlington, VT 05403-1234 kitchen 12x14'],
  ])('reads the city %s and ZIP code %s', (city, zip, line) =>
    expect(read(line)).toMatchObject({
      ...{ address: '41 Pennant Hill Road', city, region: 'VT', zip, notes: '' },
      ...{ phone: '555-0142', rooms: [{ name: 'Kitchen' }] },
    }),
  );

  // Before plywood, houses had subfloors of plank or board on joists; a floating plank needs a subfloor: common practice, no source.
  it.each([
    ['the old plank flooring over joists', ['boards', 'joists']],
    ['paint over plank floor over joists', ['paint-or-sealer', 'boards', 'joists']],
    ['tile over 3/4 planks on joists', ['ceramic-tile', 'boards', 'joists']],
    ['vinyl plank over plank subfloor over joists', ['floating-plank', 'boards', 'joists']],
    ['plank floor over slab', ['floating-plank', 'concrete-on-ground']],
    ['old vinyl plank floor', ['floating-plank']],
    ['floating plank over joists', ['floating-plank', 'joists']],
    ['laminate plank over joists', ['floating-plank', 'joists']],
    ['lvp plank over joists', ['floating-plank', 'joists']],
    ['waterproof plank over joists', ['floating-plank', 'joists']],
    ['click plank over ply', ['floating-plank', 'plywood']],
    ['engineered plank over joists', ['wood-flooring', 'joists']],
  ])('reads the planks of %s', (words, layers) => expect(readFloor(words)).toEqual(layers));

  it.each([
    ['visit tomorrow at 9:30', '2026-05-13', '09:30'],
    ['visit next tuesday at 9', '2026-05-19', '09:00'],
    ['visit 5/20 at 4', '2026-05-20', '16:00'],
    ['come by friday noon', '2026-05-15', '12:00'],
    ['measure today 2pm', '2026-05-12', '14:00'],
  ])('counts %s from the day in the property’s zone', (text, day, clock) =>
    expect(read(`Dana, ${text}`)).toMatchObject({ step: 'visit', day, clock }),
  );

  // How a floor is talked about on the phone, in the halves to sixteenths of a tape: common practice, no source.
  it.each<readonly [talk: string, gapIn: number | null, notes: string]>([
    ['about 1/4 to 3/8 out, referred', 3 / 8, ''],
    ['1/4-3/8 out', 3 / 8, ''],
    ['between 1/4 and 1/2 low', 1 / 2, ''],
    ['dips 1/4 to 1/2', 1 / 2, 'dips 1/4 to 1/2'],
    ['out 1/4-1/2', 1 / 2, ''],
    ['drops 1 to 1-1/2', 3 / 2, ''],
    ['out of level by 1 1/2"', 3 / 2, ''],
    ['out of level about 1"', 1, ''],
    ['3/8 in 10 feet', null, '3/8 in 10 feet'],
    ['3/8 in 10 ft low', 3 / 8, '3/8 in 10 ft low'],
    ['1/2 bump', 1 / 2, ''],
    ["drops 1/2 in 10'", 1 / 2, "drops 1/2 in 10'"],
    ...[
      ...['cabinets 36 high', 'cabinets 36 in high', '$100 off coupon', '8 ft ceilings, 96 high', 'tub 3 high', '5 out of town days'],
      ...[
        '3.5 out of 5 stars',
        'took the day off 15',
        'slopes 1/4 in per foot',
        'off 1/2 day',
        'spec 1/8 in 10 ft',
        'must be flat 3/16 over 10 ft',
        '1/8 in 10 ft for the LVP',
      ],
    ].map((talk) => [talk, null, talk] as const),
    ['low 1/2 by the sink', 1 / 2, 'low 1/2 by the sink'],
    ['low spot 3/4 deep', 3 / 4, 'low spot 3/4 deep'],
    ['3 dips about 1/2', 1 / 2, '3 dips about 1/2'],
    ['off 1/4 at 2 doors', 1 / 4, 'off 1/4 at 2 doors'],
    ['about ¾ out', 3 / 4, ''],
    ['3/8 out by the door, 1/2 dip at the sink', 1 / 2, '3/8 out by the door, 1/2 dip at the sink'],
    ['3 dips', null, '3 dips'],
    ['8-10 humps', null, '8-10 humps'],
    ['4 low corners', null, '4 low corners'],
    ['out 2 weeks', null, 'out 2 weeks'],
    ['flat to within 3/16 in 10 ft', null, 'flat to within 3/16 in 10 ft'],
    ['max 1/2, min 0', null, 'max 1/2, min 0'],
  ])('reads a gap in %s, and no date', (talk, gapIn, notes) => {
    const lead = read(`Dana Wicklow, kitchen 12x14, ${talk}`);
    expect(lead).toMatchObject({ step: null, day: null, clock: null, notes });
    expect(lead.rooms).toHaveLength(1);
    if (gapIn === null) expect(lead.roughGapM).toBeNull();
    else expect(lead.roughGapM).toBeCloseTo(gapIn * IN, 9);
  });

  it.each([
    ['kitchen 12x14, den 10x12, tile over slab, 3/8 out', null],
    ['kitchen and den 3/8 out', null],
    ['kitchen 12x14, den 10x12, the den dips maybe 3/4 by the slider', 'Den'],
    ['kitchen 12x14 and den dips maybe 3/4 by the slider', 'Den'],
    ['kitchen 12x14 3/8 out, den 10x12', 'Kitchen'],
    ['kitchen 3/8 out, den 3/4 out', 'Den'],
    ['kitchen 12x14, the kitchen is 3/8 out', null],
  ])('gives the gap in %s to the room it is said of', (talk, room) => {
    expect(read(`Dana Wicklow, ${talk}`).gapRoom).toBe(room);
    const { rooms } = leadRecords(read(`Dana Wicklow, ${talk}`), OF);
    expect(rooms.filter(({ ballpark }) => ballpark !== null).map(({ name }) => name)).toEqual(
      room === null ? rooms.map(({ name }) => name) : [room],
    );
  });

  it.each<readonly [talk: string, layers: readonly (readonly [material: string, thicknessIn: number | null])[]]>([
    [
      'carpet over 3/4" plywood over joists',
      [
        ['carpet', null],
        ['plywood', 3 / 4],
        ['joists', null],
      ],
    ],
    ['1-1/8 subfloor', [['plywood', 1 + 1 / 8]]],
    [
      'quarry tile over 1 1/2 inch thick mud bed over 4" slab',
      [
        ['ceramic-tile', null],
        ['screed', 1 + 1 / 2],
        ['concrete-on-ground', 4],
      ],
    ],
    [
      'vinyl over 18 mm plywood over 2x10 joists',
      [
        ['sheet-flooring', null],
        ['plywood', 18 / 25.4],
        ['joists', null],
      ],
    ],
  ])('reads layers with their thickness in %s, and no date', (talk, layers) => {
    const lead = read(`Dana Wicklow, kitchen 12x14, ${talk}`);
    expect(lead).toMatchObject({ floor: talk, notes: '', step: null, day: null, roughGapM: null });
    expect(lead.rooms).toHaveLength(1);
    const thickness = layers.map(([material, inches]) => ({
      material,
      thicknessM: inches === null ? null : expect.closeTo(inches * IN, 9),
    }));
    expect(leadRecords(lead, OF).rooms[0]?.layers).toMatchObject(thickness);
  });

  // How the new flooring and the joists are talked about: common practice, no source.
  it.each([
    ['flat for 24x48 porcelain, carpet over slab', 'carpet over slab'],
    ['installing 12x24 tile, vinyl over slab', 'vinyl over slab'],
    ['putting down 12x24 tile, carpet over ply', 'carpet over ply'],
    ['24x48 tile, old oak over ply', 'old oak over ply'],
    ['porcelain, carpet and pad over concrete', 'carpet and pad over concrete'],
    ['2x10 joists, tile over ply', 'tile over ply'],
    ['tile, wants carpet and pad', 'tile'],
    ['tile, carpet over slab', 'carpet over slab'],
  ])('reads the floor that is there in %s', (talk, floor) => {
    const lead = read(`Dana Wicklow, kitchen 12x14, ${talk}`);
    expect(lead).toMatchObject({ floor, rooms: [{ name: 'Kitchen' }] });
    expect([lead.notes, lead.floor].sort()).toEqual([floor, talk.replace(`, ${floor}`, '').replace(`${floor}, `, '')].sort());
  });

  it.each([
    'flooded yesterday',
    'called last Friday',
    'leaked 3 days ago',
    'wet since monday',
    'flooded today',
    'slab 28 days old',
    'about 30 min away',
    'dips at 2 doors',
    'gate closes at 6pm',
    'floor open from 9 to 5',
    'floor open from 1900 to 2100',
    'sat empty',
    'install 6/15',
    'flooring arrives 6/15',
    'march 3 dips',
    'quote for 3/4 plywood',
    'joists 2x10 at 16',
  ])('reads no next step in %s', (talk) =>
    expect(read(`Dana Wicklow, kitchen 12x14, ${talk}`)).toMatchObject({ step: null, day: null, clock: null, notes: talk }),
  );

  it.each([
    ['visit 5/20', 'visit', '2026-05-20'],
    ['quote by 6/1', 'quote-by', '2026-06-01'],
    ['call before 6/1', 'call-back', '2026-06-01'],
    ['Thu 5/14', 'call-back', '2026-05-14'],
    ['5/20 4pm', 'visit', '2026-05-20'],
    ['called yesterday, call back friday', 'call-back', '2026-05-15'],
    ['measure 1/4 low near the door', 'visit', '2026-05-13'],
  ])('reads a next step in %s', (talk, step, day) => expect(read(`Dana Wicklow, ${talk}`)).toMatchObject({ step, day }));

  it.each([
    ['3/8 out all the way across', 'across'],
    ['2 low spots off the drive', '2 low spots off the drive'],
    ['2 Low Spots Off The Drive', '2 Low Spots Off The Drive'],
    ['1 low place by the sink', '1 low place by the sink'],
    ['3 dips all the way', '3 dips all the way'],
    ['3 miles off Mill Road', '3 miles off Mill Road'],
    ['2000 sq ft', '2000 sq ft'],
    ['house is 2000 sq ft', 'house is 2000 sq ft'],
    ['budget $2000 condo', 'budget $2000 condo'],
    ['gate code 1951', 'gate code 1951'],
    ['budget $2000', 'budget $2000'],
    // What was built or laid in a year is often not the house: common practice, no source.
    ...['addition built 1998', 'cabinets built 2010', 'slab from 2004', 'basement was built 1998', 'bought house 2019'].map((talk) => [
      talk,
      talk,
    ]),
    ['house 1952, built 1998', 'house 1952, built 1998'],
  ])('reads no address and no year in %s', (talk, end) => {
    const lead = read(`Dana Wicklow, kitchen 12x14, ${talk}`);
    expect(lead).toMatchObject({ address: '', yearBuilt: null });
    expect(lead.notes.endsWith(end)).toBe(true);
  });

  it.each([
    '14 High Street',
    '14 high street',
    '120 high ridge rd',
    '12 HIGH POINT ROAD',
    '8 low meadow lane',
    '120 High Ridge Rd',
    '12 High Point Road',
    '77 Town and Country Drive',
    '77 town and country drive',
    '40 The Pines Drive',
    '9 By Pass Road',
    '20 Off Lane',
    '3 Head of the Harbor Road',
    '14 Upper High Street',
    '7 all saints road',
    '1900 Ranch Road',
  ])('reads the address %s', (address) =>
    expect(read(`Dana Wicklow, ${address}, kitchen 12x14`)).toMatchObject({ address, notes: '', yearBuilt: null, roughGapM: null }),
  );

  it.each([
    '2 inches low one way',
    '2 low one way',
    '3 low by drive',
    '2 baths and entry way',
    '6 foot low place by the sink',
    '1 big low place at the door',
    '300 ft and a drive',
  ])('reads no address in %s', (words) => expect(read(`Dana Wicklow, ${words}`).address).toBe(''));
  it('keeps a gap before words that could be a street', () => {
    expect(read('Dana Wicklow, kitchen 12x14, 2 inches low one way').roughGapM).toBeCloseTo(0.0508, 6);
  });

  it.each([
    ['Lou Kemp, 1955 ranch, kitchen 12x14', '1955 ranch'],
    ['Lou Kemp 1955 farmhouse dining room 14x16', '1955 farmhouse dining room 14x16'],
    ['Lou Kemp kitchen 12x14 1955 bungalow', 'kitchen 12x14 1955 bungalow'],
  ])('reads the year in %s, and keeps the kind of house', (line, notes) =>
    expect(read(line)).toMatchObject({ name: 'Lou Kemp', yearBuilt: 1955, notes, rooms: [{}] }),
  );

  it.each([
    'built in 1951',
    '1951 house',
    '1951',
    'house from 1951',
    'house is 1951',
    'year built 1951',
    'house was built in 1951',
    'house 1951',
    'condo built 1951',
    'place was built in 1951',
    '88 Elm St built 1951',
    'it was built in 1951',
  ])('reads the year in %s', (talk) => expect(read(`Dana Wicklow, ${talk}, kitchen 12x14`)).toMatchObject({ yearBuilt: 1951, notes: '' }));

  it.each([
    'sheet vinyl from 1985, kitchen 12x14, house 1952',
    'garage built 2004, house 1952',
    'kitchen 12x14 built 1952',
    'repeat customer 2019, built 1952',
  ])('reads the year of the house alone in %s', (talk) => expect(read(`Dana Wicklow, ${talk}`).yearBuilt).toBe(1952));

  it.each([
    ['Dr. May Hall', 'Dr. May Hall 555-0142, kitchen 12x14'],
    ['Jim and Sue Hall', 'Jim and Sue Hall, kitchen 12x14'],
    ['jim and sue hall', 'jim and sue hall, kitchen 12x14'],
    ['DR. MAY HALL', 'DR. MAY HALL 555-0142, KITCHEN 12X14'],
    ['Jim and Sue Hall', 'Jim and Sue Hall kitchen 12x14'],
    ['Dana Wicklow', 'Dana Wicklow kitchen, call friday'],
    ['dana wicklow', 'dana wicklow kitchen tile over slab'],
  ])('reads the name %s in %s, and one room', (name, line) => expect(read(line)).toMatchObject({ name, rooms: [{ name: 'Kitchen' }] }));

  it.each(['Riverside Dance Studio', 'The Old Mill Shop', 'Riverside Dance Studio LLC'])(
    'reads %s as a name and its size as a room',
    (name) => expect(read(`${name}, 20x30`)).toMatchObject({ name, rooms: [{ name: 'Room', widthM: expect.closeTo(20 * FT, 9) }] }),
  );

  it('reads a month before a comma as a name', () =>
    expect(read('Dr. June, 2 low spots')).toMatchObject({ name: 'Dr. June', day: null, notes: '2 low spots' }));

  it('counts the day in the given zone, not in that of the computer', () => {
    // 11:30 pm on May 12 in New York is May 13 in UTC.
    const late = { ...US, now: '2026-05-13T03:30:00.000Z' };
    expect(readLeadLine('Dana, call back tomorrow', late).day).toBe('2026-05-13');
    // The night the clocks go forward in the US: March 8, 2026.
    const spring = { ...US, now: '2026-03-07T17:00:00.000Z' };
    expect(readLeadLine('Dana, visit tomorrow 8am', spring)).toMatchObject({ day: '2026-03-08', clock: '08:00' });
  });

  test('never throws, and loses no word of plain text', () => {
    fc.assert(fc.property(fc.string({ maxLength: 200 }), (text) => void read(text)));
    const word = fc.stringMatching(/^[b-df-hj-np-tv-z]{5,8}$/);
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 8 }), (words) => {
        const lead = read(`Dana Wicklow, ${words.join(' ')}`);
        expect(lead.notes).toBe(words.join(' '));
      }),
    );
  });
});
