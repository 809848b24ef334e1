/** vCard: RFC 6350 (4.0), the card of its section 8 with an invented name, folding of its section 3.2; RFC 2426 (3.0); vCard 2.1 of the Versit consortium. */
import { describe, expect, it } from 'vitest';
import { matchColumns } from '../../../shared-core/book/contact-columns.ts';
import { contactRows } from '../../../shared-core/book/contact-rows.ts';
import { readContacts } from '../../../renderer/customers/read-contacts.ts';

const card = (...lines: string[]): string => ['BEGIN:VCARD', 'VERSION:4.0', ...lines, 'END:VCARD', ''].join('\r\n');

describe('reading contacts', () => {
  it('reads name, phone, email, address and note from a card', () => {
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
            contact: '',
            phone: '+1-555-555-0123',
            email: 'maja@lindqvist.invalid',
            line: '8 Cooper’s Wharf',
            city: 'Tarrow Falls',
            region: 'VT',
            zip: '05000',
            country: 'US',
            notes: 'Ring twice, the bell is slow.',
            more: [],
            fileRow: 1,
          },
        ],
        leftOut: [],
      },
    });
  });

  it('reads many cards, and a company’s name where no person is named', () => {
    const read = readContacts(card('FN:One') + card('FN:', 'ORG:Rusk and Company;Floors'));
    expect(read.ok && read.value.kind === 'cards' ? read.value.rows.map((r) => r.name) : read).toEqual(['One', 'Rusk and Company Floors']);
  });

  const only = (text: string) => {
    const read = readContacts(text);
    if (!read.ok || read.value.kind !== 'cards') throw new Error('No cards were read.');
    return read.value;
  };

  it('reads vCard 2.1 with bare parameters and quoted-printable text over several lines', () => {
    const text = [
      'BEGIN:VCARD',
      'VERSION:2.1',
      'N;CHARSET=UTF-8;ENCODING=QUOTED-PRINTABLE:Dom=C3=ADnguez;Jos=C3=A9;;;',
      'FN;CHARSET=UTF-8;ENCODING=QUOTED-PRINTABLE:Jos=C3=A9 Dom=C3=ADn=',
      'guez',
      'TEL;FAX:555-0100',
      'TEL;HOME:555-0101',
      'TEL;CELL;PREF:555-0102',
      'EMAIL;INTERNET:jose@x.invalid',
      'NOTE;QUOTED-PRINTABLE:Back door=0D=0Aafter four',
      'END:VCARD',
      '',
    ].join('\r\n');
    expect(only(text).rows).toMatchObject([
      {
        name: 'José Domínguez',
        phone: '555-0102',
        email: 'jose@x.invalid',
        notes: 'Back door\nafter four',
        more: [
          { kind: 'phone', label: 'home', text: '555-0101' },
          { kind: 'phone', label: 'fax', text: '555-0100' },
        ],
      },
    ]);
  });

  it('prefers the preferred number, keeps the others, and never uses a fax as the phone', () => {
    const { rows } = only(
      card(
        'FN:One',
        'TEL;TYPE=fax:1',
        'TEL;TYPE=home:2',
        'TEL;TYPE=cell:3',
        'TEL;PREF=1;TYPE=work:4',
        'EMAIL:a@x.invalid',
        'EMAIL;PREF=1:b@x.invalid',
      ) +
        card('FN:Two', 'TEL;TYPE="fax,work":555-0100') +
        card('FN:Three', 'item1.TEL:555-0177', 'item1.X-ABLabel:Shop', 'ADR:;;1 A St;X;NY;1;US', 'ADR;TYPE=work:;;2 B St;Y;NY;2;US'),
    );
    expect(rows.map((r) => [r.phone, r.more.map((m) => m.text)])).toEqual([
      ['4', ['3', '2', '1', 'a@x.invalid']],
      ['', ['555-0100']],
      ['555-0177', ['2 B St, Y, NY, 2, US']],
    ]);
    expect(rows[0]?.email).toBe('b@x.invalid');
  });

  // vCard 2.1 escapes only the semicolon between parts; RFC 2426, section 3.6.2, and RFC 6350, section 6.7.2, escape the comma of a note.
  it.each([
    ['2.1', 'NOTE:Gate code 1234, dog in yard; call first', 'Gate code 1234, dog in yard; call first'],
    ['2.1', 'NOTE;ENCODING=QUOTED-PRINTABLE:Gate code 1234, dog=0D=0A call=3B first', 'Gate code 1234, dog\n call; first'],
    ['2.1', 'NOTE;ENCODING=QUOTED-PRINTABLE:key=2C under mat', 'key, under mat'],
    ['3.0', 'NOTE:Gate code 1234, dog in yard', 'Gate code 1234, dog in yard'],
    ['3.0', 'NOTE:Gate code 1234\\, dog in yard\\; \\\\', 'Gate code 1234, dog in yard; \\'],
    ['4.0', 'NOTE:Gate code 1234, dog in yard\r\nNOTE:Ring twice', 'Gate code 1234, dog in yard\nRing twice'],
  ])('keeps the whole note of a %s card: %s', (version, note, notes) => {
    expect(only(card('FN:Ann Bell', note).replace('4.0', version)).rows).toMatchObject([{ name: 'Ann Bell', notes }]);
  });

  // Parts of ADR: RFC 6350, section 6.3.1, and vCard 2.1: post office box, extended address, street.
  it.each([
    ['4.0', 'ADR:;Apt 3B;12 Elm St;Akron;OH;44301;USA', '12 Elm St, Apt 3B'],
    ['4.0', 'ADR:PO Box 88;;;Akron;OH;44301;USA', 'PO Box 88'],
    ['4.0', 'ADR:88;;12 Elm St;Akron;OH;44301;USA', '12 Elm St, PO Box 88'],
    ['4.0', 'ADR:;;12 Elm St\\nApt 3;Akron;OH;44301;USA', '12 Elm St, Apt 3'],
    ['3.0', 'ADR:;;12 Elm St, Apt 2;Akron;OH;44301;USA', '12 Elm St, Apt 2'],
    ['2.1', 'ADR;HOME:;;12 Elm St, Apt 2;Akron;OH;44301;USA', '12 Elm St, Apt 2'],
    ['2.1', 'ADR;HOME;ENCODING=QUOTED-PRINTABLE:;;12 Elm St=3B rear=0D=0AApt 2;Akron;OH;44301;USA', '12 Elm St; rear, Apt 2'],
  ])('reads every part of the street address of a %s card: %s', (version, address, line) => {
    expect(only(card('FN:Ann Bell', address).replace('4.0', version)).rows).toMatchObject([
      { line, city: 'Akron', region: 'OH', zip: '44301', country: 'USA' },
    ]);
  });

  it('keeps the company of a person in the notes', () => {
    const { rows } = only(
      card('FN:Roy Stone', 'ORG:Stone Builders LLC', 'NOTE:Ring twice') + card('FN:Rusk and Company', 'ORG:Rusk and Company'),
    );
    expect(rows.map(({ name, notes }) => [name, notes])).toEqual([
      ['Roy Stone', 'Ring twice\nCompany: Stone Builders LLC'],
      ['Rusk and Company', ''],
    ]);
  });

  it('reads a phone number of a 2.1 card as it is written', () => {
    const { rows } = only(card('FN:One', 'TEL;CELL:555-0101,,22').replace('4.0', '2.1'));
    expect(rows[0]?.phone).toBe('555-0101,,22');
  });

  it('leaves out groups, counts unreadable cards, and reads the others', () => {
    const read = only(
      card('FN:One') +
        card('FN:Friends', 'KIND:group') +
        card('FN:Family', 'X-ADDRESSBOOKSERVER-KIND:group') +
        card('FN;;;=broken') +
        card('FN:Two') +
        'BEGIN:VCARD\r\nFN:Torn',
    );
    expect(read.rows.map((r) => r.name).filter((name) => name !== '')).toEqual(['One', 'Two']);
    expect(read.leftOut.filter(({ why }) => why.includes('group'))).toHaveLength(2);
    expect(read.leftOut.length).toBeGreaterThanOrEqual(3);
  });

  it('reads a table with quotes, line breaks and a byte order mark', () => {
    expect(readContacts('\uFEFFName,Notes\r\n"Odell, Vivian","two\nlines"\r\n')).toEqual({
      ok: true,
      value: {
        kind: 'table',
        leftOut: [],
        table: { headings: ['Name', 'Notes'], rows: [{ row: 2, cells: ['Odell, Vivian', 'two\nlines'] }] },
      },
    });
  });

  it('numbers each contact as the file does, past blank rows and those left out', () => {
    const table = readContacts('Name,Phone\nAnn,555-0101\n\nSmith, Bo,555-0102\n,555-0103\n');
    if (!table.ok || table.value.kind !== 'table') throw new Error('No table was read.');
    expect(table.value.leftOut).toMatchObject([{ row: 4 }]);
    const match = matchColumns(table.value.table.headings);
    expect(contactRows(table.value.table.rows, match).map(({ fileRow, name }) => [fileRow, name])).toEqual([
      [2, 'Ann'],
      [5, ''],
    ]);
    const cards = only(card('FN:One') + card('FN:Friends', 'KIND:group') + card('FN:', 'TEL:555-0104'));
    expect([cards.leftOut.map(({ row }) => row), cards.rows.map(({ fileRow }) => fileRow)]).toEqual([[2], [1, 3]]);
  });

  it('refuses in a sentence a card that is cut short, an empty table, and what is not text', () => {
    for (const text of ['BEGIN:VCARD\r\nVERSION:4.0\r\nFN', 'Name,Phone\r\n', '', 'PK\u0003\u0004\0\0'])
      expect(readContacts(text)).toMatchObject({ ok: false, message: expect.stringMatching(/^[A-Z].*\.$/) });
  });
});
