/** The page of the kill test: reports the last turn that the database holds whole, then restores, imports and edits until killed. */
import { contactRow } from '../contact-row.ts';
import { newCustomer } from '../../shared-core/book/new-records.ts';
import { replaceData } from '../../renderer/book/backup-commands.ts';
import type { Pieces } from '../../renderer/book/book-pieces.ts';
import { addCustomers } from '../../renderer/book/customer-commands.ts';
import { book } from '../../renderer/book/database.ts';
import type { Outcome } from '../../renderer/book/command.ts';
import { change } from '../../renderer/book/write.ts';

const NOW = '2026-05-12T11:05:00.000Z';
const RESTORED = 300;
const IMPORTED = 60;
const EDITED = 'restored-000';

const tell = (path: string, body: unknown): Promise<Response> => fetch(path, { method: 'POST', body: JSON.stringify(body) });

/** A backup of customers only, in pieces, each of them named by its turn. */
async function* backupOf(turn: number): Pieces {
  for (let from = 0; from < RESTORED; from += 100) {
    const rows = Array.from({ length: 100 }, (_, i) => {
      const id = `restored-${String(from + i).padStart(3, '0')}`;
      return { ...newCustomer({ id, now: NOW }, `restored ${turn}`) };
    });
    yield await Promise.resolve({ table: 'customers' as const, rows });
  }
}

/** Turns come in threes: a restore, an import, an edit. */
async function takeTurn(turn: number): Promise<Outcome> {
  if (turn % 3 === 1) {
    // A backup was made just before.
    await book().changed.clear();
    return replaceData(backupOf(turn));
  }
  if (turn % 3 === 2) return addCustomers(Array.from({ length: IMPORTED }, () => contactRow({ name: `imported ${turn}` })));
  return change('customers', EDITED, 'notes', NOW, (row) => ({ ...row, notes: `edited ${turn}` }));
}

const serialOf = (names: readonly string[]): number => Number(names[0]?.split(' ')[1]);

/** The last turn whose outcome the database shows; `mixed` where it shows part of one. */
async function lastTurn(): Promise<number | 'mixed'> {
  const customers = await book().rowsOf('customers').toArray();
  if (customers.length === 0) return 0;
  const restored = customers.filter(({ id }) => id.startsWith('restored-')).map(({ name }) => name);
  const imported = customers.filter(({ name }) => name.startsWith('imported ')).map(({ name }) => name);
  const notes = customers.find(({ id }) => id === EDITED)?.notes ?? '';
  if (restored.length !== RESTORED || new Set(restored).size !== 1) return 'mixed';
  if (imported.length === 0) return notes === '' ? serialOf(restored) : 'mixed';
  if (imported.length !== IMPORTED || new Set(imported).size !== 1) return 'mixed';
  if (serialOf(imported) !== serialOf(restored) + 1) return 'mixed';
  return notes === '' ? serialOf(imported) : serialOf([notes]);
}

async function run(): Promise<void> {
  const last = await lastTurn();
  await tell('/kept', last);
  if (last === 'mixed') return;
  for (let next = last + 1; ; next += 1) {
    const outcome = await takeTurn(next);
    if (!outcome.ok) {
      await tell('/trouble', outcome.message);
      return;
    }
    await tell('/written', next);
  }
}

void run().catch((error: unknown) => tell('/trouble', String(error)));
