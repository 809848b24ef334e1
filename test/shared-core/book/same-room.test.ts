/** What is copied from another room, and what is not. */
import { describe, expect, it } from 'vitest';
import { checkRow } from '../../../shared-core/book/rows.ts';
import { newRoom } from '../../../shared-core/book/new-records.ts';
import { newJobRoom } from '../../../shared-core/book/new-records.ts';
import { canInherit, inheritedJobRoom, inheritedRoom } from '../../../shared-core/book/same-room.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { sampleAt } from '../../sample-at.ts';
import { CALM, layer, test } from '../substrate/a-floor.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const book = sampleAt(NOW);
const job = book.jobs.find((one) => one.id === 'sample-job-odell');
const [jobRoom] = job?.rooms ?? [];
const room = book.rooms.find((one) => one.id === jobRoom?.roomId);
if (room === undefined || jobRoom === undefined) throw new Error('The sample has this room.');
const from = { room, jobRoom };
const bare = { room: newRoom({ id: 'room-0002', now: NOW }, room.propertyId, 'Pantry'), jobRoom: newJobRoom('room-0002') };
let idCount = 0;
const newId = (): string => `copy-${(idCount += 1)}`;

describe('a room same as another', () => {
  const copied = { room: inheritedRoom(bare.room, from.room, newId), jobRoom: inheritedJobRoom(bare, from) };
  it('has its material, primer, flooring, layers and tests, under ids of their own', () => {
    expect(checkRow('rooms', copied.room).ok).toBe(true);
    expect(copied.jobRoom).toMatchObject({
      roomId: 'room-0002',
      materialId: jobRoom.materialId,
      primerId: jobRoom.primerId,
      flooring: jobRoom.flooring,
    });
    expect(copied.room.layers.map((layer) => layer.material)).toEqual(
      room.layers.filter((l) => l.area === null).map((layer) => layer.material),
    );
    const ids = [...copied.room.layers, ...copied.room.tests].map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.some((id) => [...room.layers, ...room.tests].some((other) => other.id === id))).toBe(false);
    expect(copied.room.tests.every((test) => test.note.includes(`Same as ${room.name}.`))).toBe(true);
  });
  it('keeps its plan, readings, structure and load, and takes no lab result and no deflection', () => {
    expect(copied.room.plan).toEqual(bare.room.plan);
    expect(copied.room.survey).toEqual(bare.room.survey);
    expect(copied.room.circumstances).toMatchObject({ allowedExtraLoadPa: null, structureSigns: null, fixtures: [] });
    expect(copied.room.tests.filter((test) => test.kind === 'lab' || test.kind === 'floor-deflection')).toEqual([]);
  });
  // Common practice, no source: what was seen in a room is not undone by what was seen in another.
  it('keeps what it has recorded, and takes no wet use, coating, gas appliance or fixture', () => {
    const own = layer('resilient-tile', { id: 'own-tile', yearInstalled: 1962 });
    const seen: Room['circumstances'] = {
      ...bare.room.circumstances,
      ...{ paintedTrim: 'to-be-disturbed', baseboardHeightM: 0.14, radiantHeat: 'in-floor', belowGrade: true, vaporRetarder: 'absent' },
      ...{ slopeToDrain: true, outdoorsOrWet: true, texturedCoating: true, gasAppliance: true, fixtures: ['floor-drain'] },
    };
    const other = { ...room, circumstances: CALM };
    const kept = inheritedRoom({ ...bare.room, layers: [own], tests: [test.humidity()], circumstances: seen }, other, newId);
    expect(kept).toMatchObject({ layers: [own], tests: [test.humidity()], circumstances: seen });
    expect(inheritedRoom(bare.room, other, newId).circumstances).toEqual({
      ...bare.room.circumstances,
      ...{ paintedTrim: 'none', radiantHeat: 'none', belowGrade: false, vaporRetarder: 'present', slopeToDrain: false },
    });
  });
  it('with a lab result alone still takes the other tests, and no dish over a layer that it does not take', () => {
    const glue = layer('adhesive-other', { id: 'glue' });
    const other = { ...room, layers: [glue], tests: [test.dish({ overLayerId: 'glue' }), test.air()] };
    const withLab = { ...bare.room, tests: [test.lab()] };
    expect(canInherit({ ...from, room: { ...withLab, layers: [glue] } }, { ...from, room: other })).toBe(true);
    expect(inheritedRoom(withLab, other, newId).tests.map(({ kind }) => kind)).toEqual(['lab', 'moisture-dish', 'air']);
    expect(inheritedRoom({ ...withLab, layers: [layer('screed')] }, other, newId).tests.map(({ kind }) => kind)).toEqual(['lab', 'air']);
  });
  // What the button says of it.
  it('takes a moisture mitigation system and the material’s minimum thickness, and keeps its own finish and its own system', () => {
    const own = { ...bare.jobRoom, moistureSystemId: 'own-system' };
    const other = { ...jobRoom.level, mode: 'follow' as const, leastThicknessM: 0.01, followThicknessM: 0.02, grindMostM: 0.004 };
    const inherited = (change: Partial<typeof jobRoom>) =>
      inheritedJobRoom({ ...bare, jobRoom: own }, { room, jobRoom: { ...jobRoom, ...change } });
    const taken = inherited({ level: other, moistureSystemId: 'epoxy' });
    expect(taken.moistureSystemId).toBe('epoxy');
    expect(taken.level).toEqual({ ...own.level, leastThicknessM: 0.01 });
    for (const moistureSystemId of [null, undefined]) expect(inherited({ moistureSystemId }).moistureSystemId).toBe('own-system');
  });
  // Common practice, no source: a primer is chosen for the surface that is left once the layers that come out are out.
  it('takes what comes out and the primer with the same layers, and neither with other layers', () => {
    const kitchen = [layer('ceramic-tile', { id: 'k1', fate: 'remove' }), layer('plywood', { id: 'k2' }), layer('joists', { id: 'k3' })];
    const dining = [layer('ceramic-tile', { id: 'd1' }), layer('plywood', { id: 'd2' }), layer('joists', { id: 'd3' })];
    const other = { room: { ...room, layers: kitchen }, jobRoom: { ...jobRoom, primerId: 'wood-primer', moistureSystemId: 'epoxy' } };
    const floored = (layers: Room['layers']) => ({ room: { ...bare.room, layers }, jobRoom: { ...bare.jobRoom, primerId: 'own-primer' } });
    const alike = floored(dining);
    expect(inheritedRoom(alike.room, other.room, newId).layers.map(({ id, fate }) => [id, fate])).toEqual([
      ['d1', 'remove'],
      ['d2', 'keep'],
      ['d3', 'keep'],
    ]);
    expect(inheritedJobRoom(alike, other)).toMatchObject({ primerId: 'wood-primer', moistureSystemId: 'epoxy' });
    const unlike = floored([layer('concrete-on-ground', { id: 's1' })]);
    expect(inheritedRoom(unlike.room, other.room, newId).layers).toEqual(unlike.room.layers);
    const taken = inheritedJobRoom(unlike, other);
    expect(taken.primerId).toBe('own-primer');
    expect(taken.moistureSystemId ?? null).toBeNull();
    expect(taken.materialId).toBe(jobRoom.materialId);
    const full = { room: inheritedRoom(unlike.room, other.room, newId), jobRoom: { ...taken, primerId: null } };
    expect(canInherit(full, other)).toBe(false);
  });
  it('is suggested until nothing is left to copy', () => {
    expect(canInherit(bare, from)).toBe(true);
    expect(canInherit(copied, from)).toBe(false);
    // Each thing alone is enough.
    for (const left of ['materialId', 'primerId', 'flooring'] as const)
      expect(canInherit({ ...copied, jobRoom: { ...copied.jobRoom, [left]: null } }, from), left).toBe(from.jobRoom[left] !== null);
    expect(from.jobRoom.materialId).not.toBeNull();
  });
});
