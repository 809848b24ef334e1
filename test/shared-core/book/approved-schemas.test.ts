/**
 * The shape of every stored record, as its JSON Schema says it: fields, kinds, and the smallest and largest that is taken, as last approved. A
 * guard against a change that nobody meant: stored data would be refused, or nonsense taken. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/book/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { backupJsonSchemas } from '../../../shared-core/book/backup.ts';
import * as fields from '../../../shared-core/book/fields.ts';

type Schema = { readonly [key: string]: unknown };
type Defs = Readonly<Record<string, Schema>>;

const INSTANT = /T\(\?:/;
/** A limit; none where it is only that of whole numbers. */
const shown = (limit: unknown): string => (typeof limit !== 'number' || Math.abs(limit) === Number.MAX_SAFE_INTEGER ? '' : String(limit));
const limits = (schema: Schema, least: string, most: string): string =>
  schema[least] === undefined && schema[most] === undefined ? '' : ` ${shown(schema[least])}..${shown(schema[most])}`;

/** One line for each object, in the order it is met; the same object is told once. */
function shapesOf(root: Schema): readonly string[] {
  const defs = (root['$defs'] ?? {}) as Defs;
  const lines: string[] = [];
  const told = new Set<string>();
  // A limit beside a reference narrows what is referred to.
  const whole = ({ $ref, ...own }: Schema): Schema =>
    typeof $ref === 'string' ? { ...whole(defs[$ref.split('/').at(-1) ?? ''] ?? {}), ...own } : own;
  const short = (given: Schema, place: string): string => {
    const schema = whole(given);
    const { type, pattern, properties, items, required } = schema;
    const either = (schema['anyOf'] ?? schema['oneOf']) as readonly Schema[] | undefined;
    if (either !== undefined) return either.map((one) => short(one, place)).join(' | ');
    if (schema['const'] !== undefined) return JSON.stringify(schema['const']);
    if (schema['enum'] !== undefined) return (schema['enum'] as readonly unknown[]).join('|');
    if (type === 'object' && properties !== undefined) {
      const must = new Set(required as readonly string[]);
      const parts = Object.entries(properties as Defs).map(
        ([key, one]) => `${key}${must.has(key) ? '' : '?'}: ${short(one, `${place}.${key}`)}`,
      );
      const line = `{ ${parts.join(', ')} }${schema['additionalProperties'] === false ? '' : ' and more'}`;
      if (!told.has(line)) lines.push(`${place} ${line}`);
      told.add(line);
      return 'object';
    }
    if (type === 'object') return `map of ${short((schema['additionalProperties'] ?? {}) as Schema, `${place}.*`)}`;
    if (type === 'array') {
      const inside = (schema['prefixItems'] as readonly Schema[] | undefined)?.map((one) => short(one, `${place}#`)).join(', ');
      return `list${limits(schema, 'minItems', 'maxItems')} of ${inside ?? short((items ?? {}) as Schema, `${place}#`)}`;
    }
    if (type === 'string') {
      const shown =
        typeof pattern !== 'string' ? '' : INSTANT.test(pattern) ? ' instant' : schema['format'] === 'date' ? ' day' : ` ${pattern}`;
      return `text${limits(schema, 'minLength', 'maxLength')}${shown}`;
    }
    const over = limits(schema, 'exclusiveMinimum', 'exclusiveMaximum');
    return `${String(type)}${limits(schema, 'minimum', 'maximum')}${over === '' ? '' : ` beyond${over}`}`;
  };
  short(root, '');
  return lines;
}

it('has the shape last approved', async () => {
  const tables = Object.entries(backupJsonSchemas()).flatMap(([name, schema]) =>
    shapesOf(schema as Schema).map((line) => `${name}${line}`),
  );
  await expect(`${tables.join('\n')}\n`).toMatchFileSnapshot('./approved/schemas.txt');
});

describe('a field', () => {
  const takes = (schema: z.ZodType, value: unknown): boolean => schema.safeParse(value).success;
  const { clockSchema, daySchema, idSchema, instantSchema, nameText, positive, rangeSchema, share, zoneSchema } = fields;

  it.each([
    ['an id', idSchema, ['abcd', 'A-b_9', 'x'.repeat(40)], ['abc', 'x'.repeat(41), 'a/bcd', 'abcd ', ' abcd', 'ab\ncd']],
    // RFC 3339 with a trailing Z; 2028 is a leap year, 2026 is not.
    [
      'an instant',
      instantSchema,
      ['2026-05-12T14:05:00Z', '2026-05-12T14:05:00.250Z'],
      ['2026-05-12T14:05:00', '2026-05-12T14:05:00-04:00', '2026-02-29T00:00:00Z'],
    ],
    ['a day', daySchema, ['2026-05-12', '2028-02-29'], ['2026-02-29', '2026-5-12', '05/12/2026']],
    ['a time of day', clockSchema, ['00:00', '07:30', '19:59', '23:59'], ['24:00', '7:30', '07:60', '07:30 am', 'at 07:30', '07:300']],
    // IANA names: Area/Location, with digits, signs and hyphens in the location.
    [
      'a time zone',
      zoneSchema,
      ['UTC', 'America/New_York', 'America/Argentina/Buenos_Aires', 'Etc/GMT+5', 'America/Port-au-Prince'],
      ['', 'America/', '/New_York', 'New York', 'GMT+5'],
    ],
    ['a name', nameText, ['x', ' x ', 'x'.repeat(200), ` ${'x'.repeat(200)} `], ['', ' ', 'x'.repeat(201)]],
    ['a share', share, [0, 1, 0.5], [-0.001, 1.001, Number.NaN, null]],
    ['a positive number', positive, [1e-9, 5], [0, -1, Infinity]],
    // One figure may stand for all three.
    [
      'a range',
      rangeSchema,
      [
        { least: 1, likely: 1, most: 1 },
        { least: 1, likely: 1, most: 2 },
        { least: 1, likely: 2, most: 2 },
      ],
      [
        { least: 2, likely: 1, most: 3 },
        { least: 1, likely: 4, most: 3 },
        { least: 1, likely: 2 },
      ],
    ],
  ] as readonly (readonly [string, z.ZodType, readonly unknown[], readonly unknown[]])[])('%s', (_, schema, taken, refused) => {
    expect(taken.filter((value) => !takes(schema, value))).toEqual([]);
    expect(refused.filter((value) => takes(schema, value))).toEqual([]);
  });
});
