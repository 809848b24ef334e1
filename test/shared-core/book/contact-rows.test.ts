import { describe, expect, it } from 'vitest';
import { checkContacts, contactRows, incomingWords, matchColumns } from '../../../shared-core/book/contact-rows.ts';
import { newCustomer } from '../../../shared-core/book/new-records.ts';

const NOW = '2026-05-12T11:05:00.000Z';
const row = (name: string, phone = '', email = '') => ({
  name,
  phone,
  email,
  line: '',
  city: '',
  region: '',
  zip: '',
  country: '',
  notes: '',
  more: [],
  fileRow: 1,
});

describe('matching columns', () => {
  it('finds the fields by their headings, each column once', () => {
    expect(matchColumns(['Customer', 'Street', 'City', 'ZIP code', 'E-mail address', 'Mobile phone', 'Remarks'])).toMatchObject({
      name: 0,
      line: 1,
      city: 2,
      zip: 3,
      email: 4,
      phone: 5,
      notes: 6,
      region: null,
    });
  });

  it('puts a first name in a column of its own before the family name', () => {
    const headings = ['First name', 'Last name', 'Phone'];
    expect(contactRows([{ row: 2, cells: ['Vivian', 'Odell', '555 0100'] }], matchColumns(headings))).toMatchObject([
      { name: 'Vivian Odell', phone: '555 0100' },
    ]);
  });

  // Column headings as common mail programs and spreadsheets write them.
  it('reads no phonetic name as a phone, no label as an email, and no company as a person', () => {
    const headings = [
      'First Name',
      'Last Name',
      'Phonetic First Name',
      'Organization Name',
      'Organization Title',
      'E-mail 1 - Label',
      'E-mail 1 - Value',
      'E-mail 2 - Value',
      'Phone 1 - Label',
      'Phone 1 - Value',
      'Phone 2 - Value',
      'Home Fax',
      'Address 1 - Street',
      'Address 1 - City',
      'Address 1 - Postal Code',
    ];
    const cells = [
      'Ann',
      'Doyle',
      'an',
      '',
      '',
      'work',
      'ann@x.invalid',
      'a@y.invalid',
      'mobile',
      "'555-0142",
      '555-0143',
      '555-0199',
      '9 Mill Race',
      'Tarrow Falls',
      '05000',
    ];
    const company = ['', '', '', 'Rusk and Company', '', '', '', '', '', '555-0150', '', '', '', '', ''];
    const [ann, rusk] = contactRows(
      [
        { row: 2, cells },
        { row: 3, cells: company },
      ],
      matchColumns(headings),
    );
    expect(ann).toEqual({
      fileRow: 2,
      name: 'Ann Doyle',
      phone: '555-0142',
      email: 'ann@x.invalid',
      line: '9 Mill Race',
      city: 'Tarrow Falls',
      region: '',
      zip: '05000',
      country: '',
      notes: '',
      more: [
        { kind: 'phone', label: '', text: '555-0143' },
        { kind: 'email', label: '', text: 'a@y.invalid' },
      ],
    });
    expect(rusk).toMatchObject({ name: 'Rusk and Company', phone: '555-0150', notes: '' });
  });

  it('gives an empty field for a column the row is too short for', () => {
    const headings = ['Name', 'Phone'];
    expect(contactRows([{ row: 2, cells: ['Odell'] }], matchColumns(headings))).toMatchObject([{ name: 'Odell', phone: '' }]);
  });
});

describe('contacts before an import', () => {
  const present = [{ ...newCustomer({ id: 'customer-1', now: NOW }, 'Vivian Odell'), phone: '(555) 010-0199', email: 'v@odell.invalid' }];
  it('are new, possible duplicates with the customer they resemble, or without a name', () => {
    const states = checkContacts(
      [
        row('Marian Rusk'),
        row('vivian  odell'),
        row('V. O.', '+1 555 010 0199'),
        row('Viv', '', 'V@Odell.invalid'),
        row('Marian Rusk'),
        row(''),
      ],
      present,
    ).map(({ state, like, text }) => [state, like?.id ?? null, text]);
    expect(states).toEqual([
      ['new', null, ''],
      ['duplicate', 'customer-1', 'Same name as Vivian Odell'],
      ['duplicate', 'customer-1', 'Same phone number as Vivian Odell'],
      ['duplicate', 'customer-1', 'Same email as Vivian Odell'],
      ['duplicate', null, 'Same name as an earlier row'],
      ['wrong', null, 'No name'],
    ]);
  });

  it('that are longer than a field allows are left out in a sentence', () => {
    expect(checkContacts([row('x'.repeat(121))], [])).toMatchObject([
      { state: 'wrong', text: expect.stringMatching(/name is longer than 120/) },
    ]);
  });

  it('are counted once each, with those that could not be read', () => {
    const checked = checkContacts([row('Ann Teague'), row('Bo Quill'), row('Bo Quill'), row('')], []);
    expect(incomingWords(checked, 1, 'en-US')).toBe('5 contacts in the file: 2 new, 1 possible duplicate, and 2 left out.');
    expect(incomingWords(checked.slice(0, 1), 0, 'en-US')).toBe('1 contact in the file: 1 new.');
  });
});
