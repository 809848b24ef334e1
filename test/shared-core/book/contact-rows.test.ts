import { describe, expect, it } from 'vitest';
import { checkContacts, contactRows, matchColumns } from '../../../shared-core/book/contact-rows.ts';
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
    expect(contactRows([['Vivian', 'Odell', '555 0100']], headings, matchColumns(headings))).toMatchObject([
      { name: 'Vivian Odell', phone: '555 0100' },
    ]);
  });

  it('gives an empty field for a column the row is too short for', () => {
    const headings = ['Name', 'Phone'];
    expect(contactRows([['Odell']], headings, matchColumns(headings))).toMatchObject([{ name: 'Odell', phone: '' }]);
  });
});

describe('contacts before they come in', () => {
  const present = [{ ...newCustomer({ id: 'customer-1', now: NOW }, 'Vivian Odell'), phone: '(555) 010-0199', email: 'v@odell.invalid' }];
  it('are new, in the book already by name, telephone or e-mail, twice in the file, or without a name', () => {
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
    ).map(({ state, says }) => [state, says.slice(0, 20)]);
    expect(states).toEqual([
      ['new', ''],
      ['here', 'The book has this na'],
      ['here', 'The book has this na'],
      ['here', 'The book has this na'],
      ['here', 'It stands in the fil'],
      ['wrong', 'It has no name.'],
    ]);
  });

  it('that are longer than a field holds are left out in words', () => {
    expect(checkContacts([row('x'.repeat(121))], [])).toMatchObject([{ state: 'wrong', says: expect.stringMatching(/longer than 120/) }]);
  });
});
