import { parsePhoneNumberFromString } from 'libphonenumber-js/max';
import { describe, expect, it } from 'vitest';
import { callAddress, mailAddress } from '../../../renderer/parts/mail-address.ts';

describe('the link of a phone number', () => {
  // `tel:` with the parameter `;ext=`: RFC 3966, sections 3 and 5.2, which libphonenumber-js writes and reads.
  it.each([
    ['(303) 555-0142', '3035550142', undefined],
    ['303-555-0142 ext. 4', '3035550142', '4'],
    ['303-555-0142x12', '3035550142', '12'],
    ['303.555.0142 #12', '3035550142', '12'],
    ['+1-303-555-0142;ext=4', '+13035550142', '4'],
    ['303-555-0142, extension 7', '3035550142', '7'],
    ['303-555-0142 x4 (office)', '3035550142', '4'],
    ['303-555-0142 / 303-555-0143', '3035550142', undefined],
    ['303-555-0142 / 0143', '3035550142', undefined],
    ['Home 303-555-0142 or 303-555-0143', '3035550142', undefined],
  ])('calls the first number of %s with its extension', (phone, number, ext) => {
    expect(callAddress(phone)).toBe(ext === undefined ? `tel:${number}` : `tel:${number};ext=${ext}`);
    expect(parsePhoneNumberFromString(callAddress(phone), 'US')).toMatchObject({
      number: '+13035550142',
      ...(ext === undefined ? {} : { ext }),
    });
  });

  // A number sign begins the fragment of an address and is escaped: RFC 3986, section 3.5.
  it('keeps the keys of a service code', () => expect(callAddress('*31#303-555-0142')).toBe('tel:*31%233035550142'));
});

describe('the link of an email', () => {
  // cspell:ignore Fbcc
  // Several recipients have a comma between them: RFC 6068, section 2.
  it.each([
    ['a@example.com', 'mailto:a@example.com'],
    ['a@example.com; b@example.com', 'mailto:a@example.com,b@example.com'],
    ['a@example.com?bcc=b@example.com', 'mailto:a@example.com%3Fbcc%3Db%40example.com'],
    ['', 'mailto:'],
  ])('goes to each email of %s', (email, link) => expect(mailAddress(email)).toBe(link));
});
