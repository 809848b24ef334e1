/** An option that follows the floor is never thinner than the data sheet allows over that floor. */
import { expect, it } from 'vitest';
import { withOption } from '../../../renderer/stages/quote/quote-edits.ts';
import type { LayerMaterial } from '../../../shared-core/book/layer.ts';
import { newJobRoom, newRoom } from '../../../shared-core/book/new-records.ts';
import { FIRST_MATERIAL_ID } from '../../../shared-core/material/usual-material.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { GROUND } from '../../../shared-core/survey/cut-words.ts';
import { wholeOf } from '../../shared-core/job-variants.ts';

const NOW = '2026-05-12T11:05:00.000Z';
const INCH_M = 0.0254;
const whole = wholeOf('26-031');

/** Thickness of the added option, inches. */
function followIn(material: LayerMaterial, own: { readonly leastIn?: number; readonly isHeated?: boolean } = {}): number {
  const { leastIn = 0.125, isHeated = false } = own;
  const bare = newJobRoom('room-0001');
  const jobRoom = { ...bare, materialId: FIRST_MATERIAL_ID, level: { ...bare.level, leastThicknessM: leastIn * INCH_M } };
  const room = newRoom({ id: 'room-0001', now: NOW }, 'property-1', 'Kitchen');
  const layers = [...[{ id: 'layer-0001', material, thicknessM: null, yearInstalled: null, sound: 'unknown' as const }]].map((layer) => ({
    ...layer,
    fate: 'keep' as const,
    area: null,
    note: '',
  }));
  const circumstances = { ...room.circumstances, ...(isHeated ? { radiantHeat: 'electric-in-pour' as const } : {}) };
  const job = { ...whole.job, rooms: [jobRoom] };
  const priced = { job, rooms: [{ ...room, layers, circumstances }], materials: typicalMaterials(typicalId, NOW, 'UTC') };
  const [option] = withOption(priced, 'option-1', 'follow', GROUND)({ ...whole.job.estimate, options: [] }).options;
  expect(option?.rooms[0]?.level.mode).toBe('follow');
  return (option?.rooms[0]?.level.followThicknessM ?? 0) / INCH_M;
}

// A typical fine underlayment: 1/8 in. at least, 3/8 in. over wood, and 3/8 in. over a mat of a typical 1/8 in. Common practice, no source.
it('is as thick as the data sheet asks over wood and over heat, and as the minimum that was chosen', () => {
  expect(followIn('concrete-on-ground')).toBeCloseTo(0.25, 9);
  expect(followIn('plywood')).toBeCloseTo(0.375, 9);
  expect(followIn('concrete-on-ground', { isHeated: true })).toBeCloseTo(0.5, 9);
  expect(followIn('concrete-on-ground', { leastIn: 0.5 })).toBeCloseTo(0.5, 9);
});
