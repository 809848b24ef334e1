/** The parts of a stored record, found by walking the schema that describes it. */
import type { z } from 'zod';

type Definition = {
  readonly type: string;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly element?: z.ZodType;
  readonly innerType?: z.ZodType;
  readonly valueType?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly discriminator?: string;
};

const definitionOf = (schema: z.ZodType): Definition => schema._zod.def;
/** Whether a value is an object with fields: not null and no list. */
export const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const literalsOf = (schema: z.ZodType | undefined): ReadonlySet<unknown> => schema?._zod.values ?? new Set();

/** The option of a union that describes a value; null when none does. */
const optionFor = (value: unknown, { options = [], discriminator }: Definition): z.ZodType | null => {
  if (discriminator === undefined) return options.find((option) => option.safeParse(value).success) ?? null;
  if (!isObject(value)) return null;
  return options.find((option) => literalsOf(definitionOf(option).shape?.[discriminator]).has(value[discriminator])) ?? null;
};

/** The change to one part; `schema` is the object that the part's file exports. */
export type PartChange = (part: unknown, schema: z.ZodType) => unknown;

const mapObject = (value: Readonly<Record<string, unknown>>, shape: Readonly<Record<string, z.ZodType>>, change: PartChange): object => {
  const changed: Record<string, unknown> = {};
  for (const [key, schema] of Object.entries(shape)) {
    if (!(key in value)) continue;
    const next = mapParts(value[key], schema, change);
    if (next !== value[key]) changed[key] = next;
  }
  return Object.keys(changed).length === 0 ? value : { ...value, ...changed };
};

/**
 * Changes every object within a value, wherever its schema is embedded, the innermost first.
 * @param value a stored record or a part of one; what does not fit the schema is left alone
 * @returns the same value when nothing changed
 */
export function mapParts(value: unknown, schema: z.ZodType, change: PartChange): unknown {
  if (value === null || value === undefined) return value;
  const definition = definitionOf(schema);
  const { type, shape, element, innerType, valueType } = definition;
  if (type === 'object' && shape !== undefined) return isObject(value) ? change(mapObject(value, shape, change), schema) : value;
  if (type === 'array' && element !== undefined) {
    if (!Array.isArray(value)) return value;
    const next = value.map((item: unknown) => mapParts(item, element, change));
    return next.some((item, i) => item !== value[i]) ? next : value;
  }
  if (type === 'record' && valueType !== undefined && isObject(value))
    return mapObject(value, Object.fromEntries(Object.keys(value).map((key) => [key, valueType])), change);
  if (type === 'union') {
    const option = optionFor(value, definition);
    return option === null ? value : mapParts(value, option, change);
  }
  return innerType === undefined ? value : mapParts(value, innerType, change);
}

/** Every object schema within a schema, itself included. */
export function partSchemas(schema: z.ZodType, parts: Set<z.ZodType> = new Set()): ReadonlySet<z.ZodType> {
  if (parts.has(schema)) return parts;
  const { type, shape, element, innerType, valueType, options } = definitionOf(schema);
  if (type === 'object') parts.add(schema);
  for (const inner of [...Object.values(shape ?? {}), element, innerType, valueType, ...(options ?? [])])
    if (inner !== undefined) partSchemas(inner, parts);
  return parts;
}
