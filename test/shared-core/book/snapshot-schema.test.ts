/** JSON Schema 2020-12 (json-schema.org): `required` names what must be there, `additionalProperties: false` that nothing else may. */
import { expect, it } from 'vitest';
import { backupJsonSchemas } from '../../../shared-core/book/backup.ts';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import { newCustomer } from '../../../shared-core/book/new-records.ts';

it('the published schema describes the manifest and every table, and asks of a customer what a customer has', () => {
  const made = JSON.parse(JSON.stringify(backupJsonSchemas())) as Record<
    string,
    { items: { required: string[]; additionalProperties: boolean } }
  >;
  expect(Object.keys(made)).toEqual(['manifest', ...TABLE_NAMES]);
  expect(made['customers']?.items.required.sort()).toEqual(
    Object.keys(newCustomer({ id: 'customer-1', now: '2026-05-12T11:05:00.000Z' }, 'Odell')).sort(),
  );
  expect(made['customers']?.items.additionalProperties).toBe(false);
});
