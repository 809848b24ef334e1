/** The published JSON Schema (2020-12, json-schema.org), compiled by a general validator, accepts stored rows. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, it } from 'vitest';
import { backupJsonSchemas, readManifest } from '../../../shared-core/book/backup.ts';
import { newCustomer } from '../../../shared-core/book/new-records.ts';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import { unzipSync } from 'fflate';
import { emptyBook, packRows } from '../../main/desk/backups/pack-rows.ts';
import version1 from './version-1.fixture.json' with { type: 'json' };

const stored = version1 as unknown as Record<string, object[]>;
const schemas = JSON.parse(JSON.stringify(backupJsonSchemas())) as Record<string, object>;
// Formats such as `date-time` are annotations in 2020-12 and are not checked here.
const validator = () => new Ajv2020({ strict: false, allErrors: true, validateFormats: false });

it('covers the manifest and every table', () => {
  expect(Object.keys(schemas)).toEqual(['manifest', ...TABLE_NAMES]);
});

it.each(TABLE_NAMES)('compiles the schema of %s, which accepts its stored rows and refuses a row with an unknown field', (table) => {
  const validate = validator().compile(schemas[table] ?? {});
  expect(stored[table]?.length).toBeGreaterThan(0);
  expect(validate(stored[table]), JSON.stringify(validate.errors?.[0])).toBe(true);
  expect(validate([{ ...stored[table]?.[0], notKnown: 1 }])).toBe(false);
});

it('compiles the schema of the manifest, which accepts the manifest of a backup', () => {
  const validate = validator().compile(schemas['manifest'] ?? {});
  const bytes = packRows({ ...emptyBook(), customers: [newCustomer({ id: 'customer-1', now: '2026-05-12T11:05:00.000Z' }, 'Odell')] });
  const text = new TextDecoder().decode(unzipSync(bytes)['manifest.json']);
  expect(readManifest(text)).toMatchObject({ ok: true });
  expect(validate(JSON.parse(text)), JSON.stringify(validate.errors?.[0])).toBe(true);
  expect(validate({ format: 'other' })).toBe(false);
});
