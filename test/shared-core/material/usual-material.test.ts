import { describe, expect, it } from 'vitest';
import type { LayerMaterial } from '../../../shared-core/book/layer.ts';
import { newRoom } from '../../../shared-core/book/new-records.ts';
import { levelForMaterial } from '../../../shared-core/material/minimum-thickness.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { FIRST_MATERIAL_ID, startingRoom } from '../../../shared-core/material/usual-material.ts';

const materials = typicalMaterials(typicalId, '2026-05-12T11:05:00.000Z', 'UTC');
const started = (usualMaterialId: string | null, from = materials) =>
  startingRoom('room-0001', null, { usualMaterialId, usualPrimerId: null }, from);
const IN = 0.0254;
const over = (...floor: readonly LayerMaterial[]) => ({
  ...newRoom({ id: 'room-0001', now: '2026-05-12T11:05:00.000Z' }, 'property-1', 'Kitchen'),
  layers: floor.map((material, i) => ({
    ...{ id: `layer-000${i}`, material, thicknessM: null, yearInstalled: null, sound: 'unknown' as const },
    ...{ fate: material === 'carpet' ? ('remove' as const) : ('keep' as const), area: null, note: '' },
  })),
});

describe('a room of a new job', () => {
  it('has the typical underlayment before a material was ever chosen, at its minimum thickness', () => {
    const room = started(null);
    expect(room.materialId).toBe(FIRST_MATERIAL_ID);
    // An eighth of an inch, typical of fine underlayments: common practice, no source.
    expect(room.level.leastThicknessM).toBeCloseTo(0.003175, 9);
  });

  it('has the usual material once there is one', () => {
    expect(started(typicalId('underlayment-deep')).materialId).toBe(typicalId('underlayment-deep'));
  });

  it('has none where the data sheet was archived', () => {
    expect(
      started(
        null,
        materials.map((m) => ({ ...m, deletedAt: '2026-05-12T12:00:00.000Z' })),
      ).materialId,
    ).toBeNull();
  });

  // By what the primers are named for: common practice, no source.
  it.each<readonly [primer: string, floor: readonly LayerMaterial[]]>([
    ['primer-wood', ['carpet', 'plywood']],
    ['primer-porous', ['concrete-on-ground']],
    ['primer-non-porous', ['ceramic-tile', 'concrete-on-ground']],
  ])('has %s over %s while no primer for it was chosen', (primer, floor) => {
    const primerOf = (usualPrimerId: string | null) =>
      startingRoom('room-0001', over(...floor), { usualMaterialId: null, usualPrimerId }, materials).primerId;
    expect(primerOf(null)).toBe(typicalId(primer));
    // One that was chosen for another floor is not for this one.
    for (const other of ['primer-wood', 'primer-porous']) expect(primerOf(typicalId(other))).toBe(typicalId(primer));
    expect(primerOf('own-primer')).toBe(typicalId(primer));
  });

  it('has the usual primer where that is for the floor', () => {
    const own = materials.flatMap((m) => (m.id === typicalId('primer-wood') ? [m, { ...m, id: 'own-primer' }] : [m]));
    const usual = { usualMaterialId: null, usualPrimerId: 'own-primer' };
    expect(startingRoom('room-0001', over('plywood'), usual, own).primerId).toBe('own-primer');
    expect(startingRoom('room-0001', null, usual, own).primerId).toBe('own-primer');
  });

  it('has the minimum thickness over wood where it is poured on wood', () => {
    const levelOver = (...floor: readonly LayerMaterial[]) =>
      startingRoom('room-0001', over(...floor), { usualMaterialId: null, usualPrimerId: null }, materials).level;
    // 3/8 in. over wood and 1/8 in. elsewhere, 3/4 in. for calcium sulfate over wood; typical: common practice, no source.
    expect(levelOver('carpet', 'plywood', 'joists').leastThicknessM).toBeCloseTo(0.375 * IN, 9);
    expect(levelOver('concrete-on-ground').leastThicknessM).toBeCloseTo(0.125 * IN, 9);
    const sheet = (slug: string) => materials.find(({ id }) => id === typicalId(slug)) ?? null;
    const change = { before: sheet('underlayment-fine'), after: sheet('calcium-sulfate'), floor: over('plywood') };
    // One that followed the sheet follows the next one, also where the layers were entered in between.
    for (const level of [levelOver('plywood'), levelOver('concrete-on-ground')])
      expect(levelForMaterial(level, change, 0.003).leastThicknessM).toBeCloseTo(0.75 * IN, 9);
  });
});
