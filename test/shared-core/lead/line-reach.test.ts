/** How a customer is reached in a line about a call: phone, email and address, of which each keeps its own numbers. */
import { describe, expect, it } from 'vitest';
import { readLeadLine } from '../../../shared-core/lead/read-line.ts';
import { FT, read, US } from './a-call.ts';

describe('how to reach the customer', () => {
  // ITU-T E.123 and the numbering plans that libphonenumber-js carries: 212 is New York, 20 is London.
  it.each([
    ['Dana 212-555-0142', '(212) 555-0142'],
    ['Dana (212) 555-0142', '(212) 555-0142'],
    ['Dana +1 212 555 0142', '(212) 555-0142'],
    ['Dana +44 20 7946 0958', '+44 20 7946 0958'],
    ['Dana 555 0142', '555 0142'],
  ])('formats the phone number of %s', (text, phone) => expect(read(text)).toMatchObject({ name: 'Dana', phone }));

  // Extensions as they are written: common practice, no source. The form of the first two is that of libphonenumber-js.
  it.each([
    ['Dana 303-555-0142x12', '(303) 555-0142 ext. 12', ''],
    ['Dana (303) 555-0142 ext. 4', '(303) 555-0142 ext. 4', ''],
    ['Dana 303-555-0142ext4', '(303) 555-0142 ext. 4', ''],
    ['Dana +49 30 1234567 #12', '+49 30 1234567 ext. 12', ''],
    ['Dana 555-0143x12', '555-0143x12', ''],
    ['Dana 555-0142/555-0143', '555-0142', '555-0143'],
    ['Dana 555-0142', '555-0142', ''],
  ])('keeps the extension of %s, and reads no size in it', (who, phone, notes) =>
    expect(read(`${who}, kitchen 12x14`)).toMatchObject({
      ...{ name: 'Dana', phone, notes },
      rooms: [{ name: 'Kitchen', widthM: expect.closeTo(12 * FT, 9), lengthM: expect.closeTo(14 * FT, 9) }],
    }),
  );

  // Secondary unit designators, `#` and `APT`: USPS Publication 28, section 213, from memory. The rest is common practice, no source.
  it.each([
    ['303-555-0199, 88 Elm St #4,', '(303) 555-0199', '88 Elm St #4'],
    ['303-555-0199 88 Elm St Apt. 2B', '(303) 555-0199', '88 Elm St Apt. 2B'],
    ['303-555-0199 pat@example.com, 88 Elm St # 12,', '(303) 555-0199', '88 Elm St # 12'],
    ['303-555-0199 88 Elm St, unit B,', '(303) 555-0199', '88 Elm St, unit B'],
    ['303-555-0199 88 Elm St, unit b', '(303) 555-0199', '88 Elm St, unit b'],
    ['303-555-0199 88 Elm St unit a,', '(303) 555-0199', '88 Elm St unit a'],
    ['303-555-0199 88 Elm St, unit A', '(303) 555-0199', '88 Elm St, unit A'],
    ['303 555 0199 88 Elm St,', '(303) 555-0199', '88 Elm St'],
    ['(303) 555 0199 88 Elm St', '(303) 555-0199', '88 Elm St'],
    ['+1 303 555 0199 88 Elm St', '(303) 555-0199', '88 Elm St'],
    ['13035550199 88 Elm St', '(303) 555-0199', '88 Elm St'],
    ['555 0199 88 Elm St', '555 0199', '88 Elm St'],
    ['303-555-0199 ext 12 88 Elm St', '(303) 555-0199 ext. 12', '88 Elm St'],
    ['303-555-0199 ext 4 - 1420 Larkspur Ln,', '(303) 555-0199 ext. 4', '1420 Larkspur Ln'],
    ['88 Elm St #4, 303-555-0199 #7,', '(303) 555-0199 ext. 7', '88 Elm St #4'],
  ])('reads the phone and the address, each with its own number, in %s', (reach, phone, address) =>
    expect(read(`Pat Nguyen ${reach} kitchen 12x14`)).toMatchObject({
      ...{ name: 'Pat Nguyen', phone, address, notes: '' },
      rooms: [{ name: 'Kitchen', widthM: expect.closeTo(12 * FT, 9) }],
    }),
  );

  it.each([
    ['88 Elm St, apt 2 bedrooms', '88 Elm St'],
    ['88 Elm St, unit in back', '88 Elm St'],
    ['88 Elm St, unit 12x14', '88 Elm St'],
    ['88 Elm St, lot of dips', '88 Elm St'],
    ['88 Elm St, apt 850 sq ft, carpet over slab', '88 Elm St'],
    ['88 Elm St, suite 1400 sf vct over slab', '88 Elm St'],
    ['88 Elm St, lot 40 ft wide', '88 Elm St'],
    ['88 Elm St, apt 2 bed 1 bath', '88 Elm St'],
    ['88 Elm St, unit a mess', '88 Elm St'],
    ['88 Elm St, unit I own', '88 Elm St'],
  ])('reads no unit in %s', (line, address) => expect(read(`Pat Nguyen, ${line}`)).toMatchObject({ address, phone: '' }));

  // A house number before the name of the street: USPS Publication 28, section 23, from memory. The order of the parts is common practice, no source.
  it.each([
    ['Joe Pratt apt 210 1234 Main St 303-555-0142', '(303) 555-0142', '1234 Main St'],
    ['Joe Pratt suite 200 1420 Larkspur Ln', '', '1420 Larkspur Ln'],
    ['Joe Pratt, 1200 12 Mile Road', '', '1200 12 Mile Road'],
    ['Joe Pratt 303-555-0142, # 88 Elm St', '(303) 555-0142', '88 Elm St'],
    ['Joe Pratt 555 0142 kitchen by the drive', '555 0142', ''],
    ['Joe Pratt 555-0142, or 303-555-0143', '555-0142', ''],
  ])('takes no unit for a phone and no house number for an extension in %s', (line, phone, address) =>
    expect(read(line)).toMatchObject({ phone, address }),
  );

  it.each(['+1 (303)-555-0142', '+1 (303)  555-0142', '+1 303 555 01 42', '(303)-555-0142', '1 303 555 0142'])(
    'reads all of the number %s',
    (typed) => expect(read(`Sam Lee ${typed}`)).toMatchObject({ name: 'Sam Lee', phone: '(303) 555-0142' }),
  );

  // 0161 is Manchester, and 01 is Dublin: the numbering plans that libphonenumber-js carries.
  it.each([
    ['GB', '0161 496 0123', '01614960123'],
    ['IE', '01 123 4567', '011234567'],
  ])('keeps the area code of %s in %s', (country, typed, digits) => {
    const { name, phone } = readLeadLine(`Sam Lee ${typed}`, { ...US, country });
    expect([name, phone.replace(/\D/g, '')]).toEqual(['Sam Lee', digits]);
  });

  it('reads no phone in an email or a ZIP code', () => {
    const line = 'Pat Nguyen pat.303-555-0199@example.com, 88 Elm St, 05401-1234';
    expect(read(line)).toMatchObject({ phone: '', email: 'pat.303-555-0199@example.com', notes: '05401-1234' });
  });

  it('reads no room in the end of a phone number', () => expect(read('Dana Wicklow, 0142x12, kitchen 12x14').rooms).toHaveLength(1));
});
