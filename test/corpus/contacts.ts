/**
 * Contacts as phones, mail programs and spreadsheets write them, made for the tests by the formats' rules: vCard 2.1 of the Versit
 * consortium, RFC 2426 (3.0), RFC 6350 (4.0), RFC 2045 section 6.7 (quoted-printable), RFC 4180 (separated values).
 */
export type ContactFixture = {
  readonly name: string;
  readonly text: string;
  /** Name, phone and email of each expected contact. */
  readonly people: readonly (readonly [name: string, phone: string, email: string])[];
  readonly leftOut?: number;
  readonly duplicates?: number;
};

const card = (version: string, ...lines: string[]): string => ['BEGIN:VCARD', `VERSION:${version}`, ...lines, 'END:VCARD', ''].join('\r\n');
const table = (...lines: string[]): string => `${lines.join('\r\n')}\r\n`;

export const CONTACT_FILES: readonly ContactFixture[] = [
  {
    name: '2.1, bare parameters',
    text: card('2.1', 'N:Odell;Vivian', 'FN:Vivian Odell', 'TEL;CELL:555-0101', 'EMAIL;INTERNET:v@odell.invalid'),
    people: [['Vivian Odell', '555-0101', 'v@odell.invalid']],
  },
  {
    name: '2.1, quoted-printable name',
    text: card('2.1', 'FN;CHARSET=UTF-8;ENCODING=QUOTED-PRINTABLE:Beno=C3=AEt Ferrand', 'TEL:555-0102'),
    people: [['Benoît Ferrand', '555-0102', '']],
  },
  {
    name: '2.1, quoted-printable over two lines',
    text: card('2.1', 'FN;ENCODING=QUOTED-PRINTABLE;CHARSET=UTF-8:Beno=C3=AEt =', 'Ferrand'),
    people: [['Benoît Ferrand', '', '']],
  },
  {
    name: '2.1, one-byte letters',
    text: card('2.1', 'FN;ENCODING=QUOTED-PRINTABLE;CHARSET=ISO-8859-1:Beno=EEt'),
    people: [['Benoît', '', '']],
  },
  { name: '2.1, a fax first', text: card('2.1', 'FN:One', 'TEL;FAX:555-0100', 'TEL;HOME:555-0101'), people: [['One', '555-0101', '']] },
  {
    name: '2.1, a preferred work number',
    text: card('2.1', 'FN:One', 'TEL;HOME:555-0101', 'TEL;WORK;PREF:555-0102'),
    people: [['One', '555-0102', '']],
  },
  {
    name: '2.1, a photo in base64',
    text: card('2.1', 'FN:One', 'PHOTO;ENCODING=BASE64;TYPE=JPEG:AAAA', ' BBBB', '', 'TEL:555-0101'),
    people: [['One', '555-0101', '']],
  },
  {
    name: '3.0',
    text: card('3.0', 'N:Rusk;Tom;;;', 'FN:Tom Rusk', 'TEL;TYPE=CELL,VOICE:555-0103', 'EMAIL;TYPE=INTERNET:t@rusk.invalid'),
    people: [['Tom Rusk', '555-0103', 't@rusk.invalid']],
  },
  {
    name: '3.0, groups and labels of properties',
    text: card('3.0', 'FN:Tom Rusk', 'item1.TEL:555-0103', 'item1.X-ABLabel:Shop'),
    people: [['Tom Rusk', '555-0103', '']],
  },
  {
    name: '3.0, type=pref',
    text: card('3.0', 'FN:One', 'TEL;TYPE=home:555-0101', 'TEL;TYPE=work;TYPE=pref:555-0102'),
    people: [['One', '555-0102', '']],
  },
  { name: '3.0, no FN', text: card('3.0', 'N:Rusk;Tom;;;', 'TEL:555-0103'), people: [['Tom Rusk', '555-0103', '']] },
  { name: '3.0, a company only', text: card('3.0', 'FN:', 'ORG:Rusk and Company'), people: [['Rusk and Company', '', '']] },
  {
    name: '4.0, tel as a URI',
    text: card('4.0', 'FN:Maja Lindqvist', 'TEL;VALUE=uri;TYPE="voice,cell":tel:+1-555-555-0123'),
    people: [['Maja Lindqvist', '+1-555-555-0123', '']],
  },
  {
    name: '4.0, PREF by number',
    text: card('4.0', 'FN:One', 'EMAIL;PREF=2:a@x.invalid', 'EMAIL;PREF=1:b@x.invalid'),
    people: [['One', '', 'b@x.invalid']],
  },
  {
    name: '4.0, folded lines',
    text: card('4.0', 'FN:Maja Lind', ' qvist', 'TEL:555', ' -0104'),
    people: [['Maja Lindqvist', '555-0104', '']],
  },
  { name: '4.0, escaped commas', text: card('4.0', 'FN:Lindqvist\\, Maja'), people: [['Lindqvist, Maja', '', '']] },
  { name: 'a group', text: card('4.0', 'KIND:group', 'FN:Family') + card('4.0', 'FN:One'), people: [['One', '', '']], leftOut: 1 },
  {
    name: 'a torn card among good ones',
    text: `${card('3.0', 'FN:One')}BEGIN:VCARD\r\nFN:Torn\r\n${card('3.0', 'FN:Two')}`,
    people: [
      ['One', '', ''],
      ['Two', '', ''],
    ],
    leftOut: 1,
  },
  { name: 'a pager', text: card('3.0', 'FN:One', 'TEL;TYPE=pager:555-0100'), people: [['One', '', '']] },
  { name: 'line feeds alone', text: card('3.0', 'FN:One', 'TEL:555-0101').replaceAll('\r\n', '\n'), people: [['One', '555-0101', '']] },
  { name: 'a byte order mark', text: `\uFEFF${card('3.0', 'FN:One')}`, people: [['One', '', '']] },
  {
    name: 'two people of one name',
    text: card('3.0', 'FN:One', 'TEL:555-0101') + card('3.0', 'FN:One', 'TEL:555-0102'),
    people: [['One', '555-0101', '']],
    duplicates: 1,
  },
  {
    name: 'full name and phone',
    text: table('Name,Phone,Email', 'Vivian Odell,555-0101,v@odell.invalid'),
    people: [['Vivian Odell', '555-0101', 'v@odell.invalid']],
  },
  {
    name: 'first and last name, no company',
    text: table('First Name,Last Name,Company,Mobile Phone', 'Vivian,Odell,,555-0101'),
    people: [['Vivian Odell', '555-0101', '']],
  },
  {
    name: 'phonetic names and labels between',
    text: table(
      'First Name,Phonetic First Name,Last Name,E-mail 1 - Label,E-mail 1 - Value,Phone 1 - Label,Phone 1 - Value',
      'Vivian,VIV-ee-an,Odell,Work,v@odell.invalid,Mobile,555-0101',
    ),
    people: [['Vivian Odell', '555-0101', 'v@odell.invalid']],
  },
  {
    name: 'a fax column before the phone',
    text: table('Name,Business Fax,Business Phone', 'One,555-0100,555-0101'),
    people: [['One', '555-0101', '']],
  },
  {
    name: 'a company without a person',
    text: table('First Name,Last Name,Company', ',,Rusk and Company'),
    people: [['Rusk and Company', '', '']],
  },
  { name: 'a second phone', text: table('Name,Mobile Phone,Home Phone', 'One,555-0101,555-0102'), people: [['One', '555-0101', '']] },
  { name: 'semicolons', text: table('Name;Phone', 'One;555-0101'), people: [['One', '555-0101', '']] },
  { name: 'tabs', text: table('Name\tPhone', 'One\t555-0101'), people: [['One', '555-0101', '']] },
  { name: 'a line break in quotes', text: table('Name,Notes,Phone', 'One,"two\nlines",555-0101'), people: [['One', '555-0101', '']] },
  {
    name: 'an unquoted comma in the address',
    text: table('Name,Address,Phone', 'One,12 Mill Lane, Unit 4,555-0101', 'Two,"12 Mill Lane, Unit 5",555-0102'),
    people: [['Two', '555-0102', '']],
    leftOut: 1,
  },
  {
    name: 'a phone number rounded by a spreadsheet',
    text: table('Name,Phone', 'One,1.55555E+10', 'Two,555-0102'),
    people: [['Two', '555-0102', '']],
    leftOut: 1,
  },
  {
    name: 'an apostrophe before a phone number',
    text: table('Name,Phone', "One,'+1 555 010 0101"),
    people: [['One', '+1 555 010 0101', '']],
  },
  { name: 'a row without a name', text: table('Name,Phone', ',555-0101', 'Two,555-0102'), people: [['Two', '555-0102', '']], leftOut: 1 },
  {
    name: 'the same phone twice',
    text: table('Name,Phone', 'One,555-010-0101', 'Wun,(555) 010 0101'),
    people: [['One', '555-010-0101', '']],
    duplicates: 1,
  },
  {
    name: 'a title above the headings',
    text: table('Customer list', 'Name,Phone,Email', 'Tom Rusk,555-0103,t@rusk.invalid'),
    people: [['Tom Rusk', '555-0103', 't@rusk.invalid']],
  },
  {
    name: 'a title with a date and a time, and a blank row',
    text: table('Customers, exported 05/12/2026 1:00 PM', '', 'First name;Last name;Phone', 'Tom;Rusk;555-0103', 'Ann;Odell;555-0104'),
    people: [
      ['Tom Rusk', '555-0103', ''],
      ['Ann Odell', '555-0104', ''],
    ],
  },
  {
    name: 'a title of several cells, quoted',
    text: table('"Customers","All","05/12/2026 13:00"', '"Company","City","Phone"', '"Rusk Floors","Tarrow Falls","555-0103"'),
    people: [['Rusk Floors', '555-0103', '']],
  },
  {
    name: 'a line that names the delimiter',
    text: table('sep=;', 'Name;Phone', 'Rusk, Tom;555-0103'),
    people: [['Rusk, Tom', '555-0103', '']],
  },
];
