/** Tables from other programs. Sources: RFC 4180 for separated values; OWASP, CSV Injection, for the characters that begin a formula. */
import { describe, expect, it } from 'vitest';
import { hasColumns, isBlankRow, joinDecimals, looksSplit, parseTable, rowWidth } from '../../../shared-core/table/cell-table.ts';
import { csvCell, csvText, phoneCell } from '../../../shared-core/table/csv.ts';
import { openQuestion } from '../../../shared-core/table/import-check.ts';

describe('separated text', () => {
  // Spreadsheet programs read and write this first line; common practice, no source.
  it('takes the delimiter that the first line names, and keeps the numbers of the rows', () => {
    for (const [line, delimiter] of [
      ['sep=;', ';'],
      ['"sep=,"', ','],
      ['SEP=\t', '\t'],
    ] as const)
      expect(parseTable(`\uFEFF${line}\r\nNote${delimiter}Height\r\nlow|wet${delimiter}1`)).toEqual({
        table: [[''], ['Note', 'Height'], ['low|wet', '1']],
        delimiter,
      });
  });

  it('is read by its delimiter, quotes and line ends', () => {
    expect(parseTable('a,b\r\n"c, d","e ""f"""\r\n')).toEqual({
      table: [
        ['a', 'b'],
        ['c, d', 'e "f"'],
      ],
      delimiter: ',',
    });
    expect(parseTable('\uFEFFa;b\n1,5;2').table).toEqual([
      ['a', 'b'],
      ['1,5', '2'],
    ]);
    expect(parseTable('a\tb\n1\t2')).toMatchObject({ delimiter: '\t' });
    expect(parseTable('a|b\n1|2')).toMatchObject({ delimiter: '|' });
    expect(parseTable('a,b\n\n1,2').table).toEqual([['a', 'b'], [''], ['1', '2']]);
    expect([parseTable(''), parseTable('\uFEFF \n')]).toEqual([
      { table: [], delimiter: '' },
      { table: [], delimiter: '' },
    ]);
  });

  // RFC 4180, section 2, rules 5 to 7: quotes go around a whole cell, and one inside is doubled.
  it.each(['\n', '\r\n'])('loses no row after a quote that is not closed or not at the end of its cell', (end) => {
    const lines = [
      'Name,Phone,Notes',
      'Ann,1,"two',
      'lines"',
      '"Bud" Smith,2,"note"',
      'Carl,3,x',
      'Dan,4,"6"" gap"',
      'Eve,5,"open',
      'Flo,6,"y"',
    ];
    expect(parseTable(`${lines.join(end)}${end}`).table).toEqual([
      ['Name', 'Phone', 'Notes'],
      ['Ann', '1', `two${end}lines`],
      ['"Bud" Smith', '2', 'note'],
      ['Carl', '3', 'x'],
      ['Dan', '4', '6" gap'],
      ['Eve', '5', '"open'],
      ['Flo', '6', 'y'],
    ]);
    expect(parseTable('a,b\n1,"2').table).toEqual([
      ['a', 'b'],
      ['1', '"2'],
    ]);
  });

  it('has columns with a tab, a semicolon, or two commas in one line', () => {
    expect(['a\tb', 'a;b', 'x\na,b,c', 'x\r\na,b,c\r\ny', 'a,b\nc', 'a,b\nc,d', 'a', ' a\t'].map(hasColumns)).toEqual([
      ...[true, true, true, true, false, false, false, false],
    ]);
  });

  it('has rows as wide as their last cell that is not blank', () => {
    expect([[], [''], ['a'], ['', 'a', ' '], ['a', '', '']].map(rowWidth)).toEqual([0, 0, 1, 2, 1]);
    expect([[], ['', ' '], ['', 'a']].map(isBlankRow)).toEqual([true, true, false]);
  });

  it('may have numbers that a decimal comma has split', () => {
    expect(looksSplit(['t', '18', '9'], [1])).toBe(true);
    expect(looksSplit(['t', '-18', ' 9 '], [1])).toBe(true);
    expect(
      [
        ['t', '18.5', '9'],
        ['t', '18', 'x'],
        ['t', '18'],
        ['18', '9', ''],
      ].map((row) => looksSplit(row, [1])),
    ).toEqual([false, false, false, false]);
    expect(joinDecimals(['t', '18', '9'], 2, [1])).toEqual(['t', '18,9']);
    expect(joinDecimals(['t', '-18', '9 °C', '50', '5', 'x'], 4, [1, 2])).toEqual(['t', '-18,9 °C', '50,5', 'x']);
    // Not wider by one cell for each number, no digits, or no numbers at all.
    expect([
      joinDecimals(['t', '18'], 2, [1]),
      joinDecimals(['t', '18', '9', '5'], 2, [1]),
      joinDecimals(['t', 'x', '9'], 2, [1]),
      joinDecimals(['t', '18', 'x'], 2, [1]),
      joinDecimals(['t', '18', ' 9'], 2, [1]),
      joinDecimals(['t', '18'], 2, []),
    ]).toEqual([null, null, null, null, null, null]);
  });
});

describe('comma-separated values', () => {
  it('quote what would end a cell, and double the quotes', () => {
    expect(
      csvText([
        ['a', 'b,c'],
        ['d"e', 'f\ng', 'h\ri'],
      ]),
    ).toBe('\uFEFFa,"b,c"\r\n"d""e","f\ng","h\ri"\r\n');
  });

  it.each([
    ['=1+1', "'=1+1"],
    ['+1', "'+1"],
    ['-x', "'-x"],
    ['@x', "'@x"],
    ['\tx', "'\tx"],
    [' =1', "' =1"],
    ['\u00a0=1', "'\u00a0=1"],
    ['\uFF1D1', "'\uFF1D1"],
    ['-5', '-5'],
    ['-5.25', '-5.25'],
    ['-5.', "'-5."],
    ['-5x', "'-5x"],
    ['+1 212 555 0142', '+1 212 555 0142'],
    ['+1-212', "'+1-212"],
    ['a=b', 'a=b'],
    ['', ''],
  ])('write %j so that no spreadsheet calculates it', (text, cell) => expect(csvCell(text)).toBe(cell));

  it.each([
    ['2125550142', '212-555-0142'],
    ['5550142', '555-0142'],
    ['12125550142', '1-212-555-0142'],
    ['555014', '555014'],
    ['+12125550142', '+1 212 555 0142'],
    ['+1 (212) 555-0142', '+1 212 555 0142'],
    ['+1-212-555-0142', '+1 212 555 0142'],
    ['(212) 555-0142', '(212) 555-0142'],
    [' 212 555 0142 ', '212 555 0142'],
    ['+1 212 x3', '+1 212 x3'],
  ])('write the phone number %s as text', (phone, cell) => expect(phoneCell(phone)).toBe(cell));
});

it('an import asks the first open question, and one that blocks whatever was answered', () => {
  const [unit, order] = [{ kind: 'unit' }, { kind: 'order', blocks: true as const }];
  expect(openQuestion([], [])).toBeNull();
  expect(openQuestion([unit, order], [])).toBe(unit);
  expect(openQuestion([unit, order], ['unit', 'order'])).toBe(order);
  expect(openQuestion([unit], ['unit'])).toBeNull();
});
