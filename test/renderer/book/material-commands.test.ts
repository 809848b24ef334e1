/** Data sheets: added, duplicated, priced, archived. */
import { beforeEach, describe, expect, it } from 'vitest';
import type { Material } from '../../../shared-core/book/material.ts';
import { newJob } from '../../../shared-core/book/new-records.ts';
import { isTypicalUse } from '../../../shared-core/material/primer.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import type { Book } from '../../../renderer/book/database.ts';
import {
  addPrice,
  addSheet,
  changePowder,
  copySheet,
  putMilestone,
  putPrimerUse,
  archiveSheet,
  sheetUses,
} from '../../../renderer/book/material-commands.ts';
import { freshBook, NOW } from './fresh-book.ts';

const NEW_YORK = { timeZone: 'America/New_York', currency: 'USD' };
const FINE = typicalId('underlayment-fine');
let book: Book;
beforeEach(async () => {
  book = await freshBook();
  await book.rowsOf('materials').bulkAdd(typicalMaterials(typicalId, NOW, NEW_YORK.timeZone));
});
const sheet = async (id: string): Promise<Material> => {
  const found = await book.rowsOf('materials').get(id);
  if (found === undefined) throw new Error(id);
  return found;
};
const job = (materialId: string | null) => {
  const job = newJob(
    { id: 'job-0001', now: NOW },
    { number: '26-001', title: 'Hall', customerId: 'customer-1', propertyId: 'property-1', roomIds: ['room-0001'], depositShare: 0.5 },
  );
  return { ...job, rooms: job.rooms.map((r) => ({ ...r, materialId })) };
};

describe('a new data sheet', () => {
  it('starts from a typical one under its own name, with every figure typical', async () => {
    const added = await addSheet('cement-underlayment', 'Cement underlayment, gray', 'underlayment-fine', NEW_YORK);
    const copy = await sheet(added.ok ? added.value : '');
    expect(copy).toMatchObject({ name: 'Cement underlayment, gray', typical: true });
    expect(copy.powder?.yieldM3.source).toBe('typical');
  });
  it('starts empty where there is no typical one', async () => {
    const added = await addSheet('tool', 'Spiked shoes', null, NEW_YORK);
    expect(await sheet(added.ok ? added.value : '')).toMatchObject({ powder: null, prices: [], container: { unit: 'piece' } });
  });
  it('needs a name', async () => {
    const before = await book.rowsOf('materials').count();
    const added = await addSheet('tool', '  ', null, NEW_YORK);
    expect(added.ok).toBe(false);
    expect(await book.rowsOf('materials').count()).toBe(before);
  });
  it('duplicated does not change when the duplicate does', async () => {
    const copied = await copySheet(await sheet(FINE));
    const id = copied.ok ? copied.value : '';
    await changePowder(id, 'loss', (p) => ({ ...p, lossShare: { value: 0.1, source: 'bag' } }));
    expect((await sheet(id)).powder?.lossShare.value).toBe(0.1);
    expect((await sheet(FINE)).powder?.lossShare.value).toBe(0.05);
  });
});

describe('the use of a primer', () => {
  const CLOSED = typicalId('primer-non-porous');
  it('is from the label once one of its figures is entered; other uses stay typical', async () => {
    const [first, second] = (await sheet(CLOSED)).primer;
    if (first === undefined || second === undefined) throw new Error('It is used on two floors.');
    await putPrimerUse(CLOSED, first, { coats: 2 });
    const now = await sheet(CLOSED);
    expect(now.primer[0]).toEqual({ ...first, coats: 2, source: 'bag' });
    expect(now.primer.map((use) => isTypicalUse(now, use))).toEqual([false, true, true, true]);
  });
  it('keeps both of two figures entered quickly, however old the screen’s view is', async () => {
    const [use] = (await sheet(CLOSED)).primer;
    if (use === undefined) throw new Error('It is used on a floor.');
    await Promise.all([putPrimerUse(CLOSED, use, { coats: 3 }), putPrimerUse(CLOSED, use, { waterParts: 2 })]);
    expect((await sheet(CLOSED)).primer[0]).toMatchObject({ coats: 3, waterParts: 2 });
  });
});

