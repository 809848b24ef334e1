/** No stored row is lost when a schema gains a field, wherever that schema is embedded. */
import { expect, it } from 'vitest';
import { z } from 'zod';
import { carryFrozen, frozenProblem, withCurrentParts } from '../../../shared-core/book/current-parts.ts';
import { type Migration, migrateRow, type StoredRow, touchesTable } from '../../../shared-core/book/migrations/all-steps.ts';
import { partSchemas } from '../../../shared-core/book/migrations/parts.ts';
import type { Frozen, Quote } from '../../../shared-core/book/quote.ts';
import { checkRow } from '../../../shared-core/book/rows.ts';
import { TABLE_NAMES, TABLES, type TableName } from '../../../shared-core/book/tables.ts';
import version1 from './version-1.fixture.json' with { type: 'json' };

const stored = version1 as unknown as Record<TableName, StoredRow[]>;
const ADDED = 'fieldOfVersion2';

type Inner = { shape?: Record<string, z.ZodType>; element?: z.ZodType; innerType?: z.ZodType; options?: z.ZodType[]; type: string };
/** A schema in which one part has a new required field; the schema itself where it does not hold that part. */
const grown = (schema: z.ZodType, target: z.ZodType): z.ZodType => {
  const def = schema._zod.def as unknown as Inner;
  const clone = (changes: Partial<Inner>): z.ZodType =>
    (schema as unknown as { clone: (def: unknown) => z.ZodType }).clone({ ...schema._zod.def, ...changes });
  if (def.type === 'object' && def.shape !== undefined) {
    const { shape } = def;
    const inner = Object.fromEntries(Object.entries(shape).map(([key, one]) => [key, grown(one, target)]));
    if (schema === target) return clone({ shape: { ...inner, [ADDED]: z.literal('added') } });
    return Object.keys(shape).every((key) => inner[key] === shape[key]) ? schema : clone({ shape: inner });
  }
  if (def.options !== undefined) {
    const options = def.options.map((option) => grown(option, target));
    return options.every((option, i) => option === def.options?.[i]) ? schema : clone({ options });
  }
  for (const part of ['element', 'innerType'] as const) {
    const held = def[part];
    if (held === undefined) continue;
    const inner = grown(held, target);
    return inner === held ? schema : clone({ [part]: inner });
  }
  return schema;
};
const stepFor = (target: z.ZodType): Migration => ({
  to: 2,
  changes: [{ schema: target, change: (part) => ({ ...part, [ADDED]: 'added' }) }],
});
const FROZEN: Readonly<Record<Exclude<keyof Frozen, 'version'>, TableName>> = {
  business: 'business',
  customer: 'customers',
  property: 'properties',
  rooms: 'rooms',
  job: 'jobs',
  materials: 'materials',
};

const TARGETS = TABLE_NAMES.flatMap((table) =>
  [...partSchemas(TABLES[table].schema)].map((target, i) => [`${table} ${i}`, target] as const),
);

it.each(TARGETS)('a field added to part %s loses no stored row, nor a record frozen with a quote', (_, target) => {
  const step = stepFor(target);
  for (const table of TABLE_NAMES) {
    const schema = grown(TABLES[table].schema, target);
    const isTouched = touchesTable(step, table);
    expect(isTouched, table).toBe(schema !== TABLES[table].schema);
    for (const row of stored[table]) {
      const carried = migrateRow(table, row, 1, 2, [step]);
      // A row that is not touched is under the same schema, which reads it: `migrations.test.ts`.
      if (isTouched) expect(schema.safeParse(carried).error?.issues[0], `${table} ${String(row['id'])}`).toBeUndefined();
      else expect(carried).toBe(row);
    }
  }
  for (const quote of stored.quotes as unknown as Quote[]) {
    const frozen = carryFrozen(quote.frozen, 2, [step]);
    for (const [part, table] of Object.entries(FROZEN) as [keyof typeof FROZEN, TableName][]) {
      const schema = grown(TABLES[table].schema, target);
      if (schema === TABLES[table].schema) continue;
      for (const row of [frozen[part]].flat()) expect(schema.safeParse(row).error?.issues[0], part).toBeUndefined();
    }
  }
});

it('without a step for the new field the stored rows are refused: the test above can fail', () => {
  const schema = grown(TABLES.customers.schema, TABLES.customers.schema);
  expect(stored.customers.some((row) => schema.safeParse(row).success)).toBe(false);
});

it('a quote stays readable when its frozen records are of another version, and names those that cannot be read', () => {
  const [quote] = stored.quotes as unknown as Quote[];
  if (quote === undefined) throw new Error('No quote is stored.');
  const older = { ...quote, frozen: { ...quote.frozen, business: { id: 'business', fromAnotherVersion: true } } } as unknown as Quote;
  expect(checkRow('quotes', older)).toMatchObject({ ok: true });
  expect(frozenProblem(older)?.where).toMatch(/^frozen\.business/);
  expect(frozenProblem(quote)).toBeNull();
  expect(withCurrentParts('quotes', quote)).toBe(quote);
});
