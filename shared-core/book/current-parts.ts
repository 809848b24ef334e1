/** Records frozen inside another, read in the current version. Stored data is never rewritten. */
import { MIGRATIONS, type Migration, migrateRow, type StoredRow } from './migrations/all-steps.ts';
import type { Frozen, Quote } from './quote.ts';
import { checkRow, type RowOf } from './rows.ts';
import { SCHEMA_VERSION, type TableName } from './tables.ts';

const TABLE_OF = {
  business: 'business',
  customer: 'customers',
  property: 'properties',
  rooms: 'rooms',
  job: 'jobs',
  materials: 'materials',
} as const satisfies Record<Exclude<keyof Frozen, 'version'>, TableName>;
type FrozenPart = keyof typeof TABLE_OF;
const PARTS = Object.keys(TABLE_OF) as FrozenPart[];

const listed = (part: unknown): StoredRow[] => (Array.isArray(part) ? part : [part]) as StoredRow[];

/**
 * Reads what a quote was issued from by the schemas of its own version, carried to another.
 * @returns the same object when it is of that version already
 * @throws the error of a step that cannot read a record
 */
export function carryFrozen(frozen: Frozen, to: number = SCHEMA_VERSION, steps: readonly Migration[] = MIGRATIONS): Frozen {
  if (frozen.version >= to) return frozen;
  const carry = (table: TableName, part: unknown): unknown => {
    const rows = listed(part).map((row) => migrateRow(table, row, frozen.version, to, steps));
    return Array.isArray(part) ? rows : rows[0];
  };
  const carried = Object.fromEntries(PARTS.map((part) => [part, carry(TABLE_OF[part], frozen[part])]));
  return { ...carried, version: to } as unknown as Frozen;
}

/** The first thing in a quote's frozen records that this program cannot read; null when all can be read. */
export function frozenProblem({ frozen }: Quote): { readonly where: string; readonly message: string } | null {
  let carried: Frozen;
  try {
    carried = carryFrozen(frozen);
  } catch {
    return { where: 'frozen', message: 'It was written by another version.' };
  }
  for (const part of PARTS)
    for (const row of listed(carried[part])) {
      const check = checkRow(TABLE_OF[part], row);
      if (!check.ok) return { where: `frozen.${part}.${check.where}`, message: check.message };
    }
  return null;
}

/** A record with its embedded records in the current version; the record itself when they already are, or cannot be migrated. */
export function withCurrentParts<T extends TableName>(table: T, row: RowOf<T>): RowOf<T> {
  if (table !== 'quotes') return row;
  const quote = row as Quote;
  try {
    const frozen = carryFrozen(quote.frozen);
    return frozen === quote.frozen ? row : ({ ...quote, frozen } as RowOf<T>);
  } catch {
    return row;
  }
}
