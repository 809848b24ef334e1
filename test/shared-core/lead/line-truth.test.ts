/**
 * Lines as they are typed during a call: each field is true or empty, and what is not certain stays in the notes, whole. Today is Tuesday,
 * May 12, 2026, 11 am, as in the calendar of `Date`.
 */
import { describe, expect, it } from 'vitest';
import { read } from './a-call.ts';

const EMPTY = {
  ...{ name: 'Ann Ruiz', phone: '', email: '', address: '', city: '', region: '', zip: '' },
  step: null,
  day: null,
  clock: null,
};
const fields = (line: string) => {
  const { name, phone, email, address, city, region, zip, step, day, clock, notes } = read(line);
  return { name, phone, email, address, city, region, zip, step, day, clock, notes };
};
const PHONE = { phone: '(303) 555-0142' };

describe('an address in a line about a call', () => {
  // Directions before and after, highways, grid and fractional addresses, rural routes, boxes and secondary units: USPS Publication 28, from memory.
  it.each([
    '1234 Highway 160 W',
    '300 Hwy 9 S',
    '1401 US Hwy 36 NW',
    '1401 State Highway 36A',
    '4500 US Highway 285',
    '22 State Route 9',
    '1401 Route 66',
    '1401 Old Hwy 36',
    '1850 County Road 17',
    '1850 County Rd 17.5',
    '1850 County Road 17 1/2',
    '1401 County Rd E',
    '1401 Ranch Road 620 S',
    '1420 5th Ave N',
    '1420 5th Ave N Apt 6',
    '1420 5th ave n apt 6',
    '1420 Larkspur Ln NE',
    '14 N. Main St. N.W.',
    '600 4th St SW Unit 12B',
    '88 Elm St South',
    '12 SE Oak St',
    '12 Southeast Oak Street',
    '9 W 9th Ave',
    '55 E 1st St',
    '3 Avenue B',
    '3 Ave B',
    '100 St Charles Ave',
    '100 Dr Martin Luther King Jr Blvd',
    '12 Park Place Drive',
    '55 Elm Parkway',
    '1420 500 South St',
    '350 2200 South St',
    '1200 100 Acre Rd',
    '1200 Main St 3B',
    '55 5th Ave 12',
    '9 Elm St A',
    '77 Sunset Blvd Apt. #12',
    '77 Sunset Blvd # 12',
    '77 Sunset Blvd ste 300',
    '14 Main St Unit B-2',
  ])('is all of %s', (address) => {
    expect(fields(`Ann Ruiz, ${address}, hall 4x20`)).toEqual({ ...EMPTY, address, notes: '' });
    expect(fields(`Ann Ruiz 303-555-0142 ${address}`)).toEqual({ ...EMPTY, ...PHONE, address, notes: '' });
    const [city, region, zip] = ['Windsor', 'CO', '80550'];
    expect(fields(`Ann Ruiz, ${address}, Windsor CO 80550`)).toEqual({ ...EMPTY, address, city, region, zip, notes: '' });
    expect(fields(`Ann Ruiz, ${address}, call friday`)).toEqual({ ...EMPTY, address, step: 'call-back', day: '2026-05-15', notes: '' });
  });

  it.each([
    ['1420 5th Ave N hall 4x20', '1420 5th Ave N', ''],
    ['1850 County Rd 17 hall 4x20', '1850 County Rd 17', ''],
    ['44 Elm St apt 2 bedroom 12x14', '44 Elm St apt 2', ''],
    ['44 Elm St apt 2B bedroom', '44 Elm St apt 2B', ''],
    ['44 Elm St unit 4 bedroom floor slopes', '44 Elm St unit 4', 'bedroom floor slopes'],
    ['44 Elm St apt 5 footprint', '44 Elm St apt 5', 'footprint'],
    ['88 Elm St 12 low spots', '88 Elm St', '12 low spots'],
    ['88 Elm St 2 baths', '88 Elm St', ''],
    ['88 Elm St south bedroom 12x14', '88 Elm St', 'south bedroom 12x14'],
    ['88 Elm St has wide court', '88 Elm St', 'has wide court'],
    ['88 Elm St a mess', '88 Elm St', 'a mess'],
    ['14 Main St 2nd floor', '14 Main St', '2nd floor'],
    ['14 Main St Bldg 4 Apt 2', '14 Main St', 'Bldg 4 Apt 2'],
    ['hall 4 x 20 1420 Larkspur Ln', '1420 Larkspur Ln', ''],
    ['suite 200 1420 Larkspur Ln', '1420 Larkspur Ln', 'suite 200 1420 Larkspur Ln'],
    ['#4 88 Elm St', '88 Elm St', '#4 88 Elm St'],
    ['gate code 4471 88 Elm St', '88 Elm St', 'gate code 4471 88 Elm St'],
    ['built 1978 88 Elm St', '88 Elm St', ''],
  ])('ends where other words start in %s', (words, address, notes) =>
    expect(fields(`Ann Ruiz, ${words}`)).toEqual({ ...EMPTY, address, notes }),
  );

  it.each([
    '350 W Colfax',
    '350 E 2200 S',
    '1420 S 500 W',
    'W220 N4500 Spring Rd',
    'N4W22000 Spring Rd',
    '41-20 Main St',
    '123 1/2 Elm St',
    '4500 US 285',
    '8800 FM 1960 W',
    '1200 CR 17',
    'RR 2 Box 145',
    'RR 2 Box 145 Hill Rd',
    'HC 61 Box 12',
    'PO Box 12',
    '15 Via del Sol',
    '100 Broadway',
    '100 Dr',
    '2 way switch',
    '5 trail cameras',
    'ceiling 9y',
    'hall 12w x 14l',
  ])('is not a part of %s, which stays in the notes with no day made of it', (words) =>
    expect(fields(`Ann Ruiz, ${words}`)).toEqual({ ...EMPTY, notes: words }),
  );

  it('makes no day of a street straight after a step', () =>
    expect(fields('Ann Ruiz, visit 350 W Colfax')).toMatchObject({ step: 'visit', day: '2026-05-13', notes: 'visit 350 W Colfax' }));
});

