import { describe, expect, test } from 'vitest';
import { columnProblems, parseReading, placesLeft, readColumn } from '../../../shared-core/survey/reading-entry.ts';

describe('readings as entered', () => {
  // 1 in is 25.4 mm exactly: NIST SP 811, appendix B.8.
  test.each([
    ['40 1/4', 'inch', 1.02235],
    ['644', 'sixteenth', 1.02235],
    ['1022', 'mm', 1.022],
    ['1022 mm', 'inch', 1.022],
    ['40 1/4"', 'mm', 1.02235],
    ['40 1/4"', 'sixteenth', 1.02235],
  ] as const)('%s with numbers alone in %s is %d m', (text, typedIn, valueM) => {
    expect(parseReading(text, typedIn, 'distance-down')).toEqual({ ok: true, value: expect.closeTo(valueM, 12) });
  });
  test('a distance down is never below zero, an elevation can be', () => {
    expect(parseReading('-3', 'mm', 'distance-down').ok).toBe(false);
    expect(parseReading('-3', 'mm', 'height')).toEqual({ ok: true, value: -0.003 });
  });
  test('more sixteenths than a rod has are refused with what was entered', () => {
    const read = parseReading('64400', 'sixteenth', 'distance-down');
    expect(read.ok ? '' : read.message).toContain('64400');
  });
  test('a place counts as read when a reading is there', () => {
    const places = [0, 1, 2].map((xM) => ({ xM, yM: 0 }));
    expect(placesLeft(places, [{ xM: 1.02, yM: 0.03 }])).toEqual([places[0], places[2]]);
  });
  test('a reading within a third of the spacing counts for the place', () => {
    const places = [0, 1, 2].map((xM) => ({ xM, yM: 0 }));
    expect(placesLeft(places, [{ xM: 1.2, yM: 0.25 }], 1)).toEqual([places[0], places[2]]);
    expect(placesLeft(places, [{ xM: 1.3, yM: 0.25 }], 1)).toEqual(places);
  });
  test('a pasted column keeps its lines in order and names the one it cannot read', () => {
    const { lines, mixedAt } = readColumn('40 1/4\r\n\r\n40 3/8\nforty', 'inch', 'distance-down');
    expect(lines.map((l) => [l.line, l.place, l.read.ok])).toEqual([
      [1, 0, true],
      [3, 2, true],
      [4, 3, false],
    ]);
    expect(mixedAt).toBeNull();
  });
  test('a column with units on some lines only is questioned', () => {
    expect(readColumn('1022\n1024 mm', 'inch', 'height').mixedAt?.line).toBe(2);
    expect(readColumn('1022 mm\n40 1/4"', 'inch', 'height').mixedAt).toBeNull();
  });
  test('an error in a column is shown at the place of its line, not where it was confirmed', () => {
    const places = [0, 1, 2].map((xM) => ({ xM, yM: 0 }));
    const column = readColumn('40 1/4\n\n1022 mm\nforty\nfifty', 'inch', 'distance-down');
    const found = columnProblems(column, 'inch', places);
    // Line 2 is blank and leaves its point without a reading.
    expect(found.map(({ line, point }) => [line, point])).toEqual([
      [3, places[2]],
      [4, null],
      [5, null],
      [4, places[2]],
    ]);
    expect(found[0]?.message).toMatch(/Line 3, 1022 mm, carries a unit and the lines before it do not\. A number alone is inches/);
    expect(columnProblems(column, 'inch', places, true).map(({ line }) => line)).toEqual([4, 5, 4]);
  });

  test('lines beyond the places are reported where the places end', () => {
    const places = [0, 1].map((xM) => ({ xM, yM: 0 }));
    const problemsIn = (text: string, points = places) => columnProblems(readColumn(text, 'mm', 'distance-down'), 'mm', points);
    expect(problemsIn('1022\n1025')).toEqual([]);
    expect(problemsIn('1022\n1025\n1029\n1031')).toEqual([
      {
        line: 3,
        point: places[1],
        message: 'The 2 points left end at line 2. Line 3, 1029, and 1 more have none. Use a smaller spacing, or delete some lines.',
      },
    ]);
    expect(problemsIn('1022', [])).toMatchObject([
      { line: 1, point: null, message: expect.stringContaining('Every suggested point is read') },
    ]);
  });
});
