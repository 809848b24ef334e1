import type { Point } from '../../shared-core/book/fields.ts';
import type { Survey } from '../../shared-core/book/plan-fields.ts';
import { csvText } from '../../shared-core/table/csv.ts';

const VALUE_HEADING: Readonly<Record<Survey['method'], string>> = {
  height: 'elevation (m)',
  'distance-down': 'distance down (m)',
};

/** A tenth of a millimeter is finer than any rod and removes binary remainders such as 0.09999999999999976. */
const exported = (m: number): string => String(Math.round(m * 10_000) / 10_000);

/**
 * Readings as CSV: across and down from the first corner, reading in meters to a tenth of a millimeter, note.
 * @param origin the first corner of the room
 */
export function readingsCsv(survey: Pick<Survey, 'method' | 'readings'>, origin: Point = { xM: 0, yM: 0 }): string {
  const head = ['across (m)', 'down (m)', VALUE_HEADING[survey.method], 'note'];
  const rows = survey.readings.map((r) => [exported(r.xM - origin.xM), exported(r.yM - origin.yM), exported(r.valueM), r.note ?? '']);
  return csvText([head, ...rows]);
}
