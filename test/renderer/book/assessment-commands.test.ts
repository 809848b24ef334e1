import { beforeEach, describe, expect, it } from 'vitest';
import type { FloorTest, Layer } from '../../../shared-core/book/layer.ts';
import { emptyAddress, newJob, newProperty, newRoom } from '../../../shared-core/book/new-records.ts';
import {
  overrideHold,
  initialsOf,
  storeTest,
  setCircumstances,
  setFlooring,
  setFlooringLimits,
  setLayers,
  setYearBuilt,
  deleteTest,
} from '../../../renderer/book/assessment-commands.ts';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import type { Quote } from '../../../shared-core/book/quote.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { startingRoom } from '../../../shared-core/material/usual-material.ts';
import { wholeOf } from '../../shared-core/job-variants.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { undo } from '../../../renderer/book/write.ts';
import { freshBook, NOW } from './fresh-book.ts';

const [JOB, ROOM, HOUSE] = ['job-0001', 'room-0001', 'house-0001'];
let book: Book;
beforeEach(async () => {
  book = await freshBook();
  await book.rowsOf('properties').put(newProperty({ id: HOUSE, now: NOW }, 'customer-1', emptyAddress('US'), 'America/New_York'));
  await book.rowsOf('rooms').put(newRoom({ id: ROOM, now: NOW }, HOUSE, 'Kitchen'));
  const words = { number: '26-001', title: 'Kitchen', customerId: 'customer-1', propertyId: HOUSE, roomIds: [ROOM], depositShare: 0.5 };
  await book.rowsOf('jobs').put(newJob({ id: JOB, now: NOW }, words));
});
const room = async () => {
  const found = await book.rowsOf('rooms').get(ROOM);
  if (found === undefined) throw new Error('The room is in the book.');
  return found;
};
const jobRoom = async () => {
  const found = (await book.rowsOf('jobs').get(JOB))?.rooms[0];
  if (found === undefined) throw new Error('The job has the room.');
  return found;
};
const layer = (id: string, more: Partial<Layer> = {}): Layer => ({
  id,
  material: 'sheet-flooring',
  thicknessM: null,
  yearInstalled: null,
  sound: 'unknown',
  fate: 'remove',
  area: null,
  note: '',
  ...more,
});
const ph = (id: string, value: number): FloorTest => ({ id, kind: 'surface-ph', ph: value, takenAt: NOW, by: 'RT', point: null, note: '' });

describe('layers', () => {
  it('are stored in order, in one step of undo', async () => {
    expect((await setLayers(ROOM, 'layer of sheet flooring', () => [layer('layer-1'), layer('layer-2')])).ok).toBe(true);
    expect((await room()).layers.map((l) => l.id)).toEqual(['layer-1', 'layer-2']);
    await undo();
    expect((await room()).layers).toEqual([]);
  });

  // By what the primers are named for, and 3/8 in. over wood, typical: common practice, no source.
  it('choose the primer and the minimum thickness again that the room started with, and nothing that was chosen', async () => {
    const materials = typicalMaterials(typicalId, NOW, 'UTC');
    const business = { ...wholeOf('26-022').business, usualMaterialId: null, usualPrimerId: null };
    const start = startingRoom(ROOM, await room(), business, materials);
    const plywood = [layer('layer-1', { material: 'plywood', fate: 'keep' })];
    const change = async (jobRoom: JobRoom, quotes: readonly Quote[] = []) => {
      const stored = await book.rowsOf('jobs').get(JOB);
      if (stored === undefined) throw new Error('The job is in the book.');
      const job = { ...stored, rooms: [jobRoom] };
      await book.rowsOf('jobs').put(job);
      await book.rowsOf('rooms').put({ ...(await room()), layers: [] });
      return setLayers(ROOM, 'a layer', () => plywood, { job, business, materials, quotes });
    };
    const wood = { primerId: typicalId('primer-wood'), leastThicknessM: expect.closeTo(0.375 * 0.0254, 9) };
    expect(await change(start)).toEqual({ ok: true, value: wood });
    expect(await jobRoom()).toMatchObject({ primerId: wood.primerId, level: { leastThicknessM: wood.leastThicknessM } });
    await undo();
    expect(await jobRoom()).toEqual(start);
    expect((await room()).layers).toEqual([]);
    const own = { ...start, primerId: 'own-primer', level: { ...start.level, leastThicknessM: 0.005 } };
    expect(await change(own)).toEqual({ ok: true, value: { primerId: null, leastThicknessM: null } });
    expect(await jobRoom()).toEqual(own);
    // Its options start with the same floor.
    const stored = await book.rowsOf('jobs').get(JOB);
    if (stored === undefined) throw new Error('The job is in the book.');
    const option = (id: string, level: JobRoom['level']) => ({ id, name: id, rooms: [{ roomId: ROOM, level, materialId: null }] });
    const options = [option('follows', { ...start.level, mode: 'follow' }), option('by-hand', own.level)];
    await book.rowsOf('jobs').put({ ...stored, estimate: { ...stored.estimate, options } });
    await change(start);
    const levels = (await book.rowsOf('jobs').get(JOB))?.estimate.options.flatMap(({ rooms }) => rooms.map(({ level }) => level));
    expect(levels).toMatchObject([{ leastThicknessM: wood.leastThicknessM, followThicknessM: wood.leastThicknessM }, own.level]);
    // An accepted quote is the contract.
    const accepted = wholeOf('26-022').quotes.map((quote) => ({ ...quote, state: 'accepted' as const }));
    expect(accepted).not.toEqual([]);
    await change(start, accepted);
    expect(await jobRoom()).toEqual(start);
  });

  it('take two changes made at the same time', async () => {
    await setLayers(ROOM, 'a layer', () => [layer('layer-1')]);
    const all = (fields: Partial<ReturnType<typeof layer>>) =>
      setLayers(ROOM, 'a layer', (layers) => layers.map((one) => ({ ...one, ...fields })));
    await Promise.all([all({ sound: 'weak' }), all({ fate: 'remove' })]);
    expect((await room()).layers[0]).toMatchObject({ sound: 'weak', fate: 'remove' });
  });

  it('refuse a layer without thickness in a sentence, and keep the stored ones', async () => {
    await setLayers(ROOM, 'a layer', () => [layer('layer-1')]);
    const outcome = await setLayers(ROOM, 'a layer', () => [layer('layer-1', { thicknessM: -0.01 })]);
    expect(outcome.ok).toBe(false);
    expect((await room()).layers[0]?.thicknessM).toBeNull();
  });
});