describe('the next step in a line about a call', () => {
  // How dates, prices and calls are talked about: common practice, no source.
  it.each([
    'left message Monday, try again Thursday',
    'got water in it Monday',
    'flooded kitchen Monday',
    'closing on house May 29',
    'flooring installer coming June 20, need it done by June 15',
    'needs done before July 4',
    'surgery Monday',
    'installers come friday',
    'moving in 2 weeks',
    'missed call Monday',
    'had a visit Monday',
    'dentist appointment Monday',
    'another bid Monday',
    'had another bid for 4200',
    'quote from another guy 3800',
    'price shopping',
    'told her price of $2500',
    'don’t call, text',
    'don’t call friday',
    'can’t meet friday',
    'not home for visit Monday',
    'he will call friday',
    'told him to call friday',
    'tile guy said floor is not level call friday',
    'needs it level before installers visit friday',
    'wet since last visit Monday',
    'phone is best',
    'call is fine',
    'needs 1/2 to 3/4 to meet the oak',
    'where tile and wood meet',
    'tape measure says 13',
    'home, 9 to 5',
    'deposit paid, May 1',
    'left message 5/11',
    'needs it monday',
    'we start monday',
  ])('is not made of %s', (notes) => expect(fields(`Ann Ruiz, ${notes}`)).toEqual({ ...EMPTY, notes }));

  it.each([
    ['friday call her', 'call-back', '2026-05-15', null],
    ['please call friday at 3', 'call-back', '2026-05-15', '15:00'],
    ['can you come thursday at 4?', 'visit', '2026-05-14', '16:00'],
    ['wants a visit friday', 'visit', '2026-05-15', null],
    ['needs estimate by friday', 'quote-by', '2026-05-15', null],
    ['water heater burst last Monday, call', 'call-back', '2026-05-13', null],
    ['call, needed by June 15', 'call-back', '2026-05-13', null],
    ['hall 4x20, noon', 'visit', '2026-05-12', '12:00'],
    ['88 Elm St friday', 'call-back', '2026-05-15', null],
    ['left message 5/11, call again 5/14', 'call-back', '2026-05-14', null],
    ['call in 8 months', 'call-back', null, null],
    ['call May 1, 2027', 'call-back', '2027-05-01', null],
    ['call in 2w', 'call-back', '2026-05-26', null],
    // How a step is asked for, and who is called: common practice, no source.
    ['call Bo friday', 'call-back', '2026-05-15', null],
    ['call her wife first thing friday', 'call-back', '2026-05-15', null],
    ['I’ll call friday', 'call-back', '2026-05-15', null],
    ['told her I would call friday', 'call-back', '2026-05-15', null],
    ['said to call friday', 'call-back', '2026-05-15', null],
    ['she’d like a visit friday', 'visit', '2026-05-15', null],
    ['wants me to come look friday', 'visit', '2026-05-15', null],
    ['visit set for friday at 10', 'visit', '2026-05-15', '10:00'],
    ['meet at the house friday 9am', 'visit', '2026-05-15', '09:00'],
    ['visit @ 3pm fri', 'visit', '2026-05-15', '15:00'],
    ['friday 10am visit', 'visit', '2026-05-15', '10:00'],
    ['thursday at 4 measure', 'visit', '2026-05-14', '16:00'],
    ['May 15 visit', 'visit', '2026-05-15', null],
    ['next week call', 'call-back', '2026-05-19', null],
    ['follow up visit friday', 'visit', '2026-05-15', null],
    ['swing by friday 3pm', 'visit', '2026-05-15', '15:00'],
    ['appt friday 3pm', 'visit', '2026-05-15', '15:00'],
    ['slab then call friday', 'call-back', '2026-05-15', null],
    ['slab (call friday)', 'call-back', '2026-05-15', null],
    ['hall 4x20 needs leveling call friday', 'call-back', '2026-05-15', null],
    ['hall 4x20 slab is low by the door call friday', 'call-back', '2026-05-15', null],
    ['hall 4x20 - slab - 1/2 dip - call friday', 'call-back', '2026-05-15', null],
    ['hall 4x20 | slab | call friday', 'call-back', '2026-05-15', null],
    // The day of a step that is not straight before it is not certain.
    ['call May 1', 'call-back', null, null],
    ['call after lunch friday', 'call-back', null, null],
    ['visit at 350 W Colfax friday', 'visit', null, null],
    ['price by Oak Builders friday', 'quote-by', null, null],
  ])('is that of %s', (words, step, day, clock) =>
    expect(read(`Ann Ruiz, ${words}`)).toMatchObject({ name: 'Ann Ruiz', step, day, clock }),
  );
});

