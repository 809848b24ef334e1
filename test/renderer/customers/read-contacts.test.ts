/** vCard: RFC 6350 (4.0), the card of its section 8 with a made-up name; folding of lines is its section 3.2. */
import { describe, expect, it } from 'vitest';
import { readContacts } from '../../../renderer/customers/read-contacts.ts';

const card = (...lines: string[]): string => ['BEGIN:VCARD', 'VERSION:4.0', ...lines, 'END:VCARD', ''].join('\r\n');

describe('reading contacts', () => {
  it('takes name, telephone, e-mail, address and note from a card', () => {
    const read = readContacts(
      card(
        'FN:Maja Lindqvist',
        'N:Lindqvist;Maja;;;',
        'TEL;VALUE=uri;TYPE="voice,home":tel:+1-555-555-0123',
        'EMAIL;TYPE=work:maja@lindqvist.invalid',
        'ADR;TYPE=home:;;8 Cooper’s Wharf;Tarrow Falls;VT;05000;US',
        'NOTE:Ring twice\\, the bell',
        '  is slow.',
      ),
    );
    expect(read).toEqual({
      ok: true,
      value: {
        kind: 'cards',
        rows: [
          {
            name: 'Maja Lindqvist',
            phone: '+1-555-555-0123',
            email: 'maja@lindqvist.invalid',
            line: '8 Cooper’s Wharf',
            city: 'Tarrow Falls',
            region: 'VT',
            zip: '05000',
            country: 'US',
            notes: 'Ring twice, the bell is slow.',
          },
        ],
      },
    });
  });

  it('takes many cards, and a firm’s name where no person is named', () => {
    const read = readContacts(card('FN:One') + card('FN:', 'ORG:Rusk and Company;Floors'));
    expect(read.ok && read.value.kind === 'cards' ? read.value.rows.map((r) => r.name) : read).toEqual(['One', 'Rusk and Company Floors']);
  });

  it('takes a table with quotes, line breaks and a byte order mark', () => {
    expect(readContacts('\uFEFFName,Notes\r\n"Odell, Vivian","two\nlines"\r\n')).toEqual({
      ok: true,
      value: { kind: 'table', table: { headings: ['Name', 'Notes'], rows: [['Odell, Vivian', 'two\nlines']] } },
    });
  });

  it('refuses in words a card that breaks off, an empty table, and what is no text', () => {
    for (const text of ['BEGIN:VCARD\r\nVERSION:4.0\r\nFN', 'Name,Phone\r\n', '', 'PK\u0003\u0004\0\0'])
      expect(readContacts(text)).toMatchObject({ ok: false, message: expect.stringMatching(/^[A-Z].*\.$/) });
  });
});
