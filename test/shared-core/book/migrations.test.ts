import { describe, expect, it } from 'vitest';
import { Book, swapBook } from '../../../renderer/book/database.ts';
import { openBook } from '../../../renderer/book/open-book.ts';
import { MIGRATIONS, type Migration, migrateRow } from '../../../shared-core/book/migrations/all-steps.ts';
import { customerSchema } from '../../../shared-core/book/customer.ts';
import { checkRow } from '../../../shared-core/book/rows.ts';
import { SCHEMA_VERSION, TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import version1 from './version-1.fixture.json' with { type: 'json' };

const STEPS: readonly Migration[] = [
  { to: 2, changes: [{ schema: customerSchema, change: (row) => ({ ...row, name: `${String(row['name'])}!` }) }] },
  {
    to: 3,
    changes: [
      {
        schema: customerSchema,
        change: (row) => {
          if (row['id'] === 'customer-odd') throw new TypeError('cannot read');
          return { ...row, notes: 'from version 3' };
        },
      },
    ],
  },
];
const stored = version1 as unknown as Record<string, Record<string, unknown>[]>;

describe('migrations', () => {
  it('form an unbroken chain up to the version this program writes', () => {
    expect(MIGRATIONS.map((m) => m.to)).toEqual(Array.from({ length: SCHEMA_VERSION - 1 }, (_, i) => i + 2));
  });

  it('convert every stored row of version 1 to the newest, each readable by its schema, all tables with rows', () => {
    for (const table of TABLE_NAMES) {
      expect(stored[table]?.length, table).toBeGreaterThan(0);
      for (const row of stored[table] ?? []) {
        const check = checkRow(table, migrateRow(table, row, 1, SCHEMA_VERSION));
        expect(check, `${table} ${String(row['id'])}`).toMatchObject({ ok: true });
      }
    }
  });

  it('refuse a gap between versions', () => {
    expect(() => migrateRow('customers', { id: 'x' }, 1, 3, [STEPS[1] as Migration])).toThrow(RangeError);
  });

  it('upgrade an old database in place, step by step, and leave a row that a step cannot read', async () => {
    const old = new Book('migrating', 1, []);
    const [first] = stored['customers'] ?? [];
    await old.table('customers').bulkPut([
      { ...first, id: 'customer-one', name: 'Ash' },
      { ...first, id: 'customer-odd', name: 'Odd' },
    ]);
    old.close();
    const next = new Book('migrating', 3, STEPS);
    const rows = await next.table<{ id: string; name: string; notes: string }, string>('customers').toArray();
    expect(rows.find((r) => r.id === 'customer-one')).toMatchObject({ name: 'Ash!', notes: 'from version 3' });
    expect(rows.find((r) => r.id === 'customer-odd')).toMatchObject({ name: 'Odd!' });
    next.close();
  });

  it('refuse data from a newer program, and say so', async () => {
    const newer = new Book('newer', 3, STEPS);
    await newer.open();
    newer.close();
    swapBook(new Book('newer'));
    expect(await openBook('2026-05-12T11:05:00.000Z')).toMatchObject({ ok: false, message: expect.stringContaining('newer version') });
    const reopened = new Book('newer', 3, STEPS);
    await reopened.open();
    expect(await reopened.table('business').count()).toBe(0);
    reopened.close();
  });
});
