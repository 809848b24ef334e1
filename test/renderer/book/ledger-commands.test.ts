// @vitest-environment node
import { beforeEach, expect, test } from 'vitest';
import { addCustomer, addProperty, addRoom, startJob } from '../../../renderer/book/customer-commands.ts';
import { recordEntry } from '../../../renderer/book/ledger-commands.ts';
import { undo } from '../../../renderer/book/write.ts';
import { emptyAddress } from '../../../shared-core/book/new-records.ts';
import { freshBook } from './fresh-book.ts';
import { made } from './whole-book.ts';

beforeEach(async () => {
  await freshBook();
});

test('an entry is named by what was done, as a command, to be undone', async () => {
  const customerId = made(await addCustomer('Bo Marsh'));
  const propertyId = made(await addProperty(customerId, { ...emptyAddress('US'), line: '4 Ford Street' }, 'America/New_York'));
  const jobId = made(await startJob(propertyId, [made(await addRoom(propertyId, 'Kitchen'))], 'kitchen'));
  const own = { jobId, onDay: '2026-05-12', note: '', amountMinor: 5000 };
  const given = { ...own, taxes: [], invoiceId: null, reason: 'Scratch at the doorway' };
  const paid = { ...own, method: 'check', reference: '' } as const;
  const entries = [
    { ...paid, kind: 'payment', invoiceId: null },
    { ...paid, kind: 'refund' },
    { ...given, kind: 'credit' },
    { ...given, kind: 'write-off' },
  ] as const;
  for (const entry of entries) made(await recordEntry(entry));
  const undone = [await undo(), await undo(), await undo(), await undo()].map(made);
  expect(undone).toEqual(['write off an amount', 'record a credit', 'record a refund', 'record a payment']);
});