describe('tests on a floor', () => {
  it('keep their place when changed, and are deleted and restored one by one', async () => {
    await storeTest(ROOM, 'surface pH', ph('test-1', 9));
    await storeTest(ROOM, 'surface pH', ph('test-2', 10));
    await storeTest(ROOM, 'surface pH', ph('test-1', 9.5));
    expect((await room()).tests).toEqual([ph('test-1', 9.5), ph('test-2', 10)]);
    await deleteTest(ROOM, 'deleted surface pH', 'test-1');
    expect((await room()).tests.map((t) => t.id)).toEqual(['test-2']);
    await undo();
    expect((await room()).tests.map((t) => t.id)).toEqual(['test-1', 'test-2']);
  });

  it('refuse an impossible figure, and lose nothing', async () => {
    await storeTest(ROOM, 'surface pH', ph('test-1', 9));
    expect(await storeTest(ROOM, 'surface pH', ph('test-1', 15))).toMatchObject({ ok: false, message: expect.stringContaining('0 to 14') });
    expect((await room()).tests).toEqual([ph('test-1', 9)]);
  });
});

describe('the flooring', () => {
  it('takes the manufacturer’s own limits, and clears them with the last figure', async () => {
    await setFlooring(JOB, ROOM, 'flooring', 'resilient');
    await setFlooringLimits(JOB, ROOM, { slabHumidity: 0.8, statedIn: 'sheet of the flooring, page 2' });
    expect((await jobRoom()).flooringLimits).toMatchObject({
      slabHumidity: 0.8,
      emissionLb: null,
      statedIn: 'sheet of the flooring, page 2',
    });
    await setFlooringLimits(JOB, ROOM, { slabHumidity: null, statedIn: '' });
    expect((await jobRoom()).flooringLimits).toBeNull();
  });

  it('loses its manufacturer’s limits when another is chosen', async () => {
    await setFlooring(JOB, ROOM, 'flooring', 'resilient');
    await setFlooringLimits(JOB, ROOM, { slabHumidity: 0.8 });
    await setFlooring(JOB, ROOM, 'flooring', 'carpet');
    expect(await jobRoom()).toMatchObject({ flooring: 'carpet', flooringLimits: null });
  });
});

describe('overriding a hold', () => {
  it('needs a sentence, and is stored with earlier ones', async () => {
    const hold = { key: 'test-missing:slab-moisture', title: 'slab moisture', text: 'slab moisture. Not tested.' };
    expect(await overrideHold(JOB, ROOM, hold, { why: 'because', document: null, initials: 'RT' })).toMatchObject({
      ok: false,
      message: expect.stringContaining('Enter the reason'),
    });
    const why = 'Tested by the general contractor, report to follow.';
    expect(await overrideHold(JOB, ROOM, hold, { why, document: null, initials: ' RT ' })).toMatchObject({ ok: true });
    expect((await jobRoom()).overrides).toMatchObject([{ key: hold.key, hold: 'Slab moisture. Not tested.', initials: 'RT' }]);
  });

  it('needs initials', async () => {
    const hold = { key: 'test-missing:slab-moisture', title: 'slab moisture', text: 'slab moisture. Not tested.' };
    const why = 'Tested by the general contractor, report to follow.';
    expect(await overrideHold(JOB, ROOM, hold, { why, document: null, initials: ' ' })).toMatchObject({
      ok: false,
      message: expect.stringContaining('Enter your initials'),
    });
    expect((await jobRoom()).overrides).toEqual([]);
  });

  it('takes initials from a name', () => {
    expect(initialsOf('Ros Teague')).toBe('RT');
    expect(initialsOf('')).toBe('');
  });
});

describe('the facts that decide what counts as old', () => {
  it('are stored with the property and the room', async () => {
    await setYearBuilt(HOUSE, 1962);
    await setCircumstances(ROOM, (c) => ({ ...c, texturedCoating: true }));
    expect((await book.rowsOf('properties').get(HOUSE))?.yearBuilt).toBe(1962);
    expect((await room()).circumstances.texturedCoating).toBe(true);
    expect((await setYearBuilt(HOUSE, 962)).ok).toBe(false);
  });
});
