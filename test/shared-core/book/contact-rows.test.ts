import { contactRow } from '../../contact-row.ts';
import { describe, expect, it } from 'vitest';
import { matchColumns, unreadHeadings } from '../../../shared-core/book/contact-columns.ts';
import { checkContacts, contactRows, incomingWords } from '../../../shared-core/book/contact-rows.ts';
import { newCustomer } from '../../../shared-core/book/new-records.ts';

const NOW = '2026-05-12T11:05:00.000Z';
const row = (name: string, phone = '', email = '') => contactRow({ name, phone, email });

describe('matching columns', () => {
  it('finds the fields by their headings, each column once', () => {
    expect(matchColumns(['Customer', 'Street', 'City', 'ZIP code', 'E-mail address', 'Mobile phone', 'Remarks'])).toMatchObject({
      name: [0],
      line: [1],
      city: [2],
      zip: [3],
      email: [4, null],
      phone: [5, null],
      notes: [6],
      region: [null],
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
      contact: '',
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

  it('uses the first filled phone, email and address of each row, and keeps the others', () => {
    const headings = [
      ...['First Name', 'Last Name', 'Company'],
      ...['Business Street', 'Business Street 2', 'Business City', 'Business State', 'Business Postal Code', 'Business Country/Region'],
      ...['Home Street', 'Home City', 'Home State', 'Home Postal Code', 'Home Country/Region', 'Home Address PO Box'],
      ...['Business Fax', 'Business Phone', 'Home Phone', 'Mobile Phone', 'E-mail Address', 'E-mail Type', 'E-mail Display Name'],
      ...['E-mail 2 Address', 'E-mail opt-in', 'Notes'],
    ];
    const home = ['12 Elm St', 'Akron', 'OH', '44301', 'US', ''];
    const work = ['9 Mill Race', 'Unit 4', 'Tarrow Falls', 'VT', '05000', 'US'];
    const none = ['', '', '', '', '', ''];
    const rows = contactRows(
      [
        ['Ann', 'Bell', '', ...none.slice(0, 5), 'US', ...home, '555-0199', '', '(330) 555-0101', ''].concat([
          ...['ann@x.invalid', 'SMTP', 'Ann Bell (ann@x.invalid)', '', 'yes', ''],
        ]),
        ['Bo', 'Rusk', '', ...work, ...home.slice(0, 5), '88', '', '330-555-0102', '330-555-0103', '330-555-0104'].concat([
          ...['', '', '', 'bo@x.invalid ::: bo2@x.invalid', 'no', ''],
        ]),
      ].map((cells, i) => ({ row: i + 2, cells })),
      matchColumns(headings),
    );
    expect(rows).toEqual([
      {
        ...{ fileRow: 2, name: 'Ann Bell', contact: '', phone: '(330) 555-0101', email: 'ann@x.invalid', notes: '', more: [] },
        ...{ line: '12 Elm St', city: 'Akron', region: 'OH', zip: '44301', country: 'US' },
      },
      {
        ...{ fileRow: 3, name: 'Bo Rusk', contact: '', phone: '330-555-0104', email: 'bo@x.invalid', notes: '' },
        ...{ line: '9 Mill Race, Unit 4', city: 'Tarrow Falls', region: 'VT', zip: '05000', country: 'US' },
        more: [
          { kind: 'phone', label: '', text: '330-555-0103' },
          { kind: 'phone', label: '', text: '330-555-0102' },
          { kind: 'email', label: '', text: 'bo2@x.invalid' },
          { kind: 'address', label: '', text: '12 Elm St, PO Box 88, Akron, OH, 44301, US' },
        ],
      },
    ]);
  });

  it.each([
    [['Name', 'Mailing Address', 'City', 'State', 'Zip'], { line: [1], city: [2], region: [3], zip: [4] }],
    [['Name', 'Address 1', 'Address 2', 'City', 'County', 'State'], { line: [1], line2: [2], city: [3], region: [5] }],
    [['Name', 'Address', 'City', 'ST', 'Zip'], { line: [1], city: [2], region: [3], zip: [4] }],
    [['Name', 'Street', 'City', 'State/Prov', 'Zip/Postal'], { line: [1], city: [2], region: [3], zip: [4] }],
    [['Name', 'State tax ID', 'Street', 'State code'], { line: [2], region: [3] }],
    [['Home Street', 'Work Street', 'Home City', 'Work City'], { line: [0, 1], city: [2, 3] }],
    [
      ['Address 1 - Formatted', 'Address 1 - Street', 'Address 1 - Region', 'Address 1 - Extended Address', 'Address 2 - Street'],
      { line: [1, 4], region: [2, null], line2: [3, null] },
    ],
    [['Street', 'City', 'Street', 'City', 'Display Name'], { line: [0, 2], city: [1, 3], name: [4] }],
  ])('groups the columns of each address: %j', (headings, match) => {
    expect(matchColumns(headings)).toMatchObject(match);
  });

  // Several numbers or emails in one cell, as they are typed: common practice, no source.
  it.each([
    ['555 0122 / 555 0123', 'a@example.com; b@example.com', ['555 0122', '555 0123', 'a@example.com', 'b@example.com']],
    ["'555-0122;555-0123", 'a@example.com,b@example.com', ['555-0122', '555-0123', 'a@example.com', 'b@example.com']],
    ['555-0122 or 555-0123 (cell)', 'a@example.com b@example.com', ['555-0122', '555-0123 (cell)', 'a@example.com', 'b@example.com']],
    ['555-0122 ::: 555-0123', 'a@example.com ::: b@example.com', ['555-0122', '555-0123', 'a@example.com', 'b@example.com']],
    ['555-0122, ext. 4, 555-0123', 'Ann Bell, a@example.com', ['555-0122, ext. 4', '555-0123', 'Ann Bell, a@example.com']],
    ['+1-555-0122;ext=4', 'a@example.com', ['+1-555-0122;ext=4', 'a@example.com']],
    ['555-0122 / after 5', '', ['555-0122 / after 5', '']],
  ])('keeps each number of %s and each email of %s apart', (phones, emails, each) => {
    const [one] = contactRows([{ row: 2, cells: ['Ann', phones, emails] }], matchColumns(['Name', 'Phone', 'Email']));
    const more = (kind: string) => one?.more.filter((m) => m.kind === kind).map((m) => m.text) ?? [];
    expect([one?.phone, ...more('phone'), one?.email, ...more('email')]).toEqual(each);
  });

  it('gives an empty field for a column the row is too short for', () => {
    const headings = ['Name', 'Phone'];
    expect(contactRows([{ row: 2, cells: ['Odell'] }], matchColumns(headings))).toMatchObject([{ name: 'Odell', phone: '' }]);
  });
});

describe('addresses before an import', () => {
  const settled = (headings: string[], cells: string[], own = 'US') => {
    const [one] = checkContacts(contactRows([{ row: 2, cells }], matchColumns(headings)), [], own);
    return one?.state === 'wrong' ? one.text : [one?.row.city, one?.row.region, one?.row.zip, one?.row.country];
  };

  it.each([
    ['City/State/Zip', 'Akron, OH 44301', ['Akron', 'OH', '44301', 'US']],
    ['City, State & ZIP', 'New Akron OH 44301-0123', ['New Akron', 'OH', '44301-0123', 'US']],
    ['City State Postal Code', 'Boston, MA 2134', ['Boston', 'MA', '02134', 'US']],
    ['City/State/Zip', 'Akron', ['Akron', '', '', 'US']],
    ['City/State/Zip', 'Akron, Ohio', ['Akron, Ohio', '', '', 'US']],
    ['City', 'Akron, OH 44301', ['Akron', 'OH', '44301', 'US']],
  ])('read a column “%s” with “%s”', (heading, cell, place) => {
    expect(settled(['Name', heading], ['Ann', cell])).toEqual(place);
  });

  it('keep a city apart from its state and ZIP code where those have columns', () => {
    expect(settled(['Name', 'City', 'State', 'Zip'], ['Ann', 'Akron', 'OH', '44301'])).toEqual(['Akron', 'OH', '44301', 'US']);
    expect(settled(['Name', 'City', 'State', 'Zip'], ['Ann', 'Akron, OH 44301', '', '44302'])[0]).toBe('Akron, OH 44301');
  });

  it('part a city from its state in one column beside a ZIP code', () => {
    const headings = ['Name', 'City, State', 'Zip'];
    expect(settled(headings, ['Ann', 'Akron, OH', '44301'])).toEqual(['Akron', 'OH', '44301', 'US']);
    expect(settled(headings, ['Ann', 'Boston, MA', '2139-1234'])).toEqual(['Boston', 'MA', '02139-1234', 'US']);
    expect(settled(headings, ['Ann', 'San Juan, PR', '926'])).toEqual(['San Juan', 'PR', '00926', 'US']);
    expect(settled(headings, ['Ann', 'Akron, OH', ''])[0]).toBe('Akron, OH');
    expect(settled(headings, ['Ann', 'Akron', '44301'])).toEqual(['Akron', '', '44301', 'US']);
    // Cities of New Mexico and California by their ZIP codes: US Postal Service, from memory.
    expect(settled(headings, ['Ann', 'SANTA FE', '87501'])).toEqual(['SANTA FE', '', '87501', 'US']);
    expect(settled(headings, ['Ann', 'East LA', '90022'])).toEqual(['East LA', '', '90022', 'US']);
  });

  // ZIP codes of Massachusetts start with 0, those of Puerto Rico and the Virgin Islands with 00: US Postal Service, from memory.
  it.each([
    ['MA', '2134', 'US', '02134'],
    ['MA', '2134.0', '', '02134'],
    ['OH', '44301.0', 'USA', '44301'],
    ['PR', '601', '', '00601'],
    ['VI', '801', 'US', '00801'],
    ['MA', '2139-1234', '', '02139-1234'],
    ['', '601', 'Puerto Rico', '00601'],
    ['MA', '213', '', '213'],
    ['MA', '02134-1000', '', '02134-1000'],
    ['', '2134', 'Australia', '2134'],
  ])('in %s have the ZIP code %s of %s whole', (region, zip, country, whole) => {
    expect(settled(['Name', 'State', 'Zip', 'Country'], ['Ann', region, zip, country])[2]).toBe(whole);
  });

  // ISO 3166-1, from memory.
  it.each([
    ['Canada', 'CA'],
    ['canada', 'CA'],
    ['CAN', 'CA'],
    ['U.S.A.', 'US'],
    ['United States of America', 'US'],
    ['Mexico', 'MX'],
    ['UK', 'GB'],
    ['de', 'DE'],
    ['', 'NZ'],
  ])('have the country “%s” as its code', (country, code) => {
    expect(settled(['Name', 'City', 'Country'], ['Ann', 'Akron', country], 'NZ')[3]).toBe(code);
  });

  it('in an unknown country are left out with the reason, and a country alone is no address', () => {
    expect(settled(['Name', 'City', 'Country'], ['Ann', 'Akron', 'Narnia'])).toBe(
      '“Narnia” is not a country. Write it with two letters in the file, such as US or CA',
    );
    expect(settled(['Name', 'Country'], ['Ann', 'Narnia'])).toEqual(['', '', '', 'Narnia']);
  });
});

describe('what a table has beside the customer', () => {
  const read = (headings: string[], ...rows: string[][]) =>
    contactRows(
      rows.map((cells, i) => ({ row: i + 2, cells })),
      matchColumns(headings),
    ).map(({ name, contact }) => [name, contact]);

  it('is the contact, by a column of its own or by the first and last name', () => {
    expect(read(['Customer', 'Contact', 'Phone'], ['Rusk Floors', 'Ann Rowe', '555-0101'])).toEqual([['Rusk Floors', 'Ann Rowe']]);
    expect(read(['Contact Name', 'Customer Name'], ['Ann Rowe', 'Rusk Floors'])).toEqual([['Rusk Floors', 'Ann Rowe']]);
    expect(read(['Contact', 'Phone'], ['Ann Rowe', '555-0101'])).toEqual([['Ann Rowe', '']]);
    expect(read(['Contact', 'Customer'], ['Tom Rusk', ''])).toEqual([['Tom Rusk', '']]);
    expect(read(['Customer', 'Primary Contact'], ['Tom Rusk', 'Tom Rusk'])).toEqual([['Tom Rusk', '']]);
    expect(read(['Full name', 'Attention'], ['Rusk, Tom', 'Tom Rusk'])).toEqual([['Rusk, Tom', '']]);
    const names = ['Display Name', 'First Name', 'Last Name'];
    expect(read(names, ['Rusk Floors', 'Tom', 'Rusk'], ['Rusk, Tom', 'Tom', 'Rusk'], ['Tom Rusk', '', ''])).toEqual([
      ['Rusk Floors', 'Tom Rusk'],
      ['Rusk, Tom', ''],
      ['Tom Rusk', ''],
    ]);
  });

  it('is named where no field is read from it', () => {
    const headings = ['Customer', 'Balance', 'Terms', 'Phone', ''];
    const rows = [
      ['Rusk Floors', '120.00', '', '555-0101', 'x'],
      ['Ann', '', ' ', '555-0102', ''],
    ];
    expect(unreadHeadings(headings, rows, matchColumns(headings))).toEqual(['Balance', 'Column 5']);
  });

  it('is a phone number without the decimal that a spreadsheet adds, and none that it rounded', () => {
    const rows = ['5552010155.0', '5.5520101E9', '5.5520101E+09'].map((phone, i) => ({ row: i + 2, cells: [`Customer ${i}`, phone] }));
    const checked = checkContacts(contactRows(rows, matchColumns(['Name', 'Phone'])), [], 'US');
    expect(checked.map(({ row: { phone }, state }) => [phone, state])).toEqual([
      ['5552010155', 'new'],
      ['5.5520101E9', 'wrong'],
      ['5.5520101E+09', 'wrong'],
    ]);
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
      'US',
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

  it('have the same phone where all ten digits agree, or seven where one has no area code, whatever the extension', () => {
    const known = [{ ...newCustomer({ id: 'customer-1', now: NOW }, 'Vivian Odell'), phone: '303-555-0100' }];
    const stateOf = (phone: string) => checkContacts([row('Ann Rusk', phone)], known, 'US')[0]?.state;
    expect(['(303) 555-0100', '+1 303 555 0100', '303.555.0100 x12'].map(stateOf)).toEqual(['duplicate', 'duplicate', 'duplicate']);
    expect(stateOf('555-0100')).toBe('duplicate');
    expect(['203-555-0100', '555-0101', '303-555-0101 x0100'].map(stateOf)).toEqual(['new', 'new', 'new']);
    // The number of a contact of the customer, and of an earlier row.
    const contacts = [{ name: 'Bo', role: '', phone: '303-555-0177', email: '' }];
    const [first] = known.map((customer) => ({ ...customer, contacts }));
    if (first === undefined) throw new Error('no customer');
    const states = checkContacts([row('Ann', '555-0177'), row('Bea', '5550188'), row('Cy', '(518) 555-0188')], [first], 'US');
    expect(states.map(({ state, text }) => [state, text])).toEqual([
      ['duplicate', 'Same phone number as Vivian Odell'],
      ['new', ''],
      ['duplicate', 'Same phone number as an earlier row'],
    ]);
  });

  it('that are longer than a field allows are left out in a sentence', () => {
    expect(checkContacts([row('x'.repeat(121))], [], 'US')).toMatchObject([
      { state: 'wrong', text: expect.stringMatching(/name is longer than 120/) },
    ]);
  });

  it('are counted once each, with those that could not be read', () => {
    const checked = checkContacts([row('Ann Teague'), row('Bo Quill'), row('Bo Quill'), row('')], [], 'US');
    expect(incomingWords(checked, 1, 'en-US')).toBe('5 contacts in the file: 2 new, 1 possible duplicate, and 2 left out.');
    expect(incomingWords(checked.slice(0, 1), 0, 'en-US')).toBe('1 contact in the file: 1 new.');
  });
});
