/** Every file of the corpus is read correctly or questioned; none is misread without a word. */
import { describe, expect, it } from 'vitest';
import writeWorkbook from 'write-excel-file/universal';
import { readContactFile, readContacts } from '../../renderer/customers/read-contacts.ts';
import { readTables } from '../../renderer/parts/read-table.ts';
import { openLogTables, pastedTables, readLog } from '../../renderer/workers/read-log.ts';
import { matchColumns } from '../../shared-core/book/contact-columns.ts';
import { checkContacts, contactRows } from '../../shared-core/book/contact-rows.ts';
import { parseTable } from '../../shared-core/table/cell-table.ts';
import { guessReadings, nextChoice, type ReadingsChoice, type ReadingsInto } from '../../shared-core/survey/readings-choice.ts';
import { previewReadings } from '../../shared-core/survey/readings-table.ts';
import { CONTACT_FILES } from './contacts.ts';
import { LOGGER_FILES } from './loggers.ts';
import { readingsAt, READINGS_FILES } from './readings.ts';

const corner = (xM: number, yM: number) => ({ xM, yM });
const ROOM = { outline: [corner(0, 0), corner(6, 0), corner(6, 5), corner(0, 5)], holes: [] };
const PLACES = [corner(0, 0), corner(1, 0), corner(2, 0)];

const NOW = Date.parse('2026-05-20T14:00:00-04:00');
const ASKED = {
  home: { unit: 'F', dateOrder: 'mdy', timeZone: 'America/New_York' },
  changed: {},
  sheet: 0,
  known: {
    placedAtMs: Date.parse('2026-05-05T12:00:00-04:00'),
    logs: [{ name: 'hall.csv', fromMs: Date.parse('2026-05-14T00:00:00-04:00'), toMs: Date.parse('2026-05-14T23:00:00-04:00') }],
  },
} as const;
const LATE_POUR = { ...ASKED, known: { ...ASKED.known, placedAtMs: Date.parse('2026-05-11T12:00:00-04:00') } };

it('holds at least 80 files', () => {
  expect(READINGS_FILES.length + LOGGER_FILES.length + CONTACT_FILES.length).toBeGreaterThanOrEqual(80);
});

