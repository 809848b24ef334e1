/** Readings as a table other programs read: across, down, reading in meters, note. */
import Papa from 'papaparse';
import type { Reading, Survey } from '../../shared-core/book/plan-fields.ts';
import { parseSignedLength } from '../../shared-core/measure/length.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';

const HEADINGS = { xM: 'across (m)', yM: 'down (m)', note: 'note' } as const;
const VALUE_HEADING: Readonly<Record<Survey['method'], string>> = {
  height: 'height (m)',
  'distance-down': 'distance down (m)',
};

/** Tenths of a millimeter: finer than any rod is read, and no binary remainder such as 0.09999999999999976. */
const exported = (m: number): number => Math.round(m * 10_000) / 10_000;

/** The readings as CSV, in meters to a tenth of a millimeter. */
export function readingsCsv(survey: Pick<Survey, 'method' | 'readings'>): string {
  const fields = [HEADINGS.xM, HEADINGS.yM, VALUE_HEADING[survey.method], HEADINGS.note];
  return `${Papa.unparse({ fields, data: survey.readings.map((r) => [exported(r.xM), exported(r.yM), exported(r.valueM), r.note ?? '']) }, { escapeFormulae: true })}\r\n`;
}

/** A row taken from a file, without an id yet. */
export type CsvReading = Omit<Reading, 'id'>;

/** Rows that could be read and sentences about those that could not. */
export interface CsvRead {
  readonly readings: readonly CsvReading[];
  readonly problems: readonly string[];
}

const COLUMN_WORDS = {
  xM: /^(across|x)\b/i,
  yM: /^(down|y)\b/i,
  valueM: /^(height|elevation|distance|reading|value|z)\b/i,
  note: /^note\b/i,
} as const;
type ColumnName = keyof typeof COLUMN_WORDS;

const UNITS_M: Readonly<Record<string, number>> = { m: 1, cm: 0.01, mm: 0.001, in: 0.0254, inches: 0.0254, ft: 0.3048, feet: 0.3048 };

interface Columns {
  readonly at: Readonly<Record<ColumnName, number>>;
  /** Meters in one of the column's unit; null where the heading names none. */
  readonly unitM: Readonly<Record<ColumnName, number | null>>;
}

function columnsOf(first: readonly string[]): Columns | null {
  const find = (name: ColumnName): number => first.findIndex((cell) => COLUMN_WORDS[name].test(cell.trim()));
  const at = { xM: find('xM'), yM: find('yM'), valueM: find('valueM'), note: find('note') };
  if (at.xM < 0 || at.yM < 0 || at.valueM < 0) return null;
  const unit = (column: number): number | null =>
    UNITS_M[/(?:[([]\s*|[\s,]+)(mm|cm|m|inches|in|feet|ft)\.?\s*[)\]]?\s*$/i.exec(first[column] ?? '')?.[1]?.toLowerCase() ?? ''] ?? null;
  return { at, unitM: { xM: unit(at.xM), yM: unit(at.yM), valueM: unit(at.valueM), note: null } };
}

const PLAIN: Columns = { at: { xM: 0, yM: 1, valueM: 2, note: 3 }, unitM: { xM: null, yM: null, valueM: null, note: null } };

/**
 * Reads a table of readings: with a first row of headings (across, down, reading, each with its unit in brackets), or three
 * columns in that order in the business's own units.
 */
export function parseReadingsCsv(text: string, units: UnitSystem, locale: string, method: Survey['method']): CsvRead {
  const { data } = Papa.parse<string[]>(text.trim(), { skipEmptyLines: 'greedy' });
  const headed = columnsOf(data[0] ?? []);
  const columns = headed ?? PLAIN;
  const readings: CsvReading[] = [];
  const problems: string[] = [];
  const heading = headed === null ? '' : (data[0]?.[headed.at.valueM] ?? '');
  const isOther = method === 'height' ? /\b(distance|down)\b/i.test(heading) : /\b(height|elevation)\b/i.test(heading);
  if (isOther)
    problems.push(
      `The column “${heading.trim()}” holds ${method === 'height' ? 'readings down from the laser' : 'elevations'}, but this survey takes ${method === 'height' ? 'elevations' : 'readings down from the laser'}. High and low would be swapped. Change how the rod reads, or the heading.`,
    );
  for (const [i, row] of data.entries()) {
    if (headed !== null && i === 0) continue;
    const length = (name: 'xM' | 'yM' | 'valueM') => {
      const cell = (row[columns.at[name]] ?? '').trim().replace(/^'/, '');
      const unitM = columns.unitM[name];
      // A decimal comma, as a table with semicolons between its columns has.
      const plain = cell === '' ? Number.NaN : Number(cell.replace(/^([+-]?\d+),(\d+)$/, '$1.$2'));
      if (unitM !== null && Number.isFinite(plain)) return { ok: true as const, value: plain * unitM };
      return parseSignedLength(cell, units, name === 'valueM' ? 'depth' : 'length', locale);
    };
    const [x, y, value] = [length('xM'), length('yM'), length('valueM')];
    const wrong = [x, y, value].find((cell) => !cell.ok);
    if (wrong?.ok === false) problems.push(`Row ${i + 1}: ${wrong.message}`);
    else if (x.ok && y.ok && value.ok) {
      const note = (row[columns.at.note] ?? '').trim().slice(0, 200);
      readings.push({ xM: x.value, yM: y.value, valueM: value.value, note: note === '' ? null : note });
    }
  }
  if (data.length === 0) problems.push('This file has no rows.');
  return { readings, problems };
}
