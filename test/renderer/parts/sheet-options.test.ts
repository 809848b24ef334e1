import { expect, it } from 'vitest';
import { sheetOptions } from '../../../renderer/parts/sheet-options.ts';
import { typicalMaterials } from '../../../shared-core/material/typical-materials.ts';

it('tells a data sheet of the sample from the user’s own of the same name, and an archived one that is chosen', () => {
  const [own] = typicalMaterials((slug) => slug, '2026-03-01T00:00:00Z', 'UTC');
  if (own === undefined) throw new Error('There are typical materials.');
  const sample = { ...own, id: `sample-${own.id}` };
  const archived = { ...sample, id: 'sample-old', deletedAt: '2026-03-02T00:00:00Z' };
  expect(sheetOptions([own, sample, archived], archived.id).map(({ word }) => word)).toEqual([
    own.name,
    `${own.name} (sample)`,
    `${own.name} (sample, archived)`,
  ]);
  expect(sheetOptions([own, archived], own.id)).toHaveLength(1);
});