describe('floor readings', () => {
  it.each(READINGS_FILES)(
    '$name',
    ({ text, into: method = 'height', readings = [], first, count, asks = [], leftOut = [], ...expected }) => {
      const into: ReadingsInto = { units: 'us', locale: 'en-US', method, readings: readingsAt(readings), plan: ROOM, places: PLACES };
      const from = parseTable(text);
      const choice = guessReadings(from, into);
      if (choice === null) throw new Error('No column was found.');
      const preview = previewReadings(from, choice, into);
      expect(preview.rows).toHaveLength(count);
      const reading = preview.rows[0]?.reading;
      expect(reading === undefined ? null : [reading.xM, reading.yM, reading.valueM]).toEqual(
        first === null ? null : first.map((value) => expect.closeTo(value, 9)),
      );
      expect(preview.questions.map(({ kind }) => kind)).toEqual(asks);
      expect(preview.leftOut.map(({ row }) => row)).toEqual(leftOut);
      if (expected.method !== undefined) expect(choice.method).toBe(expected.method);
    },
  );

  it('joins split decimals where the user asks for it', () => {
    const into: ReadingsInto = { units: 'us', locale: 'en-US', method: 'height', readings: [], plan: ROOM, places: [] };
    const from = parseTable('x (m),y (m),z (m)\n1,25,2,5,0,012');
    const guess = guessReadings(from, into);
    if (guess === null) throw new Error('No column was found.');
    const { suggest } = previewReadings(from, guess, into).questions[0] ?? { suggest: {} };
    expect(previewReadings(from, { ...guess, ...suggest }, into).rows[0]?.reading).toMatchObject({ xM: 1.25, yM: 2.5, valueM: 0.012 });
  });

  const corrected = (text: string, places: Parameters<typeof readingsAt>[0]) => {
    const into: ReadingsInto = { units: 'us', locale: 'en-US', method: 'height', readings: readingsAt(places), plan: ROOM, places: [] };
    const from = parseTable(text);
    const guess = guessReadings(from, into);
    if (guess === null) throw new Error('No column was found.');
    const asked = previewReadings(from, guess, into).questions.find(({ kind }) => kind === 'again' || kind === 'columns');
    return { asked: asked?.message, ...previewReadings(from, { ...guess, ...asked?.suggest }, into) };
  };

  it('replace the readings of their points where the user asks for it, and only those', () => {
    const text = 'x (m),y (m),height (m)\n1,0,1.013\n2,0,1.013\n2,0,1.015\n4,0,1.013';
    const { asked, ...read } = corrected(text, [
      [0, 0, 1],
      [1, 0, 1],
      [2, 0.005, 1],
    ]);
    expect(asked).toBe(
      '2 points already have a reading, and 1 point is in the file more than once with different readings. Replace the earlier readings, or keep all: then the mean of each point is used.',
    );
    expect(read.replaces).toEqual(['reading-1', 'reading-2']);
    expect(read.rows.map(({ row, reading }) => [row, reading.valueM])).toEqual([
      [2, 1.013],
      [4, 1.015],
      [5, 1.013],
    ]);
    expect(read.leftOut).toEqual([{ row: 3, why: 'row 4 reads this point again' }]);
    expect(read.questions).toEqual([]);
    // With every reading replaced, the survey takes the method of the table.
    expect(corrected('x (m),y (m),distance down (m)\n1,0,1.5', [[1, 0, 1]]).questions).toEqual([]);
  });

  it('ask again before they replace others, where a unit changes after the answer', () => {
    const places: Parameters<typeof readingsAt>[0] = [
      [0, 0, 0.5],
      [1, 1, 0.5],
      [2, 2, 0.5],
    ];
    const into: ReadingsInto = { units: 'us', locale: 'en-US', method: 'height', readings: readingsAt(places), plan: ROOM, places: [] };
    const from = parseTable('x,y,z\n0,0,0.01\n1,1,0.03\n2,2,0.02');
    const guess = guessReadings(from, into);
    if (guess === null) throw new Error('No column was found.');
    const read = (changed: Partial<ReadingsChoice>) => {
      const { replaces, questions } = previewReadings(from, { ...guess, ...changed }, into);
      return [replaces.length, questions.some(({ kind }) => kind === 'again')];
    };
    // Without a unit, 1 and 2 are read as 1 ft and 2 ft: one point of the survey is read again. In meters, all three are.
    expect(read({})).toEqual([0, true]);
    const replacing = nextChoice({}, { latestOnly: true });
    expect(read(replacing)).toEqual([1, false]);
    const inMeters = nextChoice(nextChoice(replacing, { xUnit: 'm' }), { yUnit: 'm' });
    expect(read(inMeters)).toEqual([0, true]);
    expect(read(nextChoice(inMeters, { latestOnly: true }))).toEqual([3, false]);
  });

  const askedOf = (text: string, kind: string) => {
    const into: ReadingsInto = { units: 'us', locale: 'en-US', method: 'distance-down', readings: [], plan: ROOM, places: [] };
    const from = parseTable(text);
    const guess = guessReadings(from, into);
    if (guess === null) throw new Error('No column was found.');
    const asked = previewReadings(from, guess, into).questions.find((question) => question.kind === kind);
    return { message: asked?.message, ...previewReadings(from, { ...guess, ...asked?.suggest }, into) };
  };

  it('that are all negative under “down” are elevations where the user corrects it', () => {
    const { message, rows, questions } = askedOf('x (m),y (m),distance down (mm)\n1.25,2.5,-12\n1.5,2.5,-13', 'unreadable');
    expect(message).toBe('2 rows of 2 are negative and left out. A reading down from the laser cannot be negative. Are these elevations?');
    expect(rows.map(({ reading }) => reading.valueM)).toEqual([-0.012, expect.closeTo(-0.013, 9)]);
    expect(questions).toEqual([]);
  });

  // 16 ft by 13 ft of the room of 19 ft 8 in. by 16 ft 5 in., and 0.4 ft = 4.8 in., by hand.
  it('say the unit of numbers alone, and take another that fits', () => {
    const station = askedOf('Point,Northing,Easting,Elevation\n1,2,2,100.25\n2,2,18,100.5\n3,15,18,100.65', 'unit');
    expect(station.message).toBe(
      'The column of readings names no unit. Read as inches, they differ by ⅜″. Read as feet, like the places, they differ by 4¹³⁄₁₆″.',
    );
    expect(station.rows.at(-1)?.reading.valueM).toBeCloseTo(100.65 * 0.3048, 9);
    expect(station.questions).toEqual([]);
    const meters = askedOf('x,y,elevation (mm)\n0.5,0.5,12\n5.5,0.5,13\n5.5,4.5,14', 'place-unit');
    expect(meters.message).toBe(
      'The columns of places name no unit. Read as feet, the points cover 5′ 0″ by 4′ 0″ of a room of 19′ 8¼″ by 16′ 4⅞″. Read as meters, they cover 16′ 4⅞″ by 13′ 1½″.',
    );
    expect(meters.rows.at(-1)?.reading).toMatchObject({ xM: 5.5, yM: 4.5 });
    expect(meters.questions).toEqual([]);
  });

  it('are read a column further, or from the bottom up, where the user corrects the columns', () => {
    const numbered = corrected('101,1.25 m,2.5 m,0.012 m\n105,1.5 m,2.5 m,0.013 m', []);
    expect(numbered.rows[0]?.reading).toEqual({ xM: 1.25, yM: 2.5, valueM: 0.012, note: null, confirmed: false });
    // Across and down, or northing and easting, is asked of a file with missing point numbers too.
    expect(numbered.questions).toMatchObject([
      { kind: 'method' },
      { kind: 'columns', suggest: { xColumn: 2, yColumn: 1, fromBelow: true } },
    ]);
    const northing = corrected('1,1 m,1.25 m,0.012 m,low\n2,1 m,1.5 m,0.012 m,', []);
    expect(northing.rows[0]?.reading).toEqual({ xM: 1.25, yM: 4, valueM: 0.012, note: 'low', confirmed: false });
    expect(northing.questions).toMatchObject([{ kind: 'method' }]);
  });
});

