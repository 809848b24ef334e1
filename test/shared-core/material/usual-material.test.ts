import { describe, expect, it } from 'vitest';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { FIRST_MATERIAL_ID, startingRoom } from '../../../shared-core/material/usual-material.ts';

const materials = typicalMaterials(typicalId, '2026-05-12T11:05:00.000Z', 'UTC');
const started = (usualMaterialId: string | null, from = materials) =>
  startingRoom('room-0001', { usualMaterialId, usualPrimerId: null }, from);

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
});
