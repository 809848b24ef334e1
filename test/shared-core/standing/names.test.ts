import { describe, expect, it } from 'vitest';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';
import {
  jobTitle,
  customerWords,
  isBusiness,
  roomsOfCustomer,
  roomWords,
  shortName,
  theRoom,
  theRooms,
  whose,
} from '../../../shared-core/standing/names.ts';

describe('a customer’s name in a sentence', () => {
  it('is the family’s for two people of one surname', () => {
    const names = ['Ida and Per Lindqvist', 'Robert and Ann Smith Jr.', 'Jim and Sue Marsh'];
    expect(names.map(customerWords)).toEqual(['the Lindqvists', 'the Smiths', 'the Marshes']);
    expect(names.map(whose)).toEqual(['the Lindqvists’', 'the Smiths’', 'the Marshes’']);
    expect(names.map(shortName)).toEqual(['Lindqvist', 'Smith', 'Marsh']);
  });

  it.each([
    ['Mike', 'Mike’s'],
    ['Marsh', 'Marsh’s'],
    ['Dale Tremaine', 'Dale Tremaine’s'],
    ['Jim and Sue', 'Jim and Sue’s'],
    ['Adaeze Abara, Jonas Finch', 'Adaeze Abara, Jonas Finch’s'],
    ['Miller & Sons', 'Miller & Sons’s'],
    ['Bob & Sons Flooring', 'Bob & Sons Flooring’s'],
    ['Bob and Sons Flooring', 'Bob and Sons Flooring’s'],
    ['Harbor House B&B', 'Harbor House B&B’s'],
    ['Kim & Lee Dental', 'Kim & Lee Dental’s'],
    ['Northside Dental, PC', 'Northside Dental, PC’s'],
    ['Tarrow Falls Library', 'Tarrow Falls Library’s'],
    ['The Bakers', 'The Bakers’'],
    ['Reed and Cole Construction', 'Reed and Cole Construction’s'],
  ])('is as entered for %s', (name, owned) => {
    expect([customerWords(name), shortName(name), whose(name)]).toEqual([name, name, owned]);
  });

  it('is both surnames of two people', () => {
    const name = 'Adaeze Abara and Jonas B. Finch';
    expect([customerWords(name), shortName(name), whose(name)]).toEqual(['Abara and Finch', 'Abara and Finch', 'Abara and Finch’s']);
  });

  it('has the first name first, and no suffixes', () => {
    expect(customerWords('Smith, John')).toBe('John Smith');
    expect(customerWords('Smith, John Q.')).toBe('John Q. Smith');
    expect(customerWords('Robert Smith, Jr.')).toBe('Robert Smith');
    expect(customerWords('Robert Smith Jr. and Ann Lee')).toBe('Smith and Lee');
    expect(customerWords('Ann Lee, PhD')).toBe('Ann Lee');
  });
});

describe('a room’s name in a sentence', () => {
  it('is written small where it begins with an ordinary word', () => {
    const names = ['Family room', 'Front hall', 'Upstairs bath', 'Sun porch', 'Mudroom', 'Office 2', 'Hall by Emma’s room'];
    expect(names.map(roomWords)).toEqual([
      'family room',
      'front hall',
      'upstairs bath',
      'sun porch',
      'mudroom',
      'office 2',
      'hall by Emma’s room',
    ]);
  });

  it.each(['Emma’s room', 'Florida room', 'French doors room', 'TV room', 'HVAC closet', 'Living Room'])(
    'keeps its capitals: %s',
    (name) => {
      expect(roomWords(name)).toBe(name);
    },
  );

  it('has an article, except where it is named for its owner', () => {
    expect(['Florida room', 'Kids’ room', 'The den', 'Emma’s room'].map(theRoom)).toEqual([
      'the Florida room',
      'the kids’ room',
      'the den',
      'Emma’s room',
    ]);
    expect(['The Lobby', 'Men’s restroom', 'Owner’s bath'].map(theRoom)).toEqual(['the Lobby', 'the men’s restroom', 'the owner’s bath']);
    expect(['Office 2', 'Exam room 3B', 'Room 101', 'Room over garage'].map(theRoom)).toEqual([
      'office 2',
      'exam room 3B',
      'room 101',
      'the room over garage',
    ]);
    expect(theRooms(['Hall', 'Office 2'])).toBe('the hall and office 2');
    expect(theRooms(['Hall', 'Laundry'])).toBe('the hall and laundry');
    expect(theRooms(['The den', 'Hall'])).toBe('the den and hall');
    expect(theRooms(['Kitchen', 'Emma’s room'])).toBe('the kitchen and Emma’s room');
    expect(theRooms([])).toBe('');
  });

  it('names its customer with it', () => {
    expect(roomsOfCustomer(['Family room', 'Hall'], 'Ida and Per Lindqvist')).toBe('the Lindqvists’ family room and hall');
    expect(roomsOfCustomer(['Emma’s room'], 'Ida and Per Lindqvist')).toBe('Emma’s room (the Lindqvists)');
  });
});

it('a label inside a sentence keeps an abbreviation', () => {
  expect(['After the pour', 'After HVAC', 'RH test', 'HEPA air scrubber', 'A second coat'].map(lowerFirst)).toEqual([
    'after the pour',
    'after HVAC',
    'RH test',
    'HEPA air scrubber',
    'a second coat',
  ]);
});

it('calls a job by the rooms it has now, in their order', () => {
  const rooms = [
    { id: 'a', name: 'Kitchen' },
    { id: 'b', name: 'Den' },
    { id: 'c', name: 'Hall' },
  ];
  const jobOf = (...ids: readonly string[]) => ({ rooms: ids.map((roomId) => ({ roomId })) });
  expect(jobTitle(jobOf('c', 'a', 'b'), rooms)).toBe('hall, kitchen, den');
  // A change order withdrew the den.
  expect(jobTitle(jobOf('c', 'a'), rooms)).toBe('hall, kitchen');
});

// Forms of a business in US law, and names of people and their homes, from memory.
it('takes a name for a business only where it has the form of one', () => {
  const homes = [
    ...['Tom Hall and Sue Hall', 'Maria Hall & Tom Reed', 'Dr. Robert Hall', 'Mr. and Mrs. Hall', 'Barbara Hall-Smith', 'JOHN HALL'],
    ...['john hall', 'Ann Rowe (unit 2)', 'Estate of Jane Doe', 'The Odell Family Trust', 'Bob Homes', 'John Co', 'P.C. Reed', 'LP Reed'],
  ];
  const businesses = [
    ...['Northside Dental, PC', 'Reed Floors Inc.', 'CALDER ROW RENTALS LLC', 'Odell L.L.C.', 'Reed and Cole Corp', 'Marsh & Co.'],
    ...['Falls Investors, L.P.', 'Lakeside Homeowners Association', 'Lakeside HOA', 'Tarrow Condominium', 'The Marsh Company'],
  ];
  expect([...homes, ...businesses].filter(isBusiness)).toEqual(businesses);
});