describe('logger files', () => {
  it.each(LOGGER_FILES)('$name', ({ name, text, first, count, asks = [] }) => {
    const { preview } = readLog(pastedTables(text), name === 'rows before the pour' ? LATE_POUR : ASKED, NOW);
    if (first === null) {
      expect(preview?.ok ?? false).toBe(false);
      return;
    }
    if (preview?.ok !== true) throw new Error(preview?.problem.kind ?? 'No column was found.');
    const [reading] = preview.value.readings;
    expect(reading).toEqual({ instant: first[0], tempC: expect.closeTo(first[1], 3), relativeHumidity: first[2] });
    if (count !== undefined) expect(preview.value.read).toBe(count);
    expect(preview.value.questions.map(({ kind }) => kind)).toEqual(asks);
  });

  it('joins split decimals, and leaves out hours before the pour and rows of another logger on request', () => {
    const read = (text: string, changed: object) => {
      const { preview } = readLog(pastedTables(text), { ...LATE_POUR, changed }, NOW);
      return preview?.ok === true ? preview.value : null;
    };
    expect(read('Time,Temp °C\n2026-05-12 14:00,18,9', { joinsDecimals: true })?.readings[0]?.tempC).toBe(18.9);
    const text = 'Time,Temp °F\n2026-05-09 14:00,68\n2026-05-12 14:00,68\n2026-05-14 14:00,68';
    const suggested = read(text, {})
      ?.questions.map(({ suggest }) => suggest.leavesOut ?? [])
      .flat();
    const taken = read(text, { leavesOut: suggested });
    expect(taken?.readings.map(({ instant }) => instant)).toEqual(['2026-05-12T18:00:00.000Z']);
    expect(taken?.leftOut.map(({ problem }) => problem.kind === 'hours' && problem.hours.otherLog)).toEqual([null, 'hall.csv']);
    expect(taken?.questions).toEqual([]);
  });
});

