import { describe, expect, test } from 'vitest';
import { parseReadingsCsv, readingsCsv } from '../../../renderer/plan/reading-csv.ts';

const readings = [
  { id: 'read-1', xM: 0.1, yM: 1 / 3, valueM: 1.02235, note: null },
  { id: 'read-2', xM: 2, yM: 3, valueM: -0.004, note: 'low spot, "by the drain"' },
];

describe('readings as a table', () => {
  test('nothing is rounded or lost on the way out and in', () => {
    const { readings: back, problems } = parseReadingsCsv(readingsCsv({ method: 'height', readings }), 'us', 'en-US');
    expect(problems).toEqual([]);
    expect(back).toEqual(readings.map(({ id: _, ...rest }) => rest));
  });
  test('headings say the unit, whatever the business reads in', () => {
    const read = parseReadingsCsv('note,x (ft),y (ft),reading (in)\nhigh,10,5,40.25', 'metric', 'en-US');
    expect(read.readings).toEqual([
      { xM: expect.closeTo(3.048, 12), yM: expect.closeTo(1.524, 12), valueM: expect.closeTo(1.02235, 12), note: 'high' },
    ]);
  });
  test('without headings the columns are across, down and reading, typed as people type them', () => {
    const read = parseReadingsCsv(`10',5' 6",40 1/4`, 'us', 'en-US');
    expect(read.readings[0]).toEqual({
      xM: expect.closeTo(3.048, 12),
      yM: expect.closeTo(1.6764, 12),
      valueM: expect.closeTo(1.02235, 12),
      note: null,
    });
  });
  test('a row that cannot be read is named by its number', () => {
    expect(parseReadingsCsv('x (m),y (m),value (m)\n1,2,\n1,2,0.5', 'metric', 'en-US').problems[0]).toMatch(/^Row 2:/);
  });
  test('an empty table says so', () => {
    expect(parseReadingsCsv('  ', 'us', 'en-US').problems).toEqual(['This file has no rows.']);
  });
});