describe('the name in a line about a call', () => {
  it.each([
    ['Ann Ruiz cell 303-555-0142', 'Ann Ruiz', 'cell 303-555-0142'],
    ['Ann Ruiz cell: 303-555-0142', 'Ann Ruiz', 'cell: 303-555-0142'],
    ['Ann Ruiz Cell: 303-555-0142', 'Ann Ruiz', 'Cell: 303-555-0142'],
    ['Ann Ruiz (cell) 303-555-0142', 'Ann Ruiz', '(cell) 303-555-0142'],
    ['Ann Ruiz ph 303-555-0142', 'Ann Ruiz', 'ph 303-555-0142'],
    ['Ann Ruiz home 303-555-0142', 'Ann Ruiz', 'home 303-555-0142'],
    ['Ann Ruiz work 303-555-0142', 'Ann Ruiz', 'work 303-555-0142'],
    ['Ann Ruiz her cell 303-555-0142', 'Ann Ruiz', 'her cell 303-555-0142'],
    ['Ann Ruiz C: 303-555-0142', 'Ann Ruiz', 'C: 303-555-0142'],
    ['Ann Ruiz - 303-555-0142', 'Ann Ruiz', ''],
    ['Ann Ruiz: 303-555-0142', 'Ann Ruiz', ''],
    ['Ann Ruiz @ 303-555-0142', 'Ann Ruiz', ''],
    ['Ann Ruiz (303-555-0142)', 'Ann Ruiz', ''],
    ['Ann Ruiz (Bo’s wife) 303-555-0142', 'Ann Ruiz', '(Bo’s wife) 303-555-0142'],
    ['ann ruiz cell 303-555-0142', 'ann ruiz', 'cell 303-555-0142'],
    ['ANN RUIZ CELL 303-555-0142', 'ANN RUIZ', 'CELL 303-555-0142'],
    ['Sam Price 303-555-0142', 'Sam Price', ''],
    ['Riverside Funeral Home 303-555-0142', 'Riverside Funeral Home', ''],
    ['Ann Ruiz & Sons LLC 303-555-0142', 'Ann Ruiz & Sons LLC', ''],
    ['Ana de la Cruz cell 303-555-0142', 'Ana de la Cruz', 'cell 303-555-0142'],
  ])('has no label of the phone in %s', (line, name, notes) => expect(fields(line)).toEqual({ ...EMPTY, ...PHONE, name, notes }));

  it.each([
    ['Ann Ruiz called about kitchen 12x14', 'Ann Ruiz', 'called about kitchen 12x14'],
    ['Ann Ruiz wants kitchen 12x14', 'Ann Ruiz', 'wants kitchen 12x14'],
    ['Ann needs basement leveled, 20x30', 'Ann', 'needs basement leveled'],
    ['Ann Ruiz - wet basement 20x30', 'Ann Ruiz', 'wet basement 20x30'],
    ['Ann Ruiz at Oak Farm, shop 30x40', 'Ann Ruiz', 'at Oak Farm'],
    ['Ann Ruiz flooded kitchen Monday', 'Ann Ruiz', 'flooded kitchen Monday'],
    ['Ann Ruiz got water Monday', 'Ann Ruiz', 'got water Monday'],
    ['Ann van der Berg, hall 4x20', 'Ann van der Berg', ''],
    ['Ann O’Hara d’Angelo, hall 4x20', 'Ann O’Hara d’Angelo', ''],
    ['Mr. and Mrs. Ruiz, hall 4x20', 'Mr. and Mrs. Ruiz', ''],
    ['Church of the Holy Cross, hall 30x40', 'Church of the Holy Cross', ''],
    ['St. Mary’s Church, hall 30x40', 'St. Mary’s Church', ''],
    ['Ann Ruiz/Bo Hale, hall 4x20', 'Ann Ruiz/Bo Hale', ''],
    ['Oak builders inc, hall 4x20', 'Oak builders inc', ''],
    ['First Baptist church wants hall 30x40 level', 'First Baptist church', 'wants hall 30x40 level'],
  ])('ends before other words in %s', (line, name, notes) => expect(fields(line)).toEqual({ ...EMPTY, name, notes }));

  it('has no mark of an email', () =>
    expect(fields('Deb Hale <deb@example.com> has dog')).toEqual({
      ...EMPTY,
      name: 'Deb Hale',
      email: 'deb@example.com',
      notes: 'has dog',
    }));

  it('is not a step that it is spelled like', () =>
    expect(fields('Sam Price friday')).toEqual({ ...EMPTY, name: 'Sam Price', step: 'call-back', day: '2026-05-15', notes: '' }));
});
