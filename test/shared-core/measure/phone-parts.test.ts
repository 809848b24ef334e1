/** Sources: RFC 3966, section 3, for `;ext=`; the other ways to write an extension are common practice, no source. */
import { expect, it } from 'vitest';
import { parsePhoneNumberFromString } from 'libphonenumber-js/min';
import { isEmails, isPhones, phoneParts, phonesIn, spacedPhone } from '../../../shared-core/measure/phone-email.ts';

it.each([
  ['303-555-0100', '3035550100', ''],
  ['+1 (303) 555-0100', '3035550100', ''],
  ['303-555-0100 x12', '3035550100', '12'],
  ['303-555-0100x12', '3035550100', '12'],
  ['303.555.0100, ext. 12', '3035550100', '12'],
  ['303 555 0100 Extension: 1234', '3035550100', '1234'],
  ['303-555-0100 #7', '3035550100', '7'],
  ['tel:+1-303-555-0100;ext=12', '3035550100', '12'],
  ['303-555-0100 x4 (office)', '3035550100', '4'],
  ['303-555-0100 ext. 12, after 5 pm', '3035550100', '12'],
  ['303-555-0100 x4th', '0355501004', ''],
  ['fax 303-555-0100', '3035550100', ''],
  ['*31#303-555-0100', '3035550100', ''],
  ['555-0100', '5550100', ''],
  ['', '', ''],
])('%s is the number %s with the extension “%s”', (text, number, extension) => expect(phoneParts(text)).toEqual({ number, extension }));

it.each([
  ['303-555-0100 fax 303-555-0101', ['303-555-0100', 'fax 303-555-0101']],
  ['cell 303-555-0100 text: (303) 555-0101 x4', ['cell 303-555-0100', 'text: (303) 555-0101 x4']],
  ['303-555-0100 or 303-555-0101', ['303-555-0100', '303-555-0101']],
  ['303-555-0100 x4 (office)', ['303-555-0100 x4 (office)']],
  ['303-555-0100 ext 4 303-555-0101', ['303-555-0100 ext 4 303-555-0101']],
  ['303-555-0100 after 5 or 303-555-0101', ['303-555-0100 after 5', '303-555-0101']],
  ['ask for Ann 303-555-0100', ['ask for Ann 303-555-0100']],
])('%s holds the numbers %j, none of them an extension', (text, phones) => {
  expect(phonesIn(text)).toEqual(phones);
  expect(phones.map((phone) => phoneParts(phone).extension)).toEqual(phones.map((phone) => /(?:x|ext )(4)/.exec(phone)?.[1] ?? ''));
});

// Fields that the lead line and an import fill.
it.each([
  ['555-0100', true],
  ['(303) 555-0100 ext. 12', true],
  ['303-555-0100;ext=4', true],
  ['303-555-0100, 303-555-0101', true],
  ['303-555-0100 x4 / 303-555-0101 x5', true],
  ['*31#303-555-0100', true],
  ['12', false],
  ['ask at the desk', false],
  ['303-555-0100 ext.', false],
  ['303-555-0100, ann@example.com', false],
])('%s is a phone field: %s', (text, is) => expect(isPhones(text)).toBe(is));

it.each([
  ['ann@example.com', true],
  ['a@example.com; b@example.com', true],
  ['a@example.com, b@example', false],
  ['ann at example.com', false],
  ['a@example.com; 555-0100', false],
])('%s is an email field: %s', (text, is) => expect(isEmails(text)).toBe(is));

// Against libphonenumber-js.
it.each(['6145550100', '16145550100'])('%s is written as a number of North America', (typed) => {
  expect(spacedPhone(typed)).toBe(parsePhoneNumberFromString(typed, 'US')?.formatNational());
});

it.each(['614 555 0100', '(614) 555-0100', '5550100', '6145550100 x4', '+446145550100', '26145550100'])('%s stays as typed', (typed) => {
  expect(spacedPhone(typed)).toBe(typed);
});