describe('a changed data sheet', () => {
  it('is no longer typical', async () => {
    await changePowder(FINE, 'yield', (p) => ({ ...p, yieldM3: { ...p.yieldM3, source: 'bag' } }));
    expect((await sheet(FINE)).typical).toBe(false);
  });
  it('is refused with the minimum over the maximum', async () => {
    const outcome = await changePowder(FINE, 'water', (p) => ({ ...p, waterL: { value: { least: 6, most: 5 }, source: 'bag' } }));
    expect(outcome.ok ? '' : outcome.message).toContain('the minimum is greater than the maximum');
  });
  it('has one milestone per kind, flooring and thickness', async () => {
    const before = (await sheet(FINE)).powder?.milestones ?? [];
    const walk = before.find((m) => m.kind === 'walk-on');
    if (walk === undefined) throw new Error('no walk-on');
    await putMilestone(FINE, { ...walk, hoursLeast: 2, source: 'bag' });
    const after = (await sheet(FINE)).powder?.milestones ?? [];
    expect(after).toHaveLength(before.length);
    expect(after.find((m) => m.kind === 'walk-on')).toMatchObject({ hoursLeast: 2, source: 'bag' });
  });
  it('has prices by date, one per date', async () => {
    await addPrice(FINE, { from: '2026-01-05', minor: 3300, note: '' });
    await addPrice(FINE, { from: '2026-06-01', minor: 3600, note: '' });
    await addPrice(FINE, { from: '2026-06-01', minor: 3650, note: 'by the pallet' });
    expect((await sheet(FINE)).prices.map((p) => [p.from, p.minor])).toEqual([
      ['2026-01-05', 3300],
      ['2026-05-12', 3400],
      ['2026-06-01', 3650],
    ]);
  });
});

describe('an archived data sheet', () => {
  it('is refused with the jobs that use it, unless confirmed', async () => {
    await book.rowsOf('jobs').add(job(FINE));
    const refused = await archiveSheet(await sheet(FINE), false);
    expect(refused.ok ? '' : refused.message).toContain('26-001');
    expect((await sheet(FINE)).deletedAt).toBeNull();
    expect((await archiveSheet(await sheet(FINE), true)).ok).toBe(true);
    expect((await sheet(FINE)).deletedAt).not.toBeNull();
  });
  it('counts as used where a room takes it as its moisture system, or an added line buys it', async () => {
    const [all, system] = [await book.rowsOf('materials').toArray(), await sheet(typicalId('moisture-barrier'))];
    const bare = job(null);
    expect(sheetUses(system, all, [bare])).toEqual([]);
    const chosen = { ...bare, rooms: bare.rooms.map((r) => ({ ...r, moistureSystemId: system.id })) };
    expect(sheetUses(system, all, [chosen]).map(({ roomId }) => roomId)).toEqual(['room-0001']);
    const line = { ...{ id: 'line-0001', name: 'Kit', kind: 'material' as const, roomId: null, costMinor: 1, taxId: null } };
    const added = [{ ...line, bought: { materialId: system.id, containers: 1 } }];
    expect(sheetUses(system, all, [{ ...bare, estimate: { ...bare.estimate, added } }])).toHaveLength(1);
  });
  it('needs no confirmation when only a finished job named it', async () => {
    await book.rowsOf('jobs').add({ ...job(FINE), state: 'finished' });
    expect((await archiveSheet(await sheet(FINE), false)).ok).toBe(true);
  });
  it('chosen by its kind counts as used while it is the last of it', async () => {
    const [all, lane] = [await book.rowsOf('materials').toArray(), await sheet(typicalId('perimeter-strip'))];
    expect(sheetUses(lane, all, [job(null)])).toHaveLength(1);
    expect(sheetUses(lane, [...all, { ...lane, id: 'another-strip' }], [job(null)])).toHaveLength(0);
  });
});
