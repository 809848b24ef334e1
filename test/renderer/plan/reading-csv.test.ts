import { describe, expect, test } from 'vitest';
import { parseReadingsCsv, readingsCsv } from '../../../renderer/plan/reading-csv.ts';

const readings = [
  { id: 'read-1', xM: 0.1, yM: 1 / 3, valueM: 1.02235, note: null },
  { id: 'read-2', xM: 2, yM: 3, valueM: -0.004, note: 'low spot, "by the drain"' },
];

describe('readings as a table', () => {
  test('export and import agree to a tenth of a millimeter', () => {
    const { readings: back, problems } = parseReadingsCsv(readingsCsv({ method: 'height', readings }), 'us', 'en-US', 'height');
    expect(problems).toEqual([]);
    expect(back).toEqual(
      readings.map(({ note, ...at }) => ({
        xM: expect.closeTo(at.xM, 4),
        yM: expect.closeTo(at.yM, 4),
        valueM: expect.closeTo(at.valueM, 4),
        note,
      })),
    );
  });
  test('headings say the unit, whatever the business reads in', () => {
    const read = parseReadingsCsv('note,x (ft),y (ft),reading (in)\nhigh,10,5,40.25', 'metric', 'en-US', 'height');
    expect(read.readings).toEqual([
      { xM: expect.closeTo(3.048, 12), yM: expect.closeTo(1.524, 12), valueM: expect.closeTo(1.02235, 12), note: 'high' },
    ]);
  });
  test('without headings the columns are across, down and reading, typed as people type them', () => {
    const read = parseReadingsCsv(`10',5' 6",40 1/4`, 'us', 'en-US', 'height');
    expect(read.readings[0]).toEqual({
      xM: expect.closeTo(3.048, 12),
      yM: expect.closeTo(1.6764, 12),
      valueM: expect.closeTo(1.02235, 12),
      note: null,
    });
  });
  test('a row that cannot be read is named by its number', () => {
    expect(parseReadingsCsv('x (m),y (m),value (m)\n1,2,\n1,2,0.5', 'metric', 'en-US', 'height').problems[0]).toMatch(/^Row 2:/);
  });
  test('a sum of fractions has no binary remainder', () => {
    const third = { id: 'read-3', xM: 0.1 + 0.2 - 0.2, yM: 0.09999999999999976, valueM: 1, note: null };
    expect(readingsCsv({ method: 'height', readings: [third] })).toContain('0.1,0.1,1,');
  });
  test('semicolons, decimal commas and units in square brackets or bare are read', () => {
    const read = parseReadingsCsv('x [m];y [m];z mm\n1,25;2,5;1022,5', 'us', 'en-US', 'height');
    expect(read.problems).toEqual([]);
    expect(read.readings[0]).toEqual({ xM: 1.25, yM: 2.5, valueM: expect.closeTo(1.0225, 12), note: null });
  });
  test('elevations are not taken as readings down from the laser, nor the other way round', () => {
    const of = (heading: string, method: 'height' | 'distance-down') =>
      parseReadingsCsv(`x (m),y (m),${heading} (m)\n1,2,0.5`, 'us', 'en-US', method).problems;
    expect(of('height', 'distance-down')[0]).toContain('High and low would be swapped.');
    expect(of('distance down', 'height')[0]).toContain('High and low would be swapped.');
    expect(of('height', 'height')).toEqual([]);
    expect(of('z', 'distance-down')).toEqual([]);
  });
  test('an empty table says so', () => {
    expect(parseReadingsCsv('  ', 'us', 'en-US', 'height').problems).toEqual(['This file has no rows.']);
  });
});