describe('contacts', () => {
  it.each(CONTACT_FILES)('$name', ({ text, people, leftOut = 0, duplicates = 0 }) => {
    const read = readContacts(text);
    if (!read.ok) throw new Error(read.message);
    const rows =
      read.value.kind === 'cards' ? read.value.rows : contactRows(read.value.table.rows, matchColumns(read.value.table.headings));
    const checked = checkContacts(rows, [], 'US');
    expect(checked.filter(({ state }) => state === 'new').map(({ row }) => [row.name, row.phone, row.email])).toEqual(people);
    expect(read.value.leftOut.length + checked.filter(({ state }) => state === 'wrong').length).toBe(leftOut);
    expect(checked.filter(({ state }) => state === 'duplicate')).toHaveLength(duplicates);
  });

  it('recognizes a first row that is a contact, and asks for the columns', () => {
    const read = readContacts('Vivian Odell,555-010-0101,v@odell.invalid\r\n');
    expect(read).toMatchObject({
      ok: true,
      value: { kind: 'table', table: { headings: [], rows: [{ row: 1, cells: ['Vivian Odell', '555-010-0101', 'v@odell.invalid'] }] } },
    });
  });
});

describe('workbooks', () => {
  const workbook = async (...sheets: { sheet: string; data: unknown[][] }[]): Promise<File> => {
    const blob = await writeWorkbook(sheets as never).toBlob();
    return new File([blob], 'readings.xlsx');
  };
  const cellAt = (hour: number) => ({ value: new Date(Date.UTC(2026, 4, 12, hour)), type: Date, format: 'yyyy-mm-dd hh:mm' });

  it('of a logger are read with their dates as wall-clock times', async () => {
    const file = await workbook({
      sheet: 'Log',
      data: [
        ['Time', 'Temp °F', 'RH %'],
        [cellAt(14), 68, 50],
        [cellAt(15), 69.8, 51],
      ],
    });
    const tables = await openLogTables(file);
    if (typeof tables === 'string') throw new Error(tables);
    const { preview } = readLog(tables, ASKED, NOW);
    expect(preview?.ok === true ? preview.value.readings : preview).toEqual([
      { instant: '2026-05-12T18:00:00.000Z', tempC: 20, relativeHumidity: 0.5 },
      { instant: '2026-05-12T19:00:00.000Z', tempC: expect.closeTo(21, 9), relativeHumidity: 0.51 },
    ]);
  });

  it('of readings and contacts are read as their tables', async () => {
    const file = await workbook(
      { sheet: 'Empty', data: [['']] },
      {
        sheet: 'Hall',
        data: [
          ['x (m)', 'y (m)', 'z (mm)'],
          [1.25, 2.5, 12],
        ],
      },
    );
    const read = await readTables(file);
    expect(read.ok ? read.value.map(({ name, table }) => [name, table]) : read).toEqual([
      [
        'Hall',
        [
          ['x (m)', 'y (m)', 'z (mm)'],
          ['1.25', '2.5', '12'],
        ],
      ],
    ]);
    const people = await readContactFile(
      await workbook({
        sheet: 'People',
        data: [
          ['Name', 'Phone'],
          ['One', '555-010-0101'],
        ],
      }),
    );
    expect(people).toMatchObject({ ok: true, value: { kind: 'table', table: { rows: [{ row: 2, cells: ['One', '555-010-0101'] }] } } });
  });

  it.each([
    ['an older workbook', [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], /older or encrypted Excel workbook/],
    ['a PDF', [0x25, 0x50, 0x44, 0x46, 0x2d, 0x31], /This is a PDF/],
    ['a zip archive', [0x50, 0x4b, 0x05, 0x06, ...Array.from({ length: 18 }, () => 0)], /zip archive/],
  ])('that are %s are refused by name', async (_, bytes, words) => {
    const read = await readTables(new File([new Uint8Array(bytes)], 'readings.csv'));
    expect(read).toMatchObject({ ok: false, message: expect.stringMatching(words) });
  });

  it('that are OpenDocument are refused by name', async () => {
    const { zipSync, strToU8 } = await import('fflate');
    const ods = zipSync({ mimetype: [strToU8('application/vnd.oasis.opendocument.spreadsheet'), { level: 0 }] });
    expect(await readTables(new File([ods], 'a.ods'))).toMatchObject({ ok: false, message: expect.stringContaining('OpenDocument') });
  });
});
