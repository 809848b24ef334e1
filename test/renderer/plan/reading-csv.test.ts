import { describe, expect, test } from 'vitest';
import { readingsCsv } from '../../../renderer/plan/reading-csv.ts';
import { parseTable } from '../../../shared-core/table/cell-table.ts';
import { guessReadings, type ReadingsInto } from '../../../shared-core/survey/readings-choice.ts';
import { previewReadings } from '../../../shared-core/survey/readings-table.ts';
import { points } from '../../outlines.ts';

const readings = [
  { id: 'read-1', xM: 0.1, yM: 1 / 3, valueM: 1.02235, note: null, confirmed: false },
  { id: 'read-2', xM: 2, yM: 3, valueM: -0.004, note: 'low spot, "by the drain"', confirmed: false },
];
const outline = points('0.5,0.25 9,0.25 9,9 0.5,9');

const into: ReadingsInto = { units: 'us', locale: 'en-US', method: 'height', readings: [], plan: { outline: [], holes: [] }, places: [] };

describe('readings as a table', () => {
  test('export and import agree to a tenth of a millimeter', () => {
    const from = parseTable(readingsCsv({ method: 'height', readings }));
    const choice = guessReadings(from, into);
    const { rows, leftOut, questions } = previewReadings(from, choice ?? expect.unreachable(), into);
    expect(leftOut).toEqual([]);
    expect(questions.map(({ kind }) => kind)).toEqual(['unit']);
    expect(rows.map(({ reading }) => reading)).toEqual(
      readings.map(({ note, ...place }) => ({
        xM: expect.closeTo(place.xM, 4),
        yM: expect.closeTo(place.yM, 4),
        valueM: expect.closeTo(place.valueM, 4),
        note,
        confirmed: false,
      })),
    );
  });
  test('a row whose place is no length is left out with what was read', () => {
    const from = parseTable('x m,y m,height m\r\n1,2,0.001\r\nover there,2,0.002\r\n3,by the wall,0.003\r\n');
    const { rows, leftOut } = previewReadings(from, guessReadings(from, into) ?? expect.unreachable(), into);
    expect(rows.map(({ row }) => row)).toEqual([2]);
    expect(leftOut.map(({ row }) => row)).toEqual([3, 4]);
    for (const { why } of leftOut) expect(why).toMatch(/over there|by the wall/);
  });
  // By hand: 12 ft 6 in. is 3.81 m, 12 1/2 in. is 0.3175 m; a cell with a unit of its own keeps it.
  test('a fraction has the unit of its column, as a decimal has', () => {
    const from = parseTable('x (ft),y (ft),reading (in)\n12,12.5,12\n12 1/2,12½,12 1/2\n"12\' 6""",150 in,1 ft\n0,1/2,-1/2\n');
    const { rows, leftOut } = previewReadings(from, guessReadings(from, into) ?? expect.unreachable(), into);
    expect(leftOut).toEqual([]);
    const close = (xM: number, yM: number, valueM: number) => ({
      xM: expect.closeTo(xM, 9) as number,
      yM: expect.closeTo(yM, 9) as number,
      valueM: expect.closeTo(valueM, 9) as number,
    });
    expect(rows.map(({ reading }) => reading)).toMatchObject([
      close(3.6576, 3.81, 0.3048),
      close(3.81, 3.81, 0.3175),
      close(3.81, 3.81, 0.3048),
      close(0, 0.1524, -0.0127),
    ]);
  });
  test('distances are from the first corner of the room, as the list on the screen has them', () => {
    expect(readingsCsv({ method: 'height', readings }, outline[0])).toContain('\r\n1.5,2.75,-0.004,');
  });
  test('a sum of fractions has no binary remainder', () => {
    const third = { id: 'read-3', xM: 0.1 + 0.2 - 0.2, yM: 0.09999999999999976, valueM: 1, note: null, confirmed: false };
    expect(readingsCsv({ method: 'height', readings: [third] })).toContain('0.1,0.1,1,');
  });
});
